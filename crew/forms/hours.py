"""Which week's hours are shown."""

from datetime import date

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.forms.base import RefusedForm

EARLIEST, LATEST = date(1900, 1, 1), date(2200, 12, 31)


class WeekForm(RefusedForm):
    """A day of the week."""

    week = forms.DateField(
        label=gettext_lazy("Week that holds the day"),
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
        error_messages={"invalid": gettext_lazy("Write a day, such as 2026-03-02.")},
    )

    def clean_week(self) -> date:
        day: date = self.cleaned_data["week"]
        if not EARLIEST <= day <= LATEST:
            raise forms.ValidationError(_("Write a day of this age."))
        return day
