"""Hours and readings in words: what is wrong with a reading, what is asked about it, how much was burned."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from venue.core.forecast import State
from venue.core.hours import ReadingProblem
from venue.core.local_time import shown, wall_time
from venue.core.reading_lines import LineProblem
from venue.core.spares import StockState

if TYPE_CHECKING:
    from venue.meter_check import CheckProblem

PROBLEM_SENTENCES: dict[str, str | Promise] = {
    "backward": gettext_lazy(
        "The meter showed %(other)s h on %(when)s and can't show less after that. If it was replaced or reset, "
        "enter that first; at a relamp, enter the relamp."
    ),
    "ahead-of-later": gettext_lazy(
        "The meter showed %(other)s h later, on %(when)s, and can't have shown more before that."
    ),
    "faster-than-clock": gettext_lazy(
        "That is %(change)s h between this and %(when)s, but only %(elapsed)s h passed: the meter can have shown "
        "from %(least)s to %(most)s h."
    ),
    "strikes-backward": gettext_lazy(
        "The strikes count backward against %(other_strikes)s on %(when)s. Correct them, or leave them empty."
    ),
    "over-14": gettext_lazy("%(change)s h between this and %(when)s, more than 14 h in a day: right?"),
    "few-hours-a-strike": gettext_lazy(
        "%(strikes)s strikes in %(change)s h between this and %(when)s, less than half an hour each: right?"
    ),
    "same-time": gettext_lazy(
        "The meter was read at this very time already: %(other)s h. Strike that out first, or write another time."
    ),
}


def problem_sentence(problem: ReadingProblem, zone: str) -> str:
    """What is wrong or odd about a reading, and what to do."""
    return str(PROBLEM_SENTENCES[problem.code]) % {
        "other": hours_words(problem.other.hours),
        "when": when_words(problem.other.at, zone),
        "change": hours_words(problem.change_h),
        "elapsed": hours_words(problem.elapsed_h),
        "least": hours_words(problem.least_h),
        "most": hours_words(problem.most_h),
        "strikes": problem.strikes,
        "other_strikes": problem.other.strikes,
    }


def added_sentence(problem: ReadingProblem, zone: str) -> str:
    """What is wrong or odd about hours added, and what to do."""
    if problem.is_question:
        return problem_sentence(problem, zone)
    words = {"change": hours_words(problem.change_h), "elapsed": hours_words(problem.elapsed_h)}
    refusal = _("That is %(change)s h, but only %(elapsed)s h passed since the entry before, on %(when)s.")
    return refusal % {**words, "when": when_words(problem.other.at, zone)}


def hours_words(hours: Decimal | None) -> str:
    """Hours with one decimal, or with two where the second is not zero: 849.7, 0.25."""
    if hours is None:
        return "…"
    rounded = Decimal(hours).quantize(Decimal("0.01"))
    return f"{rounded:.1f}" if rounded == rounded.quantize(Decimal("0.1")) else f"{rounded:.2f}"


def when_words(at: datetime, zone: str) -> str:
    """The instant by the house's clocks: Mar 1, 2026, 11:10 PM."""
    wall = wall_time(at, zone)
    return f"{date_format(wall, 'M j, Y')}, {date_format(wall, 'g:i A')}"


def ago_words(days: int) -> str:
    """How long ago in the house's days: 0 is tonight's."""
    if days <= 0:
        return _("earlier today")
    if days == 1:
        return _("last night")
    return ngettext("%(days)s day ago", "%(days)s days ago", days) % {"days": days}


def since_words(change: Decimal, days: int) -> str:
    """What was burned since the last reading, so many of the house's days ago, as a question."""
    words = {"change": hours_words(change), "days": days}
    if days <= 0:
        return _("%(change)s h since earlier today: right?") % words
    if days == 1:
        return _("%(change)s h since last night: right?") % words
    return ngettext("%(change)s h in %(days)s day: right?", "%(change)s h in %(days)s days: right?", days) % words


STATE_WORDS: dict[State, str | Promise] = {
    "ok": gettext_lazy("within its life"),
    "warn": gettext_lazy("past its warning"),
    "stop": gettext_lazy("at its stop: it comes out"),
    "unknown": gettext_lazy("no rated hours on file"),
}
STOCK_SENTENCES: dict[StockState, str | Promise] = {
    "ok": gettext_lazy("Enough: %(on_shelf)s on the shelf, %(on_order)s on order, %(keep)s to keep."),
    "order": gettext_lazy("Order now: %(on_shelf)s on the shelf, %(on_order)s on order, %(keep)s to keep."),
    "none": gettext_lazy("None on the shelf: %(on_order)s on order, %(keep)s to keep."),
}


def state_words(state: State) -> str:
    """What a lamp's hours mean."""
    return str(STATE_WORDS[state])


def stock_words(state: StockState, on_shelf: int, on_order: int, keep: int) -> str:
    """Whether to order, with the numbers that say so."""
    return str(STOCK_SENTENCES[state]) % {"on_shelf": on_shelf, "on_order": on_order, "keep": keep}


