"""What meters showed, hours added, meters put and replaced, entries struck out."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from decimal import Decimal
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.local_time import wall_time
from venue.core.sources import Traits, source_of, traits
from venue.errors import (
    AddedBesideMeter,
    DomainError,
    FittedThen,
    LiesAhead,
    NoMeter,
    NotFitted,
    PointedAt,
    ReadingQuestioned,
    ReadingRefused,
)
from venue.forms.base import RefusedForm, Section
from venue.forms.units import WallTimeForm, wall_field
from venue.models import Reading, Unit
from venue.models.meters import Counts

MOST_H = 9_999_999
MOST_STRIKES = 10_000_000
STEP = Decimal("0.1")


def hours_field(label: Any, **options: Any) -> forms.DecimalField:
    """Hours as a meter shows them, to two places."""
    widget = forms.NumberInput(attrs={"inputmode": "decimal", "step": "any", "autocomplete": "off"})
    return forms.DecimalField(label=label, max_value=MOST_H, min_value=0, decimal_places=2, widget=widget, **options)


def count_field(label: Any, most: int, **options: Any) -> forms.IntegerField:
    """A whole number from 0."""
    widget = forms.NumberInput(attrs={"inputmode": "numeric", "autocomplete": "off"})
    return forms.IntegerField(label=label, min_value=0, max_value=most, widget=widget, **options)


class AskingForm(WallTimeForm):
    """A form that may be asked back: what is odd is stored once somebody says that it is right.

    `hours_at` is the field that a refusal of hours belongs to.
    """

    hours_at: ClassVar[str] = "hours"
    questions: Sequence[str] = ()

    @property
    def confirmed(self) -> bool:
        """Whether the sender said that it is right."""
        return self.data.get(self.add_prefix("confirmed")) == "on"

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal at its field, or the question with a box to say yes."""
        if isinstance(refusal, ReadingQuestioned):
            self._ask([line for _code, line in refusal.lines()])
        elif isinstance(refusal, AddedBesideMeter):
            self._ask([str(refusal)])
        elif isinstance(refusal, ReadingRefused):
            for code, line in refusal.lines():
                is_strikes = code == "strikes-backward" and "strikes" in self.fields
                self.add_error("strikes" if is_strikes else self.hours_at, line)
        elif isinstance(refusal, PointedAt) and "instead_h" in self.fields:
            self.add_error("instead_h", str(refusal))
        elif isinstance(refusal, LiesAhead | NoMeter | NotFitted | FittedThen) and "at" in self.fields:
            self.add_error("at", str(refusal))
        else:
            super().refuse(refusal)

    def _ask(self, questions: Sequence[str]) -> None:
        self.questions = questions
        self.fields["confirmed"] = forms.BooleanField(label=_("Yes, that is right"), required=False)
        for question in questions:
            self.add_error("confirmed", question)


class UnitTimeForm(AskingForm):
    """A form about a unit at a time of the house's clocks; fields that make no sense for its source are left out."""

    for_struck: ClassVar[Sequence[str]] = ("strikes",)

    def __init__(self, *args: Any, unit: Unit, now: datetime, **options: Any) -> None:
        self.now, self.zone = now, unit.house.time_zone
        options["initial"] = {"at": wall_time(now, self.zone), **(options.get("initial") or {})}
        super().__init__(*args, **options)
        self.traits: Traits = traits(source_of(unit.source))
        if not self.traits.is_struck:
            for name in self.for_struck:
                self.fields.pop(name, None)
        self.fields["at"].help_text = _("In the house's own time, %(zone)s.") % {"zone": self.zone}

    def values(self, *names: str) -> dict[str, Any]:
        """What the named fields hold, those left out as None."""
        return {name: self.cleaned_data.get(name) for name in names}


class ReadingForm(UnitTimeForm):
    """What the meter shows; without a time, now."""

    hours = hours_field(gettext_lazy("The meter shows, hours"))
    strikes = count_field(gettext_lazy("Strikes so far"), MOST_STRIKES, required=False)
    at = wall_field(gettext_lazy("Read at another time"), required=False)
    field_order = ("hours", "strikes", "at")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.initial["at"] = None

    @property
    def at_instant(self) -> datetime:
        """When it was read."""
        return self.cleaned_data["at"] or self.now


