"""Faults: reported with a thumb, corrected, closed."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.local_time import wall_time
from venue.forms.base import RefusedForm, Section, VersionedForm
from venue.forms.picks import Pick
from venue.forms.units import WallTimeForm, wall_field
from venue.models import Fault, House, Unit
from venue.models.faults import Danger, Limit, Means

WHAT = (
    ("usable", gettext_lazy("It can be used, with a note")),
    ("out", gettext_lazy("It is out of service")),
    (
        gettext_lazy("It can be used, but not for everything"),
        (
            ("limit:frames", gettext_lazy("Frames are out")),
            ("limit:blackout", gettext_lazy("No full blackout")),
            ("limit:iris", gettext_lazy("The iris is fixed")),
            ("limit:camera", gettext_lazy("Not on camera: flicker")),
            ("limit:shutters", gettext_lazy("The shutters are taped")),
            ("limit:other", gettext_lazy("Something else it can't do")),
        ),
    ),
    (
        gettext_lazy("Danger: out of service until a named person closes it"),
        tuple((f"danger:{value}", label) for value, label in Danger.choices),
    ),
)
"""One tap says what it means for use."""
PARTS = (
    ("douser", gettext_lazy("douser")),
    ("iris", gettext_lazy("iris")),
    ("shutters", gettext_lazy("shutters")),
    ("color magazine", gettext_lazy("color magazine")),
    ("zoom or focus", gettext_lazy("zoom or focus")),
    ("lamp", gettext_lazy("lamp")),
    ("ballast or igniter", gettext_lazy("ballast or igniter")),
    ("fan", gettext_lazy("fan")),
    ("stand, base or yoke", gettext_lazy("stand, base or yoke")),
    ("sight", gettext_lazy("sight")),
    ("lead or plug", gettext_lazy("lead or plug")),
    ("headset", gettext_lazy("headset")),
    ("", gettext_lazy("another part, or none")),
)
LONG = forms.Textarea(attrs={"rows": 3})


class FaultFields(RefusedForm):
    """What a fault says."""

    what = forms.ChoiceField(label=gettext_lazy("What does it mean for use?"), choices=WHAT, widget=Pick)
    part = forms.ChoiceField(
        label=gettext_lazy("Which part?"),
        choices=PARTS,
        widget=Pick(attrs={"class": "pick-two"}),
        required=False,
        initial="",
    )
    other_part = forms.CharField(label=gettext_lazy("Another part, in words"), max_length=80, required=False)
    frames_out = forms.CharField(
        label=gettext_lazy("Which frames are out?"),
        max_length=60,
        required=False,
        help_text=gettext_lazy("Their numbers, such as 2, 4. Needed where frames are out."),
    )
    limit = forms.CharField(
        label=gettext_lazy("In words"),
        max_length=2000,
        required=False,
        widget=LONG,
        help_text=gettext_lazy("The size of a fixed iris, the note, what it can't do: what the operator should read."),
    )
    asked = ("part", "frames_out", "limit")
    at_field: ClassVar[Mapping[str, str]] = {"means": "what", "danger": "what", "limit_kind": "what"}
    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("More, where it is needed"), ("frames_out", "limit", "other_part")),
    )

    def facts(self) -> dict[str, str]:
        """The columns of the fault."""
        cleaned = self.cleaned_data
        kind, _colon, detail = cleaned["what"].partition(":")
        means = {"limit": Means.LIMITED, "danger": Means.OUT, "out": Means.OUT, "usable": Means.USABLE}[kind]
        return {
            "means": means.value,
            "danger": detail if kind == "danger" else "",
            "limit_kind": detail if kind == "limit" else "",
            "part": cleaned["other_part"] or cleaned["part"],
            "frames_out": cleaned["frames_out"],
            "limit": cleaned["limit"],
        }


def what_of(fault: Fault) -> str:
    """The choice that says what the fault means."""
    if fault.danger:
        return f"danger:{fault.danger}"
    if fault.means == Means.LIMITED:
        return f"limit:{fault.limit_kind or Limit.OTHER}"
    return fault.means


def shown_facts(fault: Fault) -> dict[str, str]:
    """What a form shows of a stored fault."""
    is_listed = fault.part in dict(PARTS)
    return {
        "what": what_of(fault),
        "part": fault.part if is_listed else "",
        "other_part": "" if is_listed else fault.part,
        "frames_out": fault.frames_out,
        "limit": fault.limit,
    }


class FaultForm(FaultFields, WallTimeForm):
    """A fault that somebody saw, at a unit of the house; without `unit` the form asks for it."""

    unit = forms.ModelChoiceField(
        label=gettext_lazy("Which unit?"), queryset=Unit.objects.none(), empty_label=gettext_lazy("choose the unit")
    )
    at = wall_field(gettext_lazy("Seen at"))
    seen_by = forms.CharField(label=gettext_lazy("Seen by"), max_length=120)
    field_order = ("unit", "what", "part")
    sections: ClassVar[Sequence[Section]] = (
        *FaultFields.sections,
        (gettext_lazy("When, and by whom"), ("at", "seen_by")),
    )

    def __init__(self, *args: Any, house: House, unit: Unit | None, now: datetime, by: str, **options: Any) -> None:
        options["initial"] = {"at": wall_time(now, house.time_zone), "seen_by": by}
        super().__init__(*args, **options)
        self.zone = house.time_zone
        if unit is not None:
            del self.fields["unit"]
        else:
            self.fields["unit"].queryset = house.units.standing()  # type: ignore[attr-defined]


class FaultEditForm(FaultFields, VersionedForm):
    """A correction of a standing fault."""

    def __init__(self, *args: Any, fault: Fault, **options: Any) -> None:
        super().__init__(*args, row=fault, initial=shown_facts(fault), **options)


class CloseFaultForm(VersionedForm, WallTimeForm):
    """What was done about a fault. A danger asks for the person who answers for it, and suggests nobody."""

    done = forms.CharField(label=gettext_lazy("What was done?"), max_length=2000, widget=LONG)
    by = forms.CharField(label=gettext_lazy("Done by"), max_length=120)
    parts = forms.CharField(label=gettext_lazy("Parts used"), max_length=300, required=False)
    at = wall_field(gettext_lazy("Done at"))
    at_field: ClassVar[Mapping[str, str]] = {"text": "done"}

    def __init__(self, *args: Any, fault: Fault, now: datetime, by: str, **options: Any) -> None:
        zone = fault.unit.house.time_zone
        options["initial"] = {"at": wall_time(now, zone), "by": "" if fault.danger else by}
        super().__init__(*args, row=fault, **options)
        self.zone = zone
        if fault.danger:
            self.fields["by"].label = _("Name of the person who answers for it")
            self.fields["by"].help_text = _("A danger is closed only by a named person who made sure that it is gone.")
