"""Putting people on the numbers of a call, or on one that they hear at the spot talk.

Each verb locks the call first: two who fill it at once come one after the other.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import datetime
from itertools import count
from typing import Any

from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from crew.actions.offer_ends import fill_offers, withdraw_offers
from crew.actions.outbox import tell_booked, tell_released
from crew.actions.passing import keep_to_list
from crew.barring import lock_persons, refuse_barred
from crew.line_errors import Booked
from crew.line_needs import Light, lights_of
from crew.models import Call, CallLine, Person
from crew.models.calls import LineRole
from venue.core.labels import label_key
from venue.core.local_time import wall_time
from venue.errors import AlreadyEnded, AlreadyExists, Overlap
from venue.history import Actor, record
from venue.storing import end, store

Seat = tuple[str, int]
"""A show number ("" at the spot talk) and which light of its team, from 1."""


@transaction.atomic
def fill_call(
    *,
    actor: Actor,
    call: Call,
    people: Mapping[Seat, Person | None],
    at_spot_talk: Sequence[Person | None],
    at: datetime,
    seen: int,
    hands: Mapping[int, Person | None] | None = None,
    reason: str = "",
) -> None:
    """Make the call's operators those given, as a form shows them all; None is a place still to fill.

    `hands` are the head spots, spares and runners by their seat; those not given stay as they are. People leave
    their numbers before anybody takes one, so that two can swap. `reason` is why others are passed over where the list
    is strict. Raises StaleVersion unless the call has version `seen`, AlreadyExists if a person comes twice,
    PassesOver, AlreadyEnded, Invalid, and as `put_on_line`; then nothing is stored.
    """
    lock_call(call)
    call.save_version(fields=[], seen=seen)
    standing = {(line.number_key, line.seat): line for line in call.lines.standing()}
    wanted = _wanted(people, at_spot_talk, hands or {}, standing)
    gone = [line for key, line in standing.items() if key not in wanted or not _may_stay(line, wanted[key][1])]
    for line in gone:
        release(line, at=at, reason=_("filled anew"))
    lock_persons(person for _number, person in wanted.values())
    lights = lights_of(call)
    new = [_put(call, number, key[1], who, standing.get(key), lights) for key, (number, who) in wanted.items()]
    keep_to_list(actor=actor, call=call, lines=[line for line in new if line is not None], at=at, reason=reason)
    _record(actor, "call.filled", call, operators=_names(call.lines.standing().select_related("person")))


SeatsWanted = dict[Seat, tuple[str, Person | None]]
"""By number key and seat: the number as written and who is on it."""


def _wanted(
    people: Mapping[Seat, Person | None],
    at_spot_talk: Sequence[Person | None],
    hands: Mapping[int, Person | None],
    standing: Mapping[Seat, CallLine],
) -> SeatsWanted:
    """What is to stand afterwards. A number without anybody needs no line, unless its line says more of it."""
    numbered = {(label_key(number), seat): (number, person) for (number, seat), person in people.items()}
    needed = {key: each for key, each in numbered.items() if each[1] is not None or _says_more(standing.get(key))}
    talk = {("", seat): ("", person) for seat, person in zip(_talk_seats(standing), at_spot_talk, strict=False)}
    return {**needed, **talk, **_hands(hands, standing)}


def _says_more(line: CallLine | None) -> bool:
    if line is None:
        return False
    if line.role != LineRole.OPERATOR or line.own_at is not None or line.follows_id is not None:
        return True
    return line.offers.filter(answer="").exists()


def _talk_seats(standing: Mapping[Seat, CallLine]) -> Iterator[int]:
    """The seats at the spot talk: those that stand, then as many more as are wanted."""
    bare = sorted((seat, line.role) for (key, seat), line in standing.items() if not key)
    yield from (seat for seat, role in bare if role == LineRole.OPERATOR)
    yield from count(max((seat for seat, _role in bare), default=0) + 1)


def _hands(hands: Mapping[int, Person | None], standing: Mapping[Seat, CallLine]) -> SeatsWanted:
    """Those without a number who do something else than run a light."""
    bare = {seat: line for (key, seat), line in standing.items() if not key and line.role != LineRole.OPERATOR}
    return {("", seat): ("", hands.get(seat, line.person)) for seat, line in bare.items()}


def _may_stay(line: CallLine, person: Person | None) -> bool:
    """A line that nobody is on yet takes whoever comes."""
    return line.person_id is None or line.person_id == (person.pk if person else None)


def _put(
    call: Call,
    number: str,
    seat: int,
    person: Person | None,
    before: CallLine | None,
    lights: Mapping[Seat, Light],
) -> CallLine | None:
    """The person on the seat, None where nothing changes there.

    A line that ended leaves the next one its role and its own call time.
    """
    if before is None:
        return put_on_line(CallLine(call=call, number=number, seat=seat, person=person), lights)
    if before.has_ended:
        kept = kept_of(before)
        return put_on_line(CallLine(call=call, number=number, seat=seat, person=person, **kept), lights)
    if before.person_id is None and person is not None:
        before.person = person
        return put_on_line(before, lights)
    return None


def kept_of(line: CallLine) -> dict[str, Any]:
    """What a line leaves to the one that takes its seat."""
    return {name: getattr(line, name) for name in ("role", "own_at", "own_date", "own_time")}


def _names(lines: Iterable[CallLine]) -> list[str]:
    return [f"{line}: {line.person.name if line.person else '—'}" for line in lines]


@transaction.atomic
def put_on_number(
    *,
    actor: Actor,
    call: Call,
    number: str,
    person: Person,
    seat: int = 1,
    at: datetime | None = None,
    reason: str = "",
) -> CallLine:
    """The person on a show number that is still to fill, `at` an instant, by default now.

    `reason` is why others are passed over where the list is strict. Raises PassesOver, AlreadyExists, AlreadyEnded,
    and as `put_on_line`.
    """
    lock_call(call)
    waiting = call.lines.standing().filter(number_key=label_key(number), seat=seat, person=None).first()
    line = waiting or CallLine(call=call, number=number, seat=seat)
    return _put_one(actor, line, person, at, reason)


@transaction.atomic
def put_at_spot_talk(
    *,
    actor: Actor,
    call: Call,
    person: Person,
    at: datetime | None = None,
    reason: str = "",
    called_at: datetime | None = None,
) -> CallLine:
    """The person on a number told at the spot talk: the first one still to fill, else one more.

    `called_at` is an own call time, a whole minute after the call time, for a line that has none. `at`, `reason` and
    what is raised as for `put_on_number`.
    """
    lock_call(call)
    seats = {line.seat: line for line in call.lines.standing().filter(number_key="")}
    operators = (line for line in seats.values() if line.role == LineRole.OPERATOR)
    line = next((line for line in operators if line.person_id is None), None)
    line = line or CallLine(call=call, seat=max(seats, default=0) + 1)
    if called_at is not None and line.own_at is None:
        own = wall_time(called_at, call.zone)
        line.own_at, line.own_date, line.own_time = called_at, own.date(), own.time()
    return _put_one(actor, line, person, at, reason)


def _put_one(actor: Actor, line: CallLine, person: Person, at: datetime | None, reason: str) -> CallLine:
    line.person = person
    put_on_line(line)
    keep_to_list(actor=actor, call=line.call, lines=[line], at=at or timezone.now(), reason=reason)
    call_touched(line.call)
    _record(actor, "call.put", line.call, name=person.name, line=str(line))
    return line


@transaction.atomic
def take_off(*, actor: Actor, line: CallLine, at: datetime, reason: str) -> None:
    """The person is on the call no more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    lock_call(line.call)
    release(line, at=at, reason=reason)
    call_touched(line.call)
    name = line.person.name if line.person else ""
    _record(actor, "call.taken_off", line.call, name=name, line=str(line), reason=reason)


