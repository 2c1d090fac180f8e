"""In what order the lenses stand: along a row, in depth, round a ring.

Lenses nearer to each other than the tolerance, chained, form a knot. Inside a knot the lower level comes
first, then the farther from the target, whichever way the row is counted; what is still tied has no order.

    house left  o   o o   o   house right      knots: 1, 2 (two lenses), 1
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import Literal

from shows.core.numbering.directions import Depth, Direction, Outward, Ring, Row, Start
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, OTHER_SIDE, House
from venue.core.labels import label_key

ROW_TOLERANCE_M = 0.3
RING_TOLERANCE_DEG = 2.0
_HAIR = 1e-9
SIDE_BEARINGS = {HOUSE_RIGHT: 90.0, HOUSE_LEFT: 270.0}

Reason = Literal["not-ordered", "convention-missing"]


@dataclass(frozen=True)
class Group:
    """Slots at one place of an order: one slot, or several that nothing orders, and why not."""

    slots: tuple[int, ...]
    reason: Reason = "not-ordered"


Knot = list[Group]


def ordered_groups(house: House, positions: Sequence[int], direction: Direction | None, one_row: bool) -> list[Group]:
    """The slots of the positions in the stated order.

    `one_row` pools the rows by x; otherwise it goes position by position in the house's order. Slots that the
    direction does not reach come in one group with the reason.
    """
    groups: list[Group] = []
    for strand in _strands(house, positions, one_row and isinstance(direction, Row | Outward)):
        groups += _strand_groups(house, strand, direction)
    return groups


def _strands(house: House, positions: Sequence[int], pooled: bool) -> list[tuple[int, ...]]:
    """The positions taken together: all of the bowl, all rows where pooled, else each by itself."""
    bowl = tuple(index for index in positions if house.positions[index].zone == "bowl")
    rows = tuple(index for index in positions if house.positions[index].zone not in {"bowl", "side"})
    strands: list[tuple[int, ...]] = []
    for index in positions:
        strand = bowl if index in bowl else rows if pooled and index in rows else (index,)
        if strand not in strands:
            strands.append(strand)
    return strands


def _strand_groups(house: House, strand: tuple[int, ...], direction: Direction | None) -> list[Group]:
    slots = [slot for index in strand for slot in house.slots_at[index]]
    if not slots:
        return []
    zone = house.positions[strand[0]].zone
    if isinstance(direction, Ring):
        return ring_groups(house, slots, direction) if zone == "bowl" else []
    if direction is None or (zone == "bowl" and not is_end_stage(house)):
        return [Group(tuple(slots), "convention-missing")]
    if isinstance(direction, Depth):
        return _facing(depth_knots(house, strand, slots), direction.first == "back")
    if isinstance(direction, Row):
        return _facing(row_knots(house, strand, slots), direction.first == HOUSE_RIGHT)
    if isinstance(direction, Outward):
        return _outward(house, strand, slots, direction)
    raise TypeError(f"no single order for {direction}")


def _facing(knots: Sequence[Knot], is_turned: bool) -> list[Group]:
    return [group for knot in (reversed(knots) if is_turned else knots) for group in knot]


def is_end_stage(house: House) -> bool:
    """Whether every slot of the bowl lies at bearings 90 to 270, so that left and right make sense there."""
    return all(
        bearing is not None and 90 - _HAIR <= bearing <= 270 + _HAIR
        for bearing, position in zip(house.bearings, house.position_of, strict=True)
        if house.positions[position].zone == "bowl"
    )


def row_knots(house: House, strand: Sequence[int], slots: Sequence[int]) -> list[Knot]:
    """Knots from house left to house right: by x, by order where x is lacking, by falling bearing in a bowl."""
    zone = house.positions[strand[0]].zone
    if zone == "bowl":
        return _knots(house, slots, lambda slot: -(house.bearings[slot] or 0.0), RING_TOLERANCE_DEG)
    if zone == "side":
        return [[Group(tuple(slots))]]
    return _measured_or_in_order(house, strand, slots, lambda slot: house.slots[slot].x)


def depth_knots(house: House, strand: Sequence[int], slots: Sequence[int]) -> list[Knot]:
    """Knots of a side position from downstage up: by y, else by order; a row has no depth."""
    if house.positions[strand[0]].zone != "side":
        return [[Group(tuple(slots))]]
    return _measured_or_in_order(house, strand, slots, lambda slot: house.slots[slot].y)


def _measured_or_in_order(
    house: House, strand: Sequence[int], slots: Sequence[int], measure: Callable[[int], float | None]
) -> list[Knot]:
    if all(measure(slot) is not None for slot in slots):
        return _knots(house, slots, lambda slot: measure(slot) or 0.0, ROW_TOLERANCE_M)
    if len(strand) > 1 or any(house.slots[slot].order is None for slot in slots):
        return [[Group(tuple(slots))]]
    return [[Group((slot,))] for slot in sorted(slots, key=lambda slot: house.slots[slot].order or 0)]


def _knots(house: House, slots: Sequence[int], at: Callable[[int], float], tolerance: float) -> list[Knot]:
    chains = chained(sorted(slots, key=at), at, tolerance)
    return [_untied(house, chain) for chain in chains]


def chained(in_order: Sequence[int], at: Callable[[int], float], tolerance: float) -> list[list[int]]:
    """Runs in which each is nearer than the tolerance to the one before it."""
    chains: list[list[int]] = [[slot] for slot in in_order[:1]]
    for before, slot in pairwise(in_order):
        if abs(at(slot) - at(before)) < tolerance - _HAIR:
            chains[-1].append(slot)
        else:
            chains.append([slot])
    return chains


def _untied(house: House, knot: Sequence[int]) -> Knot:
    """The groups inside a knot: the lower level first, then the farther from the target."""
    if len(knot) == 1:
        return [Group((knot[0],))]
    groups: Knot = []
    for level in sorted({house.positions[house.position_of[slot]].level for slot in knot}):
        on_level = [slot for slot in knot if house.positions[house.position_of[slot]].level == level]
        groups += _by_distance(house, on_level)
    return groups


def _by_distance(house: House, slots: Sequence[int]) -> Knot:
    distances = {slot: _distance(house, slot) for slot in slots}
    if len(slots) > 1 and any(distance is None for distance in distances.values()):
        return [Group(tuple(sorted(slots)))]
    far_first = sorted(slots, key=lambda slot: -(distances[slot] or 0.0))
    chains = chained(far_first, lambda slot: distances[slot] or 0.0, ROW_TOLERANCE_M)
    return [Group(tuple(sorted(chain))) for chain in chains]


def _distance(house: House, slot: int) -> float | None:
    """From lens to target [m]; in plan where the height is not known; None without coordinates."""
    lens = house.slots[slot]
    if lens.x is None or lens.y is None:
        return None
    if lens.z is None:
        return dist((lens.x, lens.y), house.target[:2])
    return dist((lens.x, lens.y, lens.z), house.target)


def ring_groups(house: House, slots: Sequence[int], ring: Ring) -> list[Group]:
    """The ring from its start on; one group without an order where the start is missing or can't be found."""
    candidates = ring_starts(house, slots, ring)
    orders = [_ring_from(house, slots, ring.clockwise, start) for start in candidates]
    if not orders or any(order is None or order != orders[0] for order in orders):
        return [Group(tuple(slots), "convention-missing")]
    return orders[0] or []


