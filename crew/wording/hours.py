"""Sentences on hours: what is wrong in a table of times or in rules, what flags mean, what a report is of."""

from collections.abc import Mapping
from datetime import date

from django.utils import dateformat
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.core.hours.problems import Problem

FLAG_WORDS: Mapping[str, Promise] = {
    "ambiguous-time": gettext_lazy("time shown twice"),
    "off-grid-start": gettext_lazy("start off the grid"),
    "short-rest": gettext_lazy("short rest"),
    "forced-call": gettext_lazy("forced call"),
    "recall": gettext_lazy("recall"),
    "short-meal": gettext_lazy("short meal"),
    "late-meal": gettext_lazy("late meal"),
    "second-meal-late": gettext_lazy("second meal late"),
    "night": gettext_lazy("night"),
    "seventh-day": gettext_lazy("seventh day"),
    "holiday": gettext_lazy("holiday"),
    "long-day": gettext_lazy("long day"),
    "reporting-time": gettext_lazy("reporting time"),
}
"""Each flag in a word or two."""
FLAG_SENTENCES: Mapping[str, Promise] = {
    "ambiguous-time": gettext_lazy("Clocks show a time of this call twice; the first of the two was taken."),
    "off-grid-start": gettext_lazy("The call does not begin on the grid on which the house's calls begin."),
    "short-rest": gettext_lazy("The rest after the working day before was not over when this call began."),
    "forced-call": gettext_lazy("The call was taken on before the rest was over."),
    "recall": gettext_lazy("The person was back within the gap of a recall; its minimum holds."),
    "short-meal": gettext_lazy("A break was shorter than 30 minutes: it counts as work and is no meal."),
    "late-meal": gettext_lazy("The meal came later than the rules allow, or not at all."),
    "second-meal-late": gettext_lazy("After the first meal, the next came later than the rules allow, or not at all."),
    "night": gettext_lazy("Some of the work was in the night."),
    "seventh-day": gettext_lazy("The seventh working day in a row, or a later one."),
    "holiday": gettext_lazy("Some of the work was on a holiday."),
    "long-day": gettext_lazy("The working day was longer than the rules call a long day."),
    "reporting-time": gettext_lazy("Sent home early: the pay for reporting is due, and more than what was worked."),
}
"""Each flag in a sentence."""
PROBLEM_SENTENCES: Mapping[str, Promise] = {
    # A table of times
    "empty": gettext_lazy("the file is empty; write it, a key or a line at least"),
    "binary": gettext_lazy("this is not text; save the table as CSV"),
    "too-big": gettext_lazy("the file is larger than %(limit)s bytes; leave out what does not belong to it"),
    "too-many-lines": gettext_lazy("more than %(limit)s lines; split the table"),
    "no-column": gettext_lazy("there is no column %(column)s; add it"),
    "column-twice": gettext_lazy("the column %(column)s stands twice; keep one of the two"),
    "unknown-column": gettext_lazy("unknown column “%(column)s”; known are %(known)s"),
    "open-quote": gettext_lazy("a quotation mark is never closed; close it"),
    "extra-cells": gettext_lazy(
        "more cells than columns: %(cells)s; take them out, or quote a cell with a comma in it"
    ),
    "no-person": gettext_lazy("no person; write a name"),
    "long-person": gettext_lazy("the name is longer than %(limit)s characters; shorten it"),
    "no-time": gettext_lazy("%(column)s is empty; write a time such as 2026-03-02 08:00"),
    "bad-time": gettext_lazy("%(column)s: “%(value)s” is no time; write one such as 2026-03-02 08:00"),
    "time-missing": gettext_lazy(
        "%(column)s: clocks in %(zone)s never show “%(value)s”, they are set forward over it; write the time that they "
        "showed"
    ),
    "end-first": gettext_lazy(
        "%(column)s %(end)s is not after %(start)s; correct one of them, and write offsets where clocks were set back"
    ),
    "too-long": gettext_lazy("%(column)s is more than %(limit)s hours after the start; correct the dates"),
    "half-a-meal": gettext_lazy("%(column)s is empty; a meal has a start and an end: write both or neither"),
    "meal-outside": gettext_lazy("a meal is not within the call; correct its times"),
    "meals-overlap": gettext_lazy("the meals overlap; correct their times"),
    "calls-overlap": gettext_lazy(
        "%(person)s is in the call of line %(first)s at the same time; nobody can be in two: correct the times"
    ),
    "off-grid-start": gettext_lazy(
        "the call does not begin on the rules' grid of %(grid)s minutes; correct the start, or leave out start_grid_min"
    ),
    # Rules
    "not-utf-8": gettext_lazy("the file is not UTF-8; save it as UTF-8"),
    "not-json": gettext_lazy("line %(line)s, column %(column)s is not JSON; correct it there"),
    "too-deep": gettext_lazy("the file nests deeper than rules do; write the keys plainly"),
    "not-object": gettext_lazy("is no object; write {…} with keys in it"),
    "not-list": gettext_lazy("is no list; write […]"),
    "unknown-key": gettext_lazy("unknown key; known here: %(known)s"),
    "duplicate-key": gettext_lazy("the key stands twice; keep one of the two"),
    "missing": gettext_lazy("is missing; write it"),
    "bad-number": gettext_lazy("%(value)s can't be; write a number from %(least)s to %(most)s"),
    "not-whole": gettext_lazy("%(value)s is no whole number; write whole minutes"),
    "bad-minutes": gettext_lazy("%(value)s can't be; write one of %(known)s"),
    "bad-choice": gettext_lazy("%(value)s is not known; write one of %(known)s"),
    "bad-clock": gettext_lazy("%(value)s is no time of day; write one such as 08:00"),
    "bad-day": gettext_lazy("%(value)s is no day; write one such as 2026-12-25"),
    "no-night": gettext_lazy("begins and ends at the same time; write two times, or leave the night out"),
    "goes-with": gettext_lazy("is missing; %(partner)s says nothing without it: write both or neither"),
    "needs-rest": gettext_lazy("is missing; a day since the turnaround needs the rest that is one"),
}


