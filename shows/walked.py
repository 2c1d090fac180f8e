"""Which positions in use nobody checked on foot, or where another label was found than the book has. One query."""

from collections.abc import Mapping, Sequence

from shows.tonight import Tonight
from venue.book import in_setup
from venue.models import OrderWalk, Place, Position, Setup


def unwalked_positions(setup: Setup, tonight: Tonight) -> list[Position]:
    """The house's positions in use whose order on file nobody can rely on yet, in the house's order."""
    own, walks = _own_places(tonight), _sound_walks(setup, tonight)
    in_use = {place.position_id: slot for slot, place in enumerate(tonight.places) if place.position_id in own}
    zones = {key: tonight.house.positions[tonight.house.position_of[slot]].zone for key, slot in in_use.items()}
    return [own[key][0].position for key, zone in zones.items() if not _is_walked(own[key], setup, zone, walks)]


def _own_places(tonight: Tonight) -> dict[int, list[Place]]:
    """The places of each position that stay when the tour has left; a tour's own stand is no part of a walk."""
    found: dict[int, list[Place]] = {}
    for place in (*tonight.places, *tonight.idle):
        if place.only_for is None and place.position.only_for is None:
            found.setdefault(place.position_id, []).append(place)
    return found


def _sound_walks(setup: Setup, tonight: Tonight) -> dict[int, OrderWalk]:
    """The walk of each position, those left out whose left end is no place any more."""
    places = {place.pk: place for place in (*tonight.places, *tonight.idle)}
    found = {}
    for walk in OrderWalk.objects.standing().filter(setup=setup).order_by():
        if walk.left_end_id in places:
            walk.left_end = places[walk.left_end_id]
            found[walk.position_id] = walk
    return found


def _is_walked(places: Sequence[Place], setup: Setup, zone: str, walks: Mapping[int, OrderWalk]) -> bool:
    position = places[0].position
    return in_setup(position, setup, zone, places, walks.get(position.pk), {}).is_walked
