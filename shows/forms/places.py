"""Which places are in use, what the show brings, and which number stands where."""

from collections.abc import Mapping, Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.models import ShowSpot
from venue.forms.base import RefusedForm
from venue.forms.positions import RowForm
from venue.models import Place

NOWHERE = "none"


class PlaceUseForm(forms.Form):
    """One tap: in use or not, against what was said before."""

    in_use = forms.TypedChoiceField(choices=(("yes", ""), ("no", "")), coerce=lambda value: value == "yes")
    version = forms.IntegerField(min_value=0, max_value=2**31 - 1)


class TourRowForm(RowForm):
    """A position that the show brings: truss, tower, floor stands."""

    kind = forms.CharField(
        label=gettext_lazy("What is it?"), max_length=40, required=False, help_text=gettext_lazy("Truss, tower, lift.")
    )
    field_order = ("name", "kind", "zone", "how_many", "labels")


class AssignForm(RefusedForm):
    """A place for each show number, as it stands now; a team has one field a light."""

    def __init__(
        self, *args: Any, shown: Mapping[ShowSpot, Sequence[Place]], places: Sequence[Place], **options: Any
    ) -> None:
        super().__init__(*args, **options)
        self.shown, self.places = shown, {str(place.ref): place for place in places}
        choices = [(NOWHERE, _("no place")), *((ref, str(place)) for ref, place in self.places.items())]
        for spot in shown:
            self._add(spot, choices)

    def _add(self, spot: ShowSpot, choices: Sequence[tuple[str, str]]) -> None:
        held = self.shown[spot]
        for light in range(max(1, len(held))):
            label = _("Show %(number)s") if light == 0 else _("Show %(number)s, light %(light)s")
            initial = str(held[light].ref) if light < len(held) else NOWHERE
            self.fields[f"place-{spot.ref}-{light}"] = forms.ChoiceField(
                label=label % {"number": spot.number, "light": light + 1},
                choices=choices,
                initial=initial,
            )
        version = forms.IntegerField(widget=forms.HiddenInput, initial=spot.version, min_value=1, max_value=2**31 - 1)
        self.fields[f"version-{spot.ref}"] = version

    def clean(self) -> dict[str, Any]:
        """No place twice."""
        cleaned = super().clean() or {}
        taken: dict[str, str] = {}
        for name, ref in list(cleaned.items()):
            if name.startswith("place-") and ref != NOWHERE:
                if ref in taken:
                    first = {"first": str(self.fields[taken[ref]].label)}
                    self.add_error(name, _("%(first)s stands there already. Choose another place for one.") % first)
                taken.setdefault(ref, name)
        return cleaned

    def changed(self) -> dict[ShowSpot, list[Place]]:
        """The numbers that were put elsewhere than shown, with their places."""
        wanted = {spot: self._wanted(spot) for spot in self.shown}
        return {spot: places for spot, places in wanted.items() if places != list(self.shown[spot])}

    def _wanted(self, spot: ShowSpot) -> list[Place]:
        names = [name for name in self.fields if name.startswith(f"place-{spot.ref}-")]
        return [self.places[ref] for name in names if (ref := self.cleaned_data[name]) != NOWHERE]

    def seen(self) -> dict[ShowSpot, int]:
        """The version of each number that was shown."""
        return {spot: self.cleaned_data[f"version-{spot.ref}"] for spot in self.shown}
