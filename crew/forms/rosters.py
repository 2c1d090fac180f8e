"""Adding somebody to a roster."""

from django import forms
from django.utils.translation import gettext_lazy as _

from venue.forms.base import RefusedForm


class PersonForm(RefusedForm):
    """The name as sheets print it."""

    name = forms.CharField(label=_("Name"), max_length=120, help_text=_("As call sheets print it."))
