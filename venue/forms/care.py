"""Care plans: what is to be done every so many lamp hours or days."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, ClassVar

from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.sources import Source
from venue.forms.base import RefusedForm, Section, VersionedForm
from venue.forms.picks import Pick
from venue.models import CarePlan, House, Unit
from venue.models.upkeep import Covers, LogKind
from venue.wording_care import span_words

SOURCES = (("", gettext_lazy("choose the source")), *((each.value, each.value) for each in Source))
KINDS = tuple(choice for choice in LogKind.choices if choice[0] not in (LogKind.RELAMP, LogKind.LIGHT))
"""A relamp and a light reading have forms of their own."""
COLUMNS = ("what", "covers", "unit", "source", "accessory", "every_h", "every_days", "log_kind")


class CarePlanFields(RefusedForm):
    """What a plan says."""

    what = forms.CharField(label=gettext_lazy("What is to be done?"), max_length=120)
    every_h = forms.DecimalField(
        label=gettext_lazy("Every so many lamp hours"),
        min_value=Decimal(1),
        max_digits=9,
        decimal_places=2,
        required=False,
    )
    every_days = forms.IntegerField(
        label=gettext_lazy("Every so many days"), min_value=1, max_value=3660, required=False
    )
    covers = forms.ChoiceField(label=gettext_lazy("For what?"), choices=Covers.choices, widget=Pick)
    unit = forms.ModelChoiceField(
        label=gettext_lazy("The unit"),
        queryset=Unit.objects.none(),
        required=False,
        empty_label=gettext_lazy("choose the unit"),
    )
    source = forms.ChoiceField(label=gettext_lazy("The source"), choices=SOURCES, required=False)
    accessory = forms.CharField(
        label=gettext_lazy("What it is, if no unit"),
        max_length=80,
        required=False,
        help_text=gettext_lazy("Such as sight batteries, gloves, frames, headsets."),
    )
    log_kind = forms.ChoiceField(label=gettext_lazy("Goes into the log as"), choices=KINDS, initial=LogKind.INSPECT)
    asked = ("every_h", "every_days", "unit", "source", "accessory")
    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("How often? Whichever comes first"), ("every_h", "every_days")),
        (gettext_lazy("For what"), ("covers", "unit", "source", "accessory")),
    )

    def _units(self, house: House) -> None:
        self.fields["unit"].queryset = house.units.standing()  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """What the plan does not cover stays empty; what it covers is named."""
        cleaned = super().clean() or {}
        covers = cleaned.get("covers")
        for name, message in _NAMED.items():
            if covers != name:
                cleaned[name] = None if name == "unit" else ""
            elif not cleaned.get(name) and name not in self.errors:
                self.add_error(name, str(message))
        if cleaned.get("every_h") is None and cleaned.get("every_days") is None and not self.errors:
            self.add_error("every_h", _("Write after how many lamp hours or days it is due, or both."))
        if covers == Covers.ACCESSORY and cleaned.get("every_h") is not None:
            self.add_error("every_h", _("Only units have hours. Write days."))
        return cleaned

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: self.cleaned_data[name] for name in COLUMNS}


_NAMED: dict[str, str | Promise] = {
    "unit": gettext_lazy("Choose the unit."),
    "source": gettext_lazy("Choose the source."),
    "accessory": gettext_lazy("Write what it is."),
}


class CarePlanForm(CarePlanFields):
    """A new plan, filled in from a preset where one was chosen."""

    def __init__(self, *args: Any, house: House, preset: str = "", unit: Unit | None = None, **options: Any) -> None:
        shown: dict[str, Any] = {"covers": Covers.ALL.value, **PRESETS_BY_NAME.get(preset, NO_PRESET).shown()}
        if unit is not None:
            shown |= {"covers": Covers.UNIT.value, "unit": unit}
        options["initial"] = shown
        super().__init__(*args, **options)
        self._units(house)


class CarePlanEditForm(CarePlanFields, VersionedForm):
    """A change to a plan."""

    def __init__(self, *args: Any, plan: CarePlan, **options: Any) -> None:
        shown = {name: getattr(plan, name) for name in COLUMNS}
        if plan.every_h is not None:
            shown["every_h"] = Decimal(f"{plan.every_h.normalize():f}")
        super().__init__(*args, row=plan, initial=shown, **options)
        self._units(plan.house)
        known = dict(SOURCES)
        if plan.source and plan.source not in known:
            self.fields["source"].choices = [*SOURCES, (plan.source, plan.source)]  # type: ignore[attr-defined]


@dataclass(frozen=True)
class Preset:
    """A plan to begin with (common practice, no source)."""

    name: str
    what: str | Promise
    every_h: int | None = None
    every_days: int | None = None
    log_kind: str = LogKind.INSPECT.value
    accessory: str | Promise = ""

    @property
    def often(self) -> str:
        """How often, in words."""
        return span_words(None if self.every_h is None else Decimal(self.every_h), self.every_days)

    def shown(self) -> Mapping[str, Any]:
        """What the form shows."""
        if not self.name:
            return {}
        facts = {
            "what": str(self.what),
            "every_h": self.every_h,
            "every_days": self.every_days,
            "log_kind": self.log_kind,
        }
        return {**facts, **({"covers": "accessory", "accessory": str(self.accessory)} if self.accessory else {})}


NO_PRESET = Preset("", "")
PRESETS = (
    Preset("weekly", gettext_lazy("front lens, gel condition, screws and knobs, a look at the filters"), 25, 7),
    Preset("monthly", gettext_lazy("fan filters, mirror and rear lens, cable and connector look"), 100, 30, "clean"),
    Preset("quarterly", gettext_lazy("ballast terminals, igniter lead, strain reliefs, interlock, stand"), None, 90),
    Preset("yearly", gettext_lazy("full strip and clean, worn parts, alignment"), None, 365, "clean"),
    Preset("electrical", gettext_lazy("electrical test"), None, 365, "electrical-test"),
    Preset("sight", gettext_lazy("new sight batteries"), None, 60, "other", gettext_lazy("sight batteries")),
    Preset("gloves", gettext_lazy("look over the gloves"), None, 90, "inspect", gettext_lazy("gloves")),
    Preset(
        "frames", gettext_lazy("count and straighten the spare frames"), None, 90, "inspect", gettext_lazy("frames")
    ),
    Preset("headset", gettext_lazy("talk through every headset"), None, 30, "inspect", gettext_lazy("headsets")),
)
PRESETS_BY_NAME = {preset.name: preset for preset in PRESETS}
