"""What comes out: who stands where, what it costs, and why."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

PLACE, SAME_PLACE, SAME_UNIT = "place", "same-place", "same-unit"
"""Needs that break without being judged: a spot goes without a place; what a person fixed twice."""

Why = Literal[
    "own-label",  # its number is painted there
    "fixed",  # a person chose it
    "needs-broken",  # expected one breaks more needs: `needs`
    "taken-by",  # its place or unit is the spot's `other`
    "moved",  # its unit would have to be carried
    "pair",  # it matches the spot `other` less well
    "life",  # its lamp has only `hours` left, None where nobody knows
    "house-order",  # nothing else speaks: the first that is free
    "no-place",  # every place that it is offered is taken
    "left",  # it may go without, and nothing that is free does what it needs
    "given-up",  # nothing speaks against it: the search was given up
]


@dataclass(frozen=True, order=True)
class Costs:
    """What a proposal costs, in the order in which it counts: less of the first outweighs any of the next.

    `without_place` and `broken` are needs that break, `left` spots that may be left and are, `tape_changes` spots whose
    number is not painted at their place; `short_h` lamp hours [h] short of the reserve, all chosen units together.
    """

    without_place: int = 0
    broken: int = 0
    left: int = 0
    moved: int = 0
    tape_changes: int = 0
    pair_cost: int = 0
    short_h: float = 0.0


@dataclass(frozen=True)
class Proposal:
    """The best there is. Mappings and tuples go by spots in the order of their numbers.

    `chosen`: spot → candidate, None without one. `broken`: (spot, need), the need "place" for one that must have a
    place and has none. `taped`: spots whose number is not painted there; `carried`: spots whose unit has to be moved;
    `pairs`: (spot, spot, cost). `is_best` is False where the search was given up: then a better one may exist, and less
    may be in the way.
    """

    chosen: Mapping[str, str | None]
    broken: tuple[tuple[str, str], ...]
    taped: tuple[str, ...]
    carried: tuple[str, ...]
    pairs: tuple[tuple[str, str, int], ...]
    costs: Costs
    is_best: bool = True

    @property
    def can_be_done(self) -> bool:
        return not self.broken

    @property
    def in_the_way(self) -> tuple[tuple[str, str], ...]:
        """A least set of (spot, need) without which it can be done: what the best proposal breaks, none breaks less.

        First as few spots as can be go without a place, then as few needs as can be break.
        """
        return self.broken

    @property
    def tape_changes(self) -> int:
        return self.costs.tape_changes

    @property
    def pair_cost(self) -> int:
        return self.costs.pair_cost

    @property
    def moved(self) -> int:
        return self.costs.moved


@dataclass(frozen=True)
class Alternative:
    """The best proposal with another candidate for one spot. `elsewhere`: the other spots that it puts elsewhere."""

    candidate: str
    proposal: Proposal
    elsewhere: tuple[str, ...]


@dataclass(frozen=True)
class Reason:
    """Why a spot has not the candidate that would need no tape, or, where its number is painted nowhere, the first.

    `instead_of`: that candidate, None where the spot has it or there is none.
    """

    wanted: str
    code: Why
    instead_of: str | None = None
    needs: tuple[str, ...] = ()
    other: str | None = None
    hours: float | None = None
