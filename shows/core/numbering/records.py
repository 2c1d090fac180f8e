"""What the comparison of two numberings takes in and gives back.

Frame of reference: origin on the deck where the center line meets the plaster line; +x to stage left
(= house right), +y upstage, +z up [m]. Bearings about the target, degrees clockwise seen from above, 0 = the
stage end. Slots are referred to by their index in `House.slots`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import Literal

from venue.core.bearings import bearing_about
from venue.core.labels import label_key

HOUSE_LEFT, HOUSE_RIGHT = "house left", "house right"
OTHER_SIDE = {HOUSE_LEFT: HOUSE_RIGHT, HOUSE_RIGHT: HOUSE_LEFT}

Zone = Literal["front", "side", "rear", "overhead", "bowl"]


@dataclass(frozen=True)
class Slot:
    """A place for one unit: its painted label and where its lens is, as far as the house has measured.

    Either x, y, z [m], or a bearing [deg], or only its order: 1 = nearest house left in its position (in zone
    side: farthest downstage); in a bowl clockwise from the stage end, round the whole ring.
    """

    label: str
    x: float | None = None
    y: float | None = None
    z: float | None = None
    bearing: float | None = None
    order: int | None = None


@dataclass(frozen=True)
class Position:
    """A named location with its slots; `level` orders heights (the lower first)."""

    name: str
    slots: tuple[Slot, ...]
    zone: Zone = "front"
    kind: str = ""
    level: float = 0.0


@dataclass(frozen=True)
class House:
    """The slots in use, position by position in the house's own order."""

    positions: tuple[Position, ...]
    target: tuple[float, float, float] = (0.0, 0.0, 1.5)
    prompt_side: str = "stage left"
    twelve_deg: float = 0.0

    @cached_property
    def slots(self) -> tuple[Slot, ...]:
        return tuple(slot for position in self.positions for slot in position.slots)

    @cached_property
    def position_of(self) -> tuple[int, ...]:
        """For each slot the index of its position."""
        return tuple(index for index, position in enumerate(self.positions) for _ in position.slots)

    @cached_property
    def slots_at(self) -> tuple[tuple[int, ...], ...]:
        """For each position the indices of its slots."""
        ends = [0]
        for position in self.positions:
            ends.append(ends[-1] + len(position.slots))
        return tuple(tuple(range(start, end)) for start, end in pairwise(ends))

    @cached_property
    def label_keys(self) -> tuple[str, ...]:
        return tuple(label_key(slot.label) for slot in self.slots)

    @cached_property
    def repeated_labels(self) -> frozenset[str]:
        """The labels (as keys) that more than one slot carries."""
        seen: set[str] = set()
        return frozenset(key for key in self.label_keys if key in seen or seen.add(key))  # type: ignore[func-returns-value]

    @cached_property
    def bearings(self) -> tuple[float | None, ...]:
        """For each slot its bearing [deg, 0 up to 360], given or from x and y; None where neither is known."""
        return tuple(self._bearing(slot) for slot in self.slots)

    def _bearing(self, slot: Slot) -> float | None:
        if slot.bearing is not None:
            return slot.bearing % 360.0
        if slot.x is None or slot.y is None:
            return None
        return bearing_about(slot.x, slot.y, self.target[0], self.target[1])

    def name_of(self, slot: int) -> str:
        return self.positions[self.position_of[slot]].name


@dataclass(frozen=True)
class Spot:
    """One line of the paperwork: a show number and what the line says of its place, all as text.

    `position`, `side`, `nth` and `whose_left` are the place in words; `label` is the house's own label.
    """

    number: str | None
    label: str | None = None
    position: str | None = None
    side: str | None = None
    nth: str | None = None
    whose_left: str | None = None
    line: int | None = None

    @cached_property
    def key(self) -> str:
        return label_key(self.number or "")


@dataclass(frozen=True)
class Pair:
    """A show number at a slot; `source` is label, place or statement."""

    number: str
    slot: int
    source: Literal["label", "place", "statement"]


@dataclass(frozen=True)
class Judgement:
    """One numbering held against an order.

    `blocks` are (position index, code); `cycles` are show numbers, show → label; `tau` is Kendall's tau-a on
    ranks, None for fewer than two, for names and in a bowl. `expected` gives (show number, slot) for each spot
    that stands elsewhere than it belongs; empty when judged against labels.
    """

    code: str
    blocks: tuple[tuple[int, str], ...]
    cycles: tuple[tuple[str, ...], ...]
    tau: float | None
    expected: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True)
class Flag:
    """Something to name beside the verdict; `data` holds what the flag is about."""

    flag: str
    data: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True)
class Reading:
    """What the comparison would be if an unclear word meant `reading`."""

    reading: str
    pairs: tuple[Pair, ...]
    against_labels: Judgement | None
    against_statement: Judgement | None


@dataclass(frozen=True)
class WayOut:
    """A choice that makes numbers and labels agree.

    `changes` are (slot, text or None) for tape, (show number, slot) for move, (show number, becomes) for
    renumber; their count is the price.
    """

    way: Literal["tape", "move", "renumber"]
    changes: tuple[tuple[object, object], ...]


@dataclass(frozen=True)
class Comparison:
    """The whole answer for one house and one show."""

    house: House
    pairs: tuple[Pair, ...]
    against_labels: Judgement | None
    against_statement: Judgement | None
    flags: tuple[Flag, ...]
    readings: tuple[Reading, ...]
    ways_out: tuple[WayOut, ...]
