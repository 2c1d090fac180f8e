"""What a statement says once it is read: directions, starts, blocks.

A side is "house left" or "house right", or bare "left" or "right" where nobody said whose.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from shows.core.numbering.records import HOUSE_LEFT, HOUSE_RIGHT, OTHER_SIDE

Whose = Literal["house", "stage"]
BARE_SIDES = {"left": HOUSE_LEFT, "right": HOUSE_RIGHT}


def side_as_seen(side: str, whose: Whose) -> str:
    """The house side that a word means; a bare left is house left from the house, house right from the stage."""
    if side not in BARE_SIDES:
        return side
    seen_from_house = BARE_SIDES[side]
    return seen_from_house if whose == "house" else OTHER_SIDE[seen_from_house]


@dataclass(frozen=True)
class Row:
    """Along a row, beginning at the `first` side."""

    first: str


@dataclass(frozen=True)
class Depth:
    """Front to back (downstage first) or back to front."""

    first: Literal["front", "back"]


@dataclass(frozen=True)
class Start:
    """Where a ring begins: a bearing [deg], a clock hour, a side, a house label, or a number not said which."""

    kind: Literal["bearing", "clock", "side", "label", "number"]
    value: str


@dataclass(frozen=True)
class Ring:
    """Round the bowl seen from above."""

    clockwise: bool
    start: Start | None = None


@dataclass(frozen=True)
class Alternating:
    """Odd numbers on one half of the row and even ones on the other; `odd` is None where the side is not said."""

    odd: str | None
    inward: bool = False


@dataclass(frozen=True)
class Outward:
    """From the center outward, the `first` side before the other; None where the side is not said."""

    first: str | None = None
    inward: bool = False


Direction = Row | Depth | Ring | Alternating | Outward


@dataclass(frozen=True)
class Block:
    """A named part of the house: its positions (indices), its own numbers if it has any, its direction.

    `is_own` says that the direction was stated for this block, not carried over from the one before.
    """

    positions: tuple[int, ...]
    direction: Direction | None
    is_own: bool = True
    numbers: frozenset[str] | None = None


@dataclass(frozen=True)
class Statement:
    """A statement as read. Without blocks, `direction` holds for the whole house.

    `used` and `unused` are declared numbers (as label keys), `teams` gives a declared number its count of
    lights (0 = as many as there are lines).
    """

    direction: Direction | None = None
    blocks: tuple[Block, ...] = ()
    in_one_row: bool = False
    by_position: bool = False
    used: frozenset[str] = frozenset()
    unused: frozenset[str] = frozenset()
    teams: Mapping[str, int] = field(default_factory=dict)

    @property
    def places_spots(self) -> bool:
        """Whether any direction was stated at all."""
        return self.direction is not None or any(block.direction for block in self.blocks)


@dataclass(frozen=True)
class Unreadable:
    """A statement that can't be read, quoted back, with statements that it could be."""

    quoted: str
    could_be: tuple[str, ...]
