"""The rules of the ledger: meters that never run backward or faster than the clock, lamps in one unit at a time."""

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Any

from venue.core.hours import Mark, MeterRun, ReadingProblem, judge_reading, run_problems
from venue.house_file.book.completing import Completed
from venue.house_file.book.runs import Run, Runs
from venue.house_file.checking.spans import Span, overlaps, where
from venue.house_file.paths import Path
from venue.house_file.problems import Problem
from venue.house_file.records.file import Book
from venue.house_file.records.hours import ReadingRecord
from venue.house_file.times import written_instant


def hours_problems(completed: Completed, zone: str) -> Iterator[Problem]:
    """What can't be, in a file or in a file and what is stored together; problems stand where the file says so."""
    yield from (problem for problem in completed.problems if problem.path)
    yield from _overlaps(completed.book)
    yield from _twice(completed.runs)
    yield from _judged(completed.runs, zone, questions=False)


def hours_warnings(completed: Completed, zone: str) -> Iterator[Problem]:
    """What is odd: more than 14 hours in a day, few hours a strike."""
    yield from _judged(completed.runs, zone, questions=True)


def _overlaps(book: Book) -> Iterator[Problem]:
    meters = [(each.unit_key, Span(each.path, each.starts_at, each.ends_at)) for each in book.meters]
    yield from overlaps(meters, "meter-overlaps")
    fittings = [(each, Span(each.path, each.from_at, each.until_at)) for each in book.fittings]
    yield from overlaps([(each.unit_key, span) for each, span in fittings], "lamp-in-the-way")
    yield from overlaps([(each.lamp_key, span) for each, span in fittings], "lamp-elsewhere")


def _twice(runs: Runs) -> Iterator[Problem]:
    """A meter is read once at an instant."""
    for run in runs.all():
        first: dict[object, Path] = {}
        for reading in run.readings:
            if reading.counts and reading.at in first:
                path = reading.path or first[reading.at]
                if path:
                    yield Problem(path, "duplicate-reading", {"first": where(first[reading.at])})
            elif reading.counts:
                first[reading.at] = reading.path


def _judged(runs: Runs, zone: str, *, questions: bool) -> Iterator[Problem]:
    for run in runs.all():
        for mark, problem in _problems_of(run):
            if problem.is_question == questions:
                yield from _problem(run, mark, problem, zone)


def _problems_of(run: Run) -> Iterator[tuple[Mark, ReadingProblem]]:
    """What is wrong or odd between readings that follow each other; a reading at the very start may repeat it."""
    marks = sorted((_mark(each) for each in run.readings if each.counts), key=lambda mark: (mark.at, mark.hours))
    start = None if run.meter.starts_h else 0
    whole = MeterRun(run.meter.starts_at, run.meter.ends_at, run.meter.starts_h, "lamp", tuple(marks), start)
    found = [each for each in run_problems(whole) if each[1].code not in _ELSEWHERE]
    return iter([*found, *_strikes_backward(whole)])


_ELSEWHERE = {"same-time", "strikes-backward"}


def _strikes_backward(run: MeterRun) -> Iterable[tuple[Mark, ReadingProblem]]:
    """Strikes against the last reading that has some: those between may have none."""
    told = [mark for mark in (run.start, *run.marks) if mark.strikes is not None]
    for before, new in pairwise(told):
        if new.strikes is not None and before.strikes is not None and new.strikes < before.strikes:
            found = judge_reading(before, None, new)
            yield from ((new, problem) for problem in found if problem.code == "strikes-backward")


def _mark(reading: ReadingRecord) -> Mark:
    return Mark(reading.at, reading.hours, reading.strikes, reading)


def _problem(run: Run, mark: Mark, problem: ReadingProblem, zone: str) -> Iterator[Problem]:
    """At the later of the two readings, or at the earlier one where that alone is the file's."""
    first, second = _path(run, problem.other), _path(run, mark)
    path = second or first
    if not path:
        return
    facts: dict[str, Any] = {
        "first_h": problem.other.hours,
        "first_at": written_instant(problem.other.at, zone),
        "second_h": mark.hours,
        "second_at": written_instant(mark.at, zone),
        "other": where(first if second else ()),
        "first_strikes": problem.other.strikes,
        "second_strikes": mark.strikes,
    }
    yield Problem(path, problem.code, facts)


def _path(run: Run, mark: Mark) -> Path:
    """Where the reading stands, or the meter's start; empty for what is only stored."""
    if isinstance(mark.key, ReadingRecord):
        return mark.key.hours_path
    return (*run.meter.path, "starts_h") if run.meter.path else ()
