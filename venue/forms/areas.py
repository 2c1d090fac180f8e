"""Areas of a set-up that lights have to reach."""

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy

from venue.forms.base import VersionedForm
from venue.forms.corners import CornersField, corner_columns, corners_shown, use_plan_units
from venue.models import Area
from venue.models.coverage import AreaKind
from venue.wording_corners import corners_words


class AreaForm(VersionedForm):
    """A named part of the plan."""

    name = forms.CharField(
        label=gettext_lazy("Name"), max_length=60, help_text=gettext_lazy("Such as orchestra pit or center aisle.")
    )
    kind = forms.ChoiceField(label=gettext_lazy("What it is"), choices=AreaKind.choices)
    corners = CornersField(label=gettext_lazy("Its corners"))

    def __init__(self, *args: Any, instance: Area, **options: Any) -> None:
        system = instance.setup.house.unit_system
        shown = {"name": instance.name, "kind": instance.kind, "corners": corners_shown(instance, system)}
        super().__init__(*args, row=instance, initial=shown, **options)
        self.system = system  # type: ignore[assignment]
        use_plan_units(self, system)
        if instance._state.adding:
            del self.fields["version"]

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        own = {name: self.cleaned_data[name] for name in ("name", "kind")}
        if "corners" not in self.changed_data:  # its text may only be how the form shows what is stored
            return own
        return {**own, **corner_columns(self.cleaned_data["corners"])}

    def _shown(self, field: Any, value: Any) -> str:
        return corners_words(value, self.system) if field.name == "corners" else super()._shown(field, value)
