"""The secret address of a calendar of calls, of a person or of a house: made, renewed, switched off."""

from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import QuerySet

from crew.errors import NoFeedLink
from crew.models import Person
from venue.actions import MadeLink, make_link, revoke_link
from venue.errors import AlreadyEnded
from venue.history import Actor
from venue.models import House, Link

PURPOSE = "feed"
LASTS = timedelta(days=2 * 366)
"""A calendar is set up once and then forgotten: longer than any other link."""


@transaction.atomic
def renew_feed(*, actor: Actor, subject: Person | House, now: datetime) -> MadeLink:
    """A new address of the calendar; the one before stops at once. Raises AlreadyEnded for who left the roster."""
    held = _hold(subject)
    if isinstance(held, Person) and held.ended_at is not None:
        raise AlreadyEnded(held, held.ended_at)
    _revoke_all(actor, subject, now)
    house = subject if isinstance(subject, House) else None
    facts = {"subject": subject, "house": house, "made_at": now, "expires_at": now + LASTS}
    return make_link(actor=actor, purpose=PURPOSE, **facts)  # type: ignore[arg-type]


@transaction.atomic
def end_feed(*, actor: Actor, subject: Person | House, now: datetime) -> None:
    """The address opens nothing any more. Raises NoFeedLink if none works."""
    _hold(subject)
    if not _revoke_all(actor, subject, now):
        raise NoFeedLink


def working_feeds(subject: Person | House, now: datetime) -> QuerySet[Link]:
    """The links to the calendar that work: one or none."""
    facts = {"subject_kind": str(subject._meta.model_name), "subject_ref": subject.ref, "purpose": PURPOSE}
    return Link.objects.working(now).filter(**facts)


def _hold(subject: Person | House) -> Person | House:
    """The row as it is now, held: whoever makes a link at the same time comes before or after."""
    held: Person | House = type(subject)._base_manager.select_for_update().get(pk=subject.pk)
    return held


def _revoke_all(actor: Actor, subject: Person | House, now: datetime) -> int:
    links = list(working_feeds(subject, now))
    for link in links:
        revoke_link(actor=actor, link=link, now=now)
    return len(links)
