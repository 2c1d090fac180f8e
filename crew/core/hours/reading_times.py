"""A table of times worked, as people keep it, into calls; every problem by its line.

    person,start,end,meal_start,meal_end,kind
    Ada Birch,2026-03-02 08:00,2026-03-02 18:00,2026-03-02 13:00,2026-03-02 14:00,load-in

RFC 4180, parted by commas, semicolons or tabs; UTF-8 with or without its mark, UTF-16 or Windows-1252. Times are by
the zone's clocks, or have an offset. A local time that clocks show twice is the first of the two, and flagged. Seconds
go to the nearest minute, half a minute up.
"""

import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import islice, pairwise

from crew.core.hours.instants import Found, instant_written
from crew.core.hours.problems import Problem
from crew.core.hours.records import Stretch, WorkedCall
from shows.core.paperwork import MAX_BYTES, PaperworkUnreadable, Row
from shows.core.paperwork.decoding import decode_text
from shows.core.paperwork.tables import iterate_rows
from venue.core.names import name_key

NEEDED = ("person", "start", "end")
MEALS = (("meal_start", "meal_end"), ("meal2_start", "meal2_end"))
COLUMNS = (*NEEDED, *(edge for meal in MEALS for edge in meal), "scheduled_end", "kind")
MOST_LINES = 20_000
MOST_LETTERS = 200
LONGEST_H = 24
"""Longer than any call; a longer one is a slip of the date. From memory, no source."""


@dataclass
class TimesRead:
    """The calls that could be read, each with its line as key, and every problem."""

    calls: list[WorkedCall] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


def read_times(data: bytes | str, zone: str) -> TimesRead:
    """Read the table; `zone` is an IANA name. Empty lines are passed over."""
    found = TimesRead()
    try:
        lines = list(islice(io.StringIO(decode_text(data), newline=""), MOST_LINES + 1))
    except PaperworkUnreadable as unreadable:
        found.problems += [Problem(each.code, data=_limit(each.code)) for each in unreadable.problems]
        return found
    if len(lines) > MOST_LINES:
        found.problems.append(Problem("too-many-lines", MOST_LINES + 1, data={"limit": MOST_LINES}))
        return found
    rows = iterate_rows(lines, _delimiter(lines))
    columns = _columns(next(rows), found)
    if columns is not None:
        for row in rows:
            _Line(row, columns, zone, found).read()
    found.problems += _overlaps(found.calls)
    return found


def _limit(code: str) -> Mapping[str, object]:
    return {"limit": MAX_BYTES} if code == "too-big" else {}


def _delimiter(lines: Sequence[str]) -> str:
    """What parts the columns of the first line that holds something."""
    return max(",;\t", key=next(line for line in lines if line.strip()).count)


def _columns(header: Row, found: TimesRead) -> Sequence[str] | None:
    """The columns in their order; None, with the problems told, where one is missing or not known."""
    names = ["_".join(cell.strip().casefold().replace("-", " ").split()) for cell in header.cells]
    while names and not names[-1]:
        names.pop()
    for index, name in enumerate(names):
        if name not in COLUMNS:
            shown = header.cells[index].strip() or f"{index + 1}"
            found.problems.append(Problem("unknown-column", header.line, column=shown, data={"known": COLUMNS}))
        elif name in names[:index]:
            found.problems.append(Problem("column-twice", header.line, column=name))
    found.problems += [Problem("no-column", header.line, column=name) for name in NEEDED if name not in names]
    return None if found.problems else names


