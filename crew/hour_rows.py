"""From what is written of people's days to the hours that are counted, in a fixed number of queries.

    rows --attended--> Attended (with the call as it was worked)  --counted--> Counted, by the rules of each house

Each person's calls are counted in their order, those of the two weeks before with them: overtime by the week, rest and
days in a row reach back. Whoever works in several houses is counted by each house's rules, all calls seen by each.

Who signs in before the own call time works from the call time on: early punching may be disregarded where nobody works
(29 CFR 785.48(a), from memory). An earlier call of one's own is written on the line.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from django.db.models import Prefetch, Q

from crew.core.day import LONGEST
from crew.core.hours.counting import count_hours
from crew.core.hours.meals import is_meal, late_from
from crew.core.hours.minimums import minimum_of
from crew.core.hours.overtime import week_of
from crew.core.hours.reading_rules import read_rules
from crew.core.hours.records import MINUTE, HourCount, Part, Rules, Stretch, WorkedCall
from crew.models import Attendance, Call, CallLine, HourRules, MealBreak, Roster
from venue.core.local_time import wall_time

LOOK_BACK = timedelta(days=14)
WEEK = timedelta(days=7)


@dataclass(frozen=True)
class RuleBook:
    """A roster's rules: for all houses, and for those with their own; `unread` are sets with a problem in them."""

    usual: Rules
    by_house: Mapping[int, Rules]
    rows: tuple[HourRules, ...]
    unread: tuple[HourRules, ...] = ()

    def of(self, house: int) -> Rules:
        return self.by_house.get(house, self.usual)

    def row_of(self, house: int) -> HourRules | None:
        """The stored set that holds in the house."""
        own = {row.house_id: row for row in self.rows}
        return own.get(house) or own.get(None)


def rule_book(roster: Roster) -> RuleBook:
    """The roster's rules as they are now. One query."""
    rows = tuple(roster.hour_rules.standing().select_related("house"))
    read = {row: read_rules(row.rules) for row in rows}
    sound = {row.house_id: found.rules for row, found in read.items() if not found.problems}
    unread = tuple(row for row, found in read.items() if found.problems)
    by_house = {house: rules for house, rules in sound.items() if house is not None}
    return RuleBook(sound.get(None, Rules()), by_house, rows, unread)


@dataclass(frozen=True)
class Attended:
    """One person's day on a call. `worked` is None while a time out is missing."""

    row: Attendance
    call: Call
    meals: tuple[MealBreak, ...]
    starts: datetime
    worked: WorkedCall | None

    @property
    def person(self) -> str:
        return self.row.line.person.name if self.row.line.person else ""

    @property
    def since_meal(self) -> datetime:
        """Since when there was no meal: from the last one's end, else from the start of work."""
        ends = (each.ends_at for each in self.meals if each.ends_at and is_meal(each.starts_at, each.ends_at))
        return max(ends, default=self.starts)

    @property
    def is_at_meal(self) -> bool:
        return any(each.ends_at is None for each in self.meals)


@dataclass(frozen=True)
class Counted:
    """A day that is over, and what it comes to by the rules of its house."""

    day: Attended
    count: HourCount
    rules: Rules

    @property
    def minimum(self) -> int:
        """The least that is paid for it [min]."""
        return minimum_of(self.count.call, self.rules, "recall" in self.count.flags)


def meal_due(day: Attended, rules: Rules) -> datetime | None:
    """When the next meal is due, or was for who is out; None at a meal, and where no rule asks for one."""
    return None if day.is_at_meal else late_from(day.since_meal, rules)


def hours_of_call(call: Call, book: RuleBook) -> tuple[list[Counted], list[Attended]]:
    """What each day of the call comes to, by name, and the days that can't be counted yet."""
    persons = Attendance.objects.filter(line__call=call, in_at__isnull=False).values("line__person")
    until = call.call_at + LONGEST + MINUTE
    days = attended(call.roster, Q(line__person__in=persons), call.call_at - LOOK_BACK, until)
    done = [each for each in counted(days, book) if each.day.call.pk == call.pk]
    return sorted(done, key=_by_name), [day for day in days if day.call.pk == call.pk and day.worked is None]


