"""Telling people that their number, or a time, a place or the weather of their call, is not what they heard.

Whoever never heard of the line is told anew that they are on it; whoever works it already hears nothing.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta

from django.conf import settings
from django.utils import timezone, translation

from crew.actions.outbox import UNTOLD, tell_all
from crew.models import Call, CallLine, Message, Person
from crew.models.offers import Delivery, MessageKind
from crew.wording.messages import joined_befores, time_before
from venue.core.labels import label_key
from venue.core.local_time import wall_time

HEARD = (Delivery.SENT, Delivery.SENDING)
"""Told, or maybe told."""
TELLS_OF_LINE = (MessageKind.BOOKED, MessageKind.CHANGED, MessageKind.REVISION)
"""Any of these says what the line is."""
TIMES = ("call", "talk", "ends", "meal")
PLACES = ("place", "talk_place", "weather")
Befores = Mapping[str, str]
"""For each of TIMES that changed the words for what it was."""


def tell_number(line: CallLine, before: tuple[str, int]) -> None:
    """Whoever is on the line hears of the number; `before` is the number's key and the seat until now."""
    if (label_key(line.number), line.seat) != before:
        _tell_of_line(line, line.starts_at, {})


def tell_own_time(line: CallLine, before: datetime) -> None:
    """Whoever is on the line hears of the time; `before` is when the line began until now."""
    if line.starts_at != before:
        _tell_of_line(line, before, {"call": _before("call", wall_time(before, line.zone))})


def _tell_of_line(line: CallLine, starts: datetime, befores: Befores) -> None:
    if line.person is not None and timezone.now() < starts:
        _tell(line.call, [(line, befores)])


def call_before(call: Call) -> Call:
    """The call as it is stored, before it is changed, locked until the transaction ends."""
    return Call._base_manager.select_for_update().get(pk=call.pk)


def tell_call_changed(call: Call, before: Call) -> None:
    """Everybody on the call hears of its new times, places or weather, but of nothing that is not theirs.

    Who has an own time is concerned by another day, not by the call time; notes are told by the sheet. A fixed number
    of queries.
    """
    befores = {each: _before(each, getattr(before, f"{each}_wall")) for each in TIMES if _differs(call, before, each)}
    is_elsewhere = any(getattr(call, name) != getattr(before, name) for name in PLACES)
    if call.has_ended or not (befores or is_elsewhere):
        return
    now = timezone.now()
    lines = call.lines.standing().filter(person__isnull=False).select_related("person")
    days = call.call_date - before.call_date
    coming = [(line, _own(befores, line, days)) for line in lines if now < _start_before(line, before, days)]
    _tell(call, [(line, own) for line, own in coming if own or is_elsewhere])


def _differs(call: Call, before: Call, what: str) -> bool:
    return bool(getattr(call, f"{what}_at") != getattr(before, f"{what}_at"))


def _start_before(line: CallLine, before: Call, days: timedelta) -> datetime:
    """When the line began before its call went to a day so many days later."""
    return before.call_at if line.own_at is None else line.own_at - days


def _own(befores: Befores, line: CallLine, days: timedelta) -> Befores:
    """Of the call time only what was the line's: an own one moves by whole days."""
    if line.own_wall is None:
        return befores
    others = {what: words for what, words in befores.items() if what != "call"}
    return {"call": _before("call", line.own_wall - days), **others} if days else others


def _before(what: str, wall: datetime | None) -> str:
    with translation.override(settings.LANGUAGE_CODE):  # as the mails, which carry it
        return time_before(what, wall)


def _tell(call: Call, changed: Sequence[tuple[CallLine, Befores]]) -> None:
    heard = set(_told_of([line for line, _befores in changed]))
    anew = [line for line, _befores in changed if line.pk not in heard]
    again = [(line, befores) for line, befores in changed if line.pk in heard]
    tell_all(_with_persons(anew), call, MessageKind.BOOKED)
    told, words = _with_persons(line for line, _befores in again), _words(call, again)
    tell_all(told, call, MessageKind.CHANGED, own_words=words)


def _with_persons(lines: Iterable[CallLine]) -> list[tuple[Person, CallLine | None]]:
    return [(line.person, line) for line in lines if line.person is not None]


def _told_of(lines: Sequence[CallLine]) -> list[int]:
    told = Message.objects.filter(line__in=lines, kind__in=TELLS_OF_LINE, delivery__in=HEARD)
    return list(told.order_by().values_list("line_id", flat=True))


def _words(call: Call, changed: Sequence[tuple[CallLine, Befores]]) -> dict[int, str]:
    """What was, by the person: what they heard last, not what they were to be told and were not."""
    untold = Message.objects.filter(call=call, kind=MessageKind.CHANGED, delivery__in=UNTOLD)
    earlier = dict(untold.filter(line__in=[line for line, _befores in changed]).values_list("line_id", "words"))
    with translation.override(settings.LANGUAGE_CODE):
        return {
            line.person_id: joined_befores(earlier.get(line.pk, ""), befores, _nows(call, line))
            for line, befores in changed
            if line.person_id is not None
        }


def _nows(call: Call, line: CallLine) -> Befores:
    """The words that a time would have now: what is back at what the person heard is no change."""
    walls = {what: getattr(call, f"{what}_wall") for what in TIMES}
    walls["call"] = wall_time(line.own_at or call.call_at, call.zone)
    return {what: time_before(what, wall) for what, wall in walls.items()}
