"""The messages of a roster by what is to be done about them, and who has not seen what changed for them."""

from collections.abc import Iterable
from datetime import datetime

from django.db.models import Exists, OuterRef, Q, QuerySet

from crew.actions.sending import STUCK_AFTER
from crew.models import CallLine, LineConfirmation, Message, Roster
from crew.models.offers import Delivery, MessageKind

RELATED = ("person__roster", "call__event", "call__engagement__house", "line__call", "offer")


def stuck(now: datetime) -> QuerySet[Message]:
    """Taken up long ago and not known to be sent: maybe sent."""
    return Message.objects.filter(delivery=Delivery.SENDING, claimed_at__lte=now - STUCK_AFTER)


def messages_of(roster: Roster) -> QuerySet[Message]:
    return Message.objects.filter(call__roster=roster).select_related(*RELATED)


def to_do_about(roster: Roster, now: datetime) -> dict[str, QuerySet[Message]]:
    """What needs somebody, or waits: by state, the oldest first.

    Of a call that is over nothing is to be done, nor to tell what the person has seen.
    """
    rows = messages_of(roster).filter(call__ends_at__gt=now).order_by("made_at", "pk")
    not_seen = rows.filter(seen_at__isnull=True)
    return {
        "maybe": rows.filter(pk__in=stuck(now).values("pk")),
        "by_hand": not_seen.filter(delivery=Delivery.BY_HAND),
        "failed": not_seen.filter(delivery=Delivery.FAILED),
        "waiting": rows.filter(
            Q(delivery=Delivery.WAITING) | Q(delivery=Delivery.SENDING, claimed_at__gt=now - STUCK_AFTER)
        ),
    }


def unseen(messages: QuerySet[Message]) -> QuerySet[Message]:
    """Of the messages about a line lost or changed, or a call that is off: what nobody said to have seen.

    What was told by hand is known to be heard, and so is a change before the revision that they confirmed. What is not
    so any more is left out: who is on the call again lost nothing.
    """
    by_hand = Q(delivery=Delivery.SENT, claimed_at__isnull=True)
    rows = messages.filter(seen_at__isnull=True).exclude(by_hand | Q(delivery=Delivery.DROPPED))
    on_call = Exists(CallLine.objects.standing().filter(call=OuterRef("call"), person=OuterRef("person")))
    confirmed = LineConfirmation.objects.filter(line=OuterRef("line"), sheet__issued_at__gte=OuterRef("made_at"))
    is_changed = Q(kind=MessageKind.CHANGED) & Q(on_call) & ~Q(Exists(confirmed))
    is_released = Q(kind=MessageKind.RELEASED) & ~Q(on_call)
    is_on = Q(call__ended_at__isnull=True)
    return rows.filter(is_on & (is_changed | is_released) | Q(kind=MessageKind.CALLED_OFF)).order_by("made_at", "pk")


def latest_of_each(messages: Iterable[Message]) -> list[Message]:
    """Of the messages, the oldest first, to a person about a call the last one alone."""
    return list({(each.call_id, each.person_id): each for each in messages}.values())
