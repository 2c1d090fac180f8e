"""After the show: its events that have begun, a day together, and what of a day nobody entered yet.

    14:00 matinee     19:00 show ---- 22:00          10:00 next event of the house
    |-- entries made up to a time in here are the day's --|

An entry tells what was burned up to its time: it covers each of the day's events that began before it.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from itertools import groupby

from venue.core.forecast import Burn, Calendar

LONGEST = timedelta(hours=36)
"""After this an entry is not the day's any more, though nothing else was on."""


@dataclass(frozen=True)
class Played:
    """An event that has begun, and when lights were booked to burn for it."""

    starts_at: datetime
    burn: Burn


@dataclass(frozen=True)
class ShowDay:
    """The events of one of the house's days by their start; an entry up to `closes_at` may be the day's."""

    day: date
    played: tuple[Played, ...]
    closes_at: datetime

    @property
    def opens_at(self) -> datetime:
        return self.played[0].starts_at

    @property
    def last_at(self) -> datetime:
        return self.played[-1].starts_at

    def until(self, now: datetime) -> datetime:
        """Up to when its lights burned as far as the calendar knows."""
        return min(now, self.closes_at, max(each.burn.ends_at for each in self.played))

    def is_own(self, at: datetime) -> bool:
        """Whether an entry up to the instant is one of the day."""
        return self.opens_at < at <= self.closes_at

    def covers(self, at: datetime) -> bool:
        """Whether an entry up to the instant would cover the whole day and nothing else."""
        return self.last_at < at <= self.closes_at


def days_of(played: Iterable[Played], day_of: Callable[[datetime], date], starts: Sequence[datetime]) -> list[ShowDay]:
    """The events by day. `starts` are those of all events in the house, in order: the next one closes a day."""
    ordered = sorted(played, key=lambda each: each.starts_at)
    groups = groupby(ordered, key=lambda each: day_of(each.starts_at))
    return [_day(day, tuple(events), starts) for day, events in groups]


def _day(day: date, played: tuple[Played, ...], starts: Sequence[datetime]) -> ShowDay:
    last_at = played[-1].starts_at
    following = next((at for at in starts if at > last_at), last_at + LONGEST)
    return ShowDay(day, played, min(following, last_at + LONGEST))


def left(played: Iterable[Played], entered: Iterable[datetime]) -> tuple[Played, ...]:
    """The events that no entry covers; `entered` are the times up to which entries of the day go."""
    last = max(entered, default=None)
    return tuple(each for each in played if last is None or each.starts_at >= last)


def booked(played: Sequence[Played], until: datetime) -> tuple[Decimal, int]:
    """Hours that a light was booked to burn for the events up to the instant [h], and how often it was lit.

    Where burns overlap or meet, the time counts once and the light is lit once.
    """
    burns = [replace(each.burn, ends_at=min(each.burn.ends_at, until)) for each in played]
    burns = sorted((burn for burn in burns if burn.ends_at > burn.starts_at), key=lambda burn: burn.starts_at)
    if not burns:
        return Decimal(0), 0
    strikes, lit_until = 0, burns[0].starts_at - LONGEST
    for burn in burns:
        strikes += burn.starts_at > lit_until
        lit_until = max(lit_until, burn.ends_at)
    return Calendar(burns).hours(burns[0].starts_at, until), strikes
