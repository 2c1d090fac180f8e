"""Who of a roster can come on the lines of a call, from the rows, in a fixed number of queries however many people.

call --asked_of--> Asked (each line, what it asks for) --people_for--> Somebody, one a person --Offers--> Ranked
The check of one person under the lock (barring.py) goes through the same functions.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property, lru_cache
from typing import Any, cast

from django.db.models import QuerySet

from crew.core.filling.bars import bars_of, calendar_days, certification_bars, days_worked, time_bars
from crew.core.filling.ranking import Ranked, Roll, ranked
from crew.core.filling.records import Bar, Booking, Held, Need, Off, OrderedBy, Rules, Somebody, Wanted
from crew.line_needs import Light, Seat, lights_of
from crew.models import Call, CallLine, Certification, CertificationKind, DaysOff, Offer, Person
from crew.models.certifications import NeededFor
from crew.models.day import Absence
from crew.models.offers import Answer
from crew.ran import NOTHING_RUN, ran_before
from venue.core.names import name_key

SHARED_OVER = timedelta(days=28)
"""Before the call: over this the hours of people are compared (common practice, no source)."""
LONGEST = timedelta(days=31)
"""No call is longer: it bounds what is looked through."""


@dataclass(frozen=True)
class Asked:
    """A call with its lines: `lights` of the show, `standing` lines by seat, `kinds` of certification by key."""

    call: Call
    lights: Mapping[Seat, Light]
    standing: Mapping[Seat, CallLine]
    kinds: Mapping[int, CertificationKind]
    rules: Rules

    @cached_property
    def wanted(self) -> dict[Seat, Wanted]:
        """Every line, those of the show's lights first, then those that stand besides."""
        return {
            seat: self._wanted(seat) for seat in (*self.lights, *(s for s in self.standing if s not in self.lights))
        }

    @cached_property
    def on_call(self) -> dict[int, CallLine]:
        """Who is on the call, by the person's key."""
        return {line.person_id: line for line in self.standing.values() if line.person_id is not None}

    def _wanted(self, seat: Seat) -> Wanted:
        line = self.standing.get(seat) or CallLine(call=self.call, number=seat[0], seat=seat[1])
        return wanted_for(line, self.call, self.lights.get(seat), self.kinds.values(), self.rules)

    def wanted_anew(self, line: CallLine, seat: Seat) -> Wanted:
        """The line as it is about to be stored."""
        return wanted_for(line, self.call, self.lights.get(seat), self.kinds.values(), self.rules)


def asked_of(call: Call, lights: Mapping[Seat, Light] | None = None) -> Asked:
    """The call with all that its lines ask for. As many queries however many lines."""
    found = lights_of(call) if lights is None else lights
    standing = call.lines.standing().select_related("person").order_by("sort_key", "seat", "pk")
    kinds = call.roster.certification_kinds.standing().exclude(needed_for="").order_by("name", "pk")
    by_seat = {(line.number_key, line.seat): line for line in standing}
    return Asked(call, found, by_seat, {kind.pk: kind for kind in kinds}, rules_of(call))


def rules_of(call: Call) -> Rules:
    """The rest that the roster gives, and the clocks of the house."""
    return Rules(timedelta(minutes=call.roster.rest_min), call.zone, call.engagement.house.day_turns_at)


def wanted_for(
    line: CallLine, call: Call, light: Light | None, kinds: Iterable[CertificationKind], rules: Rules
) -> Wanted:
    """The line as the pure computation takes it."""
    starts = line.own_at or call.call_at
    asks = {NeededFor.HOUSE, *(light.asks if light else ())}
    return Wanted(
        starts=starts,
        ends=call.ends_at,
        days=calendar_days(starts, call.ends_at, rules.zone),
        works_on=days_worked(starts, call.ends_at, rules.zone, rules.day_turns),
        needs=tuple(_need(kind, call) for kind in kinds if kind.needed_for in asks),
        number=line.number_key,
        seat=line.seat,
        unit_words=light.unit_words if light else frozenset(),
    )


def _need(kind: CertificationKind, call: Call) -> Need:
    is_of_house = kind.needed_for == NeededFor.HOUSE
    return Need(kind.pk, kind.is_required, call.engagement.house_id if is_of_house else None)


def span_of(asked: Asked) -> tuple[datetime, datetime]:
    """From the first start of a line to the end of the call."""
    return min([asked.call.call_at, *(line.starts for line in asked.wanted.values())]), asked.call.ends_at


def people_for(asked: Asked, *, to_rank: bool = True) -> list[Somebody]:
    """Everybody on the roster, with what the call's lines need to know of them. Eight queries.

    What somebody ran and how many hours is left out where nobody is ranked.
    """
    starts, ends = span_of(asked)
    persons = asked.call.roster.persons.standing()
    facts = facts_of(asked, starts, ends)
    ran = ran_before(asked.call, starts) if to_rank else {}
    names = ("pk", "name", "experience", "units_known", "seniority", "skill")
    return [
        Somebody(key, name, experience, _words(units), seniority, grade, ran=ran.get(key, NOTHING_RUN), **facts.of(key))
        for key, name, experience, units, seniority, grade in persons.order_by("pk").values_list(*names)
    ]


@dataclass(frozen=True)
class Facts:
    """By the person's key: certifications, other lines, days off, minutes in the window; who said no to the call."""

    held: Mapping[int, list[Held]]
    bookings: Mapping[int, list[Booking]]
    off: Mapping[int, list[Off]]
    minutes: Mapping[int, int]
    declined: frozenset[int] = frozenset()

    def of(self, key: int) -> dict[str, Any]:
        return {
            "held": tuple(self.held.get(key, ())),
            "bookings": tuple(self.bookings.get(key, ())),
            "off": tuple(self.off.get(key, ())),
            "minutes": self.minutes.get(key, 0),
            "has_declined": key in self.declined,
        }


