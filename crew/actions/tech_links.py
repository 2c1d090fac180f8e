"""The public link to a house's technical sheet: made, renewed, switched off."""

from datetime import datetime, timedelta

from django.db import transaction

from crew.errors import NoTechLink
from venue.actions import MadeLink, make_link, revoke_link
from venue.history import Actor
from venue.models import House, Link

PURPOSE = "tech-sheet"
LASTS = timedelta(days=366)


@transaction.atomic
def renew_tech_link(*, actor: Actor, house: House, now: datetime) -> MadeLink:
    """A new link, which works for a year; the one before stops at once.

    Of two heads who do this at once, the later one's link works and the other one's does not: a house has one.
    """
    for link in _held(house, now):
        revoke_link(actor=actor, link=link, now=now)
    return make_link(actor=actor, purpose=PURPOSE, subject=house, house=house, made_at=now, expires_at=now + LASTS)


@transaction.atomic
def end_tech_link(*, actor: Actor, house: House, now: datetime) -> None:
    """The link stops working at once. Raises NoTechLink if none works."""
    links = _held(house, now)
    if not links:
        raise NoTechLink
    for link in links:
        revoke_link(actor=actor, link=link, now=now)


def _held(house: House, now: datetime) -> list[Link]:
    """The links that work, with the house held: whoever makes one at the same time comes before or after."""
    House._base_manager.select_for_update().get(pk=house.pk)
    return list(Link.objects.working(now).filter(purpose=PURPOSE, house=house))
