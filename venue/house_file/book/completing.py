"""What a file may leave unsaid about hours, said: a meter where none is named, its end, the readings of fittings.

A fitting names hours that the unit's meter showed: the reading that says so may stand in the file or not.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal

from venue.house_file.book.runs import Run, Runs, ended_by_next
from venue.house_file.paths import Path
from venue.house_file.problems import Problem
from venue.house_file.records.file import Book
from venue.house_file.records.hours import FittingRecord, MeterRecord, ReadingRecord


@dataclass(frozen=True)
class Completed:
    """A book in which every meter and reading stands, the meters with their readings, and what did not fit."""

    book: Book
    runs: Runs
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class End:
    """What the meter showed as a lamp was fitted (`is_first`) or taken out."""

    fitting: FittingRecord
    at: datetime
    hours: Decimal
    is_first: bool

    @property
    def path(self) -> Path:
        """Where the hours stand; empty for what is only stored."""
        key = "meter_h" if self.is_first else "meter_out_h"
        return (*self.fitting.path, key) if self.fitting.path else ()


def completed(book: Book) -> Completed:
    """The book with all that follows from it."""
    ends_at = ended_by_next(book.meters)
    named = [replace(each, ends_at=ends_at.get(id(each), each.ends_at)) for each in book.meters]
    meters = (*named, *_implied_meters(book))
    runs, problems = Runs(meters), list[Problem]()
    readings = list(_taken(runs, book.readings, problems))
    readings += _of_fittings(runs, list(ends_of(book.fittings)), problems)
    return Completed(replace(book, meters=meters, readings=tuple(readings)), runs, tuple(problems))


def ends_of(fittings: Iterable[FittingRecord]) -> Iterator[End]:
    """The ends of fittings that name hours."""
    for fitting in fittings:
        if fitting.from_h is not None:
            yield End(fitting, fitting.from_at, fitting.from_h, True)
        if fitting.until_h is not None and fitting.until_at is not None:
            yield End(fitting, fitting.until_at, fitting.until_h, False)


def _implied_meters(book: Book) -> Iterator[MeterRecord]:
    """One for each unit that has readings and no meter; what was struck out tells a time but no hours."""
    with_meter = {meter.unit_key for meter in book.meters}
    shown: dict[str, list[tuple[datetime, bool, Decimal, str]]] = defaultdict(list)
    for reading in book.readings:
        shown[reading.unit_key].append((reading.at, not reading.counts, reading.hours, reading.unit))
    for end in ends_of(book.fittings):
        shown[end.fitting.unit_key].append((end.at, False, end.hours, end.fitting.unit))
    for unit, marks in shown.items():
        if unit not in with_meter:
            starts_at, _is_struck, _hours, tag = min(marks)
            starts_h = min(marks, key=lambda mark: (mark[1], *mark))[2]
            yield MeterRecord(unit=tag, starts_at=starts_at, starts_h=starts_h, is_implied=True)


def _taken(runs: Runs, readings: Iterable[ReadingRecord], problems: list[Problem]) -> Iterator[ReadingRecord]:
    """The readings, each with its meter; one that has none is a problem."""
    for reading in readings:
        run = runs.take(reading)
        if run is None:
            problems.append(Problem((*reading.path, "at"), "no-meter-then", {"unit": reading.unit}))
            continue
        closes = reading.at == run.meter.ends_at
        if closes != reading.closes_meter:
            run.readings[-1] = replace(reading, closes_meter=closes)
        yield run.readings[-1]


def _of_fittings(runs: Runs, ends: list[End], problems: list[Problem]) -> Iterator[ReadingRecord]:
    """The readings that fittings tell and that nothing else in the book does."""
    there = {(id(run), each.at): each for run in runs.all() for each in run.readings if each.counts}
    for end in ends:
        found = _in_order(runs.at(end.fitting.unit_key, end.at), end)
        read = [there[id(run), end.at] for run in found if (id(run), end.at) in there]
        if any(reading.hours == end.hours for reading in read):
            continue
        run = next((each for each in found if (id(each), end.at) not in there), None)
        if run is None:
            problems.append(_misfit(end, read))
            continue
        told = there[id(run), end.at] = _told_by(end, run)
        run.readings.append(told)
        yield told


def _misfit(end: End, read: list[ReadingRecord]) -> Problem:
    """The unit had no meter then, or it showed other hours; where the fitting is only stored, at that reading."""
    if not read:
        return Problem(end.path, "no-meter-then", {"unit": end.fitting.unit})
    if end.path:
        return Problem(end.path, "reading-differs", {"unit": end.fitting.unit})
    paths = [reading.hours_path for reading in read if reading.path]
    return Problem(paths[0] if paths else (), "fitting-differs", {"lamp": end.fitting.lamp, "hours": end.hours})


def _in_order(runs: list[Run], end: End) -> list[Run]:
    """The meters that the hours may be of, the likeliest first where one ends and another begins."""
    begins_so = end.is_first and runs and runs[-1].meter.starts_h == end.hours
    return runs[::-1] if begins_so else runs


def _told_by(end: End, run: Run) -> ReadingRecord:
    return ReadingRecord(
        unit=end.fitting.unit,
        at=end.at,
        hours=end.hours,
        cause="fitting",
        closes_meter=end.at == run.meter.ends_at,
        path=end.path,
        given=frozenset({"unit", "at", "hours"}),
        is_implied=True,
    )
