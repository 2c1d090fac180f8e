"""The pages of a roster's people, read from the rows in a fixed number of queries."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice
from typing import Any, Literal

from django.core.paginator import Page, Paginator
from django.db.models import Count, Exists, OuterRef, Prefetch, Q, QuerySet

from crew.access import houses_served
from crew.core.filling.bars import days_worked
from crew.core.lasting import SOON, Lasting, is_found, lasting_of
from crew.models import CallLine, Certification, DaysOff, Person, Roster
from crew.wording.people import certification_name, days_off_words, due_words, facts_words, lasting_words, line_words
from venue.core.local_time import house_day

Who = Literal["", "due", "left"]
"""Everybody on the roster, those with a certification to see to, those who have left it."""
PEOPLE_A_PAGE = 100
MOST_CALLS = 50
PAST = timedelta(days=90)
DAY = timedelta(days=1)


def today_of(roster: Roster, now: datetime) -> date:
    """The day by the clocks of the first house that the roster serves; its other houses may have another day."""
    house = houses_served(roster).order_by("pk").first()
    return house_day(now, house.time_zone, house.day_turns_at) if house else now.date()


@dataclass(frozen=True)
class HeldRow:
    """A certification in words, with how it stands."""

    certification: Certification
    name: str
    lasting: Lasting
    words: str

    @property
    def is_to_see_to(self) -> bool:
        return self.lasting in ("expired", "ends-soon")


@dataclass(frozen=True)
class PersonRow:
    """Somebody on the list: what is recorded, the certifications to see to, the days off that are not over."""

    person: Person
    facts: str
    held: Sequence[HeldRow]
    off: Sequence[str]


@dataclass(frozen=True)
class PeoplePage:
    """One page of a roster. `due` says how many certifications are to be seen to on all of it."""

    page: Page
    rows: Sequence[PersonRow]
    count: int
    due: Sequence[str]


def page_of_people(roster: Roster, who: Who, query: str, number: Any, today: date) -> PeoplePage:
    """The page of this number, of those whom the query finds by name or units known."""
    standing, people = roster.persons.standing(), _people(roster, who, today)
    page = Paginator(_found(people, query), PEOPLE_A_PAGE).get_page(number)
    shown = people.filter(pk__in=list(page))
    due = _held().filter(person__in=standing, expires_on__lte=today + SOON)
    counted = due.aggregate(expired=Count("pk", filter=Q(expires_on__lt=today)), all=Count("pk"))
    words = due_words(counted["expired"], counted["all"] - counted["expired"])
    return PeoplePage(page, [_row(person, today) for person in shown], standing.count(), words)


def _people(roster: Roster, who: Who, today: date) -> QuerySet[Person]:
    held = _held().filter(expires_on__lte=today + SOON).select_related("kind", "house").order_by("expires_on")
    off = DaysOff.objects.standing().filter(last_day__gte=today)
    people = roster.persons.prefetch_related(Prefetch("certifications", held, "due"), Prefetch("days_off", off, "off"))
    if who == "left":
        return people.filter(ended_at__isnull=False).order_by("-ended_at", "name", "pk")
    standing = people.standing()
    return standing.filter(Exists(held.filter(person=OuterRef("pk")).order_by())) if who == "due" else standing


def _held() -> QuerySet[Certification]:
    return Certification.objects.standing().filter(kind__ended_at__isnull=True)


def _found(people: QuerySet[Person], query: str) -> Sequence[int]:
    """The keys of those who are found, in order; letters are compared here, as each database folds them its own way."""
    names = people.prefetch_related(None)
    if not query.strip():
        return names.values_list("pk", flat=True)  # type: ignore[return-value]
    rows = names.values_list("pk", "name", "units_known")
    return [pk for pk, name, units in rows if is_found(query, name, units)]


def _row(person: Any, today: date) -> PersonRow:
    off = [days_off_words(row) for row in person.off]
    return PersonRow(person, facts_words(person), [_held_row(each, today) for each in person.due], off)


def _held_row(each: Certification, today: date) -> HeldRow:
    return HeldRow(each, certification_name(each), lasting_of(each.expires_on, today), lasting_words(each, today))


@dataclass(frozen=True)
class CallRow:
    """A line of somebody, in words."""

    line: CallLine
    words: str


@dataclass(frozen=True)
class PersonPage:
    """What is on file about one person; of the calls no more than `MOST_CALLS` either way."""

    person: Person
    held: Sequence[HeldRow]
    off: Sequence[DaysOff]
    to_come: Sequence[CallRow]
    past: Sequence[CallRow]

    @property
    def has_more(self) -> bool:
        """Whether not all calls are shown."""
        return MOST_CALLS in (len(self.to_come), len(self.past))


def page_of_person(person: Person, today: date, now: datetime) -> PersonPage:
    """The person with certifications, days off, calls to come and of the past 90 days."""
    held = _held().filter(person=person).select_related("kind", "house").order_by("kind__name", "pk")
    off = list(person.days_off.standing().filter(last_day__gte=today))
    lines = CallLine.objects.standing().filter(person=person, call__ended_at__isnull=True)
    lines = lines.select_related("call__engagement", "call__event")
    to_come = lines.filter(ends_at__gt=now).order_by("starts_at", "pk")
    past = lines.filter(ends_at__lte=now, starts_at__gte=now - PAST).order_by("-starts_at", "-pk")
    rows = [_held_row(each, today) for each in held]
    return PersonPage(person, rows, off, list(_calls(to_come)), list(_calls(past)))


def _calls(lines: QuerySet[CallLine]) -> Iterator[CallRow]:
    return (CallRow(line, line_words(line)) for line in lines[:MOST_CALLS])


def calls_on(person: Person, first: date, last: date) -> list[str]:
    """The calls on which somebody works on one of these days, in words, at most `MOST_CALLS`.

    The days are those that days off would keep the person off (`days_worked`).
    """
    since, until = (datetime.combine(day, time(), UTC) for day in (first - DAY, last + 2 * DAY))
    lines = CallLine.objects.standing().filter(person=person, call__ended_at__isnull=True)
    lines = lines.filter(ends_at__gt=since, starts_at__lt=until).select_related("call__engagement__house")
    found = (line for line in lines.order_by("starts_at", "pk") if _touches(line, first, last))
    return [line_words(line) for line in islice(found, MOST_CALLS)]


def _touches(line: CallLine, first: date, last: date) -> bool:
    house = line.call.engagement.house
    begins, ends = days_worked(line.starts_at, line.ends_at, line.call.zone, house.day_turns_at)
    return begins <= last and ends >= first
