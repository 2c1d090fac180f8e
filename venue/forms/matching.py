"""Which lights are to come together, on which size, and how closely."""

from collections.abc import Sequence
from itertools import groupby
from typing import Any, ClassVar

from django import forms
from django.template.loader import render_to_string
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.matching import COLOR_TOLERANCE_MIRED
from venue.forms.base import RefusedForm
from venue.forms.light import LightField, light_units
from venue.models.optics import SizeName
from venue.throw_book import PlaceLight

FEWEST, MOST = 2, 6
USUAL_SIZE = SizeName.FULL_BODY
MOST_MIRED = 200.0


class PlaceChecks(forms.CheckboxSelectMultiple):
    """Some of many, each as a large target over the whole line, under the names of their groups."""

    def render(self, name: str, value: Any, attrs: dict[str, Any] | None = None, renderer: Any = None) -> SafeString:
        return render_to_string("venue/place_checks_part.html", self.get_context(name, value, attrs))


class MatchForm(RefusedForm):
    """Two to six places; what else is left empty is the usual."""

    place = forms.MultipleChoiceField(
        label=gettext_lazy("Places whose lights come together"),
        widget=PlaceChecks,
        error_messages={
            "required": gettext_lazy("Choose two to six places."),
            "invalid_choice": gettext_lazy("One of the places asked for is not here any more. Choose again."),
        },
    )
    size = forms.ChoiceField(
        label=gettext_lazy("Pick-up"),
        choices=SizeName.choices,
        required=False,
        initial=USUAL_SIZE,
        error_messages={"invalid_choice": gettext_lazy("There is no such size. Choose one of these.")},
    )
    least = LightField(label=gettext_lazy("Least light on the performer"), required=False)
    tolerance = forms.FloatField(
        label=gettext_lazy("Colors count as the same up to a difference of, in mired"),
        required=False,
        min_value=0,
        max_value=MOST_MIRED,
        initial=int(COLOR_TOLERANCE_MIRED),
        help_text=gettext_lazy("15 is common practice, no source."),
    )
    asked: ClassVar[Sequence[str]] = ("size",)

    def __init__(self, *args: Any, lights: Sequence[PlaceLight], system: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.lights = lights
        self.fields["place"].choices = _choices(lights)  # type: ignore[attr-defined]
        self.fields["tolerance"].widget.attrs |= {"inputmode": "decimal", "step": "any"}
        light_units(self, system)

    def clean_place(self) -> list[PlaceLight]:
        """The lights of the places chosen, in the house's order."""
        refs = set(self.cleaned_data["place"])
        chosen = [light for light in self.lights if str(light.place.ref) in refs]
        if not FEWEST <= len(chosen) <= MOST:
            raise forms.ValidationError(
                _("Choose two to six places; %(number)d is chosen.")
                if len(chosen) == 1
                else _("Choose two to six places; %(number)d are chosen."),
                params={"number": len(chosen)},
            )
        return chosen

    def clean_size(self) -> str:
        """The usual one where none is named."""
        return self.cleaned_data["size"] or USUAL_SIZE

    def clean_tolerance(self) -> float:
        """The usual one where none is named [mired]."""
        tolerance: float | None = self.cleaned_data["tolerance"]
        return COLOR_TOLERANCE_MIRED if tolerance is None else tolerance


def _choices(lights: Sequence[PlaceLight]) -> list[tuple[str, list[tuple[str, str]]]]:
    groups = groupby(lights, key=lambda light: light.entry.position)
    return [(position.name, [(str(light.place.ref), _label(light)) for light in group]) for position, group in groups]


def _label(light: PlaceLight) -> str:
    unit = light.unit
    told = _("no unit here now") if unit is None else " · ".join(filter(None, [unit.tag, unit.source]))
    return _("Place %(label)s · %(unit)s") % {"label": light.place.label, "unit": told}
