"""The house as one set-up has it: each position with its zone there, its places in order, its walk, who stands there.

The number of queries does not depend on how many positions and places there are.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property

from venue.core.labels import label_key
from venue.core.rows import Row, Standing, row_of
from venue.models import OrderWalk, Place, Placement, Position, Setup
from venue.models.positions import Zone


@dataclass(frozen=True)
class BookPosition:
    """A position in one set-up. `places` are those that have not ended, in the house's order."""

    position: Position
    setup: Setup
    zone: str
    row: Row
    places: tuple[Place, ...]
    walk: OrderWalk | None = None
    placements: Mapping[int, Placement] = field(default_factory=dict)

    @property
    def zone_words(self) -> str:
        return str(Zone(self.zone).label)

    @property
    def is_contradicted(self) -> bool:
        """Whether the walk found another label at the end than the book has there."""
        return self.walk is not None and contradicts(self.walk, self.at_end)

    @property
    def is_walked(self) -> bool:
        """Whether somebody walked it and found what the book says."""
        return self.walk is not None and not self.is_contradicted

    @property
    def at_end(self) -> list[Place]:
        """The places that the book has at the end asked for in a walk; none where it knows no order."""
        return [place for index, place in zip(self.row.places, self.places, strict=True) if index in self.row.ends]

    @property
    def can_be_turned(self) -> bool:
        """Whether the walk found at the one end what the book has at the other: the whole row is the wrong way."""
        if self.walk is None or not self.is_contradicted or self.zone in {Zone.BOWL, Zone.SIDE}:
            return False
        other_end = self.places[0] if self.zone == Zone.REAR else self.places[-1]
        return self.row.basis != "label" and self.walk.left_end_id == other_end.pk

    @cached_property
    def stands(self) -> list[tuple[Place, Placement | None]]:
        """Each place with the placement in force there."""
        return [(place, self.placements.get(place.pk)) for place in self.places]


def contradicts(walk: OrderWalk, at_end: Sequence[Place]) -> bool:
    """Whether the walk does not fit the book: another label at the end, or the place labelled anew since."""
    if walk.left_end.has_ended or walk.left_end.label_key != label_key(walk.label_seen):
        return True
    return bool(at_end) and walk.left_end_id not in {place.pk for place in at_end}


def book_of(setup: Setup, at: datetime | None = None) -> list[BookPosition]:
    """The house's own positions that have not ended, in its order; with `at`, who stands where then."""
    positions = setup.house.positions.standing().of_house()
    return book_of_positions(setup, list(positions), at)


def book_of_positions(setup: Setup, positions: Iterable[Position], at: datetime | None = None) -> list[BookPosition]:
    """The positions as the set-up has them."""
    positions = list(positions)
    zones = dict(setup.zones.values_list("position", "zone"))
    walks = {walk.position_id: walk for walk in setup.walks.standing().select_related("left_end")}
    places: dict[int, list[Place]] = {}
    for place in Place.objects.standing().filter(position__in=positions):
        places.setdefault(place.position_id, []).append(place)
    stays = {} if at is None else _stays(positions, at)
    return [
        in_setup(each, setup, zones.get(each.pk, each.zone), places.get(each.pk, []), walks.get(each.pk), stays)
        for each in positions
    ]


def _stays(positions: Sequence[Position], at: datetime) -> dict[int, Placement]:
    found = Placement.objects.at(at).filter(place__position__in=positions, place__ended_at__isnull=True)
    return {stay.place_id: stay for stay in found.select_related("unit") if stay.place_id is not None}


def in_setup(
    position: Position,
    setup: Setup,
    zone: str,
    places: Sequence[Place],
    walk: OrderWalk | None,
    stays: Mapping[int, Placement],
) -> BookPosition:
    """One position as the set-up has it, of rows that were fetched already. No query."""
    for place in places:
        place.position = position
    row = row_of([_standing(place) for place in places], zone, (setup.target_x_m, setup.target_y_m))
    return BookPosition(position, setup, zone, row, tuple(places[index] for index in row.places), walk, stays)


def _standing(place: Place) -> Standing:
    return Standing(place.label, place.x_m, place.y_m, place.bearing_deg, place.row_order)
