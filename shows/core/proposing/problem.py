"""The choice behind a proposal, with the trade left out: rows, options, numbers taken, prices of couples."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from typing import Literal

Side = Literal[0, 1]
"""0 places, 1 units."""
Allowed = Mapping[int, tuple[int, ...]]
"""Some rows, with what is left to each: indices of its options, ascending."""
Shares = tuple[Mapping[int, int], Mapping[int, int]]
"""What the options of each kind pay of a couple's price: of its first row, of its second."""


@dataclass(frozen=True)
class Option:
    """`takes`: the numbers of its place and of its unit. What no other option takes is as good as nothing."""

    takes: tuple[int, int]
    cost: int
    kind: int = 0


@dataclass(frozen=True)
class Problem:
    """One option of each row is to be chosen; not all rows can be without one that nothing else can take away.

    The costs of the options, and prices[kind][kind] of each couple (row, row), have the least sum.
    """

    rows: tuple[tuple[Option, ...], ...]
    couples: tuple[tuple[int, int], ...] = ()
    prices: Sequence[Sequence[int]] = ((0,),)

    @cached_property
    def sides(self) -> tuple[Side, ...]:
        """Places alone, where each unit is at one place only: then no unit is taken twice either."""
        pairs = {option.takes for row in self.rows for option in row}
        return (0,) if len({unit for _, unit in pairs}) == len(pairs) else (0, 1)

    @cached_property
    def widths(self) -> tuple[int, int]:
        """One more than the greatest number of a place, and of a unit."""
        places, units = ([option.takes[side] for row in self.rows for option in row] for side in (0, 1))
        return max(places, default=-1) + 1, max(units, default=-1) + 1

    @cached_property
    def couples_of(self) -> tuple[tuple[int, ...], ...]:
        """For each row the couples that it is in."""
        return tuple(
            tuple(index for index, couple in enumerate(self.couples) if row in couple) for row in range(len(self.rows))
        )

    def can_meet(self, couple: int, kind: int, other: int) -> bool:
        """Whether the two rows of the couple can have these kinds at once."""
        return kind != other or kind not in self._apart[couple]

    @cached_property
    def _apart(self) -> tuple[frozenset[int], ...]:
        """For each couple the kinds that its rows can't both have: what is of the kind would be taken twice."""
        found = []
        for couple in self.couples:
            one, other = ({option.kind for option in self.rows[row]} for row in couple)
            found.append(frozenset(kind for kind in one & other if not self._both(couple, kind)))
        return tuple(found)

    def _both(self, couple: tuple[int, int], kind: int) -> bool:
        ours, theirs = ([option.takes for option in self.rows[row] if option.kind == kind] for row in couple)
        return any(one[0] != other[0] and one[1] != other[1] for one in ours for other in theirs)

    def shares(self, couple: int, left: Sequence[tuple[int, ...]]) -> Shares:
        """The price shared out: each kind of the first row pays the least that it must, the second what is over.

        No two kinds pay more than their price together. Once the first row has one kind, they pay all of it.
        """
        prices, meet = self.prices, partial(self.can_meet, couple)
        ours, theirs = (sorted({self.rows[row][index].kind for index in left[row]}) for row in self.couples[couple])
        first = {kind: min((prices[kind][other] for other in theirs if meet(kind, other)), default=0) for kind in ours}
        second = {
            other: min((prices[kind][other] - first[kind] for kind in ours if meet(kind, other)), default=0)
            for other in theirs
        }
        return first, second
