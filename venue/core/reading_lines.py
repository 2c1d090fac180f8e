"""A table of readings as people keep it: unit, time, what the meter showed, strikes; every problem by its line.

    unit,at,meter_h,strikes
    FS-01,2026-02-01 23:10,846.5,131

The first line names the columns, in people's own words. Columns are parted by commas, semicolons or tabs; in a
file of semicolons or tabs a number may have a decimal comma. Times are by the house's clocks, or with an offset.
"""

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from decimal import Decimal, InvalidOperation
from typing import Literal

from venue.core.local_time import possible_instants
from venue.core.names import name_key

Column = Literal["unit", "at", "time", "meter_h", "strikes"]
LineCode = Literal[
    "no-header",
    "no-column",
    "column-twice",
    "too-many-lines",
    "bad-quotes",
    "no-unit",
    "no-time",
    "bad-time",
    "time-missing",
    "time-twice",
    "lies-ahead",
    "no-hours",
    "bad-hours",
    "bad-strikes",
]

MOST_LINES = 50_000
MOST_H = Decimal(9_999_999)
MOST_STRIKES = 2_000_000_000

_WORDS: Mapping[Column, frozenset[str]] = {
    "unit": frozenset({"unit", "units", "tag", "unit tag", "spot", "follow spot", "followspot", "light", "fixture"}),
    "at": frozenset({"at", "when", "date", "read at", "date and time", "date time", "datetime", "day", "read on"}),
    "time": frozenset({"time", "hour", "clock", "time of day"}),
    "meter_h": frozenset(
        {"meter h", "meter", "hours", "meter hours", "meter reading", "reading", "h", "hour meter", "hrs", "lamp hours"}
    ),
    "strikes": frozenset({"strikes", "strike", "strike count", "starts", "strikes so far"}),
}
_NEEDED: tuple[Column, ...] = ("unit", "at", "meter_h")
_WALL = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)[T ]+(\d\d?):(\d\d)(?::(\d\d)(?:\.\d+)?)? *(Z|[+-]\d\d:?\d\d)?", re.ASCII)


@dataclass(frozen=True)
class LineProblem:
    """What is wrong in a line; `value` is what stands there, `column` where."""

    line: int
    code: LineCode
    column: str = ""
    value: str = ""


@dataclass(frozen=True)
class LineReading:
    """A line that could be read: the unit's key and its tag as written, the instant, hours, strikes."""

    line: int
    unit_key: str
    tag: str
    at: datetime
    hours: Decimal
    strikes: int | None


@dataclass
class ReadLines:
    """What could be read, every problem, and the columns that nobody knows."""

    readings: list[LineReading] = field(default_factory=list)
    problems: list[LineProblem] = field(default_factory=list)
    unknown: tuple[str, ...] = ()


def read_lines(text: str, zone: str, now: datetime) -> ReadLines:
    """Read the table; `now` tells what lies ahead. Empty lines are passed over."""
    found = ReadLines()
    try:
        _read_rows(_Table(text, zone, now), found)
    except csv.Error:
        found.problems.append(LineProblem(found.readings[-1].line + 1 if found.readings else 1, "bad-quotes"))
    return found


@dataclass
class _Table:
    """The text with how its columns are parted, and what times are held against."""

    text: str
    zone: str
    now: datetime

    @property
    def delimiter(self) -> str:
        """What parts the columns of the first line that holds something."""
        first = next((line for line in self.text.splitlines() if line.strip()), "")
        return max(",;\t", key=first.count) if any(mark in first for mark in ",;\t") else ","

    def rows(self) -> Iterator[tuple[int, list[str]]]:
        """Rows that hold something, each with the number of its first line."""
        reader = csv.reader(self.text.splitlines(keepends=True), delimiter=self.delimiter, skipinitialspace=True)
        line = 1
        for row in reader:
            if any(cell.strip() for cell in row):
                yield line, [cell.strip() for cell in row]
            line = reader.line_num + 1


def _read_rows(table: _Table, found: ReadLines) -> None:
    rows = table.rows()
    line, header = next(rows, (1, []))
    columns = _columns(line, header, found)
    if columns is None:
        return
    reader = _Lines(table, columns, table.delimiter != ",", {})
    for count, (line, row) in enumerate(rows):
        if count >= MOST_LINES:
            found.problems.append(LineProblem(line, "too-many-lines", value=str(MOST_LINES)))
            return
        problems: list[LineProblem] = []
        reading = reader.read(line, row, problems)
        found.problems += problems
        if reading is not None and not problems:
            found.readings.append(reading)


