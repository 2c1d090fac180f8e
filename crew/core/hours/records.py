"""Rules, calls, and what their hours come to. Instants are aware datetimes, lengths are whole minutes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Literal

Day = Literal["calendar", "since-turnaround"]
"""What a day's overtime is counted over: midnight to midnight by the house's clocks, or since the last full rest."""
MealPenalty = Literal["none", "double-until-meal", "one-hour"]
Combine = Literal["highest", "multiply"]
PadRate = Literal["straight", "last"]
Counted = Literal["worked", "paid"]
Source = Literal["worked", "minimum", "increment", "meal-penalty"]
"""Why a part is paid: it was worked, or a rule pays it although nobody worked."""

STRAIGHT = Decimal(1)
DOUBLE = Decimal(2)
MINUTE = timedelta(minutes=1)
SHOW = "show"

FLAGS = (
    *("ambiguous-time", "off-grid-start", "short-rest", "forced-call", "recall", "short-meal", "late-meal"),
    *("second-meal-late", "night", "seventh-day", "holiday", "long-day", "reporting-time"),
)
"""Every flag, in the order in which they are told."""


@dataclass(frozen=True)
class Limit:
    """Beyond `after` minutes an hour is paid at `rate`."""

    after: int
    rate: Decimal


@dataclass(frozen=True)
class DayLimit(Limit):
    """The same within a day, of the sort that `day` names."""

    day: Day = "calendar"


@dataclass(frozen=True)
class Night:
    """From one time of day to another, over midnight where `until` is not later; a minute is night as clocks show."""

    starts: time
    until: time
    rate: Decimal

    def holds(self, clock: time) -> bool:
        """Whether it is night when clocks show this."""
        if self.starts < self.until:
            return self.starts <= clock < self.until
        return clock >= self.starts or clock < self.until


@dataclass(frozen=True)
class Reporting:
    """Who is sent home before `share` of the scheduled time is paid that share, within `least` and `most` minutes."""

    share: Decimal
    least: int
    most: int


@dataclass(frozen=True)
class Rules:
    """A house's rules; None, zero or empty is a rule that does not apply. Lengths in minutes.

    `minimum`, `show_minimum`, `recall` (for who is back within `recall_gap`) and `increment` say what is paid beyond
    what was worked; `pad_rate` at which rate the unworked part of a minimum is. `counted` tells whether that part
    counts toward overtime. `rest` is due between working days, which turn at `day_turns`. Weeks begin on weekday
    `week_starts`, 0 for Monday. `rounding` is the step to which clock times are rounded, `start_grid` the one on which
    calls begin.
    """

    minimum: int = 0
    show_minimum: int | None = None
    recall: int = 0
    recall_gap: int | None = None
    increment: int = 0
    pad_rate: PadRate = "straight"
    reporting: Reporting | None = None
    counted: Counted = "worked"
    meal_by: int | None = None
    meal_penalty: MealPenalty = "none"
    overtime: tuple[DayLimit, ...] = ()
    weekly: tuple[Limit, ...] = ()
    week_starts: int = 0
    night: Night | None = None
    holidays: frozenset[date] = frozenset()
    holiday_rate: Decimal | None = None
    seventh_day_rate: Decimal | None = None
    combine: Combine = "highest"
    rest: int | None = None
    day_turns: time = time(5)
    long_day: int | None = None
    rounding: int = 0
    start_grid: int = 0
    cancel_notice: int = 0
    cancel_pay: int = 0


@dataclass(frozen=True)
class Stretch:
    """From one instant to another; of no length where somebody came and was not put to work."""

    start: datetime
    end: datetime

    @property
    def minutes(self) -> int:
        return minutes_between(self.start, self.end)


@dataclass(frozen=True)
class WorkedCall:
    """One person's call: stretches of work in their order, with what was a break between them.

    `scheduled_end` is when it should have ended, where that matters. `flags` are what a reader of times found; `key`
    is whatever the caller knows the call by.
    """

    person: str
    stretches: tuple[Stretch, ...]
    kind: str = ""
    scheduled_end: datetime | None = None
    flags: tuple[str, ...] = ()
    key: object = None

    @classmethod
    def between(
        cls, person: str, start: datetime, end: datetime, meals: Iterable[Stretch] = (), kind: str = ""
    ) -> "WorkedCall":
        """A call from `start` to `end` with breaks inside it that do not overlap."""
        edges = [start, *(edge for meal in sorted(meals, key=_start) for edge in (meal.start, meal.end)), end]
        return cls(person, tuple(map(Stretch, edges[::2], edges[1::2])), kind)

    @property
    def start(self) -> datetime:
        return self.stretches[0].start

    @property
    def end(self) -> datetime:
        return self.stretches[-1].end


@dataclass(frozen=True)
class Part:
    """Minutes of one day (by the house's clocks) at one rate, paid for one reason; `counts` toward overtime or not."""

    day: date
    minutes: int
    rate: Decimal
    source: Source
    counts: bool


@dataclass(frozen=True)
class Tally:
    """Parts and what they come to, in minutes."""

    parts: tuple[Part, ...]

    @property
    def worked(self) -> int:
        return sum(part.minutes for part in self.parts if part.source == "worked")

    @property
    def paid(self) -> int:
        return sum(part.minutes for part in self.parts)

    @property
    def counted(self) -> int:
        return sum(part.minutes for part in self.parts if part.counts)

    @property
    def by_rate(self) -> Mapping[Decimal, int]:
        """Paid minutes by rate, the lowest first."""
        found = dict.fromkeys(sorted({part.rate for part in self.parts}), 0)
        for part in self.parts:
            found[part.rate] += part.minutes
        return found

    @property
    def straight(self) -> Decimal:
        """Paid minutes weighed by rate: how many straight ones they are worth."""
        return sum((part.minutes * part.rate for part in self.parts), Decimal(0))


@dataclass(frozen=True)
class HourCount(Tally):
    """What one call comes to, with what to know about it, in the order of FLAGS."""

    call: WorkedCall
    flags: tuple[str, ...] = ()


def minutes_between(start: datetime, end: datetime) -> int:
    """Whole minutes from one instant to another; negative where the second is earlier."""
    return (end - start) // MINUTE


def _start(stretch: Stretch) -> datetime:
    return stretch.start
