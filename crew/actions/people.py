"""Facts of the people on a roster, leaving it, coming back, and forgetting somebody.

Ways to reach a person never enter the history.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from crew.actions.offers import withdraw_of
from crew.models import Call, CallLine, Person
from crew.people_errors import AskedMeanwhile, CallsToCome, Forgotten, OnTheRoster
from crew.wording.people import line_words
from venue.errors import AlreadyEnded
from venue.history import Actor, record
from venue.storing import check, end, store_version, with_names

TOLD = frozenset({"name", "experience", "units_known", "seniority", "skill"})
"""Of these the history keeps the old and the new, of anything else only that it changed."""
MOST_NAMED = 3
"""So many calls to come are named; the others are counted."""


@transaction.atomic
def change_person(*, actor: Actor, person: Person, seen: int, values: Mapping[str, Any]) -> None:
    """Store new facts of somebody who was shown in version `seen`; nothing if nothing differs.

    Raises AlreadyEnded for who has left the roster, StaleVersion, Invalid.
    """
    stored = lock_person(person)
    if stored.ended_at is not None:
        raise AlreadyEnded(stored, stored.ended_at)
    for field, value in values.items():
        setattr(person, field, value)
    changed = [field for field in values if getattr(stored, field) != getattr(person, field)]
    if not changed and stored.version == seen:
        return
    store_version(person, changed or list(values), seen)
    told = {field: [getattr(stored, field), getattr(person, field)] for field in changed if field in TOLD}
    record(actor, "person.changed", person, house=None, subject=person.name, changed=told, fields=changed)


@transaction.atomic
def end_person(*, actor: Actor, person: Person, at: datetime, reason: str) -> None:
    """The person is on the roster no more, and what they are asked is taken back.

    Raises CallsToCome, AskedMeanwhile, AlreadyEnded, StaleVersion, Invalid.
    """
    require_no_calls(lock_with_calls_asking(person), at)
    withdraw_of(actor=actor, person=person, at=at)
    end(person, at=at, reason=reason)
    record(actor, "person.ended", person, house=None, name=person.name, reason=reason)


@transaction.atomic
def return_person(*, actor: Actor, person: Person) -> None:
    """Whoever left is on the roster again, with past lines and hours as they are.

    Raises Forgotten, OnTheRoster where they never left or are back already.
    """
    stored = lock_person(person)
    if stored.forgotten_at is not None:
        raise Forgotten(stored.name)
    if stored.ended_at is None:
        raise OnTheRoster(stored.name)
    stored.ended_at, stored.ended_reason = None, ""
    store_version(stored, ("ended_at", "ended_reason"), stored.version)
    record(actor, "person.returned", stored, house=None, name=stored.name, roster=stored.roster.name)


@transaction.atomic
def forget_person(*, actor: Actor, person: Person, seen: int, at: datetime, reason: str) -> None:
    """The person leaves the roster and keeps no contact, no notes and no words on days off.

    What they are asked is taken back. The name stays on lines of calls and in the history. Raises CallsToCome,
    AskedMeanwhile, StaleVersion, Invalid without a reason; AlreadyEnded if they are forgotten already.
    """
    stored = lock_with_calls_asking(person)
    if stored.forgotten_at is not None:
        raise AlreadyEnded(stored, stored.forgotten_at)
    require_no_calls(stored, at)
    withdraw_of(actor=actor, person=person, at=at)
    person.phone = person.email = person.notes = ""
    person.forgotten_at = at
    fields = ["phone", "email", "notes", "forgotten_at"]
    if stored.ended_at is None:
        person.mark_ended(at, reason)
        fields += ["ended_at", "ended_reason"]
    check(person)
    with_names(person, lambda: person.save_version(fields, seen))
    person.days_off.exclude(words="").update(words="")
    record(actor, "person.forgotten", person, house=None, name=person.name, reason=reason)


def lock_person(person: Person) -> Person:
    """The person as stored, locked until the transaction ends."""
    return Person._base_manager.select_for_update().get(pk=person.pk)


def lock_with_calls_asking(person: Person) -> Person:
    """The person as stored, locked after the calls for which they are asked and have not answered.

    Raises AskedMeanwhile where another call asks by now: that one can't be locked after the person.
    """
    asking = Call.objects.filter(lines__offers__person=person, lines__offers__answer="")
    calls = set(asking.values_list("pk", flat=True))
    list(Call._base_manager.select_for_update().filter(pk__in=calls).order_by("pk").values_list("pk"))
    stored = lock_person(person)
    if not calls.issuperset(asking.values_list("pk", flat=True)):
        raise AskedMeanwhile(stored.name)
    return stored


def require_no_calls(person: Person, now: datetime) -> None:
    """Raise CallsToCome if a call that is not over counts on the person."""
    lines = CallLine.objects.standing().filter(person=person, call__ended_at__isnull=True, ends_at__gt=now)
    found = list(lines.select_related("call__engagement", "call__event").order_by("starts_at", "pk")[:MOST_NAMED])
    if found:
        raise CallsToCome(person.name, map(line_words, found), lines.count() - len(found))
