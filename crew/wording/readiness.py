"""Whether a show can run, in one sentence, and what stops it."""

from collections.abc import Iterable
from datetime import timedelta

from django.utils import dateformat
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.readiness import Readiness, Stop
from shows.fit import Decided
from shows.wording.limits import stands_on_out
from shows.wording.numbers import number_list

EVENING_FROM = 17


def when(found: Readiness) -> str:
    """ "Tonight, 8:00 PM", by the house's day."""
    wall = found.event.starts_wall
    if found.day == found.today:
        day = _("Tonight") if wall.hour >= EVENING_FROM or wall.date() != found.day else _("Today")
    elif found.day == found.today + timedelta(days=1):
        day = _("Tomorrow")
    else:
        day = dateformat.format(found.day, "l, M j")
    return _("%(day)s, %(time)s") % {"day": day, "time": dateformat.format(wall, "g:i A")}


def sentence(found: Readiness) -> str:
    """ "Tonight, 8:00 PM, The Weathervane Revue at Lantern Street: can run." or "…: not yet. 1 number to fill." """
    engagement = found.event.engagement
    told = {"when": when(found), "show": engagement.name, "house": engagement.house.name}
    if not found.stops:
        return _("%(when)s, %(show)s at %(house)s can run.") % told
    told["stop"] = stop_sentence(found.stops[0])
    return _("%(when)s, %(show)s at %(house)s can't run yet. %(stop)s") % told


def stop_sentence(stop: Stop) -> str:
    """What is missing or wrong."""
    if stop.code == "fix":
        return _("FIX: %(sentence)s") % {"sentence": stop.sentence}
    if stop.code == "ask":
        return _("ASK the tour: %(sentence)s") % {"sentence": stop.sentence}
    if stop.code == "unplaced":
        return _("No place yet for show %(numbers)s.") % {"numbers": number_list(stop.numbers)}
    if stop.code == "unit-out":
        pairs = zip(stop.numbers, stop.units, strict=True)
        return capfirst("; ".join(stands_on_out(number, unit) for number, unit in pairs)) + "."
    if stop.code == "fit":
        return not_fit(stop.numbers)
    if stop.code == "to-fill":
        return to_fill(stop.numbers)
    return {
        "no-paperwork": _("No show numbers are in yet: take in the tour's paperwork."),
        "no-call": _("No crew is called yet."),
        "none-issued": _("The call sheet is not issued yet."),
        "changed-not-issued": _("It changed since the last call sheet: issue the next revision."),
    }[stop.code]


def to_fill(numbers: tuple[str, ...]) -> str:
    """ "Nobody is on show 3, 5 yet." """
    if not numbers:
        return _("Somebody without a show number is still to be found.")
    text = _("Nobody is on show %(numbers)s yet.")
    return text % {"numbers": number_list(numbers)}


def fit_sentence(still_open: Iterable[Decided]) -> str:
    """ "Show 3, 5: not all that the show asks can be done, …"; empty where nothing is open."""
    numbers = tuple(dict.fromkeys(each.finding.number for each in still_open))
    return not_fit(numbers) if numbers else ""


def not_fit(numbers: tuple[str, ...]) -> str:
    """What the show asks and does not get, where nobody decided."""
    text = _("Show %(numbers)s: not all that the show asks can be done, and nobody has decided yet.")
    return text % {"numbers": number_list(numbers)}
