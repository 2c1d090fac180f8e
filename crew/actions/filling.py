"""Putting people on the numbers of a call, or on one that they hear at the spot talk.

Each verb locks the call first: two who fill it at once come one after the other.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from crew.errors import Booked
from crew.models import Call, CallLine, Person
from venue.core.labels import label_key
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
) -> None:
    """Make the call's operators those given, as a form shows them all; None is a place still to fill.

    People leave their numbers before anybody takes one, so that two can swap. Raises StaleVersion unless the
    call has version `seen`, AlreadyExists if a person comes twice, AlreadyEnded, Invalid; then nothing is stored.
    """
    _lock(call)
    call.save_version(fields=[], seen=seen)
    wanted = _wanted(people, at_spot_talk)
    standing = {(line.number_key, line.seat): line for line in call.lines.standing()}
    gone = [line for key, line in standing.items() if key not in wanted or not _is_on(line, wanted[key][1])]
    for line in gone:
        release(line, at=at, reason=_("filled anew"))
    for key, (number, person) in wanted.items():
        if key not in standing or standing[key].has_ended:
            put_on_line(CallLine(call=call, number=number, seat=key[1], person=person))
    _record(actor, "call.filled", call, operators=_names(call.lines.standing().select_related("person")))


def _wanted(
    people: Mapping[Seat, Person | None], at_spot_talk: Sequence[Person | None]
) -> dict[Seat, tuple[str, Person | None]]:
    """By number key and seat: the number as written and who is on it. A number without anybody needs no line."""
    numbered = {
        (label_key(number), seat): (number, person) for (number, seat), person in people.items() if person is not None
    }
    return {**numbered, **{("", seat): ("", person) for seat, person in enumerate(at_spot_talk, start=1)}}


def _is_on(line: CallLine, person: Person | None) -> bool:
    return line.person_id == (person.pk if person else None)


def _names(lines: Iterable[CallLine]) -> list[str]:
    return [f"{line}: {line.person.name if line.person else '—'}" for line in lines]


@transaction.atomic
def put_on_number(*, actor: Actor, call: Call, number: str, person: Person, seat: int = 1) -> CallLine:
    """The person on a show number that is still to fill. Raises AlreadyExists, AlreadyEnded, Invalid."""
    _lock(call)
    line = put_on_line(CallLine(call=call, number=number, seat=seat, person=person))
    _touched(call)
    _record(actor, "call.put", call, name=person.name, line=str(line))
    return line


@transaction.atomic
def put_at_spot_talk(*, actor: Actor, call: Call, person: Person) -> CallLine:
    """The person on a number told at the spot talk: the first one still to fill, else one more.

    Raises AlreadyExists, AlreadyEnded, Invalid.
    """
    _lock(call)
    seats = {line.seat: line for line in call.lines.standing().filter(number_key="")}
    line = next((line for line in seats.values() if line.person_id is None), None)
    line = line or CallLine(call=call, seat=max(seats, default=0) + 1)
    line.person = person
    put_on_line(line)
    _touched(call)
    _record(actor, "call.put", call, name=person.name, line=str(line))
    return line


@transaction.atomic
def take_off(*, actor: Actor, line: CallLine, at: datetime, reason: str) -> None:
    """The person is on the call no more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    _lock(line.call)
    release(line, at=at, reason=reason)
    _touched(line.call)
    name = line.person.name if line.person else ""
    _record(actor, "call.taken_off", line.call, name=name, line=str(line), reason=reason)


def release(line: CallLine, *, at: datetime, reason: str) -> None:
    """The line ends and books nobody any more. Raises as `end`."""
    line.ends_at = line.starts_at
    end(line, at=at, reason=reason, also=("ends_at",))


def put_on_line(line: CallLine) -> CallLine:
    """The line with its person, booked for the time of its call: the one way in which anybody comes on a line.

    The call is locked. Raises AlreadyExists, Booked, Invalid.
    """
    line.book(line.call)
    with naming_who_is_booked(line):
        return store(line)


@contextmanager
def naming_who_is_booked(line: CallLine) -> Iterator[None]:
    """The refusal of a person who is on another call then, or on this one already, names them."""
    try:
        yield
    except Overlap as refusal:
        other: CallLine = refusal.holder  # type: ignore[assignment]
        if other.call_id == line.call_id:
            raise AlreadyExists(_("This person is on the call already.")) from refusal
        raise Booked(line.person.name if line.person else "", other.starts_at, other.ends_at, line.zone) from refusal


def _lock(call: Call) -> None:
    held = Call._base_manager.select_for_update().get(pk=call.pk)
    if held.ended_at is not None:
        raise AlreadyEnded(held, held.ended_at)


def _touched(call: Call) -> None:
    """Whoever has the form of the call open sees that somebody wrote in between."""
    held = Call._base_manager.get(pk=call.pk)
    held.save_version(fields=[])
    call.version = held.version


def _record(actor: Actor, verb: str, call: Call, **facts: object) -> None:
    record(actor, verb, call, house=call.engagement.house, show=call.engagement.name, event=str(call.event), **facts)
