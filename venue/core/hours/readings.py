"""What a new reading may say beside those that a meter has, and what it will likely be."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from itertools import pairwise
from statistics import median
from typing import Literal

from venue.core.hours.records import ZERO, Mark, MeterRun

ReadingCode = Literal[
    "backward",
    "ahead-of-later",
    "faster-than-clock",
    "strikes-backward",
    "over-14",
    "few-hours-a-strike",
    "same-time",
]
QUESTIONS: frozenset[ReadingCode] = frozenset({"over-14", "few-hours-a-strike", "same-time"})

STEP_H = Decimal("0.1")
"""A meter's last digit: by so much a meter may run ahead of the clock."""
LONG_DAY_H = 14
"""More in a day is odd (common practice, no source)."""
LEAST_H_A_STRIKE = Decimal("0.5")
"""Fewer hours for each strike are hard on a lamp (common practice, no source)."""
NIGHTS = 8
ONE_NIGHT = timedelta(hours=36)
"""Readings no farther apart have one show day between them."""

_HOUR = timedelta(hours=1)
_SECONDS = Decimal(3600)


@dataclass(frozen=True)
class ReadingProblem:
    """Why a reading is refused, or what is asked about it.

    `other` is the reading it disagrees with, `least_h` and `most_h` what the meter can have shown beside it (for
    a question: without being odd), `change_h` what it would have counted in between, over `elapsed_h` hours.
    Strikes: `strikes` between the two, negative where they go backward.
    """

    code: ReadingCode
    other: Mark
    change_h: Decimal
    elapsed_h: Decimal
    least_h: Decimal | None = None
    most_h: Decimal | None = None
    strikes: int | None = None

    @property
    def is_question(self) -> bool:
        return self.code in QUESTIONS


def neighbors(run: MeterRun, at: datetime) -> tuple[Mark | None, Mark | None]:
    """The meter's readings before (or at) and after an instant, its start counted as one.

    Nothing before: the meter was not there yet.
    """
    before, after = None, None
    for mark in (run.start, *run.marks):
        if mark.at <= at:
            before = mark
        elif after is None:
            after = mark
    return before, after


def judge_reading(before: Mark | None, after: Mark | None, new: Mark) -> tuple[ReadingProblem, ...]:
    """What is wrong or odd about a reading between two others; a late one is judged on both sides.

    Refusals come first. Empty: nothing to say.
    """
    found: list[ReadingProblem] = []
    if before is not None:
        found += _judge_step(before, new, other=before)
    if after is not None:
        found += _judge_step(new, after, other=after)
    return tuple(sorted(found, key=lambda problem: problem.is_question))


def run_problems(run: MeterRun) -> tuple[tuple[Mark, ReadingProblem], ...]:
    """Every reading of a meter that disagrees with the one before it, with the refusal or question."""
    pairs = pairwise((run.start, *run.marks))
    return tuple((new, problem) for before, new in pairs for problem in judge_reading(before, None, new))


def _judge_step(first: Mark, second: Mark, other: Mark) -> list[ReadingProblem]:
    """What is wrong between two readings that follow each other; `other` is the one that is on file already."""
    change, elapsed = second.hours - first.hours, hours_between(first.at, second.at)

    def problem(code: ReadingCode, most_change: Decimal, strikes: int | None = None) -> ReadingProblem:
        if other is first:
            return ReadingProblem(code, other, change, elapsed, first.hours, first.hours + most_change, strikes)
        least = max(ZERO, second.hours - most_change)
        return ReadingProblem(code, other, change, elapsed, least, second.hours, strikes)

    by_clock = elapsed + STEP_H
    usual = LONG_DAY_H * max(Decimal(1), elapsed / 24)
    found = []
    if change < 0:
        found.append(problem("backward" if other is first else "ahead-of-later", by_clock))
    elif change > by_clock:
        found.append(problem("faster-than-clock", by_clock))
    elif change > usual:
        found.append(problem("over-14", usual))
    if first.at == second.at and not found:
        found.append(problem("same-time", by_clock))
    strikes = _strikes_between(first, second)
    if strikes is not None and strikes < 0:
        found.append(problem("strikes-backward", by_clock, strikes))
    elif strikes and ZERO <= change < LEAST_H_A_STRIKE * strikes:
        found.append(problem("few-hours-a-strike", by_clock, strikes))
    return found


def _strikes_between(first: Mark, second: Mark) -> int | None:
    return None if first.strikes is None or second.strikes is None else second.strikes - first.strikes


def hours_between(first: datetime, second: datetime) -> Decimal:
    """Hours from one instant to a later one, as the clock has them [h]; 0 where the second is earlier."""
    return max(ZERO, Decimal((second - first) // timedelta(seconds=1)) / _SECONDS)


def likely_next(marks: Sequence[Mark], now: datetime, typical: Decimal | None = None) -> Decimal | None:
    """What the meter likely shows now [h, one decimal]: the last reading and the median of recent nights.

    `marks` by time, the meter's start among them. `typical` is a night's use where the readings tell none. Never
    more than the clock allows. None: nothing to go by.
    """
    if not marks:
        return None
    nights = _recent_changes(marks)
    night = median(nights) if nights else typical
    if night is None:
        return None
    last = marks[-1]
    by_clock = (last.hours + hours_between(last.at, now)).quantize(STEP_H, ROUND_DOWN)
    likely = (last.hours + night).quantize(STEP_H, ROUND_HALF_UP)
    return max(last.hours, min(likely, by_clock))


def _recent_changes(marks: Sequence[Mark]) -> list[Decimal]:
    """What the last nights counted; readings far apart count only where there are no others."""
    steps = [(later.at - earlier.at, later.hours - earlier.hours) for earlier, later in pairwise(marks)]
    used = [(elapsed, change) for elapsed, change in steps if change > 0]
    nights = [change for elapsed, change in used if elapsed <= ONE_NIGHT]
    return (nights or [change for _elapsed, change in used])[-NIGHTS:]
