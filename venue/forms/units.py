"""Units, and where each stands from when until when."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.local_time import wall_time
from venue.core.ranges import BEAM_DEG, CANDELA, COLOR_K, WATTS
from venue.errors import LocalTimeMissing, LocalTimeTwice
from venue.forms.base import NOT_RECORDED, RefusedForm, Section, VersionedForm
from venue.forms.lengths import LengthField, columns, require_within, use_units, written_back
from venue.instants import the_instant
from venue.models import House, Place, Placement, Unit
from venue.models.units import FAR_FIELD, AnglePercent, FrameOneEnd, Magazine, SizedBy

FOLDS = (
    ("", gettext_lazy("choose which")),
    ("0", gettext_lazy("the first time")),
    ("1", gettext_lazy("the second time")),
)


RANGES: dict[str, tuple[float, float]] = {
    "watts": WATTS.hard,
    "input_w": WATTS.hard,
    "frames": (0, 12),
    "narrow_deg": BEAM_DEG.hard,
    "wide_deg": BEAM_DEG.hard,
    "narrow_cd": CANDELA.hard,
    "wide_cd": CANDELA.hard,
    "cct_k": COLOR_K.hard,
}
"""What lies outside was mistyped; a house file keeps the same ranges (common practice, no source)."""


class UnitFacts(forms.ModelForm):
    """The columns of a unit."""

    class Meta:
        model = Unit
        fields = (
            "tag", "source", "watts", "frames", "frame_1_end", "magazine",
            "narrow_deg", "wide_deg", "angle_percent", "narrow_cd", "wide_cd", "sized_by", "cct_k",
            "input_w", "power_factor", "weight_kg", "hired_from", "back_on",
        )  # fmt: skip
        widgets: ClassVar[dict[str, Any]] = {"back_on": forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})}
        labels: ClassVar[dict[str, Any]] = {
            "narrow_deg": gettext_lazy("Narrowest beam, degrees"),
            "wide_deg": gettext_lazy("Widest beam, degrees"),
            "narrow_cd": gettext_lazy("Candela at the narrowest"),
            "wide_cd": gettext_lazy("Candela at the widest"),
            "cct_k": gettext_lazy("Color temperature, kelvins"),
            "angle_percent": gettext_lazy("The angles end at"),
            "sized_by": gettext_lazy("What makes the beam smaller?"),
            "input_w": gettext_lazy("Watts taken from the supply"),
            "power_factor": gettext_lazy("Power factor"),
            "weight_kg": gettext_lazy("Weight, kilograms"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "angle_percent": gettext_lazy("The sheet says of which share of the peak its angles are. Full angles."),
            "sized_by": gettext_lazy("A zoom gathers the light, an iris cuts it off."),
            "input_w": gettext_lazy("On its rating plate; more than the lamp's own watts."),
            "power_factor": gettext_lazy("On its rating plate, from 0.05 to 1."),
            "weight_kg": gettext_lazy("With its stand if it stands on one, as it is put there."),
        }


class UnitForm(VersionedForm, UnitFacts):
    """A follow spot of the house."""

    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("Color magazine"), ("frames", "frame_1_end", "magazine")),
        (
            gettext_lazy("Beam, from the maker's sheet"),
            ("narrow_deg", "wide_deg", "angle_percent", "narrow_cd", "wide_cd", "far_field", "sized_by", "cct_k"),
        ),
        (gettext_lazy("Supply and weight, from the maker's sheet"), ("input_w", "power_factor", "weight_kg")),
        (gettext_lazy("Hired in"), ("hired_from", "back_on")),
    )
    far_field = LengthField(
        label=gettext_lazy("Shortest throw at which its candela hold"),
        help_text=gettext_lazy("Nearer than this, light by the inverse square is a rough guide."),
    )
    at_field: ClassVar[Mapping[str, str]] = {"far_field_m": "far_field", "far_field_text": "far_field"}

    def __init__(self, *args: Any, instance: Unit, **options: Any) -> None:
        system = instance.house.unit_system
        shown = {"far_field": written_back(instance.far_field_m, instance.far_field_text, system)}
        super().__init__(*args, row=instance, instance=instance, initial=shown, **options)
        use_units(self, system)
        self.fields["angle_percent"].choices = [NOT_RECORDED, *AnglePercent.choices]  # type: ignore[attr-defined]
        self.fields["sized_by"].choices = [NOT_RECORDED, *SizedBy.choices]  # type: ignore[attr-defined]
        self.fields["frame_1_end"].choices = [NOT_RECORDED, *FrameOneEnd.choices]  # type: ignore[attr-defined]
        self.fields["magazine"].choices = [NOT_RECORDED, *Magazine.choices]  # type: ignore[attr-defined]
        for name, (low, high) in RANGES.items():
            self.fields[name].validators += [MinValueValidator(_plain(low)), MaxValueValidator(_plain(high))]
        if instance._state.adding:
            del self.fields["version"]

    def clean(self) -> dict[str, Any]:
        """A day on which it goes back needs somebody to whom; a length is one of a throw."""
        cleaned = super().clean() or {}
        if cleaned.get("back_on") and not cleaned.get("hired_from"):
            self.add_error("hired_from", _("Write from whom it is hired, or leave the day empty."))
        require_within(self, "far_field", FAR_FIELD, _("No throw is longer than 1000 feet (305 m). Check this length."))
        return cleaned

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        own = {name: self.cleaned_data[name] for name in UnitFacts.Meta.fields}
        if "far_field" not in self.changed_data:  # its text is only how the form shows what is stored
            return own
        return {**own, **columns("far_field", self.cleaned_data["far_field"])}


def _plain(limit: float) -> float:
    """A whole number without its ".0", as a message shows it."""
    return int(limit) if float(limit).is_integer() else limit


class WallTimeForm(RefusedForm):
    """A form with times as the house's clocks show them; a time that comes twice is asked about."""

    wall_times: ClassVar[tuple[str, ...]] = ("at",)
    zone = "UTC"

    def clean(self) -> dict[str, Any]:
        """Each wall time becomes its instant."""
        cleaned = super().clean() or {}
        for name in self.wall_times:
            if cleaned.get(name):
                cleaned[name] = self._instant(name, cleaned[name])
        return cleaned

    def _instant(self, name: str, wall: datetime) -> datetime | None:
        chosen = self.data.get(self.add_prefix(f"{name}_fold"), "")
        try:
            return the_instant(wall.replace(tzinfo=None), self.zone, fold=int(chosen) if chosen in {"0", "1"} else None)
        except (LocalTimeMissing, LocalTimeTwice) as problem:
            self.add_error(name, str(problem))
            if isinstance(problem, LocalTimeTwice):
                self._ask_which(name)
        except OverflowError:  # the first or last hours that a calendar has
            self.add_error(name, _("Check the year of this time."))
        return None

    def _ask_which(self, name: str) -> None:
        label = _("The clocks show this time twice. Which one?")
        self.fields[f"{name}_fold"] = forms.ChoiceField(label=label, choices=FOLDS, required=False)


