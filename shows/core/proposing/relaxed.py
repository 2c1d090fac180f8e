"""Rows on places alone, or on units alone: what a choice costs at least when the other side is let go."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from shows.core.proposing.assignment import Assignment
from shows.core.proposing.problem import Side


@dataclass(frozen=True)
class Offer:
    """An option that a row has left: its index, the number that it takes on this side, its kind, and its cost."""

    index: int
    number: int
    kind: int
    cost: int


class Relaxed:
    """The cheapest choice in which no number of the side is taken twice."""

    def __init__(self, side: Side, rows: int, numbers: int) -> None:
        self.side = side
        self._assignment = Assignment(rows, numbers)
        self._offers: list[Sequence[Offer]] = [()] * rows
        self._best: list[Mapping[int, Offer]] = [{}] * rows

    def copy(self) -> "Relaxed":
        made = Relaxed(self.side, 0, 0)
        made._assignment, made._offers, made._best = self._assignment.copy(), self._offers[:], self._best[:]
        return made

    def put(self, row: int, offers: Sequence[Offer]) -> None:
        """The row with what it has left, in or back in; of two that take one number the cheaper counts."""
        best: dict[int, Offer] = {}
        for offer in offers:
            if offer.number not in best or offer.cost < best[offer.number].cost:
                best[offer.number] = offer
        self._offers[row], self._best[row] = offers, best
        self._assignment.put(row, {number: offer.cost for number, offer in best.items()})

    @property
    def total(self) -> int:
        return self._assignment.total

    @property
    def options(self) -> tuple[int, ...]:
        """The option of each row."""
        return tuple(best[number].index for best, number in zip(self._best, self._assignment.columns, strict=True))

    def dearer(self, row: int) -> list[tuple[int, int]]:
        """(by how much, kind), least first: what the choice costs more, at least, with the row of each kind.

        Reduced costs: those of several rows add up.
        """
        least: dict[int, int] = {}
        reduced = self._assignment.reduced(row)
        for offer in self._offers[row]:
            by = offer.cost - reduced[offer.number]
            if offer.kind not in least or by < least[offer.kind]:
                least[offer.kind] = by
        return sorted((by, kind) for kind, by in least.items())
