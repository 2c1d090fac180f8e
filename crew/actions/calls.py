"""Calling a crew for an event, changing the call, calling it off."""

from datetime import datetime

from django.db import transaction

from crew.errors import NotServed
from crew.facts import CallFacts
from crew.models import Call, CallLine, Roster
from shows.models import ShowEvent
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
    "notes",
)


@transaction.atomic
def make_call(*, actor: Actor, roster: Roster, event: ShowEvent, facts: CallFacts, at_spot_talk: int = 0) -> Call:
    """A call of the roster for the event, with so many more operators whose number is told at the spot talk.

    Raises NotServed, AlreadyEnded, LocalTimeMissing, LocalTimeTwice, AlreadyExists, Invalid.
    """
    engagement = event.engagement
    if event.ended_at is not None:
        raise AlreadyEnded(event, event.ended_at)
    if not roster.roster_houses.standing().filter(house=engagement.house_id).exists():
        raise NotServed(roster.name, engagement.house.name)
    call = Call(roster=roster, engagement=engagement, event=event, zone=event.zone)
    store(_take(call, facts))
    for seat in range(1, at_spot_talk + 1):
        store(CallLine(call=call, seat=seat))
    record(actor, "call.made", call, house=engagement.house, event=str(event), show=engagement.name)
    return call


@transaction.atomic
def change_call(*, actor: Actor, call: Call, facts: CallFacts, seen: int) -> None:
    """Other times or places. Raises StaleVersion unless the call has version `seen`, else as `make_call`."""
    store_version(_take(call, facts), FACTS, seen)
    engagement = call.engagement
    record(actor, "call.changed", call, house=engagement.house, event=str(call.event), show=engagement.name)


@transaction.atomic
def call_off(*, actor: Actor, call: Call, at: datetime, reason: str) -> None:
    """Nobody is to come. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(call, at=at, reason=reason)
    names = {"event": str(call.event), "show": call.engagement.name, "reason": reason}
    record(actor, "call.off", call, house=call.engagement.house, **names)


def _take(call: Call, facts: CallFacts) -> Call:
    """The call with the facts, its instants reckoned in its zone."""
    call.call_at = the_instant(facts.call, call.zone, fold=facts.call_fold)
    call.call_date, call.call_time = facts.call.date(), facts.call.time()
    call.talk_at = call.talk_date = call.talk_time = None
    if facts.talk is not None:
        call.talk_at = the_instant(facts.talk, call.zone, fold=facts.talk_fold)
        call.talk_date, call.talk_time = facts.talk.date(), facts.talk.time()
    call.place, call.talk_place, call.notes = facts.place, facts.talk_place, facts.notes
    return call
