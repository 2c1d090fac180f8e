"""A roster's rules for hours by house and by day.

A set holds for the working days from its first day on, until that of the next set for the same house, or for all
houses. Where a house has none of its own yet, the one for all holds. Which working day it is, each set says itself: its
first day begins when the day turns by its own rules.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from crew.core.hours.reading_rules import read_rules
from crew.core.hours.records import Rules
from crew.core.hours.rest import working_day
from crew.models import HourRules, Roster

House = int | None
"""The key of a house; None stands for all houses that have no rules of their own."""


@dataclass(frozen=True)
class RuleSet:
    """A stored set, and what it says."""

    row: HourRules
    rules: Rules

    def day_of(self, instant: datetime, zone: str) -> date:
        """The working day of a call that begins at the instant, as the set turns days."""
        return working_day(instant, self.rules.day_turns, ZoneInfo(zone))


@dataclass(frozen=True)
class RuleBook:
    """A roster's sets by house, the latest first. `unread` have a problem in them and are not used."""

    sets: Mapping[House, tuple[RuleSet, ...]]
    unread: tuple[HourRules, ...] = ()

    def of(self, house: House, day: date) -> Rules:
        """By what the house's hours of the working day are counted; rules that say nothing where none are on file."""
        return _said(self._found(house, lambda _each: day))

    def at(self, house: House, instant: datetime, zone: str) -> Rules:
        """By what a call is counted that begins at the instant; `zone` is that of the house's clocks."""
        return _said(self._found(house, lambda each: each.day_of(instant, zone)))

    def row_at(self, house: House, instant: datetime, zone: str) -> HourRules | None:
        """The stored set that holds for such a call."""
        found = self._found(house, lambda each: each.day_of(instant, zone))
        return found.row if found else None

    def row_before(self, row: HourRules) -> HourRules | None:
        """The set for the same house, or for all, that held until this one began."""
        return next((other for other in self._others(row) if other.first_day <= row.first_day), None)

    def row_after(self, row: HourRules) -> HourRules | None:
        """The set for the same that follows this one."""
        later = [other for other in self._others(row) if other.first_day > row.first_day]
        return later[-1] if later else None

    def _others(self, row: HourRules) -> Iterator[HourRules]:
        return (each.row for each in self.sets.get(row.house_id, ()) if each.row.pk != row.pk)

    def _found(self, house: House, day_by: Callable[[RuleSet], date]) -> RuleSet | None:
        """The latest set that has begun: the house's own, else one for all."""
        own = () if house is None else self.sets.get(house, ())
        sets = (*own, *self.sets.get(None, ()))
        return next((each for each in sets if each.row.first_day <= day_by(each)), None)


def rule_book(roster: Roster) -> RuleBook:
    """The roster's sets that stand. One query."""
    return book_of(roster.hour_rules.standing().select_related("house"))


def book_of(rows: Iterable[HourRules]) -> RuleBook:
    """The book of these sets."""
    sets: defaultdict[House, list[RuleSet]] = defaultdict(list)
    unread = []
    for row in sorted(rows, key=lambda row: row.first_day, reverse=True):
        read = read_rules(row.rules)
        if read.problems:
            unread.append(row)
        else:
            sets[row.house_id].append(RuleSet(row, read.rules))
    return RuleBook({house: tuple(found) for house, found in sets.items()}, tuple(unread))


def _said(found: RuleSet | None) -> Rules:
    return found.rules if found else Rules()
