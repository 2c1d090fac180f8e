"""Rows on columns at the least total cost, exact: costs are integers of any size, nothing is rounded.

Shortest augmenting paths on reduced costs (the Hungarian method as Jonker and Volgenant have it), with one addition: a
row whose costs have changed is put in anew in one search. The free columns then count as held by one idle row, to
which every column is free of charge; its potential is 0, and so is that of every free column.
"""

from collections.abc import Mapping, Sequence
from heapq import heappop, heappush

IDLE = -1


class Assignment:
    """The cheapest assignment of the rows put in so far; each row's edges are {column: cost}, never empty.

    There must be a column for every row, best one of its own: `put` raises IndexError where there is none left.
    """

    def __init__(self, rows: int, columns: int) -> None:
        self.edges: list[Mapping[int, int]] = [{}] * rows
        self.column_of: list[int | None] = [None] * rows
        self._row_at: list[int | None] = [None] * columns
        self._of_row = [0] * rows
        self._of_column = [0] * columns

    def copy(self) -> "Assignment":
        made = Assignment(0, 0)
        made.edges, made.column_of = self.edges[:], self.column_of[:]
        made._row_at, made._of_row, made._of_column = self._row_at[:], self._of_row[:], self._of_column[:]
        return made

    @property
    def columns(self) -> Sequence[int]:
        """The column of each row, once all are in."""
        return [-1 if column is None else column for column in self.column_of]

    @property
    def total(self) -> int:
        return sum(edges[column] for edges, column in zip(self.edges, self.columns, strict=True))

    def reduced(self, row: int) -> list[int]:
        """For each column what an edge of the row may cost: by what it costs more, the total is dearer at least."""
        of_row = self._of_row[row]
        return [of_row + potential for potential in self._of_column]

    def put(self, row: int, edges: Mapping[int, int]) -> None:
        """The row with these edges, in or back in."""
        freed = self.column_of[row]
        if freed is not None:
            self._row_at[freed] = None
        self.edges[row], self.column_of[row], self._of_row[row] = edges, None, 0
        search = _Search(self, row, freed)
        search.run()
        search.update()
        search.flip()


class _Search:
    """One shortest path from a row to `freed`, the column that it had, or to any free column if it had none."""

    def __init__(self, held: Assignment, row: int, freed: int | None) -> None:
        self.held, self.row, self.freed = held, row, freed
        self.came_from: dict[int, int] = {}
        self.settled: dict[int, int] = {}
        self.idle_at: int | None = None
        self.idle_column = -1
        self.end, self.length = -1, 0
        self._best: dict[int, int] = {}
        self._heap: list[tuple[int, int]] = []

    def run(self) -> None:
        self._relax(self.row, 0)
        while True:
            distance, column = heappop(self._heap)
            if column in self.settled:
                continue
            self.settled[column] = distance
            owner = self.held._row_at[column]
            if owner is not None:
                self._relax(owner, distance)
            elif self.freed is None or column == self.freed:
                self.end, self.length = column, distance
                return
            elif self.idle_at is None:
                self._relax_idle(column, distance)

    def _relax(self, row: int, distance: int) -> None:
        """Written out, without `_reach`: most of the time is spent here."""
        base, of_column = distance - self.held._of_row[row], self.held._of_column
        best, settled, came_from, heap = self._best, self.settled, self.came_from, self._heap
        for column, cost in self.held.edges[row].items():
            length = base + cost - of_column[column]
            if column not in settled and (column not in best or length < best[column]):
                best[column], came_from[column] = length, row
                heappush(heap, (length, column))

    def _relax_idle(self, column: int, distance: int) -> None:
        """The idle row gives up the column and may take any that is held, or the freed one."""
        self.idle_at, self.idle_column = distance, column
        for other, potential in enumerate(self.held._of_column):
            if other not in self.settled and (self.held._row_at[other] is not None or other == self.freed):
                self._reach(other, distance - potential, IDLE)

    def _reach(self, column: int, distance: int, row: int) -> None:
        best = self._best.get(column)
        if best is None or distance < best:
            self._best[column], self.came_from[column] = distance, row
            heappush(self._heap, (distance, column))

    def update(self) -> None:
        """New potentials under which the path costs nothing; shifted so that the idle row's stays 0."""
        held, shift = self.held, 0 if self.idle_at is None else self.length - self.idle_at
        held._of_row[self.row] += self.length
        for column, distance in self.settled.items():
            owner = held._row_at[column]
            if owner is not None:
                held._of_column[column] -= self.length - distance
                held._of_row[owner] += self.length - distance
        if shift:
            self._shift(shift)

    def _shift(self, by: int) -> None:
        held = self.held
        held._of_row = [potential - by for potential in held._of_row]
        for column, owner in enumerate(held._row_at):
            if owner is not None or column == self.freed:
                held._of_column[column] += by

    def flip(self) -> None:
        """Each row on the path takes the column by which it is left; the idle row takes one by freeing it."""
        held, column = self.held, self.end
        while True:
            row = self.came_from[column]
            given_up = self.idle_column if row == IDLE else held.column_of[row]
            held._row_at[column] = None if row == IDLE else row
            if row != IDLE:
                held.column_of[row] = column
            if row == self.row or given_up is None:
                return
            column = given_up
