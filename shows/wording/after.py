"""After the show, in words: what was entered, what is booked, what was stored."""

from collections.abc import Mapping

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shows.after import Entry, Night, UnitDay
from shows.models.arrival import CheckItem
from venue.models import HoursAdded
from venue.models.meters import Cause
from venue.wording_hours import hours_words, when_words

FAILED_WORDS: Mapping[str, str | Promise] = {
    CheckItem.STRIKE: gettext_lazy("It did not strike: out of service"),
    CheckItem.DOUSER: gettext_lazy("The douser: no full blackout"),
    CheckItem.FRAMES: gettext_lazy("Frames"),
    CheckItem.IRIS: gettext_lazy("The iris"),
    CheckItem.ZOOM: gettext_lazy("Zoom or edge"),
    CheckItem.FOCUS: gettext_lazy("Focus"),
    CheckItem.LEVEL: gettext_lazy("Less light than it should give"),
    CheckItem.SIGHT: gettext_lazy("The sight: a note only"),
}
"""What a unit may have failed in, with what its fault then means."""


def entry_words(entry: Entry, zone: str) -> str:
    """What counts already, who entered it and when; times by the house's clocks."""
    words = {
        "hours": hours_words(entry.hours),
        "until": when_words(entry.at, zone),
        "by": entry.entered_by,
        "when": when_words(entry.entered_at, zone),
    }
    if isinstance(entry, HoursAdded):
        return _("%(hours)s h burned until %(until)s, entered by %(by)s on %(when)s") % words
    if entry.cause in (Cause.FITTING, Cause.METER):
        return _("the meter showed %(hours)s h as it or the lamp was changed on %(until)s, entered by %(by)s") % words
    return _("the meter showed %(hours)s h on %(until)s, entered by %(by)s on %(when)s") % words


def booked_words(row: UnitDay) -> str:
    """What the calendar had the unit burn, where nobody entered it yet."""
    words = {"hours": hours_words(row.booked_h), "count": row.booked_strikes}
    text = ngettext("%(hours)s h, lit once", "%(hours)s h, lit %(count)s times", row.booked_strikes)
    return text % words


def last_words(row: UnitDay, zone: str) -> str:
    """What the unit's meter showed last."""
    if row.meter is None:
        return ""
    hours, at = (row.meter.starts_h, row.meter.starts_at) if row.last is None else (row.last.hours, row.last.at)
    return _("The meter showed %(hours)s h on %(when)s.") % {"hours": hours_words(hours), "when": when_words(at, zone)}


def night_words(night: Night) -> str:
    """How far a day is: "Mar 4: 3 of 5 entered"."""
    day = date_format(night.day, "D, M j")
    if not night.units:
        return _("%(day)s: no unit") % {"day": day}
    if night.is_entered:
        return _("%(day)s: entered") % {"day": day}
    words = {"day": day, "entered": night.entered, "all": len(night.units)}
    return _("%(day)s: %(entered)s of %(all)s entered") % words


def stored_words(units: int, faults: int) -> str:
    """What came of it, in one sentence."""
    parts = []
    if units:
        parts.append(ngettext("Hours of %(n)s unit are in the book.", "Hours of %(n)s units are in the book.", units))
    if faults:
        parts.append(ngettext("%(m)s fault is on file.", "%(m)s faults are on file.", faults))
    if not parts:
        parts.append(_("That fault is on file already. Nothing was changed."))
    return " ".join(parts) % {"n": units, "m": faults}
