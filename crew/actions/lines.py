"""One line of a call: added, replaced, given its number at the spot talk, called at a time of its own."""

from datetime import datetime

from django.db import transaction
from django.db.models import Max
from django.utils.translation import gettext as _

from crew.actions.changed import tell_number, tell_own_time
from crew.actions.filling import call_touched, kept_of, lock_call, naming_who_is_booked, put_on_line, release
from crew.actions.passing import keep_to_list
from crew.barring import refuse_barred
from crew.errors import NumberTaken
from crew.models import Call, CallLine, Person
from venue.core.labels import label_key
from venue.errors import Invalid
from venue.history import Actor, record
from venue.instants import the_instant
from venue.storing import check, store_version

OWN = ("own_at", "own_date", "own_time", "starts_at", "ends_at")


@transaction.atomic
def add_line(
    *, actor: Actor, call: Call, role: str, at: datetime, person: Person | None = None, passing: str = ""
) -> CallLine:
    """One more on the call without a number: a spot operator hears it at the spot talk, the others need none.

    `passing` is why others are passed over where the list is strict. Raises PassesOver, AlreadyEnded, and as
    `put_on_line`.
    """
    lock_call(call)
    line = put_on_line(CallLine(call=call, seat=_next_seat(call), role=role, person=person))
    keep_to_list(actor=actor, call=call, lines=[line], at=at, reason=passing)
    call_touched(call)
    _record(actor, "line.added", line, name=_name(line))
    return line


@transaction.atomic
def replace_person(
    *,
    actor: Actor,
    line: CallLine,
    person: Person | None,
    at: datetime,
    reason: str,
    seen: int,
    passing: str = "",
) -> CallLine:
    """Somebody else on the line, who takes its number, its own time and its role; None: it is to fill.

    Who is on the call without a number moves up and leaves that line. `passing` as for `add_line`. Raises StaleVersion
    unless the line has version `seen`, AlreadyEnded, PassesOver, Invalid without a reason or where nobody was on it,
    and as `put_on_line`.
    """
    call = line.call
    lock_call(call)
    if line.person is None:
        raise Invalid({"person": [_("Nobody is on this line yet. Put somebody on it on the page of the call.")]})
    line.version = seen
    release(line, at=at, reason=reason)
    if person is not None:
        _leave_bare_line(call, person, at, reason=_("takes %(line)s") % {"line": line})
    new = CallLine(call=call, number=line.number, seat=line.seat, person=person, follows=line, **kept_of(line))
    put_on_line(new)
    keep_to_list(actor=actor, call=call, lines=[new], at=at, reason=passing)
    call_touched(call)
    _record(actor, "line.replaced", new, old=_name(line), new=_name(new), reason=reason)
    return new


def _leave_bare_line(call: Call, person: Person, at: datetime, *, reason: str) -> None:
    """A spare who takes a light is a spare no more."""
    for line in call.lines.standing().filter(person=person, number_key=""):
        release(line, at=at, reason=reason)


@transaction.atomic
def give_number(*, actor: Actor, line: CallLine, number: str, seat: int = 1, at: datetime, seen: int) -> None:
    """Whoever is on the line runs the number from now on, at the given light of its team.

    Raises NumberTaken where somebody is on it, CertificationMissing for what its place needs, StaleVersion unless the
    line has version `seen`, AlreadyEnded, Invalid.
    """
    lock_call(line.call)
    if not label_key(number):
        raise Invalid({"number": [_("Choose a show number.")]})
    _clear_seat(line, number, seat, at)
    before = line.number_key, line.seat
    line.number, line.seat = number, seat
    refuse_barred(line)
    store_version(line, ("number", "seat"), seen)
    call_touched(line.call)
    tell_number(line, before)
    _record(actor, "line.numbered", line, name=_name(line))


def _clear_seat(line: CallLine, number: str, seat: int, at: datetime) -> None:
    """Nobody is on the number; a line there that waits for somebody ends."""
    others = line.call.lines.standing().filter(number_key=label_key(number), seat=seat).exclude(pk=line.pk)
    for other in others.select_related("person"):
        if other.person is not None:
            raise NumberTaken(number, other.person.name)
        release(other, at=at, reason=_("filled at the spot talk"))


@transaction.atomic
def set_own_time(*, actor: Actor, line: CallLine, own: datetime | None, seen: int, fold: int | None = None) -> None:
    """A call time of this line alone, by the clocks of the call; None: it is called with everybody.

    Raises LocalTimeMissing, LocalTimeTwice, StaleVersion unless the line has version `seen`, Booked, ShortRest, DayOff,
    AlreadyEnded, Invalid after the call's end or more than a week before it.
    """
    lock_call(line.call)
    before = line.starts_at
    line.own_at = line.own_date = line.own_time = None
    if own is not None:
        line.own_at = the_instant(own, line.call.zone, fold=fold)
        line.own_date, line.own_time = own.date(), own.time()
    line.book(line.call)
    check(line)
    refuse_barred(line)
    with naming_who_is_booked(line):
        store_version(line, OWN, seen)
    call_touched(line.call)
    tell_own_time(line, before)
    at = f"{own:%Y-%m-%d %H:%M}" if own else ""
    _record(actor, "line.timed" if at else "line.untimed", line, name=_name(line), at=at)


def _next_seat(call: Call) -> int:
    """Seats without a number are counted on, whatever their role."""
    last = call.lines.standing().filter(number_key="").aggregate(last=Max("seat"))["last"]
    return (last or 0) + 1


def _name(line: CallLine) -> str:
    return line.person.name if line.person else _("nobody yet")


def _record(actor: Actor, verb: str, line: CallLine, **facts: object) -> None:
    call = line.call
    told = {"show": call.engagement.name, "event": str(call.event), "line": str(line), **facts}
    record(actor, verb, call, house=call.engagement.house, **told)
