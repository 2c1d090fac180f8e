"""Positions, their places by order, and the facts of getting there and working there."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.forms.base import NOT_RECORDED, RefusedForm, Section, VersionedForm
from venue.forms.houses import direction_of
from venue.forms.lengths import DIRECTIONS, LengthField, columns, require_within, signed_offset, use_units, written_back
from venue.forms.pans import PAN_FIELDS, PansForm, pans_shown
from venue.models import House, Position
from venue.models.positions import FallProtection, Glass, ShowExit, WhoMayOperate, Zone
from venue.models.setups import COORDINATE
from venue.wording_corners import pan_words

UPSTAGE = ("farthest_upstage", "farthest_upstage_direction")
DOWNSTAGE = ("farthest_downstage", "farthest_downstage_direction")
SECTIONS: tuple[Section, ...] = (
    (gettext_lazy("Getting there"), ("access", "access_min", "passage")),
    (gettext_lazy("Load, seats and needs"), ("load_limit_kg", "other_load_kg", "seats_lost", "needs")),
    (gettext_lazy("Power and talking"), ("power", "power_switched_at", "intercom")),
    (gettext_lazy("What its lights see"), ("glass", "glass_loss_pct", *UPSTAGE, *DOWNSTAGE, *PAN_FIELDS)),
    (
        gettext_lazy("Safety and people"),
        ("fall_protection", "rescue_plan", "show_exit", "show_exit_words", "who_may_operate"),
    ),
    (gettext_lazy("Checked in the house"), ("checked_on", "checked_by")),
)
CHOICES = {
    "fall_protection": FallProtection,
    "glass": Glass,
    "show_exit": ShowExit,
    "who_may_operate": WhoMayOperate,
}
HELP = {
    "kind": gettext_lazy("Booth, rail, truss, tower."),
    "level": gettext_lazy("The floor it is on, such as 3; the lower one counts first where two stand in line."),
    "access": gettext_lazy("Ladder, catwalk, stair, hoist: the way an operator takes."),
    "power": gettext_lazy("Voltage, phases, connector, such as 208 V single phase at a wall box."),
    "power_switched_at": gettext_lazy("The breaker or panel, and where it is."),
    "intercom": gettext_lazy("Wired stations, channel, dry lines."),
    "show_exit": gettext_lazy("Can an operator leave while the show runs?"),
    "load_limit_kg": gettext_lazy("What the position may carry, in kilograms, as the house's engineer says."),
    "other_load_kg": gettext_lazy("All but the units of this book and their operators."),
    "seats_lost": gettext_lazy("Seats that can't be sold while it is used; 0 if none is lost."),
    "needs": gettext_lazy("Platform, risers, weights, cable run, permission: what a show has to order."),
    "glass_loss_pct": gettext_lazy("Only if it was measured, with the pane closed and without."),
    "rescue_plan": gettext_lazy("How a hanging or hurt person is brought down, by whom, how soon."),
}


class PositionFacts(forms.ModelForm):
    """The columns that the house may change by hand."""

    class Meta:
        model = Position
        fields = (
            "name", "kind", "zone", "level", "row_order",
            "access", "access_min", "load_limit_kg", "other_load_kg", "seats_lost", "needs",
            "power", "power_switched_at", "intercom", "glass", "glass_loss_pct",
            "fall_protection", "rescue_plan", "show_exit", "show_exit_words", "who_may_operate",
            "checked_on", "checked_by",
        )  # fmt: skip
        widgets: ClassVar[dict[str, Any]] = {
            "checked_on": forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
            "rescue_plan": forms.Textarea(attrs={"rows": 4}),
        }
        labels: ClassVar[dict[str, Any]] = {
            "glass_loss_pct": gettext_lazy("Light lost in the glass, measured, percent"),
            "other_load_kg": gettext_lazy("What else stands or hangs there, kilograms"),
        }
        help_texts = HELP


class PositionForm(PansForm, VersionedForm, PositionFacts):
    """A position with everything that an operator, a tour or dispatch asks about it."""

    passage = LengthField(label=gettext_lazy("Narrowest passage on the way"))
    farthest_upstage = LengthField(
        label=gettext_lazy("Farthest upstage that they see, from the plaster line"),
        help_text=gettext_lazy("On the deck, as far as a border, a wall or the opening lets them."),
    )
    farthest_upstage_direction = forms.ChoiceField(
        label=gettext_lazy("In which direction from the plaster line?"), choices=DIRECTIONS, required=False
    )
    farthest_downstage = LengthField(label=gettext_lazy("Farthest downstage that they see, from the plaster line"))
    farthest_downstage_direction = forms.ChoiceField(
        label=gettext_lazy("In which direction from the plaster line is that?"), choices=DIRECTIONS, required=False
    )
    sections: ClassVar[Sequence[Section]] = SECTIONS
    at_field: ClassVar[Mapping[str, str]] = {
        "passage_m": "passage",
        "farthest_upstage_m": "farthest_upstage",
        "farthest_downstage_m": "farthest_downstage",
        "pan_from_deg": "pan_from",
        "pan_to_deg": "pan_to",
    }
    asked = (UPSTAGE[1], DOWNSTAGE[1], "pan_from_side", "pan_to_side")

    def __init__(self, *args: Any, house: House, instance: Position, **options: Any) -> None:
        shown = _shown_of(instance, house.unit_system)
        super().__init__(*args, row=instance, instance=instance, initial=shown, **options)
        use_units(self, house.unit_system)
        for name, choices in CHOICES.items():
            self.fields[name].choices = [NOT_RECORDED, *choices.choices]  # type: ignore[attr-defined]
        if instance._state.adding:
            del self.fields["row_order"], self.fields["version"]

    def clean(self) -> dict[str, Any]:
        """What the lights see as signed numbers, and a loss only where there is a pane."""
        cleaned = super().clean() or {}
        self.limits = {pair[0]: signed_offset(self, *pair, "upstage") for pair in (UPSTAGE, DOWNSTAGE)}
        for name in self.limits:
            require_within(self, name, (0, COORDINATE[1]), _("Nobody sees farther than 1000 m. Check this length."))
        self._require_depth()
        self._require_pane()
        return cleaned

    def _require_depth(self) -> None:
        upstage, downstage = self.limits.values()
        if upstage is not None and downstage is not None and downstage >= upstage:
            message = _("This does not lie downstage of the farthest point upstage. Check both and their directions.")
            self.add_error(DOWNSTAGE[0], message)

    def _require_pane(self) -> None:
        if self.cleaned_data.get("glass_loss_pct") is None:
            return
        if self.cleaned_data.get("glass") == Glass.OPEN:
            self.add_error("glass_loss_pct", _("Open, no glass: nothing is lost there. Leave this empty."))
        elif self.cleaned_data.get("glass") == "":
            self.add_error("glass", _("Say whether the pane slides or is fixed: a loss in it is written below."))

    def values(self) -> dict[str, Any]:
        """Columns by name. An untouched length stays: its text is only how the form shows what is stored."""
        touched = set(self.changed_data)
        found = {name: self.cleaned_data[name] for name in PositionFacts.Meta.fields if name in self.cleaned_data}
        if "passage" in touched:
            found |= columns("passage", self.cleaned_data["passage"])
        for pair in (UPSTAGE, DOWNSTAGE):
            if touched & set(pair):
                name, meters = pair[0], self.limits[pair[0]]
                found |= {**columns(name, self.cleaned_data[name]), f"{name}_m": meters}
        return {**found, **self.pans}

    def _shown(self, field: Any, value: Any) -> str:
        if field.name.startswith("pan_") and value is not None:
            return pan_words(value)
        return super()._shown(field, value)


def _shown_of(position: Position, system: str) -> dict[str, Any]:
    """What the form shows of lengths and pans."""
    shown = {"passage": written_back(position.passage_m, position.passage_text, system), **pans_shown(position)}
    for name, direction in (UPSTAGE, DOWNSTAGE):
        meters, text = getattr(position, f"{name}_m"), getattr(position, f"{name}_text")
        shown[name] = "" if meters is None else written_back(abs(meters), text, system)
        shown[direction] = direction_of(meters or 0.0)
    return shown


class RowForm(RefusedForm):
    """The quick way: a position and the labels of its places, in their order."""

    name = forms.CharField(label=gettext_lazy("Name of the position"), max_length=80)
    zone = forms.ChoiceField(label=gettext_lazy("Where it is"), choices=Zone.choices, initial=Zone.FRONT)
    how_many = forms.IntegerField(label=gettext_lazy("How many places?"), min_value=1, max_value=100)
    labels = forms.CharField(
        label=gettext_lazy("How are they labeled, from house left to house right?"),
        required=False,
        max_length=4000,
        help_text=gettext_lazy(
            "Such as: 1 2 3 4, or 4, 3, 2, 1. Left empty they are 1, 2, 3 and so on. In a bowl begin at the stage "
            "end and go clockwise as seen from above."
        ),
    )

    def clean(self) -> dict[str, Any]:
        """As many labels as places."""
        cleaned = super().clean() or {}
        labels, how_many = _labels(cleaned.get("labels", "")), cleaned.get("how_many")
        if how_many and not labels:
            labels = [str(number) for number in range(1, how_many + 1)]
        if how_many and len(labels) != how_many:
            found = {"found": len(labels), "wanted": how_many}
            self.add_error(
                "labels", _("There are %(found)s labels here for %(wanted)s places. Make them agree.") % found
            )
        cleaned["labels"] = labels
        return cleaned


def _labels(text: str) -> list[str]:
    """The labels in the text: apart by commas, semicolons or lines where there are any, else by spaces."""
    marked = text.replace(";", ",").replace("\n", ",")
    parts = marked.split(",") if "," in marked else marked.split()
    return [part.strip() for part in parts if part.strip()]
