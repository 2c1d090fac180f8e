"""Hours of a call, a person, a show or a week as plain records: a line a person and call, totals of both. No money."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from crew.core.hours.records import Tally
from crew.core.hours.weeks import total


@dataclass(frozen=True)
class HoursLine:
    """One call of one person as far as it is of the report. Times are what the house's clocks showed.

    `person_ref` and `show_ref` tell apart those that share a name.
    """

    person_ref: UUID
    person: str
    show_ref: UUID
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

    ref: UUID
    name: str
    lines: tuple[HoursLine, ...]

    @property
    def total(self) -> Tally:
        return total(line.tally for line in self.lines)


@dataclass(frozen=True)
class HoursReport:
    """`title` says of what the hours are, `roster` who was called. `waiting` names whose day can't be counted yet."""

    title: str
    roster: str
    lines: tuple[HoursLine, ...]
    waiting: tuple[str, ...]
    printed_at: datetime

    @property
    def people(self) -> list[Group]:
        return _groups(self.lines, lambda line: line.person_ref, lambda line: line.person)

    @property
    def shows(self) -> list[Group]:
        groups = _groups(self.lines, lambda line: line.show_ref, lambda line: f"{line.show}, {line.house}")
        return sorted(groups, key=lambda group: group.name.casefold())


def _groups(
    lines: Iterable[HoursLine], ref: Callable[[HoursLine], UUID], name: Callable[[HoursLine], str]
) -> list[Group]:
    """By reference, in the order in which each first comes."""
    found: dict[UUID, list[HoursLine]] = {}
    for line in lines:
        found.setdefault(ref(line), []).append(line)
    return [Group(key, name(group[0]), tuple(group)) for key, group in found.items()]
