"""Circuits, filters, areas and what is in the way, for tests, each in one call."""

from typing import Any

from tests.factories import ACTOR
from venue.actions import add_area, add_blockage, add_circuit, add_filter
from venue.models import Area, Blockage, Circuit, ColorFilter, House, Place, Position, Setup

SQUARE = [[-2.0, -1.0], [2.0, -1.0], [2.0, -3.0], [-2.0, -3.0]]
"""An area before the plaster line, 4 m by 2 m."""


def a_circuit(house: House, name: str = "FS-A", **facts: Any) -> Circuit:
    return add_circuit(actor=ACTOR, house=house, name=name, **{"volts": 120.0, "rating_a": 20.0, **facts})


def a_filter(house: House, code: str = "C-1", **facts: Any) -> ColorFilter:
    return add_filter(actor=ACTOR, house=house, code=code, **facts)


def an_area(setup: Setup, name: str = "Pit", **facts: Any) -> Area:
    return add_area(actor=ACTOR, setup=setup, name=name, **{"kind": "pit", "corners": SQUARE, **facts})


def a_blockage(position: Position, name: str = "balcony rail", **facts: Any) -> Blockage:
    return add_blockage(actor=ACTOR, position=position, name=name, **facts)


def recorded(setup: Setup, place: Place) -> dict[str, Any]:
    """What the addresses of these rows name, made for the set-up and the place's position; `size` is a key."""
    house, position = setup.house, place.position
    rows = {
        "circuit": a_circuit(house, "A circuit of its own"),
        "filter": a_filter(house, "A code of its own"),
        "area": an_area(setup, "An area of its own"),
        "blockage": a_blockage(position),
    }
    return {**{name: row.ref for name, row in rows.items()}, "size": "head"}
