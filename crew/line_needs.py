"""What the lights of a call ask of their operators: where each is run from, and by what unit.

A number whose place is not known asks for nothing of a place; nor does one that is told at the spot talk.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from crew.models import Call
from crew.models.certifications import NeededFor
from shows.tonight import compared, numbers_of, places_tonight
from venue.core.labels import label_key
from venue.core.names import name_key
from venue.core.sources import Source, source_of
from venue.models import Place, Position, Unit
from venue.models.positions import FallProtection

Seat = tuple[str, int]
"""A show number's key ("" at the spot talk) and which light of its team, from 1."""
ARCS = frozenset({Source.SHORT_ARC, Source.CARBON_ARC})
LIFTS = frozenset({"LIFT", "PLATFORM"})


@dataclass(frozen=True)
class Light:
    """A show number as written, the place that it has and the unit there; `position` is where its operator is."""

    number: str
    place: Place | None = None
    position: Position | None = None
    unit: Unit | None = None

    @property
    def asks(self) -> Iterator[NeededFor]:
        """For what its operator has to be certified, besides the house."""
        if self.position is not None and self.position.fall_protection not in {"", FallProtection.NONE}:
            yield NeededFor.CLIMB
        if self.position is not None and _is_lift(self.position.kind):
            yield NeededFor.LIFT
        if self.unit is not None and source_of(self.unit.source) in ARCS:
            yield NeededFor.ARC_LAMP

    @property
    def unit_words(self) -> frozenset[str]:
        """By what words somebody may know the unit: its tag, its source."""
        if self.unit is None:
            return frozenset()
        return frozenset({name_key(self.unit.tag), name_key(self.unit.source)} - {""})


def _is_lift(kind: str) -> bool:
    words = "".join(char if char.isalpha() else " " for char in kind.upper()).split()
    return any(word in LIFTS or word.removesuffix("S") in LIFTS for word in words)


def lights_of(call: Call) -> dict[Seat, Light]:
    """The lights of the call's show by seat, in natural order. As many queries however many there are."""
    engagement = call.engagement
    tonight, numbers = places_tonight(engagement, call.event.starts_at), numbers_of(engagement)
    at: dict[str, list[Place]] = {}
    for pair in compared(engagement, tonight, numbers).pairs:
        at.setdefault(label_key(pair.number), []).append(tonight.places[pair.slot])
    run_from = operated_from(place for places in at.values() for place in places)
    return {
        (spot.number_key, seat): light_at(spot.number, place, tonight.units, run_from)
        for spot in numbers.spots
        for seat, place in enumerate(at.get(spot.number_key) or [None], start=1)
    }


def light_at(number: str, place: Place | None, units: Mapping[int, Unit], run_from: Mapping[int, Place]) -> Light:
    """The light of a number at its place, if it has one; `units` are those that stand, by the place's key."""
    if place is None:
        return Light(number)
    stands_at = run_from.get(place.operated_from_id or 0, place)
    return Light(number, place, stands_at.position, units.get(place.pk))


def operated_from(places: Iterable[Place]) -> Mapping[int, Place]:
    """The places from which others are run, with their positions. One query where there are any, else none."""
    elsewhere = {place.operated_from_id for place in places} - {None}
    return Place.objects.select_related("position").in_bulk(elsewhere) if elsewhere else {}
