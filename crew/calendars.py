"""Calls as entries of a calendar, from their rows. However many calls, the queries stay as many.

A person's entry goes by person and call, whatever line they are on: who changes numbers keeps one entry, who is
released keeps it as cancelled. Its sequence adds up the versions of all rows that it tells of: they only ever rise,
and lines only ever come to a call.
"""

from datetime import datetime, timedelta
from itertools import groupby

from django.db.models import Max, OuterRef, QuerySet, Subquery

from crew.calendar_file import call_file, feed_file
from crew.core.calendar import Entry, Organizer, entry_uid, last_change, sequence_of
from crew.models import Call, CallLine, Person
from crew.wording import calendar as words
from venue.models import Event, House

KEPT = timedelta(days=90)
"""How long a call stays in a feed after its expected end."""
TOLD_OF = ("call", "event", "engagement")
"""The rows that an entry tells of; each call gets when the history last tells of them, as `<name>_told_at`."""


def call_calendar(call: Call) -> bytes:
    """The call as a file for who runs it; it names nobody. One query."""
    return call_file(_call_entry(_with_changes(Call.objects.filter(pk=call.pk)).get()))


def person_call_calendar(person: Person, call: Call) -> bytes | None:
    """The call as a file for somebody who is or was on it; else None. Two queries."""
    entries = _person_entries(person, Call.objects.filter(pk=call.pk))
    return call_file(entries[0]) if entries else None


def person_feed(person: Person, now: datetime) -> bytes:
    """The person's calls to come and of late, also those that they are on no more. Two queries."""
    calls = Call.objects.filter(ends_at__gte=now - KEPT)
    return feed_file(words.feed_name(person.roster.name), _person_entries(person, calls))


def house_feed(house: House, now: datetime) -> bytes:
    """All calls in the house to come and of late, without a person's name. One query."""
    calls = _with_changes(Call.objects.filter(engagement__house=house, ends_at__gte=now - KEPT))
    return feed_file(words.feed_name(house.name), [_call_entry(call) for call in calls])


def _person_entries(person: Person, calls: QuerySet[Call]) -> list[Entry]:
    rows = CallLine.objects.filter(person=person, call__in=calls.values("pk")).order_by("call_id", "pk")
    lines = {key: list(group) for key, group in groupby(rows, key=lambda line: line.call_id)}
    found = _with_changes(Call.objects.filter(pk__in=lines.keys()))
    return [_person_entry(person, call, lines[call.pk]) for call in found]


def _with_changes(calls: QuerySet[Call]) -> QuerySet[Call]:
    """The calls in order, with all rows that their entries tell of and when these last changed."""
    refs = {"call": "ref", "event": "event__ref", "engagement": "engagement__ref"}
    kinds = {"call": "call", "event": "showevent", "engagement": "engagement"}
    told = {f"{name}_told_at": _last_told(kinds[name], refs[name]) for name in TOLD_OF}
    related = ("event", "engagement__house", "roster")
    return calls.select_related(*related).annotate(**told).order_by("call_at", "pk")


def _last_told(kind: str, ref: str) -> Subquery:
    lines = Event.objects.filter(subject_kind=kind, subject_ref=OuterRef(ref)).order_by()
    return Subquery(lines.values("subject_ref").annotate(last=Max("at")).values("last"))


def _call_entry(call: Call) -> Entry:
    return Entry(
        uid=entry_uid(call.ref),
        sequence=_sequence(call),
        summary=words.summary(call),
        starts=call.call_at,
        ends=call.ends_at,
        location=words.where(call),
        description=words.house_lines(call),
        is_cancelled=words.off_reason(call) is not None,
        changed_at=_changed_at(call),
        organizer=_organizer(call),
    )


def _person_entry(person: Person, call: Call, lines: list[CallLine]) -> Entry:
    """Of the lines that a person has or had on the call, at most one of which stands."""
    line = next((line for line in lines if not line.has_ended), lines[-1])
    return Entry(
        uid=entry_uid(call.ref, person.ref),
        sequence=_sequence(call, *(line.version for line in lines)),
        summary=words.summary(call, line),
        starts=line.own_at or call.call_at,
        ends=call.ends_at,
        location=words.where(call),
        description=words.person_lines(call, line),
        is_cancelled=line.has_ended or words.off_reason(call) is not None,
        changed_at=_changed_at(call),
        organizer=_organizer(call),
    )


def _sequence(call: Call, *versions: int) -> int:
    return sequence_of(call.version, call.event.version, call.engagement.version, *versions)


def _changed_at(call: Call) -> datetime:
    return last_change((getattr(call, f"{name}_told_at") for name in TOLD_OF), otherwise=call.call_at)


def _organizer(call: Call) -> Organizer:
    return Organizer(call.roster.ref, call.roster.name)
