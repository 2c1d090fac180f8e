"""The maintenance log: entries, their correction, the questions of a relamp, files."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.local_time import wall_time
from venue.forms.base import RefusedForm, Section, VersionedForm
from venue.forms.light import LightField, light_units, shown_light
from venue.forms.picks import Pick
from venue.forms.units import WallTimeForm, wall_field
from venue.models import House, LogEntry, Unit
from venue.models.upkeep import MAX_BYTES, LogKind
from venue.relamps import RelampAnswers

KINDS = tuple((value, label) for value, label in LogKind.choices if value != LogKind.LIGHT)
"""A light reading has a form of its own."""
ANSWERS = (("yes", gettext_lazy("yes")), ("no", gettext_lazy("no")), ("", gettext_lazy("not answered yet")))
_KNOWN: dict[bool | None, str] = {True: "yes", False: "no", None: ""}
_MEANT: dict[str, bool | None] = {"yes": True, "no": False, "": None}


class LogFields(WallTimeForm):
    """What an entry says."""

    kind = forms.ChoiceField(
        label=gettext_lazy("What was done?"), choices=KINDS, widget=Pick(attrs={"class": "pick-two"})
    )
    text = forms.CharField(
        label=gettext_lazy("In words"), max_length=2000, required=False, widget=forms.Textarea(attrs={"rows": 4})
    )
    parts = forms.CharField(
        label=gettext_lazy("Parts used"),
        max_length=300,
        required=False,
        help_text=gettext_lazy("What was lubricated with what, and where, belongs here too."),
    )
    by = forms.CharField(label=gettext_lazy("Done by"), max_length=120)
    at = wall_field(gettext_lazy("Done at"))
    meter_h = forms.DecimalField(
        label=gettext_lazy("Meter showed, hours"), min_value=0, max_digits=9, decimal_places=2, required=False
    )
    before_lux = LightField(label=gettext_lazy("Light before"), required=False)
    after_lux = LightField(label=gettext_lazy("Light after"), required=False)
    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("When, and by whom"), ("at", "by", "meter_h")),
        (gettext_lazy("If the light was measured"), ("before_lux", "after_lux")),
    )

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}


class LogForm(LogFields):
    """An entry about a unit of the house, or about something that is no unit."""

    unit = forms.ModelChoiceField(
        label=gettext_lazy("Which unit?"),
        queryset=Unit.objects.none(),
        required=False,
        empty_label=gettext_lazy("none: something else"),
    )
    accessory = forms.CharField(
        label=gettext_lazy("Or what was it, if no unit?"),
        max_length=80,
        required=False,
        help_text=gettext_lazy("Such as headset 3, spare frames, harness of the rail."),
    )
    asked = ("unit", "accessory")
    field_order = ("unit", "accessory", "kind")

    def __init__(self, *args: Any, house: House, unit: Unit | None, now: datetime, by: str, **options: Any) -> None:
        options["initial"] = {"at": wall_time(now, house.time_zone), "by": by}
        super().__init__(*args, **options)
        self.zone = house.time_zone
        light_units(self, house.unit_system)
        if unit is not None:
            del self.fields["unit"], self.fields["accessory"]
        else:
            self.fields["unit"].queryset = house.units.standing()  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """Exactly one of a unit and something else."""
        cleaned = super().clean()
        if "unit" in self.fields and not self.errors and bool(cleaned.get("unit")) == bool(cleaned.get("accessory")):
            self.add_error("unit", _("Choose the unit, or write what it was if it was no unit: one of both."))
        return cleaned


class LogEditForm(VersionedForm, LogFields):
    """A correction of an entry. What other rows follow from can't be changed: strike it out and write anew."""

    at_field: ClassVar[Mapping[str, str]] = {}

    def __init__(self, *args: Any, entry: LogEntry, is_tied: bool, **options: Any) -> None:
        house = entry.house
        names = ("kind", "text", "parts", "by", "meter_h", "before_lux", "after_lux")
        shown = {name: getattr(entry, name) for name in names} | {"at": wall_time(entry.at, house.time_zone)}
        shown |= {name: shown_light(shown[name], house.unit_system) for name in ("before_lux", "after_lux")}
        super().__init__(*args, row=entry, initial=shown, **options)
        self.zone = house.time_zone
        light_units(self, house.unit_system)
        if is_tied:
            for name in ("kind", "at", "before_lux", "after_lux"):
                del self.fields[name]
        else:
            kinds = [choice for choice in KINDS if choice[0] != LogKind.RELAMP]
            self.fields["kind"].choices = kinds  # type: ignore[attr-defined]


class StrikeForm(VersionedForm):
    """Why an entry is struck out."""

    reason = forms.CharField(label=gettext_lazy("Why is it struck out?"), max_length=200)
    at_field: ClassVar[Mapping[str, str]] = {"struck_reason": "reason"}


def _question(label: Any) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, choices=ANSWERS, widget=Pick(attrs={"class": "pick-row"}), required=False)


class RelampForm(VersionedForm):
    """The four questions of a relamp. An honest no is kept."""

    isolated = _question(gettext_lazy("Was the supply isolated and locked?"))
    cooled = _question(gettext_lazy("Was the lamp house cool before it was opened?"))
    protected = _question(gettext_lazy("Were face, hands and body protected?"))
    aligned = _question(gettext_lazy("Is the new lamp aligned?"))
    asked = ("isolated", "cooled", "protected", "aligned")

    def __init__(self, *args: Any, entry: LogEntry, **options: Any) -> None:
        shown = {name: _KNOWN[getattr(entry, f"is_{name}")] for name in self.asked}
        super().__init__(*args, row=entry, initial=shown, **options)

    def answers(self) -> RelampAnswers:
        return RelampAnswers(**{name: _MEANT[self.cleaned_data[name]] for name in self.asked})


class AttachForm(RefusedForm):
    """A picture or a page for an entry."""

    file = forms.FileField(
        label=gettext_lazy("Photo or page"),
        help_text=gettext_lazy("JPEG, PNG, WebP or PDF, up to 5 MB."),
        widget=forms.FileInput(attrs={"accept": "image/jpeg,image/png,image/webp,application/pdf"}),
        max_length=400,
        allow_empty_file=True,
    )

    def clean_file(self) -> Any:
        """Refuse a file before it is read whole."""
        file = self.cleaned_data["file"]
        if file.size > MAX_BYTES:
            raise forms.ValidationError(_("The file is larger than 5 MB. Choose a smaller picture."))
        return file
