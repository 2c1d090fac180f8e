"""One person's day as it is written, to be corrected."""

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.actions.day_corrections import DayFacts, Meal, facts_of
from crew.day_rows import DayRow
from crew.models.day import Absence
from venue.core.local_time import wall_time
from venue.errors import DomainError, StaleVersion
from venue.forms.units import WallTimeForm, wall_field

MORE_MEALS = 1


class DayLineForm(WallTimeForm):
    """In, out, meals and what kept somebody away, each as the house's clocks showed it."""

    version = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=2**31 - 1)
    in_at = wall_field(gettext_lazy("In"), required=False)
    out_at = wall_field(gettext_lazy("Out"), required=False)
    absence = forms.ChoiceField(
        label=gettext_lazy("Absence"), choices=[("", gettext_lazy("none")), *Absence.choices], required=False
    )
    note = forms.CharField(label=gettext_lazy("Note"), max_length=200, required=False)

    def __init__(self, *args: Any, row: DayRow, zone: str, **options: Any) -> None:
        self.zone, self.written = zone, facts_of(row.attendance)
        version = row.attendance.version if row.attendance else 0
        options["initial"] = {"version": version, **self._shown()}
        super().__init__(*args, **options)
        for nth in range(1, len(self.written.meals) + MORE_MEALS + 1):
            self.fields[f"meal_{nth}_from"] = wall_field(_("Meal %(nth)s from") % {"nth": nth}, required=False)
            self.fields[f"meal_{nth}_until"] = wall_field(_("Meal %(nth)s until") % {"nth": nth}, required=False)
        self.wall_times = tuple(name for name, field in self.fields.items() if isinstance(field, forms.DateTimeField))  # type: ignore[misc]
        self.order_fields(["in_at", *(name for name in self.fields if name.startswith("meal_")), "out_at"])

    def _shown(self) -> dict[str, Any]:
        facts = self.written
        shown: dict[str, Any] = {"absence": facts.absence, "note": facts.note}
        shown |= {"in_at": self._wall(facts.in_at), "out_at": self._wall(facts.out_at)}
        for nth, (starts, ends) in enumerate(facts.meals, start=1):
            shown |= {f"meal_{nth}_from": self._wall(starts), f"meal_{nth}_until": self._wall(ends)}
        return shown

    def _wall(self, instant: datetime | None) -> datetime | None:
        return wall_time(instant, self.zone) if instant else None

    def _instant(self, name: str, wall: datetime) -> datetime | None:
        """A time that was not touched stays the instant that it is, also where clocks show it twice."""
        if name not in self.changed_data and (written := self._written(name)) is not None:
            return written
        return super()._instant(name, wall.replace(second=0, microsecond=0))

    def _written(self, name: str) -> datetime | None:
        if name in {"in_at", "out_at"}:
            return self.written.in_at if name == "in_at" else self.written.out_at
        _meal, nth, edge = name.split("_")
        meals = self.written.meals
        return meals[int(nth) - 1][edge == "until"] if int(nth) <= len(meals) else None

    def clean(self) -> dict[str, Any]:
        """A meal begins before it ends."""
        cleaned = super().clean()
        for starts, ends in self._meal_names():
            if cleaned.get(ends) and not cleaned.get(starts) and starts not in self.errors:
                self.add_error(starts, _("Write when the meal began, or empty both times."))
        return cleaned

    def _meal_names(self) -> Iterator[tuple[str, str]]:
        for name in self.fields:
            if name.startswith("meal_") and name.endswith("_from"):
                yield name, name.replace("_from", "_until")

    @property
    def facts(self) -> DayFacts:
        """What the cleaned form says."""
        given = self.cleaned_data
        meals: list[Meal] = [(given[one], given[other]) for one, other in self._meal_names() if given[one]]
        meals.sort(key=lambda meal: meal[0])
        return DayFacts(given["in_at"], given["out_at"], given["absence"], given["note"], tuple(meals))

    @property
    def seen(self) -> int:
        """The version that was shown; 0 where nothing was written yet."""
        return int(self.cleaned_data["version"])

    def refuse(self, refusal: DomainError) -> None:
        """A stale form takes over the stored version, so that sending it again stores it."""
        super().refuse(refusal)
        if isinstance(refusal, StaleVersion):
            self.stale = refusal
            data = self.data.copy()  # type: ignore[attr-defined]
            data["version"] = str(refusal.stored.version)  # type: ignore[attr-defined]
            self.data = data
