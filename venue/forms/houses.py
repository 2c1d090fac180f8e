"""Houses and their set-ups."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.throws import side_of
from venue.forms.base import Section, VersionedForm
from venue.forms.lengths import (
    DIRECTIONS,
    SIDES,
    LengthField,
    columns,
    signed_offset,
    use_units,
    written_back,
)
from venue.models import House, Position, Setup
from venue.models.places import HEIGHT
from venue.models.positions import Zone


class HouseFacts(forms.ModelForm):
    """The columns of a house that may change."""

    class Meta:
        model = House
        fields: ClassVar[Sequence[str]] = ("name", "time_zone", "unit_system", "day_turns_at")
        widgets: ClassVar[dict[str, Any]] = {"day_turns_at": forms.TimeInput(format="%H:%M", attrs={"type": "time"})}
        help_texts: ClassVar[dict[str, Any]] = {"time_zone": gettext_lazy("Such as America/Chicago.")}


class HouseForm(VersionedForm, HouseFacts):
    """The house itself, and by what its lamps are reckoned."""

    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("When lamps burn"), ("burn_before_min", "usual_event_min", "use_window_days")),
        (gettext_lazy("For the technical sheet"), ("tech_note",)),
    )

    class Meta(HouseFacts.Meta):
        fields = (*HouseFacts.Meta.fields, "burn_before_min", "usual_event_min", "use_window_days", "tech_note")
        widgets: ClassVar[dict[str, Any]] = {**HouseFacts.Meta.widgets, "tech_note": forms.Textarea(attrs={"rows": 5})}
        help_texts: ClassVar[dict[str, Any]] = {
            **HouseFacts.Meta.help_texts,
            "burn_before_min": gettext_lazy("A lamp is struck so long before and burns until the event ends."),
            "use_window_days": gettext_lazy("Beyond what is booked, dates are told by the use of these days."),
            "tech_note": gettext_lazy(
                "Doors, lifts, hours, house rules. It goes to whoever has the sheet: name nobody here, and write no "
                "telephone number or mail address."
            ),
        }

    def __init__(self, *args: Any, instance: House, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}


class SetupFacts(forms.ModelForm):
    """The columns of a set-up that are no lengths."""

    class Meta:
        model = Setup
        fields = (
            "name", "layout", "prompt_side", "twelve_deg",
            "house_left_landmark", "house_right_landmark", "stage_end_landmark",
        )  # fmt: skip
        labels: ClassVar[dict[str, Any]] = {
            "twelve_deg": gettext_lazy("12 o'clock, degrees clockwise from the stage end")
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "twelve_deg": gettext_lazy("Seen from above: 0 is the stage end, 90 house right, 180 opposite the stage."),
            "house_left_landmark": gettext_lazy("What people there call that side, such as dock side."),
            "house_right_landmark": gettext_lazy("Such as street side."),
            "stage_end_landmark": gettext_lazy("Such as north gate."),
        }


class SetupForm(VersionedForm, SetupFacts):
    """One way in which the house is set up, with the zone of each position in it; empty: the position's own."""

    opening = LengthField(label=gettext_lazy("Width of the opening"))
    depth = LengthField(label=gettext_lazy("Depth of the stage, upstage from the plaster line"))
    apron = LengthField(label=gettext_lazy("Apron: from the plaster line to the lip"))
    target_from_center = LengthField(label=gettext_lazy("Distance from the center line"))
    target_side = forms.ChoiceField(label=gettext_lazy("Side"), choices=SIDES, required=False)
    target_from_plaster = LengthField(label=gettext_lazy("Distance from the plaster line"))
    target_direction = forms.ChoiceField(label=gettext_lazy("Direction"), choices=DIRECTIONS, required=False)
    target_height = LengthField(
        label=gettext_lazy("Height above the deck"),
        required=True,
        may_be_negative=True,
        help_text=gettext_lazy("A performer's face is about 1.5 m above the deck."),
    )
    is_default = forms.BooleanField(label=gettext_lazy("This is the usual set-up"), required=False)
    at_field: ClassVar[Mapping[str, str]] = {
        "opening_m": "opening",
        "depth_m": "depth",
        "apron_m": "apron",
        "target_x_m": "target_from_center",
        "target_y_m": "target_from_plaster",
        "target_z_m": "target_height",
    }

    def __init__(
        self, *args: Any, house: House, instance: Setup, zones: Iterable[tuple[Position, str]], **options: Any
    ) -> None:
        initial = _initial(instance, house.unit_system)
        super().__init__(*args, row=instance, instance=instance, initial=initial, **options)
        use_units(self, house.unit_system)
        self.zones = {f"zone_{position.ref}": (position, zone) for position, zone in zones}
        for name, (position, zone) in self.zones.items():
            choices = (("", _as_everywhere(position)), *Zone.choices)
            self.fields[name] = forms.ChoiceField(label=position.name, choices=choices, initial=zone, required=False)
        if instance._state.adding:
            del self.fields["version"]
        if instance._state.adding or instance.is_default:
            del self.fields["is_default"]

    @property
    def sections(self) -> Sequence[Section]:  # type: ignore[override]
        target = ("target_from_center", "target_side", "target_from_plaster", "target_direction", "target_height")
        landmarks = ("house_left_landmark", "house_right_landmark", "stage_end_landmark", "twelve_deg")
        return (
            (gettext_lazy("Stage"), ("opening", "depth", "apron")),
            (gettext_lazy("Sides"), landmarks),
            (gettext_lazy("The point that lights are aimed at"), target),
            (gettext_lazy("Where each position is in this set-up"), tuple(self.zones)),
        )

    def clean(self) -> dict[str, Any]:
        """The target as signed numbers."""
        cleaned = super().clean() or {}
        cleaned["target_x_m"] = signed_offset(self, "target_from_center", "target_side", "house right") or 0.0
        height = cleaned.get("target_height")
        if height is not None and not HEIGHT[0] <= height.meters <= HEIGHT[1]:
            self.add_error("target_height", _("This is no height in a house. From -10 to 300 feet can be kept."))
        cleaned["target_y_m"] = signed_offset(self, "target_from_plaster", "target_direction", "upstage") or 0.0
        return cleaned

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        cleaned, touched = self.cleaned_data, set(self.changed_data)
        found = {name: cleaned[name] for name in SetupFacts.Meta.fields}
        for field, name in (("opening",) * 2, ("depth",) * 2, ("apron",) * 2, ("target_height", "target_z")):
            if field in touched:  # else its text is only how the form shows what is stored
                found |= columns(name, cleaned[field])
        if touched & {"target_from_center", "target_side"}:
            found |= _offset("target_x", cleaned, "target_from_center")
        if touched & {"target_from_plaster", "target_direction"}:
            found |= _offset("target_y", cleaned, "target_from_plaster")
        return {**found, **({"is_default": True} if cleaned.get("is_default") else {})}

    def changed_zones(self) -> dict[Position, str]:
        """Positions whose zone was set to another than shown."""
        chosen = {position: self.cleaned_data[name] for name, (position, _zone) in self.zones.items()}
        shown = dict(self.zones.values())
        return {position: zone for position, zone in chosen.items() if zone != shown[position]}


def _as_everywhere(position: Position) -> str:
    return _("as the position itself: %(zone)s") % {"zone": position.get_zone_display()}


def _offset(name: str, cleaned: Mapping[str, Any], field: str) -> dict[str, Any]:
    return {**columns(name, cleaned[field]), f"{name}_m": cleaned[f"{name}_m"]}


def _initial(setup: Setup, system: str) -> dict[str, Any]:
    def shown(name: str, is_distance: bool = False) -> str:
        meters = getattr(setup, f"{name}_m")
        return written_back(abs(meters) if is_distance else meters, getattr(setup, f"{name}_text"), system)

    return {
        **{name: shown(name) for name in ("opening", "depth", "apron")},
        "target_height": shown("target_z"),
        "target_from_center": shown("target_x", True) if setup.target_x_m else "",
        "target_side": side_of(setup.target_x_m),
        "target_from_plaster": shown("target_y", True) if setup.target_y_m else "",
        "target_direction": direction_of(setup.target_y_m),
    }


def direction_of(y_m: float) -> str:
    """The direction in which a y counts from the plaster line; empty at the line."""
    return "" if y_m == 0 else "upstage" if y_m > 0 else "house"
