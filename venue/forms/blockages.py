"""What is in the way of a position's lights."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, ClassVar

from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.forms.base import Section, VersionedForm
from venue.forms.corners import CornersField, corner_columns, corners_shown, use_plan_units
from venue.forms.pans import PAN_FIELDS, PansForm, pans_shown
from venue.models import Blockage, Place
from venue.wording_corners import corners_words, pan_words


class BlockageForm(PansForm, VersionedForm):
    """Something in the way, in words, and if known which part of the plan it hides or between which pans it is."""

    name = forms.CharField(
        label=gettext_lazy("What is in the way"),
        max_length=120,
        help_text=gettext_lazy("Such as speaker array house left, or the balcony rail."),
    )
    place = forms.ModelChoiceField(
        label=gettext_lazy("For which place"),
        queryset=Place.objects.none(),
        required=False,
        empty_label=gettext_lazy("all places of this position"),
    )
    corners = CornersField(label=gettext_lazy("The part of the plan that it hides"), required=False)
    noted_on = forms.DateField(
        label=gettext_lazy("Noted on"),
        required=False,
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
    )
    sections: ClassVar[Sequence[Section]] = (
        (gettext_lazy("What it hides, if that is known"), ("corners",)),
        (gettext_lazy("Between which pans it is, if that is known"), PAN_FIELDS),
        (gettext_lazy("Noted"), ("noted_on",)),
    )
    asked = ("pan_from_side", "pan_to_side")
    at_field: ClassVar[Mapping[str, str]] = {"pan_from_deg": "pan_from", "pan_to_deg": "pan_to"}

    def __init__(self, *args: Any, instance: Blockage, today: date, **options: Any) -> None:
        system = instance.position.house.unit_system
        noted_on = today if instance._state.adding else instance.noted_on
        shown = {"name": instance.name, "place": instance.place_id, "noted_on": noted_on}
        shown |= {"corners": corners_shown(instance, system), **pans_shown(instance)}
        super().__init__(*args, row=instance, initial=shown, **options)
        self.today, self.system = today, system  # type: ignore[assignment]
        use_plan_units(self, system)
        self._offer_places(instance)
        if instance._state.adding:
            del self.fields["version"]

    def _offer_places(self, row: Blockage) -> None:
        places = row.position.places.of_house().select_related("position")
        field: Any = self.fields["place"]
        field.queryset = places.filter(Q(ended_at__isnull=True) | Q(pk=row.place_id))
        field.label_from_instance = lambda place: place.label

    def clean(self) -> dict[str, Any]:
        """Nothing is noted ahead of time."""
        cleaned = super().clean() or {}
        noted_on = cleaned.get("noted_on")
        if noted_on is not None and noted_on > self.today:
            self.add_error("noted_on", _("This day lies ahead. Write when it was seen."))
        return cleaned

    def values(self) -> dict[str, Any]:
        """Columns by name."""
        own = {name: self.cleaned_data[name] for name in ("name", "place", "noted_on")} | self.pans
        if "corners" not in self.changed_data:  # its text may only be how the form shows what is stored
            return own
        return {**own, **corner_columns(self.cleaned_data["corners"])}

    def _shown(self, field: Any, value: Any) -> str:
        if field.name == "corners" and value:
            return corners_words(value, self.system)
        if field.name.startswith("pan_") and value is not None:
            return pan_words(value)
        return super()._shown(field, value or None)
