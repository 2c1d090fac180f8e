"""Of which day the loads are asked."""

from django import forms
from django.utils.translation import gettext_lazy

from venue.forms.base import RefusedForm


class LoadDayForm(RefusedForm):
    """A day of the house; empty: now."""

    on = forms.DateField(
        label=gettext_lazy("Units as they stand at noon on"),
        required=False,
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
        error_messages={"invalid": gettext_lazy("Write a date, such as 2026-03-02.")},
    )
