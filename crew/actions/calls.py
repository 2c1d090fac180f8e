"""Calling a crew for an event, changing the call, calling it off."""

from collections.abc import Mapping
from datetime import datetime, timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from crew.actions.changed import call_before, tell_call_changed
from crew.actions.filling import naming_who_is_booked, put_on_line
from crew.actions.lines import replace_person
from crew.actions.offer_ends import withdraw_all
from crew.actions.outbox import tell_called_off
from crew.barring import barred_now, lock_persons
from crew.errors import NotServed
from crew.facts import CallFacts
from crew.line_errors import Barred, Booked, CantComeThen
from crew.models import Call, CallLine, Roster
from crew.models.calls import LineRole
from shows.models import ShowEvent
from venue.core.local_time import wall_time
from venue.errors import AlreadyEnded
from venue.history import Actor, record
from venue.instants import the_instant
from venue.storing import end, store, store_version

FACTS = (
    "call_at",
    "call_date",
    "call_time",
    "place",
    "talk_at",
    "talk_date",
    "talk_time",
    "talk_place",
    "ends_at",
    "ends_date",
    "ends_time",
    "meal_at",
    "meal_date",
    "meal_time",
    "weather",
    "notes",
)
RELEASED_AFTER = timedelta(minutes=30)
USUAL_LENGTH = timedelta(hours=4)


@transaction.atomic
def make_call(
    *,
    actor: Actor,
    roster: Roster,
    event: ShowEvent,
    facts: CallFacts,
    at_spot_talk: int = 0,
    wanted: Mapping[str, int] | None = None,
) -> Call:
    """A call of the roster for the event, with so many more operators whose number is told at the spot talk.

    `wanted` says how many head spots, spares and runners besides, by the role. Raises NotServed, AlreadyEnded,
    LocalTimeMissing, LocalTimeTwice, AlreadyExists, Invalid.
    """
    engagement = event.engagement
    if event.ended_at is not None:
        raise AlreadyEnded(event, event.ended_at)
    if not roster.roster_houses.standing().filter(house=engagement.house_id).exists():
        raise NotServed(roster.name, engagement.house.name)
    call = Call(roster=roster, engagement=engagement, event=event, zone=event.zone)
    store(_take(call, facts))
    numbers = {LineRole.OPERATOR.value: at_spot_talk, **(wanted or {})}
    roles = [role for role in LineRole.values for _each in range(numbers.get(role, 0))]
    for seat, role in enumerate(roles, start=1):
        put_on_line(CallLine(call=call, seat=seat, role=role))
    record(actor, "call.made", call, house=engagement.house, event=str(event), show=engagement.name)
    return call


@transaction.atomic
def change_call(
    *, actor: Actor, call: Call, facts: CallFacts, seen: int, release_at: datetime | None = None
) -> list[str]:
    """Other times or places; everybody whose time is another one is held against what keeps people off lines.

    Own call times keep their clock and go along to another day.

    Who can't come then is taken off at `release_at`, where it is given: the names; their lines are to fill. Raises
    CantComeThen without it, StaleVersion unless the call has version `seen`, else as `make_call`; then nothing is
    stored.
    """
    before = call_before(call)
    store_version(_take(call, facts), FACTS, seen)
    _move_own_times(call, call.call_date - before.call_date)
    refused = _rebook(call)
    if refused:
        _release(actor, refused, release_at)
    tell_call_changed(call, before)
    engagement = call.engagement
    record(actor, "call.changed", call, house=engagement.house, event=str(call.event), show=engagement.name)
    return [line.person.name for line, _refusal in refused if line.person is not None]


Refused = list[tuple[CallLine, Barred]]
"""Lines whose person can't come, and why."""


def _release(actor: Actor, refused: Refused, at: datetime | None) -> None:
    """Nobody is on these lines, which are wanted as before. Raises CantComeThen unless it is said when."""
    if at is None:
        raise CantComeThen([refusal for _line, refusal in refused])
    reason = _("the times of the call changed")
    for line, _refusal in refused:
        replace_person(actor=actor, line=line, person=None, at=at, reason=reason, seen=line.version)


