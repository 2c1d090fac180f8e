"""Positions and places: added, ended."""

from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Max

from venue.actions.locking import lock
from venue.errors import InUse
from venue.history import Actor, record
from venue.models import House, Place, Placement, Position
from venue.models.units import PlacementQuerySet
from venue.storing import end, store


@transaction.atomic
def add_position(*, actor: Actor, house: House, name: str, **facts: Any) -> Position:
    """A position, last in the house's order unless `row_order` is given. Raises AlreadyExists, Invalid."""
    facts.setdefault("row_order", _next_order(house))
    position = store(Position(house=house, name=name, **facts))
    record(actor, "position.added", position, house=house, name=name)
    return position


def _next_order(house: House) -> int:
    last = Position.objects.filter(house=house).aggregate(last=Max("row_order"))["last"]
    return 0 if last is None else last + 1


@transaction.atomic
def add_place(*, actor: Actor, position: Position, label: str, **facts: Any) -> Place:
    """A place in the position, under its label. Raises AlreadyExists, AlreadyEnded, Invalid."""
    lock(Position, [position])
    place = store(Place(position=position, label=label, **facts))
    record(actor, "place.added", place, house=position.house, place=str(place))
    return place


@transaction.atomic
def end_place(*, actor: Actor, place: Place, at: datetime, reason: str) -> None:
    """The place is not used any more. Raises InUse if a unit stands there or will, AlreadyEnded, Invalid."""
    lock(Place, [place])
    _require_free(Placement.objects.filter(place=place), at)
    end(place, at=at, reason=reason)
    record(actor, "place.ended", place, house=place.position.house, place=str(place), reason=reason)


@transaction.atomic
def end_position(*, actor: Actor, position: Position, at: datetime, reason: str) -> None:
    """The position and the places in it are not used any more. Raises as `end_place`."""
    lock(Position, [position])
    places = list(position.places.standing())
    lock(Place, places)
    _require_free(Placement.objects.filter(place__in=places), at)
    for place in places:
        end(place, at=at, reason=reason)
    end(position, at=at, reason=reason)
    record(actor, "position.ended", position, house=position.house, name=position.name, reason=reason)


def _require_free(placements: PlacementQuerySet, at: datetime) -> None:
    standing = placements.real().not_over_by(at).select_related("unit", "place__position").first()
    if standing is not None:
        raise InUse(standing)
