"""A color of the show, as its swatch says."""

from collections.abc import Sequence
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.asks import JOINT
from shows.models import ShowColor
from venue.forms.base import VersionedForm


class ColorFacts(forms.ModelForm):
    """The columns of a color."""

    class Meta:
        model = ShowColor
        fields = ("code", "name", "transmission_pct", "shift_mired", "is_diffusion")
        labels: ClassVar[dict[str, Any]] = {
            "transmission_pct": gettext_lazy("Light that passes, percent"),
            "shift_mired": gettext_lazy("Shift of a correction, mired"),
            "is_diffusion": gettext_lazy("It diffuses the beam"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "code": gettext_lazy("As the frames name it."),
            "name": gettext_lazy("In the show's words, such as pale amber."),
            "transmission_pct": gettext_lazy("From its swatch or from a meter, never from its name."),
        }


class ColorForm(VersionedForm, ColorFacts):
    """A color that the show brings or asks for."""

    asked: ClassVar[Sequence[str]] = ("is_diffusion",)

    def __init__(self, *args: Any, instance: ShowColor, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)
        if instance._state.adding:
            del self.fields["version"]

    def clean_code(self) -> str:
        """One color, not two in one frame."""
        code: str = self.cleaned_data["code"]
        if JOINT in code:
            message = _("A plus stands between two colors of one frame: explain each of them by itself.")
            raise forms.ValidationError(message)
        return code

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: self.cleaned_data[name] for name in ColorFacts.Meta.fields}
