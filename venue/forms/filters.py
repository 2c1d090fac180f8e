"""Color, correction and diffusion filters, as their swatch says."""

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy

from venue.forms.base import NOT_RECORDED, VersionedForm
from venue.models import ColorFilter

NEUTRAL = (NOT_RECORDED, ("yes", gettext_lazy("yes")), ("no", gettext_lazy("no")))
SAID = {"yes": True, "no": False}


class FilterFacts(forms.ModelForm):
    """The columns of a filter."""

    class Meta:
        model = ColorFilter
        fields = ("code", "name", "transmission_pct", "shift_mired", "is_diffusion")
        labels: ClassVar[dict[str, Any]] = {
            "transmission_pct": gettext_lazy("Light that passes, percent"),
            "shift_mired": gettext_lazy("Shift of a correction, mired"),
            "is_diffusion": gettext_lazy("It diffuses the beam"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "name": gettext_lazy("In the house's words, such as pale amber."),
            "transmission_pct": gettext_lazy("From its swatch or from a meter, never from its name."),
        }


class FilterForm(VersionedForm, FilterFacts):
    """A filter that the house has."""

    near_neutral = forms.ChoiceField(
        label=gettext_lazy("Does it take every color about alike?"),
        choices=NEUTRAL,
        required=False,
        help_text=gettext_lazy("A gray does, a deep color does not. Only then do several multiply in good order."),
    )
    at_field: ClassVar[dict[str, str]] = {"is_near_neutral": "near_neutral"}

    def __init__(self, *args: Any, instance: ColorFilter, **options: Any) -> None:
        said = {True: "yes", False: "no"}.get(instance.is_near_neutral, "")  # type: ignore[arg-type]
        super().__init__(*args, row=instance, instance=instance, initial={"near_neutral": said}, **options)
        self.order_fields(["version", "code", "name", "transmission_pct", "near_neutral", "shift_mired"])
        if instance._state.adding:
            del self.fields["version"]

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        own = {name: self.cleaned_data[name] for name in FilterFacts.Meta.fields}
        return {**own, "is_near_neutral": SAID.get(self.cleaned_data["near_neutral"])}