def ring_starts(house: House, slots: Sequence[int], ring: Ring) -> list[Start]:
    """What the stated start may mean in this house: one, none, or several for a number not said which."""
    if ring.start is None:
        return []
    if ring.start.kind != "number":
        return [ring.start]
    meanings = [
        Start("label", ring.start.value),
        Start("clock", ring.start.value),
        Start("bearing", ring.start.value),
    ]
    return [start for start in meanings if _is_possible(house, slots, start)]


def _is_possible(house: House, slots: Sequence[int], start: Start) -> bool:
    if start.kind == "label":
        return sum(house.label_keys[slot] == label_key(start.value) for slot in slots) == 1
    if not start.value.isdecimal():
        return False
    return 1 <= int(start.value) <= 12 if start.kind == "clock" else 0 <= int(start.value) < 360


def _ring_from(house: House, slots: Sequence[int], clockwise: bool, start: Start) -> list[Group] | None:
    if any(house.bearings[slot] is None for slot in slots):
        return _ring_in_order(house, slots, clockwise, start)
    begin = start_bearing(house, slots, start)
    if begin is None:
        return None
    turn = 1.0 if clockwise else -1.0

    def offset(slot: int) -> float:
        """Degrees after the start, a lens within the tolerance behind it counting as at it."""
        after = (turn * ((house.bearings[slot] or 0.0) - begin)) % 360.0
        return after - 360.0 if after >= 360.0 - RING_TOLERANCE_DEG - _HAIR else after

    knots = sorted(ring_chains(house, slots), key=lambda knot: min(map(offset, knot)))
    return [group for knot in knots for group in _untied(house, knot)]


def ring_chains(house: House, slots: Sequence[int]) -> list[list[int]]:
    """Lenses chained round the ring, over the stage end too."""

    def at(slot: int) -> float:
        return house.bearings[slot] or 0.0

    chains = chained(sorted(slots, key=at), at, RING_TOLERANCE_DEG)
    if len(chains) > 1 and at(chains[0][0]) + 360.0 - at(chains[-1][-1]) < RING_TOLERANCE_DEG - _HAIR:
        chains[0] = chains.pop() + chains[0]
    return chains


