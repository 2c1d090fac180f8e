"""Positions and places: added, ended."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import Max
from django.utils.translation import gettext as _

from venue.actions.editing import change
from venue.actions.locking import lock
from venue.core.labels import label_key, plain_text
from venue.errors import InUse, Invalid
from venue.history import Actor, record
from venue.models import House, Place, Placement, Position
from venue.models.units import PlacementQuerySet
from venue.storing import end, store

MOST_IN_A_ROW = 100


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
def add_row(
    *, actor: Actor, house: House, name: str, zone: str, labels_from_house_left: Sequence[str], **facts: Any
) -> Position:
    """A position with its places, known by their order alone; in a bowl clockwise from the stage end.

    Raises AlreadyExists, Invalid without labels, with too many or with one twice.
    """
    labels = [plain_text(label) for label in labels_from_house_left]
    _require_a_row(labels)
    position = add_position(actor=actor, house=house, name=name, zone=zone, **facts)
    for order, label in enumerate(labels, start=1):
        place = store(Place(position=position, label=label, row_order=order))
        record(actor, "place.added", place, house=house, place=str(place))
    return position


def _require_a_row(labels: Sequence[str]) -> None:
    if not 1 <= len(labels) <= MOST_IN_A_ROW:
        message = _("Write the labels of the places, from 1 to %(most)s of them.") % {"most": MOST_IN_A_ROW}
        raise Invalid({"labels": [message]})
    keys = [label_key(label) for label in labels]
    for index, key in enumerate(keys):
        if not key:
            raise Invalid({"labels": [_("Write each label with at least one letter or digit.")]})
        if key in keys[:index]:
            message = _("The label %(label)s is there twice. Write each label once.") % {"label": labels[index]}
            raise Invalid({"labels": [message]})


@transaction.atomic
def add_place(*, actor: Actor, position: Position, label: str, goes_before: bool = False, **facts: Any) -> Place:
    """A place in the position, under its label. Raises AlreadyExists, AlreadyEnded, Invalid.

    With `goes_before` it takes the place in the order (`row_order`) of one that may be there: that one and all after
    it count one higher, whoever brought them.
    """
    lock(Position, [position])
    if goes_before:
        _make_room(actor, position, facts["row_order"])
    place = store(Place(position=position, label=label, **facts))
    record(actor, "place.added", place, house=position.house, place=str(place))
    return place


def _make_room(actor: Actor, position: Position, order: int) -> None:
    after = position.places.standing().filter(row_order__gte=order)
    if not after.filter(row_order=order).exists():
        return
    lock(Place, after)
    for place in after.order_by("pk"):
        values = {"row_order": (place.row_order or 0) + 1}
        change(actor=actor, row=place, house=position.house, seen=place.version, values=values)


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
