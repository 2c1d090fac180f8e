"""Filling the places from a statement: which number falls on which slot.

A lane is a run of slots in the stated order together with the numbers that it takes. Numbers walk down their
lane one cell each; a number that is missing, or named twice, still takes its cell, so that it shifts nobody.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from shows.core.numbering.directions import (
    Alternating,
    Block,
    Depth,
    Direction,
    Outward,
    Ring,
    Row,
    Statement,
    Whose,
)
from shows.core.numbering.order import Group, halves, is_end_stage, ordered_groups
from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, OTHER_SIDE, House
from shows.core.numbering.statement_parts import seen_from


@dataclass(frozen=True)
class Choice:
    """One way of reading what the paperwork left open."""

    whose: Whose = "house"
    overhead: Whose = "house"
    rows: str = "by-position"
    outward: str = "house-left-first"


@dataclass(frozen=True)
class Entry:
    """A number that wants a cell: its key, the positions its words keep it to, and the slot it has already."""

    key: str
    within: frozenset[int] | None = None
    has: int | None = None


@dataclass(frozen=True)
class Lane:
    groups: tuple[Group, ...]
    takes: Callable[[str], bool]


@dataclass(frozen=True)
class Fall:
    """Where an entry falls: on a slot, on a group that nothing orders, or nowhere (short, or no convention)."""

    slot: int | None = None
    group: Group | None = None
    problem: str | None = None


def lanes_of(statement: Statement, house: House, choice: Choice) -> list[Lane]:
    """The lanes that a statement lays through the whole house under one reading."""
    if not statement.blocks:
        positions = tuple(range(len(house.positions)))
        return _lanes(house, positions, statement.direction, _in_one_row(statement, choice), choice, lambda key: True)
    numbered = [block.numbers for block in statement.blocks if block.numbers]
    lanes: list[Lane] = []
    rest: list[list[Lane]] = []
    for block in statement.blocks:
        takes = _takes(block.numbers, numbered)
        one_row = _in_one_row(statement, choice)
        block_lanes = _lanes(house, block.positions, _block_direction(block, house, choice), one_row, choice, takes)
        if block.numbers:
            lanes += block_lanes
        else:
            rest.append(block_lanes)
    return lanes + _one_after_another(rest)


def _in_one_row(statement: Statement, choice: Choice) -> bool:
    return statement.in_one_row or (choice.rows == "one-row" and not statement.by_position)


def _takes(numbers: frozenset[str] | None, numbered: Sequence[frozenset[str]]) -> Callable[[str], bool]:
    if numbers is not None:
        return lambda key: key in numbers
    return lambda key: not any(key in others for others in numbered)


def _one_after_another(blocks: Sequence[Sequence[Lane]]) -> list[Lane]:
    """Blocks without numbers of their own are one run, each filled before the next (lane by lane)."""
    if any(len(block) != 1 for block in blocks) or not blocks:
        return [lane for block in blocks for lane in block]
    return [Lane(tuple(group for block in blocks for group in block[0].groups), blocks[0][0].takes)]


def is_open_overhead(block: Block, house: House) -> bool:
    """Whether the block hangs overhead and took its direction over from another block."""
    is_sided = isinstance(block.direction, Row | Alternating | Outward)
    return not block.is_own and is_sided and any(house.positions[i].zone == "overhead" for i in block.positions)


def _block_direction(block: Block, house: House, choice: Choice) -> Direction | None:
    if block.direction is None or choice.overhead == "house" or not is_open_overhead(block, house):
        return block.direction
    return turned(block.direction)


def turned(direction: Direction) -> Direction:
    """The same words read from the other side of the building."""
    opposite = {**OTHER_SIDE, "left": "right", "right": "left"}
    if isinstance(direction, Row):
        return Row(opposite[direction.first])
    if isinstance(direction, Alternating) and direction.odd:
        return replace(direction, odd=opposite[direction.odd])
    if isinstance(direction, Outward) and direction.first:
        return replace(direction, first=opposite[direction.first])
    return direction


def _settled(direction: Direction | None, choice: Choice) -> Direction | None:
    """The direction without anything left open."""
    if direction is None or isinstance(direction, Depth):
        return direction
    plain = seen_from(direction, choice.whose)
    first = HOUSE_LEFT if choice.outward == "house-left-first" else HOUSE_RIGHT
    if isinstance(plain, Outward) and plain.first is None:
        return replace(plain, first=first)
    if isinstance(plain, Alternating) and plain.odd is None:
        return replace(plain, odd=first)
    return plain


def _lanes(
    house: House,
    positions: Sequence[int],
    direction: Direction | None,
    one_row: bool,
    choice: Choice,
    takes: Callable[[str], bool],
) -> list[Lane]:
    settled = _settled(direction, choice)
    if isinstance(settled, Alternating):
        return _alternating_lanes(house, positions, settled, one_row, takes)
    groups = ordered_groups(house, positions, settled, one_row)
    if not groups and isinstance(settled, Ring):
        everything = tuple(slot for index in positions for slot in house.slots_at[index])
        groups = [Group(everything, "convention-missing")] if everything else []
    return [Lane(tuple(groups), takes)]


def _alternating_lanes(
    house: House,
    positions: Sequence[int],
    direction: Alternating,
    one_row: bool,
    takes: Callable[[str], bool],
) -> list[Lane]:
    """A lane for the odd and one for the even numbers, strand by strand; centers are shared out by `fill`."""
    odd: list[Group] = []
    even: list[Group] = []
    center: list[Group] = []
    for strand in _row_strands(house, positions, one_row):
        slots = [slot for index in strand for slot in house.slots_at[index]]
        if house.positions[strand[0]].zone == "bowl" and not is_end_stage(house):
            missing = [Group(tuple(slots), "convention-missing")]
            odd, even = odd + missing, even + missing
            continue
        cut = halves(house, strand, slots)
        for lane, side in (
            (odd, direction.odd or HOUSE_LEFT),
            (even, OTHER_SIDE[direction.odd or HOUSE_LEFT]),
        ):
            lane += cut.half(side, direction.inward)
        center += (group for knot in cut.center for group in knot)
    return [
        AlternatingLane(tuple(odd), lambda key: takes(key) and parity(key) == 1, tuple(center), direction.inward),
        AlternatingLane(tuple(even), lambda key: takes(key) and parity(key) == 0, tuple(center), direction.inward),
    ]


@dataclass(frozen=True)
class AlternatingLane(Lane):
    """A half of the row; it takes the center in where it is a slot short."""

    center: tuple[Group, ...] = ()
    inward: bool = False


def _row_strands(house: House, positions: Sequence[int], one_row: bool) -> list[tuple[int, ...]]:
    zones = {index: house.positions[index].zone for index in positions}
    rows = tuple(index for index in positions if zones[index] not in {"bowl", "side"})
    sides = [(index,) for index in positions if zones[index] == "side"]
    bowl = tuple(index for index in positions if zones[index] == "bowl")
    return [strand for strand in [*([rows] if one_row else [(index,) for index in rows]), *sides, bowl] if strand]


def parity(key: str) -> int | None:
    """1 for odd, 0 for even, None for a number without digits at its end."""
    return int(key[-1]) % 2 if key[-1:].isdecimal() else None


def fill(lanes: Sequence[Lane], entries: Sequence[Entry], free: Iterable[int], house: House) -> list[Fall]:
    """Where each entry falls, in the order of the entries, on the free slots.

    An entry that `has` a slot already takes that one out of a group that nothing orders (for judging).
    """
    open_slots = set(free)
    narrowed = _with_centers([_narrowed(lane, open_slots) for lane in lanes], entries)
    walks = [_Walk(lane, house) for lane in narrowed]
    return [_fall(walks, entry) for entry in entries]


def _narrowed(lane: Lane, free: set[int]) -> Lane:
    def kept(groups: Sequence[Group]) -> tuple[Group, ...]:
        left = (Group(tuple(slot for slot in group.slots if slot in free), group.reason) for group in groups)
        return tuple(group for group in left if group.slots)

    if isinstance(lane, AlternatingLane):
        return replace(lane, groups=kept(lane.groups), center=kept(lane.center))
    return replace(lane, groups=kept(lane.groups))


def _with_centers(lanes: Sequence[Lane], entries: Sequence[Entry]) -> list[Lane]:
    """The center of an alternating row goes to the half that has more numbers than slots, the odd one first."""
    out: list[Lane] = []
    is_given = False
    for lane in lanes:
        if isinstance(lane, AlternatingLane) and lane.center and not is_given:
            wanted = sum(lane.takes(entry.key) for entry in entries)
            if wanted > sum(len(group.slots) for group in lane.groups):
                joined = lane.groups + lane.center if lane.inward else lane.center + lane.groups
                lane, is_given = replace(lane, groups=joined), True
        out.append(lane)
    return out


class _Walk:
    """One lane being walked: its cells, and how far it has come for entries that may stand anywhere."""

    def __init__(self, lane: Lane, house: House) -> None:
        self.takes = lane.takes
        self.house = house
        self.cells = [group for group in lane.groups for _ in group.slots]
        self.is_taken = [False] * len(self.cells)
        self.given: set[int] = set()
        self.at = 0

    def next_cell(self, within: frozenset[int] | None) -> Group | None:
        while self.at < len(self.cells) and self.is_taken[self.at]:
            self.at += 1
        for index in range(self.at, len(self.cells)):
            if not self.is_taken[index] and self._is_within(self.cells[index], within):
                self.is_taken[index] = True
                return self.cells[index]
        return None

    def _is_within(self, group: Group, within: frozenset[int] | None) -> bool:
        return within is None or any(self.house.position_of[slot] in within for slot in group.slots)

    def slot_in(self, group: Group, entry: Entry) -> int:
        """For judging: the entry's own slot where it is in the group, else one that nobody has yet."""
        slot = entry.has if entry.has in group.slots and entry.has not in self.given else None
        chosen = slot if slot is not None else next(each for each in group.slots if each not in self.given)
        self.given.add(chosen)
        return chosen


def _fall(walks: Sequence[_Walk], entry: Entry) -> Fall:
    walk = next((walk for walk in walks if walk.takes(entry.key)), None)
    if walk is None:
        return Fall(problem="convention-missing")
    group = walk.next_cell(entry.within)
    if group is None:
        return Fall(problem="short")
    if len(group.slots) == 1 and group.reason == "not-ordered":
        return Fall(slot=group.slots[0])
    if entry.has is not None and group.reason == "not-ordered":
        return Fall(slot=walk.slot_in(group, entry))
    return Fall(group=group, problem=group.reason)
