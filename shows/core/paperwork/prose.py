"""Spots in lines of words: "Spot 1 – booth HL – frames: pink, blue", "#4 - rail - SR", "3 = house 2".

One line a spot: a number, then parts cut at dashes, semicolons, commas and colons.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import dropwhile

from shows.core.paperwork.phrases import read_phrases
from shows.core.paperwork.records import LineProblem, Row, SpotLine
from shows.core.paperwork.spots import is_closing_line, row_problems, spot_line
from shows.core.paperwork.statements import (
    ReadsAsStatement,
    find_statement,
    is_late_statement,
    marked_statement,
    quoted_text,
)
from venue.core.labels import plain_text

_LONGEST = 500  # characters of a line of words
_WORD = r"(?:(?:(?:show|call|tour) )?(?:follow[ -]?)?(?:spots?|fs|numbers?|no|nr)(?![a-z])[ .]*#?|show(?![a-z]))"
_MARK = r"(?:[:=)–—→]|->|=>|-(?= )|\.(?= ))"
_BULLET = re.compile(r"\A[•·‣▪*-]\s*(?=\S)")
_START = re.compile(
    rf"(?P<word>(?i:{_WORD}) ?)?#?"
    rf"(?P<number>[A-Za-z]{{0,2}}\d{{1,3}}[A-Za-z]?|[A-Z]|(?i:left|right|cent(?:er|re))(?= ?{_MARK}))(?!\w)"
    rf"(?P<mark> ?(?:=>?|→|->) ?| ?{_MARK} ?(?!\d))?(?P<rest>.*)"
)
_UNNUMBERED = re.compile(r"(?i:(?:follow[ -]?)?spot) ?(?:\?+|(?i:tb[acd]))? ?(?:[:=–—]|- )(?P<rest>.+)")
_SEVERAL = re.compile(
    rf"(?P<value>(?i:{_WORD} ?)?\d{{1,2}}"
    r"(?:(?: ?(?:[–—&+/-]|and|to|thru|through) ?\d{1,2}(?!\d)){1,9}"
    rf"|(?:, ?\d{{1,2}}(?!\d)){{1,9}}(?: ?(?:and|&) ?\d{{1,2}})?(?= ?{_MARK})))"
    r"(?!\w| ?[,;.]| (?:frames?|gels?|colou?rs?|lux|fc)\b)(?P<rest>.*)"
)
_COUNTED = re.compile(r" (?:follow|spots?|operators?|units?|frames?|colou?rs?)\b", re.IGNORECASE)
_MONTH = re.compile(r" (?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b", re.IGNORECASE)
_PAIRED = re.compile(r"(?P<label>#?[A-Za-z]{0,2}\d{1,3}[A-Za-z]?|[A-Z])(?P<rest>$|(?: ?[,;–—]| -).*)")
_CELL_END = re.compile(r"[^:=)–—-]\t")


@dataclass(frozen=True)
class _Words:
    """A line cut after its number; `several` is what stands there for more than one."""

    number: str
    rest: str
    is_plain: bool = True  # the line shows by a word or a mark that it begins with a number
    label: str = ""
    several: str = ""


def _cut(row: Row) -> _Words | None:
    """The line's number and the words after it; None for a line that is no spot's."""
    if len(row.text) > _LONGEST or _CELL_END.search(row.text.strip()) or is_closing_line(row):
        return None
    text = _line_text(row)
    several = _SEVERAL.match(text)
    if several:
        return _Words("", several["rest"], several=several["value"])
    start = _START.match(text)
    if start is None:
        return None
    return _cut_marked(start) if start["mark"] else _cut_unmarked(start)


def _line_text(row: Row) -> str:
    return _BULLET.sub("", plain_text(row.text), count=1)


def _cut_marked(start: re.Match[str]) -> _Words | None:
    """A number and a mark; of "1. Spot 3 – booth" the number is 3, and "3 = 2" gives its house label."""
    inner = _START.match(start["rest"]) if start["mark"].strip() in (".", ")") else None
    if inner and inner["word"]:
        return _cut_marked(inner) if inner["mark"] else _cut_unmarked(inner)
    paired = _PAIRED.fullmatch(start["rest"]) if start["mark"].strip() in ("=", "=>", "->", "→") else None
    if paired:
        return _Words(start["number"], paired["rest"], label=paired["label"])
    return _Words(start["number"], start["rest"])


def _cut_unmarked(start: re.Match[str]) -> _Words | None:
    """A number and a blank: "1 booth HL", but not "1,booth", "4 spots", "2 June" or "A booth"."""
    rest = start["rest"]
    if not start["word"]:
        is_counted = _COUNTED.match(rest) or _MONTH.match(rest)
        if start["number"].isalpha() or is_counted or (rest and rest[0] != " "):
            return None
    elif rest and rest[0] not in " ,;":
        return None
    return _Words(start["number"], rest.strip(" ,;"), is_plain=bool(start["word"]))


def is_prose(rows: Sequence[Row], *, is_plain: bool) -> bool:
    """Whether half of the lines from the first spot on are spots in words.

    `is_plain` counts only those that show it by a word or a mark ("Spot 1 booth", "1: booth"; not "1 booth").
    """
    below = [row for row in rows if marked_statement(row, ", ") is None]
    below = list(dropwhile(lambda row: not _has_words(_cut(row), is_plain), below))
    found = sum(1 for row in below if _has_words(_cut(row) or _cut_unnumbered(row), is_plain))
    return found > 0 and 2 * found >= len(below)


def _has_words(cut: _Words | None, is_plain: bool) -> bool:
    return cut is not None and bool(cut.rest or cut.label) and cut.is_plain >= is_plain


def read_prose(
    rows: Sequence[Row], reads_as_statement: ReadsAsStatement
) -> tuple[Sequence[Row], list[SpotLine], list[LineProblem]]:
    """The rows above the first spot, the spots, and the problems from the first spot on."""
    first = next((index for index, row in enumerate(rows) if _is_first_spot(row, reads_as_statement)), len(rows))
    spots: list[SpotLine] = []
    problems: list[LineProblem] = []
    for row in rows[first:]:
        problems += row_problems(row)
        cut = _cut(row) or _cut_unnumbered(row)
        if cut:
            spots.append(_spot(row, cut, problems))
        else:
            code = "late-statement" if is_late_statement(row, " ", reads_as_statement) else "not-a-spot"
            problems.append(LineProblem(row.line, None, code, {"text": quoted_text(row)}))
    return rows[:first], spots, problems


def _is_first_spot(row: Row, reads_as_statement: ReadsAsStatement) -> bool:
    is_spot = _cut(row) is not None or _cut_unnumbered(row) is not None
    return is_spot and find_statement([row], " ", reads_as_statement)[0] is None


def _cut_unnumbered(row: Row) -> _Words | None:
    found = _UNNUMBERED.fullmatch(_line_text(row)) if len(row.text) <= _LONGEST else None
    return _Words("", found["rest"]) if found else None


def _spot(row: Row, cut: _Words, problems: list[LineProblem]) -> SpotLine:
    if cut.several:
        problems.append(LineProblem(row.line, "number", "several-numbers", {"value": cut.several}))
    values = {**read_phrases(cut.rest), "number": cut.number}
    if cut.label:
        values["label"] = cut.label
    return spot_line(row, values, problems)
