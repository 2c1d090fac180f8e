"""What a show brings along, and the quick way to keep a row and a show in one go."""

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.binding import rebind
from shows.actions.engagements import add_tour_place, make_engagement
from shows.actions.paperwork import apply_statement
from shows.actions.spots import lock_engagement, put_spots
from shows.facts import SpotFacts
from shows.models import Engagement, EngagementPosition, PlaceUse
from venue.actions import add_row
from venue.core.labels import label_key
from venue.errors import Invalid
from venue.history import Actor
from venue.models import House, Place, Position
from venue.storing import store


@transaction.atomic
def bring_row(
    *, actor: Actor, engagement: Engagement, name: str, zone: str, labels: Sequence[str], at: datetime, **facts: Any
) -> Position:
    """A position that the show brings, with its places in use; the numbers are put anew.

    Raises AlreadyExists, AlreadyEnded, Invalid.
    """
    lock_engagement(engagement)
    own = {**facts, "only_for": engagement.ref}
    row = add_row(actor=actor, house=engagement.house, name=name, zone=zone, labels_from_house_left=labels, **own)
    store(EngagementPosition(engagement=engagement, position=row))
    for place in row.places.all():
        store(PlaceUse(engagement=engagement, place=place, in_use=True))
    rebind(actor=actor, engagement=engagement, at=at)
    return row


@transaction.atomic
def bring_place(
    *, actor: Actor, engagement: Engagement, position: Position, label: str, at: datetime, **facts: Any
) -> Place:
    """A single place that the show brings into a position, in use; the numbers are put anew.

    Raises AlreadyExists, AlreadyEnded, Invalid.
    """
    lock_engagement(engagement)
    if position.places.standing().of_house().filter(label_key=label_key(label)).exists():
        raise Invalid({"label": [_("The house has a place of this label there already. Choose another label.")]})
    place = add_tour_place(actor=actor, engagement=engagement, position=position, label=label, **facts)
    store(PlaceUse(engagement=engagement, place=place, in_use=True))
    rebind(actor=actor, engagement=engagement, at=at)
    return place


@transaction.atomic
def keep_show(
    *,
    actor: Actor,
    house: House,
    name: str,
    starts_on: date,
    ends_on: date,
    numbers: Sequence[str],
    statement: str,
    at: datetime,
    row: dict[str, Any] | None = None,
    positions: Sequence[Position] = (),
) -> Engagement:
    """A show with its numbers and how it counts, on a new row of the house or on some of its positions.

    `row` takes name, zone and labels_from_house_left. All other places of the house are out of use for it.
    Raises AlreadyExists, Invalid; then nothing is stored.
    """
    engagement = make_engagement(actor=actor, house=house, name=name, starts_on=starts_on, ends_on=ends_on)
    kept = [add_row(actor=actor, house=house, **row)] if row else list(positions)
    put_spots(actor=actor, engagement=engagement, spots=[SpotFacts(number) for number in numbers], at=at)
    _use_only(engagement, kept)
    seen = engagement.version
    apply_statement(actor=actor, engagement=engagement, statement=statement, at=at, seen=seen)
    return engagement


def _use_only(engagement: Engagement, positions: Sequence[Position]) -> None:
    kept = {position.pk for position in positions}
    for position in engagement.house.positions.standing().of_house().prefetch_related("places"):
        for place in position.places.all():
            if not place.has_ended:
                store(PlaceUse(engagement=engagement, place=place, in_use=position.pk in kept))
