"""What the ledger is made of: readings, meters, hours added, fittings; and what a count comes to."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Literal

Counts = Literal["lamp", "power"]
"""What makes a meter run: the lamp burning, or the power being on."""

ZERO = Decimal("0.00")


@dataclass(frozen=True)
class Mark:
    """What a meter showed at an instant [h]; strikes as counted on since the meter began, None if not read.

    `key` is whatever the caller knows the reading by.
    """

    at: datetime
    hours: Decimal
    strikes: int | None = None
    key: object = None


@dataclass(frozen=True)
class MeterRun:
    """A meter in a unit from `starts_at` until `ends_at` (None: still there), showing `starts_h` at the start.

    `marks` are its readings by time, those at one instant by hours. `starts_strikes` is None where nobody knows what
    the meter's strikes are counted from.
    """

    starts_at: datetime
    ends_at: datetime | None
    starts_h: Decimal
    counts: Counts = "lamp"
    marks: tuple[Mark, ...] = ()
    starts_strikes: int | None = 0

    @property
    def start(self) -> Mark:
        return Mark(self.starts_at, self.starts_h, self.starts_strikes)

    def marks_until(self, instant: datetime) -> tuple[Mark, ...]:
        """The start and the readings up to the instant, included; empty before the start."""
        if self.starts_at > instant:
            return ()
        return (self.start, *(mark for mark in self.marks if mark.at <= instant))


@dataclass(frozen=True)
class Added:
    """Hours that somebody added at an instant for a unit without a working meter [h]; strikes among them."""

    at: datetime
    hours: Decimal
    strikes: int | None = None


@dataclass(frozen=True)
class Span:
    """A lamp's time in a unit, until None while it is in, with the readings that its fittings point at [h].

    A reading is None where the unit has no meter.
    """

    from_at: datetime
    until_at: datetime | None = None
    from_h: Decimal | None = None
    until_h: Decimal | None = None

    def until(self, now: datetime) -> datetime | None:
        """The end as known at `now`: None if it lies ahead."""
        return self.until_at if self.until_at is not None and self.until_at <= now else None


@dataclass(frozen=True)
class Counted:
    """Hours and strikes together [h], as known at `as_of`: the last instant at which anything was read.

    `power_hours`: some were counted by a meter of the power, so that the lamp burnt no longer than that.
    `strikes` are those that were read; `strikes_are_all` tells whether none was missed. None: none was read.
    """

    hours: Decimal = ZERO
    strikes: int | None = None
    power_hours: bool = False
    as_of: datetime | None = None
    strikes_are_all: bool = False