def _columns(line: int, header: Sequence[str], found: ReadLines) -> dict[Column, int] | None:
    """Which column stands where; None, with the problems told, where one that is needed is missing."""
    columns: dict[Column, int] = {}
    unknown = []
    for index, cell in enumerate(header):
        words = " ".join(re.sub(r"[^a-z]+", " ", cell.casefold()).split())
        column = next((name for name, known in _WORDS.items() if words in known), None)
        if column is None:
            unknown += [cell] if cell else []
        elif column in columns:
            found.problems.append(LineProblem(line, "column-twice", column, cell))
        else:
            columns[column] = index
    found.unknown = tuple(unknown)
    if not columns:
        found.problems.append(LineProblem(line, "no-header"))
        return None
    found.problems += [LineProblem(line, "no-column", name) for name in _NEEDED if name not in columns]
    return None if found.problems else columns


@dataclass
class _Lines:
    """Reads one line after the other. Times that came before are remembered: a night's are the same for all units."""

    table: _Table
    columns: Mapping[Column, int]
    has_decimal_comma: bool
    known: dict[str, tuple[datetime | None, LineCode | None]]

    def read(self, line: int, row: Sequence[str], problems: list[LineProblem]) -> LineReading | None:
        """The line's reading; what is wrong is added to the problems."""
        cells = {name: row[index] if index < len(row) else "" for name, index in self.columns.items()}
        tag, key = cells["unit"], name_key(cells["unit"])
        if not key:
            problems.append(LineProblem(line, "no-unit", "unit", tag))
        at = self._at(line, cells, problems)
        hours = self._hours(line, cells["meter_h"], problems)
        strikes = _strikes(line, cells.get("strikes", ""), problems)
        return None if at is None or hours is None else LineReading(line, key, tag, at, hours, strikes)

    def _at(self, line: int, cells: Mapping[Column, str], problems: list[LineProblem]) -> datetime | None:
        written = f"{cells['at']} {cells.get('time', '')}".strip()
        if written not in self.known:
            self.known[written] = _instant(written, self.table.zone, self.table.now)
        at, code = self.known[written]
        if code is not None:
            problems.append(LineProblem(line, code, "at", written))
        return at

    def _hours(self, line: int, written: str, problems: list[LineProblem]) -> Decimal | None:
        if not written:
            problems.append(LineProblem(line, "no-hours", "meter_h"))
            return None
        plain = re.sub(r" *h(?:rs?|ours)?$", "", written.casefold())
        plain = plain.replace(",", ".") if self.has_decimal_comma else plain.replace(",", "")
        hours = _decimal(plain)
        if hours is None:
            problems.append(LineProblem(line, "bad-hours", "meter_h", written))
        return hours


def _decimal(plain: str) -> Decimal | None:
    try:
        hours = Decimal(plain) if plain.isascii() else None
    except InvalidOperation:
        return None
    if hours is None or not hours.is_finite() or not 0 <= hours <= MOST_H:
        return None
    rounded = hours.quantize(Decimal("0.01"))
    return rounded if rounded == hours else None


def _strikes(line: int, written: str, problems: list[LineProblem]) -> int | None:
    if not written:
        return None
    if not (written.isascii() and written.isdigit() and len(written) <= 10 and int(written) <= MOST_STRIKES):
        problems.append(LineProblem(line, "bad-strikes", "strikes", written))
        return None
    return int(written)


def _instant(written: str, zone: str, now: datetime) -> tuple[datetime | None, LineCode | None]:
    """The instant that was written, or what is wrong with it."""
    if not written:
        return None, "no-time"
    parts = _WALL.fullmatch(written)
    if parts is None:
        return None, "bad-time"
    *numbers, offset = parts.groups()
    try:
        wall = datetime(*(int(number or 0) for number in numbers))  # type: ignore[arg-type]
        if offset:
            aware = f"{wall.isoformat()}{'+00:00' if offset == 'Z' else offset}"
            found: Sequence[datetime] = (datetime.fromisoformat(aware).astimezone(UTC),)
        else:
            found = possible_instants(wall, zone)
    except (ValueError, OverflowError):
        return None, "bad-time"
    if len(found) != 1:
        return None, "time-twice" if found else "time-missing"
    return (found[0], None) if found[0] <= now else (None, "lies-ahead")