def facts_of(asked: Asked, starts: datetime, ends: datetime, only: Person | None = None) -> Facts:
    """What may keep people of the roster, or only one of them, off lines between the instants. Five queries.

    Of one person it is not asked whether they said no: who is put on a line has been asked anew.
    """
    days, roster = calendar_days(starts, ends, asked.rules.zone), asked.call.roster_id
    one = {} if only is None else {"person": only}
    kinds = {need.kind for wanted in asked.wanted.values() for need in wanted.needs} if asked.wanted else {*asked.kinds}
    held = Certification.objects.standing().filter(kind__in=kinds, **one).order_by()
    off = DaysOff.objects.standing().filter(first_day__lte=days[1], last_day__gte=days[0], person__roster=roster, **one)
    lines = CallLine.objects.standing().filter(person__isnull=False, **one).order_by()
    bookings, minutes = _bookings(lines, asked, starts, ends)
    return Facts(
        held=_by_person(held.values_list("person_id", "kind_id", "house_id", "expires_on"), Held),
        bookings=bookings,
        off=_by_person(off.order_by().values_list("person_id", "first_day", "last_day"), Off),
        minutes=minutes,
        declined=frozenset() if only else _declined(asked.call),
    )


def _declined(call: Call) -> frozenset[int]:
    """Who said no to the call the last time that they were asked."""
    said = Offer.objects.filter(line__call=call).order_by("asked_at", "pk").values_list("person_id", "answer")
    return frozenset(person for person, answer in dict(said).items() if answer == Answer.DECLINED)


def _by_person(rows: Iterable[Any], make: Any) -> dict[int, list[Any]]:
    found: dict[int, list[Any]] = defaultdict(list)
    for person, *values in rows:
        found[person].append(make(*values))
    return found


def _bookings(
    lines: QuerySet[CallLine], asked: Asked, starts: datetime, ends: datetime
) -> tuple[dict[int, list[Booking]], dict[int, int]]:
    """The lines that come near, and the minutes of the window. Lines of this very call keep nobody off it."""
    rest = asked.rules.rest
    since, until = min(starts - SHARED_OVER, starts - rest), ends + rest
    calls = asked.call.roster.calls.standing().filter(call_at__gt=since - LONGEST, ends_at__gt=since)
    times = _times(calls.exclude(pk=asked.call.pk).order_by())
    bookings: dict[int, list[Booking]] = defaultdict(list)
    minutes: dict[int, int] = defaultdict(int)
    names = ("person_id", "call_id", "own_at", "attendance__in_at", "attendance__out_at", "attendance__absence")
    for person, call, own, came, left, absence in lines.filter(call__in=list(times)).values_list(*names):
        start, end = own or times[call][0], times[call][1]
        if start < until and max(end, left or end) > starts - rest:
            bookings[person].append(Booking(start, end, left))
        if absence != Absence.NO_SHOW and start < starts:
            minutes[person] += int(((left or end) - (came or start)) / timedelta(minutes=1))
    return bookings, minutes


def _times(calls: QuerySet[Call]) -> dict[int, tuple[datetime, datetime]]:
    """When each call begins and ends, by its key: its lines need not be asked one by one."""
    return {key: (starts, ends) for key, starts, ends in calls.values_list("pk", "call_at", "ends_at")}


@lru_cache(maxsize=4096)
def _words(units_known: str) -> frozenset[str]:
    return frozenset(map(name_key, units_known.split(","))) if units_known else frozenset()


class Offers:
    """The people of a call's roster against its lines; who has the same needs at the same time is judged once."""

    def __init__(self, asked: Asked, people: Iterable[Somebody] | None = None) -> None:
        self.asked = asked
        ordered_by = cast(OrderedBy, asked.call.roster.referral_order)
        self.roll = Roll(people_for(asked) if people is None else people, ordered_by)
        self._by_time: dict[Any, list[tuple[Bar, ...]]] = {}
        self._by_needs: dict[Any, list[tuple[Bar, ...]]] = {}

    def bars(self, wanted: Wanted) -> list[tuple[Somebody, tuple[Bar, ...]]]:
        """Everybody with what keeps them off the line."""
        people, rules = self.roll.people, self.asked.rules
        time, needs = (wanted.starts, wanted.ends), (wanted.days[1], wanted.needs)
        if time not in self._by_time:
            self._by_time[time] = [time_bars(each, wanted, rules) for each in people]
        if needs not in self._by_needs:
            self._by_needs[needs] = [certification_bars(each.held, wanted) for each in people]
        both = zip(people, self._by_time[time], self._by_needs[needs], strict=True)
        return [(each, (*at, *certified)) for each, at, certified in both]

    def bars_on(self, somebody: Somebody | None, wanted: Wanted) -> tuple[Bar, ...]:
        """What speaks against somebody who is on the line already; somebody unknown has left the roster."""
        if somebody is None:
            return (Bar("left"),)
        return tuple(bar for bar in bars_of(somebody, wanted, self.asked.rules) if bar.code != "declined")

    def ranked(self, seat: Seat) -> list[Ranked]:
        """Everybody who is not on another line of the call, the best for the seat first."""
        wanted, on = self.asked.wanted[seat], self.asked.on_call
        free = [pair for pair in self.bars(wanted) if pair[0].key not in on]
        return ranked(free, wanted, self.roll)
