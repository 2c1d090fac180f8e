"""Which list leaves the house, and in which form."""

from datetime import date, datetime, timedelta
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.forms.labels import usual_paper
from venue.core.local_time import house_day
from venue.forms.base import RefusedForm
from venue.models import House

LISTS = (
    ("inventory", gettext_lazy("Inventory: units, state, where, lamp, hours")),
    ("hours", gettext_lazy("Lamp hours: limits and what is left")),
    ("log", gettext_lazy("Maintenance log of the days below")),
)
FORMS = (
    ("csv", gettext_lazy("CSV file, for a spreadsheet")),
    ("letter", gettext_lazy("PDF, Letter")),
    ("a4", gettext_lazy("PDF, A4")),
)
DAYS_SHOWN = timedelta(days=30)
EARLIEST, LATEST = date(1900, 1, 1), date(9998, 12, 31)


def _day_field(label: Any) -> forms.DateField:
    widget = forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})
    errors = {"invalid": gettext_lazy("Write a date, such as 2026-03-02.")}
    return forms.DateField(label=label, widget=widget, required=False, error_messages=errors)


class OutForm(RefusedForm):
    """A list, its form, and for the log its days."""

    what = forms.ChoiceField(label=gettext_lazy("Which list?"), choices=LISTS, widget=forms.RadioSelect)
    form = forms.ChoiceField(label=gettext_lazy("As what?"), choices=FORMS, widget=forms.RadioSelect)
    first = _day_field(gettext_lazy("Log from"))
    last = _day_field(gettext_lazy("Log until"))
    asked = ("first", "last")

    def __init__(self, *args: Any, house: House, now: datetime, **options: Any) -> None:
        self.today = house_day(now, house.time_zone, house.day_turns_at)
        options["initial"] = {
            "what": "inventory",
            "form": usual_paper(house),
            "first": self.today - DAYS_SHOWN,
            "last": self.today,
        }
        super().__init__(*args, **options)

    def clean(self) -> dict[str, Any]:
        """Days that were left out are the last thirty."""
        cleaned = super().clean() or {}
        last = cleaned["last"] = cleaned.get("last") or self.today
        first = cleaned["first"] = cleaned.get("first") or max(last, EARLIEST + DAYS_SHOWN) - DAYS_SHOWN
        for name, day in (("first", first), ("last", last)):
            if not EARLIEST <= day <= LATEST:
                self.add_error(name, _("Write a date of this age."))
        if first > last:
            self.add_error("last", _("The last day is before the first. Write a later one."))
        return cleaned