def stepped(sent: Mapping[str, Any]) -> dict[str, Any]:
    """The values of the quick form after a tap on one of its steps; what is no number stays as it is."""
    values = {name: sent.get(name, "") for name in ("hours", "strikes", "at")}
    try:
        hours, step = Decimal(values["hours"]), Decimal(sent.get("step", "0"))
    except ArithmeticError:
        return values
    if abs(step) == STEP and hours.is_finite() and 0 <= hours <= MOST_H:
        values["hours"] = max(Decimal(0), hours + step)
    return values


class HoursForm(UnitTimeForm):
    """Hours that no meter told."""

    hours = hours_field(gettext_lazy("Hours burned"))
    strikes = count_field(gettext_lazy("Strikes in that time"), 10_000, required=False)
    at = wall_field(gettext_lazy("Until"))
    why = forms.CharField(
        label=gettext_lazy("From what"), max_length=200, required=False, help_text=gettext_lazy("The show report.")
    )


class MeterForm(UnitTimeForm):
    """A meter is put on a unit."""

    for_struck = ()
    hours_at = "starts_h"
    counts = forms.ChoiceField(label=gettext_lazy("It counts"), choices=Counts.choices)
    starts_h = hours_field(gettext_lazy("It shows, hours"))
    at = wall_field(gettext_lazy("It counts from"))
    note = forms.CharField(label=gettext_lazy("In words"), max_length=200, required=False)


class ReplaceForm(UnitTimeForm):
    """A meter is replaced or reset: the closing reading, or the hours that a dead one missed."""

    for_struck = ()
    hours_at = "closing_h"
    asked = ("closing_h", "gap_h")
    closing_h = hours_field(gettext_lazy("The old one shows, hours"), required=False)
    gap_h = hours_field(
        gettext_lazy("Or, if it is dead: hours burned since its last reading"),
        required=False,
        help_text=gettext_lazy("From the show reports. They bridge the gap and are kept as hours added."),
    )
    is_unknown = forms.BooleanField(label=gettext_lazy("Neither is known: those hours are lost"), required=False)
    starts_h = hours_field(gettext_lazy("The new one shows, hours"), initial=Decimal(0))
    at = wall_field(gettext_lazy("Replaced or reset at"))
    note = forms.CharField(label=gettext_lazy("Why"), max_length=200, required=False)
    field_order = ("closing_h", "gap_h", "is_unknown", "starts_h", "at", "note")
    sections: ClassVar[Sequence[Section]] = ((gettext_lazy("The new meter"), ("starts_h", "at", "note")),)

    def clean(self) -> dict[str, Any]:
        """One of the three says what became of the hours since the last reading."""
        cleaned = super().clean() or {}
        is_told = any(cleaned.get(name) is not None for name in ("closing_h", "gap_h"))
        if not is_told and not cleaned.get("is_unknown") and not {"closing_h", "gap_h"} & self.errors.keys():
            self.add_error("closing_h", _("Write what it shows, or the hours burned since, or tick that neither is."))
        return cleaned

    def refuse(self, refusal: DomainError) -> None:
        """A refusal of the gap's hours belongs to the gap."""
        is_gap = self.cleaned_data.get("closing_h") is None
        self.hours_at = "gap_h" if is_gap else "closing_h"  # type: ignore[misc]
        super().refuse(refusal)


class StrikeForm(RefusedForm):
    """Why an entry was a mistake."""

    reason = forms.CharField(label=gettext_lazy("Why was it a mistake?"), max_length=200)


class StrikeReadingForm(AskingForm, StrikeForm):
    """Why a reading was a mistake, and what the meter showed if that is known."""

    wall_times = ()
    hours_at = "instead_h"
    instead_h = hours_field(
        gettext_lazy("The meter showed instead, hours"),
        required=False,
        help_text=gettext_lazy("Left empty: the reading just goes. A relamp that goes by it needs this."),
    )

    def __init__(self, *args: Any, reading: Reading, zone: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.reading, self.zone = reading, zone
