"""The links that a show gives out, one a purpose at a time: made, renewed, switched off, used.

By one the road crew checks on arrival, by another the tour's head reads the house's answer.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime

from django.db import transaction

from shows.actions.spots import lock_engagement
from shows.errors import NoShowLink
from shows.links import ADVANCE, ARRIVAL, show_links
from shows.models import Engagement
from venue.actions import MadeLink, make_link, revoke_link, use_link
from venue.history import Actor
from venue.models import Link


def renew_arrival_link(*, actor: Actor, engagement: Engagement, now: datetime, until: datetime) -> MadeLink:
    """A new link, which works until the instant; the one before stops at once. Raises AlreadyEnded, Invalid."""
    return _renew(actor, engagement, ARRIVAL, now, until)


def renew_advance_link(*, actor: Actor, engagement: Engagement, now: datetime, until: datetime) -> MadeLink:
    """As `renew_arrival_link`, to the house's answer."""
    return _renew(actor, engagement, ADVANCE, now, until)


def end_arrival_link(*, actor: Actor, engagement: Engagement, now: datetime) -> None:
    """The link stops working at once. Raises NoShowLink if none works, AlreadyEnded."""
    _end(actor, engagement, ARRIVAL, now)


def end_advance_link(*, actor: Actor, engagement: Engagement, now: datetime) -> None:
    """As `end_arrival_link`, to the house's answer."""
    _end(actor, engagement, ADVANCE, now)


@transaction.atomic
def _renew(actor: Actor, engagement: Engagement, purpose: str, now: datetime, until: datetime) -> MadeLink:
    lock_engagement(engagement)
    _revoke_all(actor, engagement, purpose, now)
    facts = {"subject": engagement, "house": engagement.house, "made_at": now, "expires_at": until}
    return make_link(actor=actor, purpose=purpose, **facts)  # type: ignore[arg-type]


@transaction.atomic
def _end(actor: Actor, engagement: Engagement, purpose: str, now: datetime) -> None:
    lock_engagement(engagement)
    if not _revoke_all(actor, engagement, purpose, now):
        raise NoShowLink


def _revoke_all(actor: Actor, engagement: Engagement, purpose: str, now: datetime) -> int:
    links = list(show_links(engagement, purpose, now))
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