class _Line:
    """One line of the table: its call, or what is wrong with it."""

    def __init__(self, row: Row, columns: Sequence[str], zone: str, found: TimesRead) -> None:
        cells = [cell.strip() for cell in row.cells]
        self.line, self.zone, self.found = row.line, zone, found
        self.cells = dict(zip(columns, cells, strict=False))
        self.problems: list[Problem] = []
        self.is_ambiguous = False
        if row.has_open_quote:
            self.tell("open-quote")
        if extra := [cell for cell in cells[len(columns) :] if cell]:
            self.tell("extra-cells", cells=tuple(extra))

    def tell(self, code: str, column: str = "", **data: object) -> None:
        """Something is wrong here."""
        self.problems.append(Problem(code, self.line, column=column, data=data))

    def read(self) -> None:
        """Add the call to what was found, or the problems."""
        call = self._call()
        if call is not None:
            self.found.calls.append(call)
        self.found.problems += self.problems

    def _call(self) -> WorkedCall | None:
        person = self._person()
        start, end = self._instant("start"), self._instant("end")
        scheduled = self._instant("scheduled_end") if self.cells.get("scheduled_end") else None
        meals = [meal for edges in MEALS if (meal := self._meal(*edges)) is not None]
        if start is None or end is None:
            return None
        self._check_span(start, end, scheduled)
        self._check_meals(Stretch(start, end), meals)
        if self.problems:
            return None
        call = WorkedCall.between(person, start, end, meals, self.cells.get("kind", ""))
        flags = ("ambiguous-time",) if self.is_ambiguous else ()
        return WorkedCall(person, call.stretches, call.kind, scheduled, flags, self.line)

    def _person(self) -> str:
        person = self.cells.get("person", "")
        if not name_key(person):
            self.tell("no-person", "person")
        elif len(person) > MOST_LETTERS:
            self.tell("long-person", "person", limit=MOST_LETTERS)
        return person

    def _instant(self, column: str) -> datetime | None:
        written = self.cells.get(column, "")
        read: Found = instant_written(written, self.zone)
        if read.code:
            self.tell(read.code, column, value=written, zone=self.zone)
        self.is_ambiguous = self.is_ambiguous or read.is_ambiguous
        return read.instant

    def _meal(self, starts: str, ends: str) -> Stretch | None:
        """The meal in these columns; None where there is none, or something is wrong with it."""
        if not self.cells.get(starts) and not self.cells.get(ends):
            return None
        if not self.cells.get(starts) or not self.cells.get(ends):
            self.tell("half-a-meal", ends if self.cells.get(starts) else starts)
            return None
        start, end = self._instant(starts), self._instant(ends)
        if start is None or end is None:
            return None
        if end <= start:
            self.tell("end-first", ends, start=self.cells[starts], end=self.cells[ends])
            return None
        return Stretch(start, end)

    def _check_span(self, start: datetime, end: datetime, scheduled: datetime | None) -> None:
        if end < start or (end == start and scheduled is None):
            self.tell("end-first", "end", start=self.cells["start"], end=self.cells["end"])
        if scheduled is not None and scheduled <= start:
            self.tell("end-first", "scheduled_end", start=self.cells["start"], end=self.cells["scheduled_end"])
        for column, instant in (("end", end), ("scheduled_end", scheduled)):
            if instant is not None and instant - start > timedelta(hours=LONGEST_H):
                self.tell("too-long", column, limit=LONGEST_H)

    def _check_meals(self, whole: Stretch, meals: Sequence[Stretch]) -> None:
        if any(meal.start < whole.start or meal.end > whole.end for meal in meals):
            self.tell("meal-outside")
        if any(other.start < one.end for one, other in pairwise(sorted(meals, key=lambda meal: meal.start))):
            self.tell("meals-overlap")


def _overlaps(calls: Sequence[WorkedCall]) -> Iterator[Problem]:
    """Calls of one person that overlap: nobody is in two at once."""
    latest: dict[str, WorkedCall] = {}
    for call in sorted(calls, key=lambda call: (call.start, call.end)):
        before = latest.get(name_key(call.person))
        if before is not None and call.start < before.end:
            yield Problem("calls-overlap", _line(call), data={"person": call.person, "first": _line(before)})
        if before is None or call.end > before.end:
            latest[name_key(call.person)] = call


def _line(call: WorkedCall) -> int:
    return call.key if isinstance(call.key, int) else 0