def release(line: CallLine, *, at: datetime, reason: str) -> None:
    """The line ends and books nobody any more. Raises as `end`."""
    line.ends_at = line.starts_at
    end(line, at=at, reason=reason, also=("ends_at",))
    withdraw_offers([line])
    tell_released(line)


def put_on_line(line: CallLine, lights: Mapping[Seat, Light] | None = None) -> CallLine:
    """The line with its person, booked for the time of its call: the one way in which anybody comes on a line.

    The call is locked, the person is from here on; `lights` spares the look at the show where many lines are put.
    Raises CertificationMissing, ShortRest, DayOff, LeftRoster, AlreadyExists, Booked, Invalid.
    """
    refuse_barred(line, lights)
    line.book(line.call)
    with naming_who_is_booked(line):
        store(line)
    fill_offers(line)
    tell_booked(line)
    return line


@contextmanager
def naming_who_is_booked(line: CallLine) -> Iterator[None]:
    """The refusal of a person who is on another call then, or on this one already, names them."""
    try:
        yield
    except Overlap as refusal:
        other: CallLine = refusal.holder  # type: ignore[assignment]
        if other.call_id == line.call_id:
            raise AlreadyExists(_("This person is on the call already.")) from refusal
        name, where = line.person.name if line.person else "", _where(other.call)
        raise Booked(name, other.starts_at, other.ends_at, line.zone, where) from refusal


def _where(call: Call) -> str:
    engagement = call.engagement
    return _("%(show)s at %(house)s") % {"show": engagement.name, "house": engagement.house.name}


def lock_call(call: Call) -> None:
    """Hold the call, so that who fills it at the same time comes after. Raises AlreadyEnded."""
    held = Call._base_manager.select_for_update().get(pk=call.pk)
    if held.ended_at is not None:
        raise AlreadyEnded(held, held.ended_at)


def call_touched(call: Call) -> None:
    """Whoever has the form of the call open sees that somebody wrote in between."""
    held = Call._base_manager.get(pk=call.pk)
    held.save_version(fields=[])
    call.version = held.version


def _record(actor: Actor, verb: str, call: Call, **facts: object) -> None:
    record(actor, verb, call, house=call.engagement.house, show=call.engagement.name, event=str(call.event), **facts)