def wall_field(label: Any, **options: Any) -> forms.DateTimeField:
    """A time as the house's clocks show it."""
    widget = forms.DateTimeInput(format="%Y-%m-%dT%H:%M", attrs={"type": "datetime-local"})
    return forms.DateTimeField(label=label, widget=widget, **options)


def _now_there(house: House, now: datetime) -> datetime:
    return wall_time(now, house.time_zone)


class StandForm(WallTimeForm):
    """A unit comes to stand at a place."""

    unit = forms.ModelChoiceField(
        label=gettext_lazy("Unit"), queryset=Unit.objects.none(), empty_label=gettext_lazy("choose the unit")
    )
    starts_at = wall_field(gettext_lazy("From"))
    ends_at = wall_field(gettext_lazy("Until"), required=False, help_text=gettext_lazy("Left empty: for good."))
    wall_times = ("starts_at", "ends_at")

    def __init__(self, *args: Any, house: House, now: datetime, **options: Any) -> None:
        options["initial"] = {"starts_at": _now_there(house, now)}
        super().__init__(*args, **options)
        self.zone = house.time_zone
        self.fields["unit"].queryset = house.units.standing()  # type: ignore[attr-defined]
        self.fields["starts_at"].help_text = _("In the house's own time, %(zone)s. It may lie ahead.") % {
            "zone": self.zone
        }


class LeaveForm(VersionedForm, WallTimeForm):
    """A unit leaves its place."""

    at = wall_field(gettext_lazy("Leaves at"))

    def __init__(self, *args: Any, house: House, row: Placement, now: datetime, **options: Any) -> None:
        options["initial"] = {"at": _now_there(house, now)}
        super().__init__(*args, row=row, **options)
        self.zone = house.time_zone
        self.fields["at"].help_text = _("In the house's own time, %(zone)s.") % {"zone": self.zone}


class MoveForm(LeaveForm):
    """A unit goes to another place."""

    to = forms.ModelChoiceField(
        label=gettext_lazy("To which place?"),
        queryset=Place.objects.none(),
        empty_label=gettext_lazy("choose the place"),
    )
    field_order = ("to", "at")

    def __init__(self, *args: Any, house: House, row: Placement, now: datetime, **options: Any) -> None:
        super().__init__(*args, house=house, row=row, now=now, **options)
        self.fields["at"].label = _("Moves at")
        self.fields["to"].queryset = places_of(house).exclude(pk=row.place_id)  # type: ignore[attr-defined]


def places_of(house: House) -> Any:
    """The house's own places that have not ended, each with its position."""
    places = Place.objects.standing().of_house().select_related("position")
    return places.filter(position__house=house, position__ended_at__isnull=True)
