"""Walking a position."""

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.forms.base import RefusedForm
from venue.models import Place


class WalkForm(RefusedForm):
    """Who stood there, and the label at the end that was asked for, sent by the button that was tapped."""

    walked_by = forms.CharField(label=gettext_lazy("Who stands there?"), max_length=100)
    label = forms.CharField(max_length=40, widget=forms.HiddenInput)

    def __init__(self, *args: Any, places: Sequence[Place], **options: Any) -> None:
        super().__init__(*args, **options)
        self.by_label = {place.label: place for place in places}
        self.fields["label"].error_messages["required"] = _("Tap the label that is at the end asked for.")

    def clean_label(self) -> Place:
        """The place that has the label now."""
        place = self.by_label.get(self.cleaned_data["label"])
        if place is None:
            raise forms.ValidationError(_("No place has this label any more. Look at the labels below and tap again."))
        return place
