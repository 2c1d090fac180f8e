"""What the units at the places of a show can do then, and what stops them."""

from collections.abc import Iterable, Sequence
from datetime import datetime

from shows.tonight import Tonight
from shows.wording.limits import unit_sentences
from venue.condition import Condition, conditions_of
from venue.models import Place, Placement, Unit


def conditions_tonight(tonight: Tonight) -> dict[int, Condition]:
    """As `conditions_at`, of places and units that were fetched already."""
    units = {place.pk: unit for place in tonight.places if (unit := tonight.units.get(place.pk)) is not None}
    found = conditions_of(units.values(), tonight.at)
    return {place: found[unit.pk] for place, unit in units.items()}


def conditions_at(places: Iterable[Place], at: datetime) -> dict[int, Condition]:
    """The condition of the unit that stands at each place at the instant, by the place's primary key.

    Places without a unit are left out. The same number of queries however many places.
    """
    units = units_at(places, at)
    found = conditions_of(units.values(), at)
    return {place: found[unit.pk] for place, unit in units.items()}


def sentences_at(places: Sequence[Place], at: datetime) -> list[str]:
    """What the units at the places can't do then, a sentence each, in the order of the places."""
    units = units_at(places, at)
    found = conditions_of(units.values(), at)
    standing = (units[place.pk] for place in places if place.pk in units)
    said = (unit_sentences(unit.tag, found[unit.pk].stops, found[unit.pk].limits) for unit in standing)
    return [sentence for sentences in said for sentence in sentences]


def units_at(places: Iterable[Place], at: datetime) -> dict[int, Unit]:
    """The unit that stands at each place at the instant, by the place's primary key. One query."""
    keys = [place.pk for place in places]
    stays = Placement.objects.at(at).filter(place__in=keys, unit__ended_at__isnull=True).select_related("unit")
    return {stay.place_id: stay.unit for stay in stays.order_by() if stay.place_id is not None}
