"""The link by which a show's road crew checks on arrival: made, renewed, switched off, used."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime

from django.db import transaction

from shows.actions.spots import lock_engagement
from shows.errors import NoArrivalLink
from shows.links import ARRIVAL, arrival_links
from shows.models import Engagement
from venue.actions import MadeLink, make_link, revoke_link, use_link
from venue.history import Actor
from venue.models import Link


@transaction.atomic
def renew_arrival_link(*, actor: Actor, engagement: Engagement, now: datetime, until: datetime) -> MadeLink:
    """A new link, which works until the instant; the one before stops at once. Raises AlreadyEnded, Invalid."""
    lock_engagement(engagement)
    _revoke_all(actor, engagement, now)
    facts = {"subject": engagement, "house": engagement.house, "made_at": now, "expires_at": until}
    return make_link(actor=actor, purpose=ARRIVAL, **facts)  # type: ignore[arg-type]


@transaction.atomic
def end_arrival_link(*, actor: Actor, engagement: Engagement, now: datetime) -> None:
    """The link stops working at once. Raises NoArrivalLink if none works, AlreadyEnded."""
    lock_engagement(engagement)
    if not _revoke_all(actor, engagement, now):
        raise NoArrivalLink


def _revoke_all(actor: Actor, engagement: Engagement, now: datetime) -> int:
    links = list(arrival_links(engagement, now))
    for link in links:
        revoke_link(actor=actor, link=link, now=now)
    return len(links)


@contextmanager
def through_link(*, actor: Actor, engagement: Engagement, link: Link | None, now: datetime) -> Iterator[None]:
    """One transaction for all that is done at one visit, the link's use noted with it.

    `link` is None for who signed in. Raises LinkRefused if it stopped working meanwhile, AlreadyEnded.
    """
    with transaction.atomic():
        lock_engagement(engagement)
        if link is not None:
            use_link(actor=actor, link=link, now=now)
        yield
