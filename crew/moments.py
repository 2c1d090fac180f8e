"""How days and moments are written, on pages and paper as in refusals."""

from datetime import date, datetime

from django.utils import dateformat

from venue.core.local_time import wall_time


def moment(wall: datetime) -> str:
    """ "Mar 2, 2026, 6:30 PM"."""
    return dateformat.format(wall, "M j, Y, g:i A")


def moment_at(instant: datetime, zone: str) -> str:
    """The same of an instant, by the clocks of the zone."""
    return moment(wall_time(instant, zone))


def day_words(day: date) -> str:
    """ "Mar 2, 2026"."""
    return dateformat.format(day, "M j, Y")
