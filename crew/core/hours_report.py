"""A week's hours of a roster as plain records: a line a person and call, totals by person and by show. No money."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, datetime

from crew.core.hours.records import Tally
from crew.core.hours.weeks import total


@dataclass(frozen=True)
class HoursLine:
    """One call of one person as far as it is of the week. Times are what the house's clocks showed.

    `person_key` and `show_key` tell apart those that share a name.
    """

    person_key: int
    person: str
    show_key: int
    show: str
    event: str
    house: str
    came: datetime
    left: datetime
    meals: tuple[tuple[datetime, datetime], ...]
    tally: Tally
    flags: tuple[str, ...] = ()


@dataclass(frozen=True)
class Group:
    """The lines of one person or of one show, and what they come to."""

    name: str
    lines: tuple[HoursLine, ...]

    @property
    def total(self) -> Tally:
        return total(line.tally for line in self.lines)


@dataclass(frozen=True)
class HoursReport:
    """The week that begins on `week`. `waiting` says whose day can't be counted yet, and why."""

    roster: str
    week: date
    lines: tuple[HoursLine, ...]
    waiting: tuple[str, ...]
    printed_at: datetime

    @property
    def people(self) -> list[Group]:
        return _groups(self.lines, lambda line: line.person_key, lambda line: line.person)

    @property
    def shows(self) -> list[Group]:
        groups = _groups(self.lines, lambda line: line.show_key, lambda line: f"{line.show}, {line.house}")
        return sorted(groups, key=lambda group: group.name.casefold())


def _groups(
    lines: Iterable[HoursLine], key: Callable[[HoursLine], int], name: Callable[[HoursLine], str]
) -> list[Group]:
    """By key, in the order in which each first comes."""
    found: dict[int, list[HoursLine]] = {}
    for line in lines:
        found.setdefault(key(line), []).append(line)
    return [Group(name(group[0]), tuple(group)) for group in found.values()]
