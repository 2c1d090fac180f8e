"""A unit goes elsewhere, comes back, is retired."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.local_time import wall_time
from venue.errors import DomainError, MovedMeanwhile
from venue.forms.base import EndForm, RefusedForm
from venue.forms.units import WallTimeForm, places_of, wall_field
from venue.models import House, Place, Unit
from venue.models.units import Elsewhere
from venue.stays import UnitStays, stays_mark
from venue.wording_moves import where_words


class StayForm(WallTimeForm):
    """A form about where a unit is, which carries the mark of its stays as they were shown."""

    seen = forms.CharField(widget=forms.HiddenInput, max_length=60, required=False)
    at = wall_field(gettext_lazy("Leaves at"))

    def __init__(self, *args: Any, house: House, unit: Unit, stays: UnitStays, now: datetime, **options: Any) -> None:
        options["initial"] = {"at": wall_time(now, house.time_zone), "seen": stays.mark, **options.pop("initial", {})}
        super().__init__(*args, **options)
        self.zone, self.unit = house.time_zone, unit
        self.fields["at"].help_text = _("In the house's own time, %(zone)s.") % {"zone": self.zone}

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; if somebody moved the unit meanwhile, sending the form again goes through."""
        super().refuse(refusal)
        if isinstance(refusal, MovedMeanwhile):
            data = self.data.copy()  # type: ignore[attr-defined]
            data[self.add_prefix("seen")] = stays_mark(self.unit)
            self.data = data


class AwayForm(StayForm):
    """A unit leaves for the shop, the store or another house."""

    to = forms.ChoiceField(label=gettext_lazy("Where does it go?"), widget=forms.RadioSelect)
    words = forms.CharField(
        label=gettext_lazy("With whom, for what"),
        max_length=120,
        required=False,
        help_text=gettext_lazy("Lent: the house or the role there that answers for it. Else what is done to it."),
    )
    until = wall_field(
        gettext_lazy("Is back at"), required=False, help_text=gettext_lazy("Left empty: until it is brought back.")
    )
    back_to = forms.ModelChoiceField(
        label=gettext_lazy("And then stands at"),
        queryset=Place.objects.none(),
        required=False,
        empty_label=gettext_lazy("decided when it is back"),
    )
    wall_times = ("at", "until")
    field_order = ("to", "words", "at", "until", "back_to")
    at_field: ClassVar[Mapping[str, str]] = {"elsewhere_words": "words", "ends_at": "until", "starts_at": "at"}
    asked: ClassVar[Sequence[str]] = ("words",)

    def __init__(self, *args: Any, house: House, **options: Any) -> None:
        super().__init__(*args, house=house, **options)
        choices = [(value, _going(Elsewhere(value))) for value in Elsewhere.values]
        self.fields["to"].choices = choices  # type: ignore[attr-defined]
        self.fields["back_to"].queryset = places_of(house)  # type: ignore[attr-defined]


def _going(where: Elsewhere) -> str:
    return {Elsewhere.SHOP: _("to the shop"), Elsewhere.STORE: _("to the store"), Elsewhere.LENT: _("it is lent out")}[
        where
    ]


class BackForm(StayForm):
    """A unit comes to a place, from elsewhere or from nowhere."""

    to = forms.ModelChoiceField(
        label=gettext_lazy("At which place does it stand?"),
        queryset=Place.objects.none(),
        empty_label=gettext_lazy("choose the place"),
    )
    field_order = ("to", "at")
    at_field: ClassVar[Mapping[str, str]] = {"starts_at": "at"}

    def __init__(self, *args: Any, house: House, stays: UnitStays, **options: Any) -> None:
        last = next((stay.place for stay in stays.past if stay.place is not None), None)
        own = places_of(house)
        options["initial"] = {"to": last if last in own else None}
        super().__init__(*args, house=house, stays=stays, **options)
        self.fields["at"].label = _("From")
        self.fields["to"].queryset = own  # type: ignore[attr-defined]


class UnitEndForm(EndForm):
    """Why a unit is the house's no more; where it still is, whether it leaves there too."""

    leaves = forms.BooleanField(required=False)
    asked: ClassVar[Sequence[str]] = ("leaves",)

    def __init__(self, *args: Any, row: Unit, stays: UnitStays, **options: Any) -> None:
        if row.hired_from:
            options["initial"] = {"reason": _("went back to %(whom)s") % {"whom": row.hired_from}}
        super().__init__(*args, row=row, **options)
        held = [stay for stay in (stays.now, *stays.ahead) if stay is not None]
        if held:
            where = "; ".join(where_words(stay) for stay in held)
            self.fields["leaves"].label = _("It leaves there too: %(where)s") % {"where": where}
        else:
            del self.fields["leaves"]


class DayForm(RefusedForm):
    """Which day a page is about."""

    on = forms.DateField(
        label=gettext_lazy("Where was every unit on"),
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
        error_messages={"invalid": gettext_lazy("Write a date, such as 2026-03-02.")},
    )
