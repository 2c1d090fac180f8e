"""From what is written of people's days to the hours that are counted, in a fixed number of queries.

    rows --attended--> Attended (with the call as it was worked)  --counted--> Counted, by the rules of house and day

Each person's calls are counted in their order, those of the two weeks before with them: overtime by the week, rest and
days in a row reach back. Whoever works in several houses, or over a change of rules, is counted by each set, all calls
seen by each; what a call comes to is taken from the set that holds for it.

Who signs in before the own call time works from the call time on: early punching may be disregarded where nobody works
(29 CFR 785.48(a), from memory). An earlier call of one's own is written on the line.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Max, Min, Prefetch, Q, QuerySet

from crew.core.day import LONGEST
from crew.core.hours.counting import count_hours
from crew.core.hours.meals import is_meal, late_from
from crew.core.hours.minimums import minimum_of
from crew.core.hours.overtime import week_of
from crew.core.hours.records import MINUTE, HourCount, Part, Rules, Stretch, WorkedCall
from crew.models import Attendance, Call, CallLine, MealBreak, Person, Roster
from crew.rule_book import RuleBook
from shows.models import Engagement
from venue.core.local_time import wall_time

LOOK_BACK = timedelta(days=14)
DAY = timedelta(days=1)


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
    def person_ref(self) -> UUID:
        assert self.row.line.person is not None
        return self.row.line.person.ref

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


Hours = tuple[list[Counted], list[Attended]]
"""The days that are counted, by name and time, and those that can't be yet."""


def hours_of_call(call: Call, book: RuleBook) -> Hours:
    """The days of everybody on the call. Queries as `attended`."""
    came = Attendance.objects.filter(line__call=call, in_at__isnull=False)
    done, still = _hours_of(call.roster, came, call.call_at, call.call_at + LONGEST + MINUTE, book)
    return [each for each in done if each.day.call.pk == call.pk], [day for day in still if day.call.pk == call.pk]


def hours_of_show(roster: Roster, show: Engagement, book: RuleBook) -> Hours:
    """The days of everybody on the roster's calls for the show. One query more than `attended`."""
    came = Attendance.objects.filter(line__call__roster=roster, line__call__engagement=show, in_at__isnull=False)
    ends = came.aggregate(first=Min("in_at"), last=Max("in_at"))
    if ends["first"] is None:
        return [], []
    done, still = _hours_of(roster, came, ends["first"], ends["last"] + MINUTE, book)
    of_show = [day for day in still if day.call.engagement_id == show.pk]
    return [each for each in done if each.day.call.engagement_id == show.pk], of_show


def _hours_of(roster: Roster, came: QuerySet[Attendance], since: datetime, until: datetime, book: RuleBook) -> Hours:
    """What these people did from one instant to another, and before as far as rules look back."""
    days = attended(roster, Q(line__person__in=came.values("line__person")), since - LOOK_BACK, until)
    return sorted(counted(days, book), key=_by_name), [day for day in days if day.worked is None]


def hours_of_days(roster: Roster, first: date, last: date, book: RuleBook, person: Person | None = None) -> Hours:
    """Every day with minutes from `first` to `last`, of one person if given. Queries as `attended`."""
    since, until = (datetime.combine(day, time(0), UTC) for day in (first, last))
    which = Q() if person is None else Q(line__person=person)
    days = attended(roster, which, since - LOOK_BACK, until + DAY + LONGEST)
    done = [each for each in counted(days, book) if parts_in(each, first, last)]
    still = [day for day in days if day.worked is None and first <= _day_of(day) <= last]
    return sorted(done, key=_by_name), still


def parts_in(each: Counted, first: date, last: date) -> tuple[Part, ...]:
    """The parts of a day that are of these days."""
    return tuple(part for part in each.count.parts if first <= part.day <= last)


def usual_week(day: date, book: RuleBook) -> date:
    """The first day of the roster's week that holds the day, by the rules of that day."""
    return week_of(day, book.of(None, day).week_starts)


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
    return attended_day(row, row.line.call, line.own_at or row.line.call.call_at)


def attended_day(row: Attendance, call: Call, own: datetime) -> Attended:
    """The day of somebody who came, with its `meals_taken`; `own` is the own call time."""
    assert row.in_at is not None
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
    kinds = [(rules_of(day, book), day.call.zone) for day in over]
    found = []
    for rules, zone in dict.fromkeys(kinds):
        counts = count_hours((day.worked for day in over if day.worked), rules, ZoneInfo(zone))
        each = zip(over, counts, kinds, strict=True)
        found += [Counted(day, count, rules) for day, count, kind in each if kind == (rules, zone)]
    return found


def rules_of(day: Attended, book: RuleBook) -> Rules:
    """By what the day is counted: its house's rules of the working day on which it began."""
    return book.at(day.call.engagement.house_id, day.starts, day.call.zone)


def _day_of(day: Attended) -> date:
    return wall_time(day.starts, day.call.zone).date()


def _by_name(each: Counted) -> tuple[str, int, datetime]:
    return each.day.person.casefold(), each.day.row.line.person_id or 0, each.day.starts
