"""A show number put on another place where somebody stands there and sees it; two swap."""

from datetime import datetime
from uuid import UUID

from shows.actions.arrival_links import through_link
from shows.actions.binding import assign_spots
from shows.arrival import check_instant
from shows.errors import NumbersChanged
from shows.models import Engagement
from shows.renumbering import Renumbering, moved, standing_of
from venue.history import Actor
from venue.models import Link


def move_number(
    *,
    actor: Actor,
    engagement: Engagement,
    light: str,
    place: UUID,
    seen: str,
    at: datetime,
    link: Link | None = None,
) -> Renumbering:
    """Put the light, by its key, at the place; what stands there takes its place. Both stand by hand then.

    `seen` is the fingerprint of what the person saw it change. Raises NumbersChanged if it would change something
    else by now, LinkRefused, AlreadyEnded, and as `assign_spots`; then nothing is stored.
    """
    with through_link(actor=actor, engagement=engagement, link=link, now=at):
        standing = standing_of(engagement, check_instant(engagement, at))
        found, where = standing.light(light), standing.place(place)
        if found is None or where is None:
            raise NumbersChanged
        change = moved(standing, found, where, at)
        if change.fingerprint != seen:
            raise NumbersChanged
        versions = {spot: spot.version for spot in change.places}
        assign_spots(actor=actor, engagement=engagement, places=change.places, seen=versions, at=at)
    return change
