"""Rest between working days, and days in a row.

A call belongs to the working day on which it begins; the working day turns in the early morning (`day_turns`), so that
a load-out after midnight ends the day before. Rest is due between two working days, not between two calls of one.
"""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from crew.core.hours.records import Rules, WorkedCall
from venue.core.local_time import house_day

IN_A_ROW = 7


def working_day(instant: datetime, turns_at: time, zone: ZoneInfo) -> date:
    """The working day to which a call that begins at the instant belongs."""
    return house_day(instant.astimezone(UTC), zone.key, turns_at)


def is_short(before: WorkedCall | None, call: WorkedCall, rules: Rules, zone: ZoneInfo) -> bool:
    """Whether a new working day begins before the rest after the one before is over."""
    if before is None or rules.rest is None or has_rested(before, call, rules):
        return False
    return working_day(before.start, rules.day_turns, zone) != working_day(call.start, rules.day_turns, zone)


def has_rested(before: WorkedCall, call: WorkedCall, rules: Rules) -> bool:
    """Whether a full rest lies between the two calls; never where the rules have none."""
    return rules.rest is not None and call.start - before.end >= timedelta(minutes=rules.rest)


class DaysInARow:
    """How many working days in a row one person has worked; days are told in their order."""

    def __init__(self) -> None:
        self._last: date | None = None
        self._days = 0

    def reach(self, day: date) -> bool:
        """Work on this day: whether it is the seventh in a row, or a later one."""
        if self._last != day:
            is_next = self._last is not None and day - self._last == timedelta(days=1)
            self._days = self._days + 1 if is_next else 1
            self._last = day
        return self._days >= IN_A_ROW
