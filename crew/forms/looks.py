"""A form with every kind of field, for the page that shows all parts of the design."""

from typing import ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from venue.forms.base import RefusedForm


class LooksForm(RefusedForm):
    """Stored nowhere."""

    name = forms.CharField(label=_("Name"), max_length=40, help_text=_("As call sheets print it."))
    notes = forms.CharField(label=_("Notes"), required=False, widget=forms.Textarea(attrs={"rows": 2}))
    side = forms.ChoiceField(
        label=_("Side"),
        choices=[("", _("choose the side")), ("left", _("house left · stage right"))],
    )
    way = forms.ChoiceField(
        label=_("How is it known?"),
        choices=[("measured", _("measured")), ("order", _("not measured: only its order"))],
        widget=forms.RadioSelect,
    )
    agreed = forms.BooleanField(label=_("Both are right"), required=False)
    day = forms.DateField(label=_("Day"), required=False, widget=forms.DateInput(attrs={"type": "date"}))
    sections: ClassVar = ((_("Fields in a section"), ("way", "agreed", "day")),)