def problem_sentence(problem: Problem) -> str:
    """What is wrong and what would be right, without the place."""
    data = {name: _shown(value) for name, value in problem.data.items()}
    return str(PROBLEM_SENTENCES[problem.code]) % {"column": problem.column, **data}


def problem_at_place(problem: Problem) -> str:
    """The same with its line or its path in front."""
    sentence = problem_sentence(problem)
    if problem.path:
        return f"{problem.path}: {sentence}"
    if problem.line is None:
        return sentence
    return _("line %(line)s: %(sentence)s") % {"line": problem.line, "sentence": sentence}


def _shown(value: object) -> str:
    text = ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)
    return text if len(text) <= 400 else f"{text[:399]}…"


def call_title(show: str, event: str, day: date) -> str:
    """ "Hours of Nine Paper Boats, Show, Tuesday, March 3, 2026"."""
    return _("Hours of %(show)s, %(event)s, %(day)s") % {"show": show, "event": event, "day": _long(day)}


def show_title(show: str, first: date, last: date) -> str:
    """ "Hours of Nine Paper Boats, Mar 2, 2026 – Mar 8, 2026": the days of the show, not of the hours."""
    return _("Hours of %(show)s, %(days)s") % {"show": show, "days": span_words(first, last)}


def days_title(name: str, first: date, last: date) -> str:
    """ "Hours of Ada Quillfeather, Mar 2, 2026 – Mar 29, 2026"."""
    return _("Hours of %(name)s, %(days)s") % {"name": name, "days": span_words(first, last)}


def week_title(week: date) -> str:
    """ "Hours, week of Monday, March 2, 2026"."""
    return _("Hours, week of %(week)s") % {"week": _long(week)}


def span_words(first: date, last: date) -> str:
    """ "Mar 2, 2026 – Mar 8, 2026"."""
    days = [dateformat.format(day, "M j, Y") for day in (first, last)]
    return " – ".join(dict.fromkeys(days))


def _long(day: date) -> str:
    return dateformat.format(day, "l, F j, Y")
