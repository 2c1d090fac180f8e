"""What a sheet says of the places of its lights, beyond their names: cautions, who is beside, frames, the row."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from crew.core.neighbors import Beside, Standing, neighbors, standings
from crew.line_needs import light_at, operated_from
from crew.models.certifications import NeededFor
from crew.wording.cautions import cautions_at, needs_at
from crew.wording.papers import beside_words
from shows.lines import ShowLine
from shows.tonight import Tonight
from venue.models import Place, Unit


@dataclass(frozen=True)
class PlaceFacts:
    """The facts of one place, as `SheetLine` has them, and what it asks its operator to be certified for."""

    cautions: tuple[str, ...] = ()
    neighbors: tuple[str, ...] = ()
    magazine: int = 0
    frame_1_end: str = ""
    position_zone: str = ""
    house_side: str = ""
    row: int = 0
    bearing_deg: int = 0
    needs: tuple[str, ...] = ()
    unit_source: str = ""
    asks: tuple[NeededFor, ...] = ()

    @property
    def on_line(self) -> dict[str, Any]:
        """All but what its operator has to be certified for, which a sheet says by the person."""
        return {name: value for name, value in vars(self).items() if name != "asks"}


NOWHERE = PlaceFacts()
"""Of a light that has no place yet."""


def place_facts(tonight: Tonight, lights: Iterable[ShowLine]) -> dict[UUID, PlaceFacts]:
    """The facts of each lit place, by its reference. One query where units are run from elsewhere, else none."""
    number_at = _numbers(tonight, lights)
    beside, stands = neighbors(tonight.house, list(number_at)), standings(tonight.house, list(number_at))
    elsewhere = operated_from(tonight.places)
    return {
        tonight.places[slot].ref: _facts(tonight, slot, elsewhere, number_at, beside[slot], stands[slot])
        for slot in number_at
    }


def _numbers(tonight: Tonight, lights: Iterable[ShowLine]) -> dict[int, str]:
    """Slot -> the show number there."""
    slots = {place.ref: slot for slot, place in enumerate(tonight.places)}
    return {slots[light.place_ref]: light.number for light in lights if light.place_ref}


def _facts(
    tonight: Tonight,
    slot: int,
    elsewhere: Mapping[int, Place],
    number_at: Mapping[int, str],
    beside: Beside,
    stands: Standing,
) -> PlaceFacts:
    place = tonight.places[slot]
    unit: Unit | None = tonight.units.get(place.pk)
    return PlaceFacts(
        cautions=cautions_at(place, elsewhere.get(place.operated_from_id or 0)),
        neighbors=() if place.operated_from_id else tuple(beside_words(number_at, slot, beside)),
        magazine=(unit.frames or 0) if unit else 0,
        frame_1_end=unit.frame_1_end if unit else "",
        position_zone=stands.zone,
        house_side=stands.side,
        row=stands.row,
        bearing_deg=stands.bearing_deg,
        needs=needs_at(place, elsewhere.get(place.operated_from_id or 0)),
        unit_source=unit.source if unit else "",
        asks=tuple(light_at(number_at[slot], place, tonight.units, elsewhere).asks),
    )
