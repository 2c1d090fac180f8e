"""What is wrong in a show's paperwork, and what to do, in one sentence each."""

from collections.abc import Mapping
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.core.paperwork import LineProblem
from shows.wording.numbers import words_and

_SENTENCES: Mapping[str, Promise] = {
    "empty": gettext_lazy("the paperwork is empty; send the list of spots, one a line"),
    "binary": gettext_lazy("this is not text (%(kind)s); save the list as CSV, or paste it"),
    "workbook-broken": gettext_lazy("the workbook is damaged or cut off; save it anew, or paste the list"),
    "workbook-locked": gettext_lazy("the workbook has a password; save it without one, or paste the list"),
    "workbook-other": gettext_lazy("this is no XLSX workbook; save it as XLSX or CSV, or paste the list"),
    "workbook-too-big": gettext_lazy("the workbook unpacks to more than can be read; save the list of spots only"),
    "far-cell": gettext_lazy(
        "a cell in row %(row)s, column %(column)s is too far out; at most %(rows)s rows and %(columns)s columns are "
        "read: delete it, or save the list of spots only"
    ),
    "one-sheet": gettext_lazy("the sheet “%(sheet)s” is read; not read: %(others)s"),
    "macros": gettext_lazy("the workbook holds macros; they are left out and never run"),
    "too-big": gettext_lazy("the paperwork is larger than %(limit)s bytes; send the list of spots only"),
    "line-too-long": gettext_lazy("the line is longer than %(limit)s characters; one line is one spot"),
    "too-many-rows": gettext_lazy("more than %(limit)s rows; send the list of spots only"),
    "too-many-columns": gettext_lazy("%(columns)s columns; at most %(limit)s can be read"),
    "no-spots": gettext_lazy("no line could be a spot; write one spot a line, its number first"),
    "no-number-column": gettext_lazy(
        "no column holds the show numbers; say which with --map number=HEADER (%(columns)s)"
    ),
    "duplicate-header": gettext_lazy(
        "the columns %(headers)s (%(letters)s) all read as %(field)s; say which with --map %(field)s=LETTER"
    ),
    "unknown-field": gettext_lazy("there is no field %(given)s; the fields are %(known)s"),
    "header-missing": gettext_lazy("there is no column %(given)s; the columns are %(headers)s"),
    "header-taken": gettext_lazy("the column %(given)s is asked for twice: %(fields)s"),
    "not-a-spot": gettext_lazy("“%(text)s” is no spot; the line is left out"),
    "late-statement": gettext_lazy("“%(text)s” stands below the first spot; move it above the spots to have it count"),
    "unbalanced-quote": gettext_lazy("a quotation mark is never closed; close it"),
    "unreadable-characters": gettext_lazy("some characters can't be read; save the file as UTF-8"),
    "extra-cells": gettext_lazy("more cells than headers: %(cells)s; they are left out"),
    "date-like": gettext_lazy("“%(value)s” looks like a date made by a spreadsheet; write the show number as text"),
    "formula": gettext_lazy("“%(value)s” is a formula and is not computed; write the show number"),
    "several-numbers": gettext_lazy("“%(value)s” is several numbers; give each spot a line of its own"),
    "no-number": gettext_lazy("no show number; write it, or the line is left out"),
    "number-twice": gettext_lazy(
        "show number %(number)s stands on line %(line)s already; write another, or the line is left out"
    ),
    "too-long": gettext_lazy("more than %(limit)s characters; the rest is cut off"),
    "no-light": gettext_lazy("“%(value)s” is no light that can be read; write it as 1600 lx or 150 fc"),
    "number-too-long": gettext_lazy("the number is longer than %(limit)s characters; shorten it"),
}


def problem_sentence(problem: LineProblem) -> str:
    """What is wrong and what would be right, without the line."""
    data = {key: _shown(value) for key, value in problem.data.items()}
    data |= {"columns": _columns(problem.data)} if problem.code == "no-number-column" else {}
    return str(_SENTENCES[problem.code]) % {"field": problem.field or _("one field"), **data}


def problem_at_line(problem: LineProblem) -> str:
    """The same with its line in front."""
    if problem.line is None:
        return problem_sentence(problem)
    return _("line %(line)s: %(sentence)s") % {"line": problem.line, "sentence": problem_sentence(problem)}


def _columns(data: Mapping[str, Any]) -> str:
    """ "A (“4”), B (“booth”)": each column with the first thing in it."""
    pairs = zip(data["headers"], data["examples"], strict=False)
    return _shown(tuple(f"{header} (“{example}”)" if example else header for header, example in pairs))


def _shown(value: Any) -> str:
    text = words_and([str(each) for each in value]) if isinstance(value, tuple) else str(value)
    return text if len(text) <= 200 else text[:199] + "…"