def hours_of_week(roster: Roster, week: date, book: RuleBook) -> tuple[list[Counted], list[Attended]]:
    """Every day with minutes in the week that begins on that date, by name and time, and those not counted yet."""
    starts = datetime.combine(week, time(0), UTC)
    days = attended(roster, Q(), starts - LOOK_BACK, starts + WEEK + LONGEST)
    done = [each for each in counted(days, book) if parts_in(each, week)]
    still = [day for day in days if day.worked is None and _is_in(day, week)]
    return sorted(done, key=_by_name), still


def parts_in(each: Counted, week: date) -> tuple[Part, ...]:
    """The parts of a day that are of the week."""
    return tuple(part for part in each.count.parts if week <= part.day < week + WEEK)


def usual_week(day: date, book: RuleBook) -> date:
    """The first day of the roster's week that holds the day."""
    return week_of(day, book.usual.week_starts)


def attended(roster: Roster, which: Q, since: datetime, until: datetime) -> list[Attended]:
    """The days of the roster's calls on which somebody came, in their order. Three queries."""
    meals = Prefetch("meals", MealBreak.objects.standing(), to_attr="meals_taken")
    related = ("line__person", "line__call__event", "line__call__engagement__house")
    rows = Attendance.objects.filter(which, line__call__roster=roster, in_at__gte=since, in_at__lt=until)
    found = list(rows.select_related(*related).prefetch_related(meals).order_by("in_at", "pk"))
    own = _own_calls(found)
    return [_attended(row, own.get((row.line.call_id, row.line.person_id), row.line)) for row in found]


def _own_calls(rows: Iterable[Attendance]) -> Mapping[tuple[int, int | None], CallLine]:
    """The standing line of each person by call: it has the own call time of who changed lines."""
    calls = {row.line.call_id for row in rows}
    lines = CallLine.objects.standing().filter(call__in=calls, person__isnull=False)
    return {(line.call_id, line.person_id): line for line in lines}


def _attended(row: Attendance, line: CallLine) -> Attended:
    call = row.line.call
    assert row.in_at is not None
    own = line.own_at or call.call_at
    is_early = row.in_at < own and (row.out_at is None or row.out_at > own)
    starts = own if is_early else row.in_at
    meals = tuple(each for each in row.meals_taken if each.ends_at is None or each.ends_at > starts)  # type: ignore[attr-defined]
    return Attended(row, call, meals, starts, _worked(row, call, starts, meals))


def _worked(row: Attendance, call: Call, starts: datetime, meals: Sequence[MealBreak]) -> WorkedCall | None:
    if row.out_at is None or any(each.ends_at is None for each in meals):
        return None
    taken = [Stretch(max(each.starts_at, starts), each.ends_at) for each in meals if each.ends_at]
    worked = WorkedCall.between(str(row.line.person_id), starts, row.out_at, taken, call.event.kind)
    return WorkedCall(worked.person, worked.stretches, worked.kind, call.ends_at, key=row.pk)


def counted(days: Iterable[Attended], book: RuleBook) -> list[Counted]:
    """What the days come to that are over: once for each set of rules, and taken where the set holds."""
    over = [day for day in days if day.worked is not None]
    kinds = {_kind(day, book) for day in over}
    return [each for rules, zone in sorted(kinds, key=str) for each in _by(rules, zone, over, book)]


def _by(rules: Rules, zone: str, days: Sequence[Attended], book: RuleBook) -> Iterator[Counted]:
    counts = count_hours((day.worked for day in days if day.worked), rules, ZoneInfo(zone))
    for day, count in zip(days, counts, strict=True):
        if _kind(day, book) == (rules, zone):
            yield Counted(day, count, rules)


def _kind(day: Attended, book: RuleBook) -> tuple[Rules, str]:
    return book.of(day.call.engagement.house_id), day.call.zone


def _is_in(day: Attended, week: date) -> bool:
    return week <= wall_time(day.starts, day.call.zone).date() < week + WEEK


def _by_name(each: Counted) -> tuple[str, int, datetime]:
    return each.day.person.casefold(), each.day.row.line.person_id or 0, each.day.starts