def life_words(hours: Decimal, stop_h: Decimal | None, left_h: Decimal | None) -> str:
    """How far a lamp is: "480.0 of 1000 h, 520.0 h left"."""
    if stop_h is None or left_h is None:
        return _("%(hours)s h") % {"hours": hours_words(hours)}
    numbers = {"hours": hours_words(hours), "stop": f"{stop_h.normalize():f}", "left": hours_words(abs(left_h))}
    if left_h > 0:
        return _("%(hours)s of %(stop)s h, %(left)s h left") % numbers
    return _("%(hours)s of %(stop)s h, %(left)s h past its stop") % numbers


def lasts_words(days: int, until: datetime, zone: str) -> str:
    """How long a lamp lasts by the usual use."""
    if days > 3650:
        return _("more than ten years at the usual use")
    words = {"days": days, "day": date_format(wall_time(until, zone), "M j, Y")}
    text = ngettext(
        "about %(days)s day at the usual use, until %(day)s",
        "about %(days)s days at the usual use, until %(day)s",
        days,
    )
    return text % words


LINE_WORDS: dict[str, str | Promise] = {
    "reading": gettext_lazy("read"),
    "hours-added": gettext_lazy("hours added"),
    "lamp-out": gettext_lazy("lamp %(lamp)s out"),
    "lamp-fitted": gettext_lazy("lamp %(lamp)s in"),
    "meter-fitted": gettext_lazy("meter put"),
    "meter-replaced": gettext_lazy("meter replaced or reset"),
}


def line_words(what: str, lamp: str) -> str:
    """What a line of a unit's book is about."""
    return str(LINE_WORDS[what]) % {"lamp": lamp}


LINE_SENTENCES: dict[str, str | Promise] = {
    "no-header": gettext_lazy("The first line names the columns: write unit, at, meter_h, strikes there."),
    "no-column": gettext_lazy("There is no column for %(column)s. Write unit, at, meter_h into the first line."),
    "column-twice": gettext_lazy("Two columns are for %(column)s: “%(value)s” is the second. Leave one out."),
    "too-many-lines": gettext_lazy("There are more than %(value)s lines. Split the file."),
    "bad-quotes": gettext_lazy("A quotation mark is not closed, or a cell is too long. Correct it from here on."),
    "no-unit": gettext_lazy("unit: write the unit's tag."),
    "no-time": gettext_lazy("at: write when it was read, as 2026-02-01 23:10."),
    "bad-time": gettext_lazy("at: “%(value)s” can't be read as a time. Write it as 2026-02-01 23:10."),
    "time-missing": gettext_lazy("at: “%(value)s” does not exist there, the clocks go forward then."),
    "time-twice": gettext_lazy("at: “%(value)s” comes twice, the clocks go back then. Add the offset, as -05:00."),
    "lies-ahead": gettext_lazy("at: “%(value)s” lies ahead. Write when it was read."),
    "no-hours": gettext_lazy("meter_h: write what the meter showed."),
    "bad-hours": gettext_lazy("meter_h: “%(value)s” can't be read as hours. Write them as 846.5."),
    "bad-strikes": gettext_lazy("strikes: “%(value)s” is no whole number. Write it as 131, or leave it empty."),
}


def line_sentence(problem: LineProblem) -> str:
    """What is wrong in a line of a file of readings, and what would be right."""
    value = problem.value if len(problem.value) <= 60 else problem.value[:59] + "…"
    return str(LINE_SENTENCES[problem.code]) % {"column": problem.column, "value": value}


def no_unit_sentence(tag: str) -> str:
    """The tag is no unit's."""
    return _("unit: “%(tag)s” is no unit of this house. Write its tag as on the list of units.") % {"tag": tag[:60]}


def no_meter_sentence(tag: str) -> str:
    """The unit had no meter at the time of the line."""
    return _("unit: %(tag)s had no meter at that time. Put its meter on file from then on.") % {"tag": tag}


CHECK_SENTENCES: dict[str, str | Promise] = {
    "backward": gettext_lazy(
        "%(subject)s, %(when)s: the meter shows %(found)s h after %(expected)s h; strike one of the two out"
    ),
    "strikes-backward": gettext_lazy(
        "%(subject)s, %(when)s: %(found)s strikes after %(expected)s; strike one of the two out"
    ),
    "faster-than-clock": gettext_lazy(
        "%(subject)s, %(when)s: from %(expected)s h to %(found)s h is more than the clock allows; "
        "strike one of the two out"
    ),
    "outside": gettext_lazy("%(subject)s, %(when)s: the reading of %(found)s h is outside its meter's time"),
    "stray": gettext_lazy(
        "%(subject)s, %(when)s: a lamp goes by a reading of %(found)s h that is struck out or another unit's"
    ),
    "tally": gettext_lazy("%(subject)s: the tally holds %(found)s where the book adds up to %(expected)s"),
}


def check_sentence(problem: CheckProblem, zone: str) -> str:
    """What the check found, on one line."""
    when = "" if problem.at is None else shown(problem.at, zone)
    words = {"subject": problem.subject, "when": when, "found": problem.found, "expected": problem.expected}
    return str(CHECK_SENTENCES[problem.code]) % words
