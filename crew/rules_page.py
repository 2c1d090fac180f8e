"""Which rules for hours hold where and when, as the pages of rules tell it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from crew.models import HourRules
from crew.rule_book import RuleBook
from crew.wording.rules import days_of_rules
from venue.models import House


@dataclass(frozen=True)
class ShownSet:
    """A set, the days for which it holds in words, and whether it is the one in force today."""

    row: HourRules
    days: str
    is_now: bool
    is_unread: bool


@dataclass(frozen=True)
class RulesOf:
    """The sets of one house or, without one, of all others, in the order of their days."""

    house: House | None
    sets: Sequence[ShownSet]

    @property
    def begins_later(self) -> bool:
        """Whether none of its own holds today."""
        return bool(self.sets) and not any(each.is_now for each in self.sets)


def rules_of_houses(houses: Sequence[House], book: RuleBook, now: datetime) -> list[RulesOf]:
    """The sets for all houses, then each house's. Today is told by each house's clocks, for all by the first's."""
    zone = houses[0].time_zone if houses else "UTC"
    of_all = RulesOf(None, _shown(None, book, book.row_at(None, now, zone)))
    own = (RulesOf(house, _shown(house.pk, book, book.row_at(house.pk, now, house.time_zone))) for house in houses)
    return [of_all, *own]


def _shown(house: int | None, book: RuleBook, holds: HourRules | None) -> list[ShownSet]:
    read = (each.row for each in book.sets.get(house, ()))
    unread = [row for row in book.unread if row.house_id == house]
    return [
        ShownSet(row, days_of_rules(row, book.row_after(row)), row == holds, row in unread)
        for row in _in_order([*read, *unread])
    ]


def _in_order(rows: Iterable[HourRules]) -> list[HourRules]:
    return sorted(rows, key=lambda row: row.first_day)
