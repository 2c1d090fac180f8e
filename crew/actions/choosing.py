"""Choosing one person for a line, or a proposal for all open lines."""

from collections.abc import Sequence
from datetime import datetime

from django.db import transaction

from crew.actions.filling import lock_call, put_on_line
from crew.actions.lines import replace_person
from crew.actions.passing import keep_to_list
from crew.barring import lock_persons
from crew.errors import ChangedMeanwhile, NoSuchLine
from crew.line_needs import Light, Seat, lights_of
from crew.models import Call, CallLine, Person
from crew.proposal import proposed_for
from venue.history import Actor, record


@transaction.atomic
def choose_person(
    *, actor: Actor, call: Call, seat: Seat, person: Person, at: datetime, seen: int, reason: str = ""
) -> CallLine:
    """The person on one line of the call; where somebody is on it already, in their place, for the reason.

    `reason` is also why others are passed over where the list is strict. Raises StaleVersion unless the call has
    version `seen`, NoSuchLine, PassesOver, and what `put_on_line` or `replace_person` raises.
    """
    lock_call(call)
    call.save_version(fields=[], seen=seen)
    line = call.lines.standing().filter(number_key=seat[0], seat=seat[1]).select_related("person").first()
    if line is not None and line.person is not None:
        line.call = call
        why = {"reason": reason, "passing": reason}
        return replace_person(actor=actor, line=line, person=person, at=at, seen=line.version, **why)
    new = _put(call, seat, person, line, lights_of(call))
    keep_to_list(actor=actor, call=call, lines=[new], at=at, reason=reason)
    _record(actor, "call.put", call, name=person.name, line=str(new))
    return new


def _put(call: Call, seat: Seat, person: Person, line: CallLine | None, lights: dict[Seat, Light]) -> CallLine:
    """The person on a line that waits for somebody, or on a light that has no line yet."""
    if line is None:
        if seat not in lights:
            raise NoSuchLine
        line = CallLine(number=lights[seat].number, seat=seat[1])
    line.call, line.person = call, person
    return put_on_line(line, lights)


@transaction.atomic
def take_people(*, actor: Actor, call: Call, seen: str, at: datetime, reason: str = "") -> Sequence[CallLine]:
    """Everybody who is proposed, on their lines at once; who is on the call already stays.

    `seen` is the fingerprint of the proposal that was shown. Raises ChangedMeanwhile if it is another one by now,
    PassesOver, AlreadyEnded, and what `put_on_line` raises; then nothing is stored.
    """
    lock_call(call)
    call.refresh_from_db(fields=["version"])
    proposed = proposed_for(call)
    if proposed.fingerprint != seen:
        raise ChangedMeanwhile
    people = Person.objects.in_bulk([who.somebody.key for who in proposed.new.values()])
    lock_persons(people.values())
    asked = proposed.asked
    lights = dict(asked.lights)
    lines = [
        _put(call, seat, people[who.somebody.key], asked.standing.get(seat), lights)
        for seat, who in proposed.new.items()
    ]
    call.save_version(fields=[])
    _record(actor, "call.proposal_taken", call, operators=[f"{line}: {line.person}" for line in lines])
    keep_to_list(actor=actor, call=call, lines=lines, at=at, reason=reason)
    return lines


def _record(actor: Actor, verb: str, call: Call, **facts: object) -> None:
    record(actor, verb, call, house=call.engagement.house, show=call.engagement.name, event=str(call.event), **facts)
