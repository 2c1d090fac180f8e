"""A stretch cut into pieces within which nothing changes: the day, the night, whether a meal is late.

    08:00 |········· 13:00 |·· late ··| 14:10     a meal by 5 h
    22:00 |····· 00:00 |····· night ·····| 02:00  the day turns, the night begins

The day is the calendar day by the house's clocks, from midnight to midnight. Pieces are cut on instants: at a clock
change both times that clocks show twice are seen, and each minute counts once.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from crew.core.hours.records import MINUTE, Rules, Stretch, minutes_between

MIDNIGHT = time(0)


@dataclass(frozen=True)
class Piece:
    """Minutes of one day that are all night or none, all after a meal was due or none."""

    day: date
    minutes: int
    is_night: bool
    is_late: bool


def pieces(stretch: Stretch, rules: Rules, zone: ZoneInfo, late_at: datetime | None) -> Iterator[Piece]:
    """The stretch's pieces in their order; `late_at` is when a meal is late."""
    clocks = {MIDNIGHT} if rules.night is None else {MIDNIGHT, rules.night.starts, rules.night.until}
    cuts = {*shown_between(stretch, clocks, zone), *_change_in(stretch, zone), *([late_at] if late_at else [])}
    inside = sorted(cut for cut in cuts if stretch.start < cut < stretch.end)
    for start, end in pairwise([stretch.start, *inside, stretch.end]):
        wall = start.astimezone(zone)
        is_night = rules.night is not None and rules.night.holds(wall.time())
        is_late = late_at is not None and start >= late_at
        yield Piece(wall.date(), minutes_between(start, end), is_night, is_late)


def shown_between(stretch: Stretch, clocks: Iterable[time], zone: ZoneInfo) -> Iterator[datetime]:
    """Instants about the stretch at which clocks show these times, each of two where they are set back."""
    first, last = stretch.start.astimezone(zone).date(), stretch.end.astimezone(zone).date()
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    for clock in clocks:
        for day in days:
            for fold in (0, 1):
                yield datetime.combine(day, clock, zone).replace(fold=fold).astimezone(UTC)


def _change_in(stretch: Stretch, zone: ZoneInfo) -> Iterator[datetime]:
    """The instant within the stretch at which clocks jump, to the minute; a day has at most one."""
    low, high = stretch.start, stretch.end
    if _offset(low, zone) == _offset(high, zone):
        return
    while high - low > MINUTE:
        middle = low + MINUTE * (minutes_between(low, high) // 2)
        low, high = (middle, high) if _offset(middle, zone) == _offset(low, zone) else (low, middle)
    yield high


def _offset(instant: datetime, zone: ZoneInfo) -> timedelta | None:
    return instant.astimezone(zone).utcoffset()
