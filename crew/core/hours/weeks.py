"""Hours by the week: each person's calls, and what each of the person's weeks comes to."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from zoneinfo import ZoneInfo

from crew.core.hours.counting import count_hours
from crew.core.hours.overtime import week_of
from crew.core.hours.records import HourCount, Part, Rules, Tally, WorkedCall
from venue.core.names import name_key


@dataclass(frozen=True)
class WeekTotal(Tally):
    """What one person's week comes to; `week` is its first day."""

    person: str
    week: date


@dataclass(frozen=True)
class WeekHours:
    """Each call's hours in the order given, and the weeks by person and time."""

    calls: tuple[HourCount, ...]
    weeks: tuple[WeekTotal, ...]


def week_hours(calls: Iterable[WorkedCall], rules: Rules, zone: ZoneInfo) -> WeekHours:
    """The calls' hours and each week's; a call over the turn of a week is in both, minute by minute.

    A person is told by the name as it is first written.
    """
    counts = count_hours(calls, rules, zone)
    names: dict[str, str] = {}
    parts: defaultdict[tuple[str, date], list[Part]] = defaultdict(list)
    for count in counts:
        key = name_key(count.call.person)
        names.setdefault(key, count.call.person)
        for part in count.parts:
            parts[key, week_of(part.day, rules.week_starts)].append(part)
    weeks = (WeekTotal(tuple(parts[key, week]), names[key], week) for key, week in sorted(parts))
    return WeekHours(counts, tuple(weeks))


def total(counts: Iterable[Tally]) -> Tally:
    """What several come to together: a show's calls, a month's weeks."""
    return Tally(tuple(part for count in counts for part in count.parts))


def average_worked(weeks: Sequence[Tally], over: int) -> Decimal:
    """Minutes worked a week on average over so many weeks, those without work among them.

    Directive 2003/88/EC, articles 6 and 16: at most 48 h on average, over at most four months as a rule.
    """
    return Decimal(total(weeks).worked) / over
