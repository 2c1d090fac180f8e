"""Light as people read it off a meter, in foot-candles or lux by the house."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.lengths import Length
from venue.core.light import foot_candles, lux_of
from venue.core.local_time import wall_time
from venue.core.ranges import READING_LX
from venue.forms.base import Section
from venue.forms.lengths import LengthField, use_units
from venue.forms.units import WallTimeForm, wall_field
from venue.models import Unit
from venue.models.upkeep import DISTANCE
from venue.wording_care import SETTING, light_text

UNIT_WORDS = {
    "imperial": gettext_lazy("In foot-candles."),
    "metric": gettext_lazy("In lux."),
}


class LightField(forms.FloatField):
    """Illuminance in the house's unit; cleaned to lux. The unit is set by `light_units`."""

    system = "metric"

    def __init__(self, **options: Any) -> None:
        super().__init__(**{"min_value": 0, **options})
        self.widget.attrs |= {"inputmode": "decimal", "step": "any"}

    def clean(self, value: Any) -> float | None:
        typed = super().clean(value)
        if typed is None:
            return None
        lux = lux_of(typed) if self.system == "imperial" else float(typed)
        if READING_LX.judged(lux) == "impossible":
            most = light_text(READING_LX.hard[1], self.system)
            raise forms.ValidationError(_("No meter reads that much of a follow spot: at most %s.") % most)
        return lux


def light_units(form: forms.BaseForm, system: str) -> None:
    """Have every light of the form read and told in the house's unit."""
    for field in form.fields.values():
        if isinstance(field, LightField):
            field.system = system
            field.help_text = UNIT_WORDS[system]


def shown_light(lux: float | None, system: str) -> float | None:
    """What a form shows of a stored illuminance."""
    if lux is None:
        return None
    return round(foot_candles(lux), 4) if system == "imperial" else lux


class LightForm(WallTimeForm):
    """A light reading of a unit."""

    light = LightField(label=gettext_lazy("The meter reads"))
    distance = LengthField(label=gettext_lazy("At a distance from the lens of"), required=True)
    setting = forms.CharField(
        label=gettext_lazy("Setting"),
        max_length=80,
        help_text=gettext_lazy("The same each time, or readings can't be compared."),
    )
    at = wall_field(gettext_lazy("Measured at"))
    by = forms.CharField(label=gettext_lazy("Measured by"), max_length=120)
    text = forms.CharField(
        label=gettext_lazy("Note"), max_length=2000, required=False, widget=forms.Textarea(attrs={"rows": 2})
    )
    at_field: ClassVar[dict[str, str]] = {"lux": "light", "distance_m": "distance", "distance_text": "distance"}
    sections: ClassVar[Sequence[Section]] = ((gettext_lazy("When, and by whom"), ("at", "by", "text")),)

    def __init__(
        self, *args: Any, unit: Unit, now: datetime, by: str, setting: str, distance: str = "", **options: Any
    ) -> None:
        house = unit.house
        shown = {"at": wall_time(now, house.time_zone), "by": by, "setting": setting or SETTING, "distance": distance}
        options["initial"] = shown
        super().__init__(*args, **options)
        self.zone = house.time_zone
        light_units(self, house.unit_system)
        use_units(self, house.unit_system)

    def clean_distance(self) -> Length:
        """A distance that somebody can stand at."""
        distance: Length = self.cleaned_data["distance"]
        if not DISTANCE[0] <= distance.meters <= DISTANCE[1]:
            raise forms.ValidationError(_("A throw is between 0.1 m and 500 m (1600 ft). Check the distance."))
        return distance

    def facts(self) -> dict[str, Any]:
        """What the verb takes."""
        cleaned = self.cleaned_data
        return {
            "lux": cleaned["light"],
            **{name: cleaned[name] for name in ("at", "distance", "setting", "by", "text")},
        }
