"""Where a person put a show's numbers by hand: what no proposal moves."""

from collections.abc import Mapping
from datetime import datetime

from django.db.models import Max

from shows.models import Engagement, Source
from shows.tonight import ShowNumbers, Tonight
from venue.models import Event, Place

BY_HAND, BY_PROPOSAL = "spots.bound", "proposal.taken"
"""The lines of history about numbers on places."""
TAKEN_IN = "spots.put"
"""The line of history about the numbers themselves."""


def put_by_hand(engagement: Engagement, tonight: Tonight, numbers: ShowNumbers) -> dict[int, tuple[Place, ...]]:
    """By the spot's primary key the places that a person put it at, by team; places out of use among them.

    One query at most. What a proposal put there is free for the next one.
    """
    bound = [(spot, place) for spot, place, source in numbers.bindings if source == Source.HAND]
    places = _places(tonight, {place for _, place in bound})
    found: dict[int, tuple[Place, ...]] = {}
    for spot, place in bound:
        found[spot] = (*found.get(spot, ()), places[place])
    return found


def renumbered_at(engagement: Engagement) -> datetime | None:
    """When numbers were last taken in or put on places; None: never. One query."""
    lines = Event.objects.about("engagement", engagement.ref).filter(verb__in=(TAKEN_IN, BY_HAND, BY_PROPOSAL))
    return lines.aggregate(last=Max("at"))["last"]


def _places(tonight: Tonight, keys: set[int]) -> Mapping[int, Place]:
    known = {place.pk: place for place in (*tonight.places, *tonight.idle)}
    missing = keys - known.keys()
    if missing:  # ended since
        known |= {place.pk: place for place in Place.objects.filter(pk__in=missing).select_related("position")}
    return known
