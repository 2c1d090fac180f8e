"""Who is beside whom at the lenses, and where in its row each light stands.

An operator at a lens faces the stage. In front of it house left is to the left, behind it to the right, on a side
gallery it is a matter of up- and downstage, in a bowl of the way round. Where the order is not known, or the way that
somebody faces, nothing is said.

    seen from above, stage up:      left <- 1  2  3 -> right      (in front)
                                    left <- 3  2  1 -> right      (behind: the page turned by 180 degrees)
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shows.core.numbering.order import (
    RING_TOLERANCE_DEG,
    ROW_TOLERANCE_M,
    Knot,
    depth_knots,
    ring_chains,
    row_knots,
    side_of,
)
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, House

SIDEWAYS_M = 1.0
"""An overhead lens nearer than this to the target's depth may face either way. From memory, no source."""


@dataclass(frozen=True)
class Beside:
    """The slots next to a lens, as its operator sees them: one, none, or several that nothing orders."""

    left: tuple[int, ...] = ()
    right: tuple[int, ...] = ()


Chains = list[tuple[int, ...]]
"""Slots in the order in which an operator there sees them from left to right, those without an order together."""


def neighbors(house: House, lit: Sequence[int]) -> dict[int, Beside]:
    """For each lit slot who is beside it; a slot that nothing is known of has nobody."""
    found = {slot: Beside() for slot in lit}
    for chains in _rows(house, lit):
        for left, right in pairwise(chains):
            for slot in left:
                found[slot] = Beside(found[slot].left, right)
            for slot in right:
                found[slot] = Beside(left, found[slot].right)
    return found | _round_the_ring(house, lit)


def _rows(house: House, lit: Sequence[int]) -> Iterator[Chains]:
    for index, position in enumerate(house.positions):
        slots = [slot for slot in house.slots_at[index] if slot in lit]
        if position.zone == "side":
            yield from _galleries(house, index, slots)
        elif position.zone != "bowl" and slots:
            yield from _facing_rows(house, index, slots)


def _facing_rows(house: House, index: int, slots: Sequence[int]) -> Iterator[Chains]:
    """A row across the house; none where it is not known which way its operators face."""
    turns = {_is_turned(house, slot) for slot in slots}
    if len(turns) == 1 and None not in turns:
        chains = _chains(row_knots(house, (index,), slots))
        yield chains[::-1] if turns == {True} else chains


def _is_turned(house: House, slot: int) -> bool | None:
    """Whether house left is to the right of who stands there; None where nobody can tell."""
    zone, y = house.positions[house.position_of[slot]].zone, house.slots[slot].y
    if zone != "overhead":
        return zone == "rear"
    if y is None or abs(y - house.target[1]) < SIDEWAYS_M:
        return None
    return y > house.target[1]


def _galleries(house: House, index: int, slots: Sequence[int]) -> Iterator[Chains]:
    """Both sides, each by itself: from house left upstage is to the left, from house right to the right."""
    for side in (HOUSE_LEFT, HOUSE_RIGHT):
        here = [slot for slot in slots if _side_by_x(house, slot) == side]
        if here:
            upward = _chains(depth_knots(house, (index,), here))
            yield upward[::-1] if side == HOUSE_LEFT else upward


def _side_by_x(house: House, slot: int) -> str:
    x = house.slots[slot].x
    if x is None or abs(x) <= ROW_TOLERANCE_M:
        return ""
    return HOUSE_RIGHT if x > 0 else HOUSE_LEFT


def _chains(knots: Sequence[Knot]) -> Chains:
    return [tuple(slot for group in knot for slot in group.slots) for knot in knots]


def _round_the_ring(house: House, lit: Sequence[int]) -> dict[int, Beside]:
    """In a bowl: clockwise, seen from above, is to the left of who looks in."""
    slots = _bowl(house, lit)
    if any(house.bearings[slot] is None for slot in slots):
        return {}
    chains = sorted(ring_chains(house, slots), key=lambda chain: house.bearings[chain[0]] or 0.0)
    found: dict[int, Beside] = {}
    for at, chain in enumerate(chains):
        after, before = chains[(at + 1) % len(chains)], chains[at - 1]
        left = tuple(after) if _is_beside(house, chain, after) else ()
        right = tuple(before) if _is_beside(house, before, chain) else ()
        found |= {slot: Beside(left, right) for slot in chain}
    return found


def _is_beside(house: House, chain: Sequence[int], clockwise: Sequence[int]) -> bool:
    """Whether the way from one to the other is less than half round; right across is neither left nor right."""
    turn = ((house.bearings[clockwise[0]] or 0.0) - (house.bearings[chain[-1]] or 0.0)) % 360.0
    return RING_TOLERANCE_DEG < turn < 180.0 - RING_TOLERANCE_DEG


def _bowl(house: House, lit: Sequence[int]) -> list[int]:
    return [slot for slot in lit if house.positions[house.position_of[slot]].zone == "bowl"]


@dataclass(frozen=True)
class Standing:
    """Where in the house a slot is: its zone, its side, its place in the row and its bearing, as sheets keep them."""

    zone: str
    side: str
    row: int
    bearing_deg: int


def standings(house: House, lit: Sequence[int]) -> dict[int, Standing]:
    """For each lit slot where it stands; what is not known is empty or 0."""
    rows = {slot: row for index in range(len(house.positions)) for slot, row in _ranked(house, index, lit)}
    return {slot: _standing(house, slot, rows.get(slot, 0)) for slot in lit}


def _ranked(house: House, index: int, lit: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Each slot of a row with its rank; slots that nothing orders share one. A row of several without order: none."""
    slots, zone = [slot for slot in house.slots_at[index] if slot in lit], house.positions[index].zone
    if not slots or zone == "bowl":
        return
    chains = _chains((depth_knots if zone == "side" else row_knots)(house, (index,), slots))
    if len(chains) == 1 < len(slots):
        return
    yield from ((slot, rank) for rank, chain in enumerate(chains, start=1) for slot in chain)


def _standing(house: House, slot: int, row: int) -> Standing:
    zone, bearing = house.positions[house.position_of[slot]].zone, house.bearings[slot]
    if zone == "bowl" and bearing is not None:
        side = side_of(house, slot, (slot,))
        return Standing(zone, side, row, round(bearing) % 360 or 360)
    return Standing(zone, _side_by_x(house, slot), row, 0)
