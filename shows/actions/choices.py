"""What people decide: which places are in use, and which way out is taken."""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.binding import rebind
from shows.actions.spots import lock_engagement
from shows.models import Choice, Engagement, PlaceUse
from venue.errors import StaleVersion
from venue.history import Actor, record
from venue.models import Place
from venue.storing import end, store


@transaction.atomic
def set_place_use(
    *, actor: Actor, engagement: Engagement, place: Place, in_use: bool, at: datetime, seen: int
) -> PlaceUse:
    """Say that a place is in use in the show, or not; the numbers are put anew.

    `seen` is the version of what was said before, 0 where nobody had said anything. Raises StaleVersion, Invalid.
    """
    lock_engagement(engagement)
    use = engagement.place_uses.filter(place=place).first()
    if (use.version if use else 0) != seen:
        raise StaleVersion(stored=use or engagement, submitted={"in_use": in_use})
    use = use or PlaceUse(engagement=engagement, place=place)
    use.in_use = in_use
    store(use)
    verb = "place.put_in_use" if in_use else "place.put_out_of_use"
    record(actor, verb, engagement, house=engagement.house, place=str(place), show=engagement.name)
    rebind(actor=actor, engagement=engagement, at=at)
    return use


@transaction.atomic
def choose_way(*, actor: Actor, engagement: Engagement, way: str, at: datetime) -> Choice:
    """Take a way out; the one taken before ends. Raises Invalid for a way that does not exist."""
    lock_engagement(engagement)
    before = engagement.choices.standing().first()
    if before is not None and before.way == way:
        return before
    if before is not None:
        end(before, at=at, reason=_("another way was chosen"))
    choice = store(Choice(engagement=engagement, way=way, chosen_by=actor.name, chosen_at=at))
    facts = {"way": str(choice), "show": engagement.name}
    record(actor, "way.chosen", engagement, house=engagement.house, **facts)
    return choice