@transaction.atomic
def call_off(*, actor: Actor, call: Call, at: datetime, reason: str) -> None:
    """Nobody is to come. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(call, at=at, reason=reason)
    _rebook(call)
    withdraw_all(call)
    tell_called_off(call)
    names = {"event": str(call.event), "show": call.engagement.name, "reason": reason}
    record(actor, "call.off", call, house=call.engagement.house, **names)


def _move_own_times(call: Call, by: timedelta) -> None:
    """Own call times by so many days; of a time that exists twice the first is meant. Raises LocalTimeMissing."""
    for line in call.lines.standing() if by else ():
        if line.own_wall is not None:
            own = line.own_wall + by
            line.own_at, line.own_date = the_instant(own, call.zone, fold=0), own.date()
            store_version(line, ("own_at", "own_date"), line.version)


def _rebook(call: Call) -> Refused:
    """Everybody on the call is booked as its times say now, nobody where it is off; the call is locked.

    Whoever can't come then stays booked as before: these lines, and why.
    """
    moved = [line for line in call.lines.standing().select_related("person") if _is_moved(line, call)]
    lock_persons(line.person for line in moved)
    barred = {} if call.has_ended or not moved else barred_now(call)
    found = ((line, barred.get(line.pk) or _book(line, call)) for line in moved)
    return [(line, refusal) for line, refusal in found if refusal is not None]


def _is_moved(line: CallLine, call: Call) -> bool:
    now = CallLine(own_at=line.own_at)
    now.book(call)
    return (line.starts_at, line.ends_at) != (now.starts_at, now.ends_at)


def _book(line: CallLine, call: Call) -> Booked | None:
    """Store when its person is booked; what is in the way, if anything, and then the line is as before."""
    before = line.starts_at, line.ends_at
    line.book(call)
    try:
        with naming_who_is_booked(line):
            store_version(line, ("starts_at", "ends_at"), line.version)
    except Booked as refusal:
        line.starts_at, line.ends_at = before
        return refusal
    return None


def _take(call: Call, facts: CallFacts) -> Call:
    """The call with the facts, its instants reckoned in its zone."""
    call.call_at = the_instant(facts.call, call.zone, fold=facts.call_fold)
    call.call_date, call.call_time = facts.call.date(), facts.call.time()
    call.talk_at = call.talk_date = call.talk_time = None
    if facts.talk is not None:
        call.talk_at = the_instant(facts.talk, call.zone, fold=facts.talk_fold)
        call.talk_date, call.talk_time = facts.talk.date(), facts.talk.time()
    call.meal_at = call.meal_date = call.meal_time = None
    if facts.meal is not None:
        call.meal_at = the_instant(facts.meal, call.zone, fold=facts.meal_fold)
        call.meal_date, call.meal_time = facts.meal.date(), facts.meal.time()
    _take_end(call, facts)
    call.place, call.talk_place = facts.place, facts.talk_place
    call.weather, call.notes = facts.weather, facts.notes
    return call


def _take_end(call: Call, facts: CallFacts) -> None:
    if facts.ends is None:
        call.ends_at = expected_end(call.event, call.call_at)
        ends = wall_time(call.ends_at, call.zone)
    else:
        ends = facts.ends
        call.ends_at = the_instant(ends, call.zone, fold=facts.ends_fold)
    call.ends_date, call.ends_time = ends.date(), ends.time()


def expected_end(event: ShowEvent, call_at: datetime, released_after: timedelta = RELEASED_AFTER) -> datetime:
    """When a crew called at the instant is usually released: so long after the event's end, where that is known."""
    if event.ends_at is not None and event.ends_at + released_after > call_at:
        return event.ends_at + released_after
    return max(event.starts_at, call_at) + USUAL_LENGTH
