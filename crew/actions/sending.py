"""Which message is sent when, and what became of it: taken up by one sender at a time, sent at least once.

waiting -> sending -> sent | failed (tried again by itself a few times) | by hand | dropped

What has been `sending` for long may have gone out or not: it is never sent again unless somebody says so.
"""

from datetime import datetime, timedelta

from django.db import connection, transaction
from django.db.models import F, Q, QuerySet

from crew.errors import NotInThisState
from crew.models import Call, Message, Person
from crew.models.offers import Delivery, MessageKind
from venue.history import Actor, record

STUCK_AFTER = timedelta(minutes=15)
TRIED_AGAIN_AFTER = timedelta(minutes=5)
MOST_TRIES = 5
TO_SEND_AGAIN = (Delivery.FAILED, Delivery.BY_HAND, Delivery.SENDING, Delivery.DROPPED)
TO_TELL_BY_HAND = (*TO_SEND_AGAIN, Delivery.WAITING, Delivery.SENT)


def due(now: datetime) -> QuerySet[Message]:
    """What a sender may take up: what waits, and what failed a while ago and not too often."""
    again = Q(delivery=Delivery.FAILED, tries__lt=MOST_TRIES, claimed_at__lte=now - TRIED_AGAIN_AFTER)
    return Message.objects.filter(Q(delivery=Delivery.WAITING) | again).order_by("pk")


def claim_next(now: datetime, after: int = 0) -> Message | None:
    """The next message whose key is above `after`, taken up by the caller alone; None where nothing is due."""
    with transaction.atomic():
        rows = due(now).filter(pk__gt=after)
        if connection.features.has_select_for_update_skip_locked:
            rows = rows.select_for_update(skip_locked=True, of=("self",))
        found = rows.first()
        if found is None:
            return None
        taken = {"delivery": Delivery.SENDING, "claimed_at": now, "tries": F("tries") + 1, "trouble": ""}
        _move(found, (Delivery.WAITING, Delivery.FAILED), **taken)
    related = ("person__roster", "call__engagement__house", "call__event", "line__call", "offer__line")
    return Message.objects.select_related(*related).get(pk=found.pk)


def _move(message: Message, before: tuple[str, ...], **values: object) -> None:
    """Another state, if it is still one of those before. Raises NotInThisState."""
    rows = Message.objects.filter(pk=message.pk, version=message.version, delivery__in=before)
    if not rows.update(**values, version=F("version") + 1):
        raise NotInThisState(Message.objects.get(pk=message.pk).get_delivery_display())
    message.version += 1


def note_sent(message: Message, at: datetime) -> None:
    """The mail server took it."""
    _move(message, (Delivery.SENDING,), delivery=Delivery.SENT, sent_at=at)


def note_failed(message: Message, trouble: str) -> None:
    """The mail server did not. `trouble` never names an address."""
    _move(message, (Delivery.SENDING,), delivery=Delivery.FAILED, trouble=trouble[:200])


def leave_to_hand(message: Message, trouble: str) -> None:
    """It can't go by mail: somebody is to tell the person."""
    _move(message, (Delivery.SENDING,), delivery=Delivery.BY_HAND, trouble=trouble[:200])


def note_needless(message: Message) -> None:
    """It is not true any more, or told otherwise."""
    _move(message, (Delivery.SENDING,), delivery=Delivery.DROPPED)


# -- by the person ---------------------------------------------------------------------------------------

SEEN_BY_READING = (MessageKind.RELEASED, MessageKind.CALLED_OFF, MessageKind.CHANGED)
SEEN_WITH_A_SHEET = (MessageKind.REVISION, MessageKind.CHANGED)


def note_read(person: Person, *, at: datetime, until: datetime) -> None:
    """The person has seen what was taken away, called off or changed, of messages made until the instant."""
    _note_seen(person.messages.filter(kind__in=SEEN_BY_READING, made_at__lte=until), at)


def note_seen_on(call: Call, person: Person, *, at: datetime) -> None:
    """The person has seen the call's latest sheet, and with it what changed."""
    _note_seen(person.messages.filter(kind__in=SEEN_WITH_A_SHEET, call=call), at)


def _note_seen(messages: QuerySet[Message], at: datetime) -> None:
    """The version stays: whoever sends one just now has no part in it. The use of the link is in the history."""
    messages.filter(seen_at__isnull=True).update(seen_at=at)


# -- by dispatch -----------------------------------------------------------------------------------------


@transaction.atomic
def send_again(*, actor: Actor, message: Message, seen: int) -> None:
    """It goes back among those that wait. Raises NotInThisState."""
    message.version = seen
    fresh = {"delivery": Delivery.WAITING, "claimed_at": None, "tries": 0, "trouble": "", "sent_at": None}
    _move(message, TO_SEND_AGAIN, **fresh)
    _record(actor, "message.again", message)


@transaction.atomic
def told_by_hand(*, actor: Actor, message: Message, at: datetime, seen: int) -> None:
    """The person knows: it was sent or told by hand, or it went out after all. Raises NotInThisState.

    What no program sent has no `claimed_at`.
    """
    message.version = seen
    _move(message, TO_TELL_BY_HAND, delivery=Delivery.SENT, sent_at=at, claimed_at=None, trouble="")
    _record(actor, "message.by_hand", message)


@transaction.atomic
def drop(*, actor: Actor, message: Message, seen: int) -> None:
    """Nobody needs to be told any more. Raises NotInThisState."""
    message.version = seen
    _move(message, (*TO_SEND_AGAIN, Delivery.WAITING), delivery=Delivery.DROPPED)
    _record(actor, "message.dropped", message)


def _record(actor: Actor, verb: str, message: Message) -> None:
    engagement = message.call.engagement
    record(actor, verb, message.person, house=engagement.house, name=message.person.name, show=engagement.name)
