"""Circuits, as the panel says."""

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy

from venue.forms.base import VersionedForm
from venue.models import Circuit


class CircuitFacts(forms.ModelForm):
    """The columns of a circuit."""

    class Meta:
        model = Circuit
        fields = ("name", "volts", "rating_a", "other_a")
        labels: ClassVar[dict[str, Any]] = {
            "volts": gettext_lazy("Volts"),
            "rating_a": gettext_lazy("Rating of its breaker, amperes"),
            "other_a": gettext_lazy("What else draws on it, amperes"),
        }
        help_texts: ClassVar[dict[str, Any]] = {
            "volts": gettext_lazy("Between the two conductors that a unit is plugged to, such as 120 or 208."),
            "other_a": gettext_lazy("Work lights, a dimmer, anything but the units of this book; 0 if nothing does."),
        }


class CircuitForm(VersionedForm, CircuitFacts):
    """A circuit of the house. What stays empty is not recorded; nobody takes it for nothing."""

    def __init__(self, *args: Any, instance: Circuit, **options: Any) -> None:
        super().__init__(*args, row=instance, instance=instance, **options)
        if instance._state.adding:
            del self.fields["version"]

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        return {name: value for name, value in self.cleaned_data.items() if name != "version"}
