"""Positions, their places by order, and the facts of getting there and working there."""

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.forms.base import NOT_RECORDED, RefusedForm, Section, VersionedForm
from venue.forms.lengths import LengthField, columns, use_units, written_back
from venue.models import House, Position
from venue.models.positions import FallProtection, Glass, ShowExit, WhoMayOperate, Zone

SECTIONS: tuple[Section, ...] = (
    (gettext_lazy("Getting there"), ("access", "access_min", "passage", "load_limit_kg")),
    (gettext_lazy("Power and talking"), ("power", "power_switched_at", "intercom", "glass")),
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
    "rescue_plan": gettext_lazy("How a hanging or hurt person is brought down, by whom, how soon."),
}


class PositionFacts(forms.ModelForm):
    """The columns that the house may change by hand."""

    class Meta:
        model = Position
        fields = (
            "name", "kind", "zone", "level", "row_order",
            "access", "access_min", "load_limit_kg", "power", "power_switched_at", "intercom", "glass",
            "fall_protection", "rescue_plan", "show_exit", "show_exit_words", "who_may_operate",
            "checked_on", "checked_by",
        )  # fmt: skip
        widgets: ClassVar[dict[str, Any]] = {
            "checked_on": forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
            "rescue_plan": forms.Textarea(attrs={"rows": 4}),
        }
        help_texts = HELP


class PositionForm(VersionedForm, PositionFacts):
    """A position with everything that an operator, a tour or dispatch asks about it."""

    passage = LengthField(label=gettext_lazy("Narrowest passage on the way"))
    sections: ClassVar[Sequence[Section]] = SECTIONS
    at_field: ClassVar[Mapping[str, str]] = {"passage_m": "passage"}

    def __init__(self, *args: Any, house: House, instance: Position, **options: Any) -> None:
        passage = written_back(instance.passage_m, instance.passage_text, house.unit_system)
        super().__init__(*args, row=instance, instance=instance, initial={"passage": passage}, **options)
        use_units(self, house.unit_system)
        for name, choices in CHOICES.items():
            self.fields[name].choices = [NOT_RECORDED, *choices.choices]  # type: ignore[attr-defined]
        if instance._state.adding:
            del self.fields["row_order"], self.fields["version"]

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        own = {name: value for name, value in self.cleaned_data.items() if name not in {"version", "passage"}}
        if "passage" not in self.changed_data:  # its text is only how the form shows what is stored
            return own
        return {**own, **columns("passage", self.cleaned_data["passage"])}


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
