"""Of which days hours are shown."""

from datetime import timedelta
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.forms.people import DayField
from venue.forms.base import RefusedForm

MOST_DAYS = 366
"""So many at once: a bounded number of rows."""
_WRONG = {"invalid": gettext_lazy("Write a day, such as 2026-03-02.")}


class WeekForm(RefusedForm):
    """A day of the week."""

    week = DayField(label=gettext_lazy("Week that holds the day"), error_messages=_WRONG)


class DaysForm(RefusedForm):
    """From one day to another."""

    first = DayField(label=gettext_lazy("From"), error_messages=_WRONG)
    last = DayField(label=gettext_lazy("To"), error_messages=_WRONG)

    def clean(self) -> dict[str, Any]:
        """Some days, not too many."""
        cleaned = super().clean() or {}
        first, last = cleaned.get("first"), cleaned.get("last")
        if first and last and not timedelta(0) <= last - first < timedelta(days=MOST_DAYS):
            told = {"most": MOST_DAYS}
            self.add_error("last", _("Write a day that is not before the first, and %(most)s days at most.") % told)
        return cleaned
