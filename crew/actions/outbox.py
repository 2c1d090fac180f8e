"""What is to be told to people: written down in the transaction that gives cause, sent afterwards.

A later message makes an earlier one needless that nobody was sent yet: who changes numbers hears of the new one alone,
and nobody hears that something is filled who was never asked.
"""

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from django.db.models import F, QuerySet
from django.utils import timezone

from crew.core.call_sheet import CallSheet, read_sheet
from crew.core.telling import concerned
from crew.models import Call, CallLine, IssuedSheet, Message, Offer, Person
from crew.models.offers import Delivery, MessageKind
from venue.core.labels import label_key

UNTOLD = (Delivery.WAITING, Delivery.BY_HAND, Delivery.FAILED)
"""Nobody was sent it yet."""

NEEDLESS: Mapping[str, Collection[str]] = {
    MessageKind.BOOKED: {MessageKind.BOOKED, MessageKind.CHANGED, MessageKind.RELEASED},
    MessageKind.CHANGED: {MessageKind.BOOKED, MessageKind.CHANGED},
    MessageKind.RELEASED: {MessageKind.BOOKED, MessageKind.CHANGED, MessageKind.REVISION},
    MessageKind.REVISION: {MessageKind.BOOKED, MessageKind.CHANGED, MessageKind.REVISION},
    MessageKind.CALLED_OFF: {
        MessageKind.BOOKED,
        MessageKind.CHANGED,
        MessageKind.REVISION,
        MessageKind.RELEASED,
    },
}
"""What a message about a call makes needless, of those to the same person about it."""


def tell(
    person: Person,
    call: Call,
    kind: str,
    line: CallLine | None = None,
    offer: Offer | None = None,
    words: str = "",
) -> Message | None:
    """Write down that the person is to be told; None where that is needless, or the call is over.

    `words` stand in the message besides: never a way to reach anybody.
    """
    told = tell_all([(person, line)], call, kind, offer=offer, words=words)
    return told[0] if told else None


def tell_all(
    people: Iterable[tuple[Person, CallLine | None]],
    call: Call,
    kind: str,
    *,
    offer: Offer | None = None,
    words: str = "",
    own_words: Mapping[int, str] | None = None,
) -> list[Message]:
    """As `tell`, to several, each with the own line, and words by the person's key. Two queries."""
    now, people = timezone.now(), list(people)
    if not people or now >= call.ends_at:
        return []
    if kind in NEEDLESS:
        earlier = Message.objects.filter(call=call, kind__in=NEEDLESS[kind])
        drop_untold(earlier.filter(person__in=[person for person, _line in people]))
    own = own_words or {}
    common: dict[str, Any] = {"call": call, "kind": kind, "offer": offer, "made_at": now}
    return Message.objects.bulk_create(
        Message(person=person, line=line, words=own.get(person.pk, words), **common) for person, line in people
    )


def drop_untold(messages: QuerySet[Message]) -> int:
    """Those that nobody was sent are not sent any more. How many."""
    return messages.filter(delivery__in=UNTOLD).update(delivery=Delivery.DROPPED, version=F("version") + 1)


def tell_booked(line: CallLine) -> None:
    """Whoever is on the line now hears of it; whoever already works it does not."""
    if line.person is not None and not line.has_ended and timezone.now() < line.starts_at:
        tell(line.person, line.call, MessageKind.BOOKED, line=line)


def tell_released(line: CallLine) -> None:
    """Whoever was on the line hears that it is not theirs any more."""
    if line.person is not None:
        tell(line.person, line.call, MessageKind.RELEASED, line=line)


def tell_called_off(call: Call) -> None:
    """Everybody on the call hears that it is off."""
    lines = call.lines.standing().filter(person__isnull=False).select_related("person")
    tell_all([(line.person, line) for line in lines if line.person], call, MessageKind.CALLED_OFF)


def tell_revision(call: Call, before: IssuedSheet | None, sheet: CallSheet) -> None:
    """Whoever reads differently on the new revision hears that there is one; of a call that is off they know."""
    if call.has_ended:
        return
    whom = concerned(read_sheet(before.content) if before else None, sheet)
    keys = {(label_key(number), seat) for number, seat in whom.keys}
    lines = call.lines.standing().filter(person__isnull=False).select_related("person")
    told = [(line.person, line) for line in lines if line.person and _is_among(line, keys, whom.names)]
    tell_all(told, call, MessageKind.REVISION)


def _is_among(line: CallLine, keys: Collection[tuple[str, int]], names: Collection[str]) -> bool:
    if line.number_key:
        return (line.number_key, line.seat) in keys
    return line.person is not None and line.person.name in names


def untold_of(offer: Offer) -> QuerySet[Message]:
    """The question itself, as long as nobody was sent it."""
    return Message.objects.filter(offer=offer, kind=MessageKind.OFFER, delivery__in=UNTOLD)
