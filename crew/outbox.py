"""The messages of a roster by what is to be done about them, and who has not seen that the call is theirs no more."""

from datetime import datetime

from django.db.models import Exists, OuterRef, Q, QuerySet

from crew.actions.sending import STUCK_AFTER
from crew.models import Message, Roster
from crew.models.offers import Delivery, MessageKind
from crew.person_links import PURPOSE
from venue.models import Link

RELATED = ("person__roster", "call__event", "call__engagement__house", "line__call", "offer")


def stuck(now: datetime) -> QuerySet[Message]:
    """Taken up long ago and not known to be sent: maybe sent."""
    return Message.objects.filter(delivery=Delivery.SENDING, claimed_at__lte=now - STUCK_AFTER)


def messages_of(roster: Roster) -> QuerySet[Message]:
    return Message.objects.filter(call__roster=roster).select_related(*RELATED)


def to_do_about(roster: Roster, now: datetime) -> dict[str, QuerySet[Message]]:
    """What needs somebody, or waits: by state, the oldest first. Of a call that is over nothing is to be done."""
    rows = messages_of(roster).filter(call__ends_at__gt=now).order_by("made_at", "pk")
    return {
        "maybe": rows.filter(pk__in=stuck(now).values("pk")),
        "by_hand": rows.filter(delivery=Delivery.BY_HAND),
        "failed": rows.filter(delivery=Delivery.FAILED),
        "waiting": rows.filter(
            Q(delivery=Delivery.WAITING) | Q(delivery=Delivery.SENDING, claimed_at__gt=now - STUCK_AFTER)
        ),
    }


def unseen_releases(messages: QuerySet[Message]) -> QuerySet[Message]:
    """Of the messages: who lost a line, was not told by hand, and did nothing on the own page since."""
    own = Link.objects.filter(subject_kind="person", subject_ref=OuterRef("person__ref"), purpose=PURPOSE)
    used = own.filter(last_used_at__gte=OuterRef("made_at"))
    by_hand = Q(delivery=Delivery.SENT, claimed_at__isnull=True)
    rows = messages.filter(kind=MessageKind.RELEASED).exclude(by_hand | Q(delivery=Delivery.DROPPED))
    return rows.exclude(Exists(used))
