"""A show in a house, and what is on when."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.models import Engagement, ShowEvent
from shows.models.events import EventKind
from venue.errors import DomainError, LocalTimeTwice
from venue.forms.base import RefusedForm, VersionedForm
from venue.models import House, Setup


def date_field(label: Any, **options: Any) -> forms.DateField:
    """A day, with the device's own calendar."""
    return forms.DateField(label=label, widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}), **options)


class NewEngagementForm(RefusedForm):
    """A show that was not on file."""

    name = forms.CharField(label=gettext_lazy("Show"), max_length=120)
    starts_on = date_field(gettext_lazy("First day in the house"))
    ends_on = date_field(gettext_lazy("Last day"))
    setup = forms.ModelChoiceField(
        label=gettext_lazy("How the house is set up"), queryset=Setup.objects.none(), empty_label=None
    )

    def __init__(self, *args: Any, house: House, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["setup"].queryset = house.setups.all()  # type: ignore[attr-defined]
        self.fields["setup"].initial = house.setups.filter(is_default=True).first()

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: self.cleaned_data[name] for name in ("name", "starts_on", "ends_on", "setup")}


class EngagementForm(VersionedForm, NewEngagementForm):
    """A show on file, against the version that was shown."""

    def __init__(self, *args: Any, row: Engagement, **options: Any) -> None:
        initial = {"name": row.name, "starts_on": row.starts_on, "ends_on": row.ends_on, "setup": row.setup}
        super().__init__(*args, row=row, house=row.house, initial=initial, **options)
        self.fields["setup"].initial = row.setup


FOLDS = (("0", gettext_lazy("the first time")), ("1", gettext_lazy("the second time")))


class EventForm(RefusedForm):
    """What is on when, by the house's clocks. A time that comes twice is asked about."""

    kind = forms.ChoiceField(label=gettext_lazy("What"), choices=EventKind.choices)
    name = forms.CharField(label=gettext_lazy("Name"), max_length=120, required=False)
    day = date_field(gettext_lazy("Day"))
    starts = forms.TimeField(label=gettext_lazy("From"), widget=forms.TimeInput(format="%H:%M", attrs={"type": "time"}))
    ends_day = date_field(
        gettext_lazy("Until, day"), required=False, help_text=gettext_lazy("Left empty: the same day.")
    )
    ends = forms.TimeField(
        label=gettext_lazy("Until, time"),
        required=False,
        widget=forms.TimeInput(format="%H:%M", attrs={"type": "time"}),
        help_text=gettext_lazy("May stay empty where nobody knows yet."),
    )
    at_field: ClassVar[Mapping[str, str]] = {
        "starts_date": "day", "starts_time": "starts", "ends_date": "ends_day", "ends_time": "ends", "__all__": "ends",
    }  # fmt: skip

    def __init__(self, *args: Any, house: House, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["starts"].help_text = _("By the house's clocks, %(zone)s.") % {"zone": house.time_zone}
        for name in ("starts_fold", "ends_fold"):
            if name in self.data:
                self._ask_which(name)

    def clean(self) -> dict[str, Any]:
        """A day for the end only with a time."""
        cleaned = super().clean() or {}
        if cleaned.get("ends_day") and not cleaned.get("ends"):
            self.add_error("ends", _("Write the time of the end too, or leave its day empty."))
        return cleaned

    def refuse(self, refusal: DomainError) -> None:
        """A wall time that comes twice gets a question, where it was written."""
        if not isinstance(refusal, LocalTimeTwice):
            super().refuse(refusal)
            return
        is_start = refusal.wall == self.values()["starts"]
        self.add_error("starts" if is_start else "ends", str(refusal))
        self._ask_which("starts_fold" if is_start else "ends_fold")

    def _ask_which(self, name: str) -> None:
        label = _("The clocks show the start twice. Which one?")
        label = label if name == "starts_fold" else _("The clocks show the end twice. Which one?")
        field = forms.ChoiceField(label=label, choices=FOLDS, required=False, widget=forms.RadioSelect)
        self.fields[name] = field

    def values(self) -> dict[str, Any]:
        """What the verbs take."""
        own = self.cleaned_data
        ends = datetime.combine(own.get("ends_day") or own["day"], own["ends"]) if own.get("ends") else None
        folds = {name: int(own[name]) for name in ("starts_fold", "ends_fold") if own.get(name)}
        return {
            "kind": own["kind"],
            "name": own["name"],
            "starts": datetime.combine(own["day"], own["starts"]),
            "ends": ends,
            **folds,
        }


class ChangeEventForm(VersionedForm, EventForm):
    """An event on file."""

    def __init__(self, *args: Any, row: ShowEvent, **options: Any) -> None:
        initial = {"kind": row.kind, "name": row.name, "day": row.starts_date, "starts": row.starts_time}
        initial |= {"ends_day": row.ends_date, "ends": row.ends_time}
        super().__init__(*args, row=row, house=row.engagement.house, initial=initial, **options)