def start_bearing(house: House, slots: Sequence[int], start: Start) -> float | None:
    """The bearing [deg] at which the ring begins; None where the house does not say."""
    match start.kind:
        case "label":
            at = [house.bearings[slot] for slot in slots if house.label_keys[slot] == label_key(start.value)]
            return at[0] if len(at) == 1 else None
        case "side":
            return SIDE_BEARINGS.get(start.value)
        case "clock":
            return (house.twelve_deg + 30.0 * float(start.value)) % 360.0
        case _:
            return float(start.value) % 360.0 if float(start.value) <= 360.0 else None


def _ring_in_order(house: House, slots: Sequence[int], clockwise: bool, start: Start) -> list[Group] | None:
    """A ring known by order alone: it can begin at a house label, or clockwise at the stage end."""
    if any(house.slots[slot].order is None for slot in slots):
        return None
    ring = sorted(slots, key=lambda slot: house.slots[slot].order or 0)
    if start.kind == "label":
        at = [index for index, slot in enumerate(ring) if house.label_keys[slot] == label_key(start.value)]
        if len(at) != 1:
            return None
        turned = ring[at[0] :] + ring[: at[0]]
        return [Group((slot,)) for slot in (turned if clockwise else [turned[0], *reversed(turned[1:])])]
    is_stage_end = start.kind in {"clock", "bearing"} and start_bearing(house, slots, start) == 0.0
    return [Group((slot,)) for slot in ring] if clockwise and is_stage_end else None


@dataclass(frozen=True)
class Halves:
    """A row cut at the center: the knots of each half from the center outward, and what stands in the center."""

    left: tuple[Knot, ...]
    center: tuple[Knot, ...]
    right: tuple[Knot, ...]

    def half(self, side: str, inward: bool = False) -> list[Group]:
        """One half from the center outward, or from its end inward."""
        return _facing(self.left if side == HOUSE_LEFT else self.right, inward)


def halves(house: House, strand: Sequence[int], slots: Sequence[int]) -> Halves:
    """The two halves of a row: by the center line where lenses stand on both sides of it, else by count."""
    knots = row_knots(house, strand, slots)
    sides = [side_of(house, knot[0].slots[0], slots) for knot in knots]
    if HOUSE_LEFT not in sides or HOUSE_RIGHT not in sides:
        half = len(knots) // 2
        sides = [HOUSE_LEFT] * half + ["center"] * (len(knots) - 2 * half) + [HOUSE_RIGHT] * half

    def on(side: str) -> list[Knot]:
        return [knot for knot, its in zip(knots, sides, strict=True) if its == side]

    return Halves(tuple(reversed(on(HOUSE_LEFT))), tuple(on("center")), tuple(on(HOUSE_RIGHT)))


def side_of(house: House, slot: int, row: Sequence[int]) -> str:
    """house left, center or house right: by x, by bearing in a bowl, else by the slot's order in its row."""
    x, bearing, order = house.slots[slot].x, house.bearings[slot], house.slots[slot].order
    if house.positions[house.position_of[slot]].zone == "bowl" and bearing is not None:
        if min(bearing % 180.0, 180.0 - bearing % 180.0) <= RING_TOLERANCE_DEG + _HAIR:
            return "center"
        return HOUSE_RIGHT if bearing < 180.0 else HOUSE_LEFT
    if x is not None and all(house.slots[other].x is not None for other in row):
        return "center" if abs(x) <= ROW_TOLERANCE_M + _HAIR else HOUSE_RIGHT if x > 0 else HOUSE_LEFT
    orders = sorted(house.slots[other].order or 0 for other in row)
    middle = (len(orders) - 1) / 2
    place = orders.index(order or 0)
    return "center" if place == middle else HOUSE_RIGHT if place > middle else HOUSE_LEFT


def _outward(house: House, strand: Sequence[int], slots: Sequence[int], direction: Outward) -> list[Group]:
    """Center, then one of each side in turn; the first side named begins each turn."""
    cut = halves(house, strand, slots)
    center = _facing(cut.center, False)
    sides = [direction.first or HOUSE_LEFT, OTHER_SIDE[direction.first or HOUSE_LEFT]]
    first, second = (cut.half(side, direction.inward) for side in sides)
    turns = max(len(first), len(second))
    if not direction.inward:
        return [*center, *_in_turn(first, second, turns, [0, 0])]
    return [*_in_turn(first, second, turns, [turns - len(first), turns - len(second)]), *center]


def _in_turn(first: list[Group], second: list[Group], turns: int, waits: list[int]) -> list[Group]:
    """One of each side in turn; a side that waits joins in later, so that both end at the center together."""
    return [
        side[turn - wait]
        for turn in range(turns)
        for side, wait in zip((first, second), waits, strict=True)
        if 0 <= turn - wait < len(side)
    ]
