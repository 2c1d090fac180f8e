"""After the show: one form for a day, with a part for each unit. Nothing is stored unless all of it can be."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any, ClassVar, cast

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.actions.after import Told
from shows.actions.arrival import UNIT_ITEMS
from shows.after import Night, UnitDay
from shows.errors import EnteredAlready, NightChanged, UnitsRefused
from shows.wording.after import FAILED_WORDS, entry_words
from venue.core.local_time import wall_time
from venue.core.sources import source_of, traits
from venue.errors import DomainError, LiesAhead
from venue.forms.hours import MOST_STRIKES, AskingForm, count_field, hours_field
from venue.forms.units import WallTimeForm, wall_field
from venue.wording_hours import hours_words

NOTE_LENGTH = 220
COUNTED = ("hours", "meter", "strikes")


class UnitPart(AskingForm):
    """One unit: hours burned, or what its meter shows; strikes where they wear its lamp; what failed."""

    wall_times = ()
    asked = ("hours", "meter", "strikes", "failed", "note")
    hours = hours_field(gettext_lazy("Hours burned"), required=False)
    meter = hours_field(gettext_lazy("Meter, hours"), required=False)
    strikes = count_field(gettext_lazy("Strikes"), MOST_STRIKES, required=False)
    failed = forms.ChoiceField(
        label=gettext_lazy("What failed?"),
        choices=[("", gettext_lazy("nothing")), *((item, FAILED_WORDS[item]) for item in UNIT_ITEMS)],
        required=False,
    )
    note = forms.CharField(
        label=gettext_lazy("What is wrong with it, in words"), max_length=NOTE_LENGTH, required=False
    )
    frames_out = forms.CharField(
        label=gettext_lazy("Which frames are out?"),
        max_length=60,
        required=False,
        help_text=gettext_lazy("Their numbers, such as 2, 4."),
    )
    at_field: ClassVar[dict[str, str]] = {"limit": "note", "part": "failed", "limit_kind": "failed"}

    def __init__(self, *args: Any, row: UnitDay, **options: Any) -> None:
        self.row, self.zone = row, row.unit.house.time_zone
        self.hours_at = "hours" if row.meter is None else "meter"  # type: ignore[misc]
        booked = (
            {"hours": hours_words(row.booked_h) if row.booked_h else None, "strikes": row.booked_strikes or None}
            if row.meter is None
            else {}
        )
        options |= {"prefix": str(row.unit.ref), "initial": booked}
        super().__init__(*args, **options)
        for name in self._left_out():
            del self.fields[name]
        if row.meter is not None and "strikes" in self.fields:
            self.fields["strikes"].label = _("Strikes so far")
        if self.is_bound and self.confirmed:
            self._ask([])

    def _left_out(self) -> list[str]:
        """The fields that make no sense for the unit."""
        if self.row.is_entered:
            return list(COUNTED)
        unused = "meter" if self.row.meter is None else "hours"
        is_struck = traits(source_of(self.row.unit.source)).is_struck
        return [unused] if is_struck else [unused, "strikes"]

    def clean(self) -> dict[str, Any]:
        """What was sent for a unit that is entered by now is refused; strikes go with hours, a note with a failure."""
        cleaned = super().clean() or {}
        sent = [name for name in COUNTED if self.data.get(self.add_prefix(name), "").strip()]
        if self.row.is_entered and sent:
            self.add_error(None, str(EnteredAlready(entry_words(self.row.entries[-1], self.zone))))
        is_told = bool(cleaned.get(self.hours_at)) or self.hours_at in self.errors
        if cleaned.get("strikes") and "strikes" in self.changed_data and not is_told and not self.row.is_entered:
            self.add_error(self.hours_at, _("Write the hours too, or leave the strikes empty."))
        if cleaned.get("failed") and not cleaned.get("note"):
            self.add_error("note", _("Write what is wrong with it."))
        if not cleaned.get("failed") and (cleaned.get("note") or cleaned.get("frames_out")):
            self.add_error("failed", _("There is a note. Choose what failed, or empty the note."))
        return cleaned

    def told(self) -> Told | None:
        """What was told; None where nothing was. No hours are none burned, and nothing is stored of them."""
        own = self.cleaned_data
        hours, meter_h = own.get("hours") or None, own.get("meter")
        if hours is None and meter_h is None and not own["failed"]:
            return None
        strikes = None if hours is None and meter_h is None else own.get("strikes")
        failed = {name: own[name] for name in ("failed", "note", "frames_out")} if own["failed"] else {}
        return Told(self.row.unit, hours, meter_h, strikes, self.confirmed, **failed)

    @property
    def has_failed(self) -> bool:
        """Whether the fields for what failed hold something."""
        return any(self[name].errors or self[name].value() for name in ("failed", "note", "frames_out"))

    def problems(self) -> Iterator[tuple[str, str]]:
        """Each message with the label of its field; of the unit as a whole without one."""
        for name, messages in self.errors.items():
            label = str(self.fields[name].label) if name in self.fields else ""
            yield from ((label, str(message)) for message in messages)


class AfterForm(WallTimeForm):
    """A day of the show. `day` is what the person saw; each unit has its part in `parts`."""

    day = forms.CharField(max_length=10, widget=forms.HiddenInput, required=False)
    at = wall_field(gettext_lazy("Burned, and read, until"))

    def __init__(self, *args: Any, night: Night, units: Sequence[UnitDay], zone: str, **options: Any) -> None:
        self.night, self.zone = night, zone
        options["initial"] = {"day": night.day.isoformat(), "at": wall_time(night.until, zone)}
        super().__init__(*args, **options)
        self.fields["at"].help_text = _("In the house's own time, %(zone)s.") % {"zone": zone}
        self.parts = [UnitPart(*args, row=row) for row in units if not row.is_over]

    def clean(self) -> dict[str, Any]:
        """The day and the units are those that the person saw."""
        cleaned = super().clean()
        if cleaned.get("day") != self.night.day.isoformat() or self._sent() - {part.prefix for part in self.parts}:
            self.add_error(None, str(NightChanged()))
        return cleaned

    def _sent(self) -> set[str]:
        """The units that something was sent for."""
        names = {f"-{name}" for name in (*COUNTED, "failed", "note")}
        data = cast(QueryDict, self.data)
        return {key[: -len(end)] for key in data for end in names if key.endswith(end) and data.get(key, "").strip()}

    def is_valid(self) -> bool:
        """Whether the day and every unit's part can be read."""
        return all([super().is_valid(), *(part.is_valid() for part in self.parts)])

    def told(self) -> list[Told]:
        """What was told, unit by unit."""
        return [told for part in self.parts if (told := part.told()) is not None]

    @property
    def at_instant(self) -> datetime:
        """Up to when the hours were burned."""
        return cast(datetime, self.cleaned_data["at"])

    def refuse(self, refusal: DomainError) -> None:
        """What was refused of a unit stands in its part, at its field."""
        if isinstance(refusal, LiesAhead):
            self.add_error("at", str(refusal))
        elif not isinstance(refusal, UnitsRefused):
            super().refuse(refusal)
        else:
            self._refuse_units(refusal)

    def _refuse_units(self, refusal: UnitsRefused) -> None:
        for part in self.parts:
            for each in refusal.refusals.get(part.row.unit.pk, ()):
                part.refuse(each)

    @property
    def refused_parts(self) -> list[UnitPart]:
        """The parts in which something is wrong or asked."""
        return [part for part in self.parts if part.errors]

    @property
    def is_refused(self) -> bool:
        return bool(self.errors or self.refused_parts)
