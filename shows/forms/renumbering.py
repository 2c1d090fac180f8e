"""Which number goes to which place, and who puts it there having seen what it changes."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.forms.arrival import NAME_LENGTH
from shows.renumbering import Light, Standing
from shows.wording.renumbering import light_choice, place_choice
from venue.forms.base import RefusedForm
from venue.models import Place


class MoveForm(RefusedForm):
    """A number and a place in use, as both stand now."""

    number = forms.ChoiceField(label=gettext_lazy("Which number?"))
    place = forms.ChoiceField(label=gettext_lazy("Where does it go?"))

    def __init__(self, *args: Any, standing: Standing, **options: Any) -> None:
        super().__init__(*args, **options)
        self.standing = standing
        self.lights = {light.key: light for light in standing.lights}
        self.places = {str(place.ref): place for place in standing.tonight.places}
        choose = ("", _("Choose one"))
        lights = [(key, light_choice(light, standing)) for key, light in self.lights.items()]
        places = [(ref, place_choice(place, standing)) for ref, place in self.places.items()]
        self.fields["number"].choices = [choose, *lights]  # type: ignore[attr-defined]
        self.fields["place"].choices = [choose, *places]  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        """The number does not stand there already."""
        cleaned = super().clean() or {}
        if cleaned.get("number") and cleaned.get("place"):
            there = self.standing.light_at(self.where)
            if there is not None and there.spot == self.light.spot:
                self.add_error("place", _("That number stands there already. Choose another place."))
        return cleaned

    @property
    def light(self) -> Light:
        return self.lights[self.cleaned_data["number"]]

    @property
    def where(self) -> Place:
        return self.places[self.cleaned_data["place"]]


class PutForm(RefusedForm):
    """`seen` is the fingerprint of what the person was shown; a name only where nobody signed in."""

    by = forms.CharField(label=gettext_lazy("Your name"), max_length=NAME_LENGTH)
    seen = forms.CharField(max_length=64, widget=forms.HiddenInput)

    def __init__(self, *args: Any, name: str | None, **options: Any) -> None:
        options["initial"] = {"by": name or ""}
        super().__init__(*args, **options)
        self.fields["seen"].error_messages["required"] = _("Look at what it changes, then do it.")
        if name is None:
            del self.fields["by"]
