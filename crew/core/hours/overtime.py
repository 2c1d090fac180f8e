"""Overtime by the day and by the week, as one person's minutes are counted.

A day is the calendar day by the house's clocks, midnight to midnight, or reaches from one full rest to the next. An
hour that is overtime by the day is not counted a second time toward the week (Cal. Labor Code 510: no duplication).
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal

from crew.core.hours.records import DayLimit, Rules


def week_of(day: date, week_starts: int) -> date:
    """The first day of the week; `week_starts` is a weekday, 0 for Monday."""
    return day - timedelta(days=(day.weekday() - week_starts) % 7)


class Overtime:
    """How far one person is toward each limit. Minutes are told in their order in time."""

    def __init__(self, rules: Rules) -> None:
        self._rules = rules
        self._days: Counter[date] = Counter()
        self._weeks: Counter[date] = Counter()
        self._since_turnaround = 0

    def turn(self) -> None:
        """There was a full rest: a new day begins for limits since the turnaround."""
        self._since_turnaround = 0

    def count(self, day: date, minutes: int) -> list[tuple[int, Decimal | None]]:
        """Count the minutes: how many of them are at which overtime rate, None at none."""
        return list(self._counted(day, minutes))

    def _counted(self, day: date, minutes: int) -> Iterator[tuple[int, Decimal | None]]:
        while minutes > 0:
            part = min([minutes, *self._room(day)])
            yield part, self._rate(day)
            self._add(day, part)
            minutes -= part

    def _room(self, day: date) -> Iterator[int]:
        """Minutes until each limit that is not reached yet."""
        yield from (room for limit in self._rules.overtime if (room := limit.after - self._so_far(limit, day)) > 0)
        weekly = self._weeks[self._week(day)]
        yield from (limit.after - weekly for limit in self._rules.weekly if limit.after > weekly)

    def _rate(self, day: date) -> Decimal | None:
        """The highest rate of a limit that is reached."""
        weekly = [limit.rate for limit in self._rules.weekly if limit.after <= self._weeks[self._week(day)]]
        return max([*self._daily(day), *weekly], default=None)

    def _daily(self, day: date) -> list[Decimal]:
        return [limit.rate for limit in self._rules.overtime if limit.after <= self._so_far(limit, day)]

    def _add(self, day: date, minutes: int) -> None:
        if not self._daily(day):
            self._weeks[self._week(day)] += minutes
        self._days[day] += minutes
        self._since_turnaround += minutes

    def _so_far(self, limit: DayLimit, day: date) -> int:
        return self._days[day] if limit.day == "calendar" else self._since_turnaround

    def _week(self, day: date) -> date:
        return week_of(day, self._rules.week_starts)
