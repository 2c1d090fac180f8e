"""A part of all choices: what is left to each row, what that is worth at least, and how it parts.

Two things are relaxed. Rows go on places alone (or on units alone, where a unit can go to several places; the dearer
of the two counts). And a couple's price is shared out to its two rows, so that no two options pay more than they must;
what two kinds cost above their shares, together with what they are off the cheapest choice, is added for each couple.

A thorough branch then shares out anew: the second row lets go what its kinds are off the cheapest choice, and the first
row takes on what it must. That takes longer, and its bound is higher or the same for one couple, mostly for all.
"""

from collections.abc import Iterator, Sequence
from copy import copy

from shows.core.proposing.problem import Allowed, Problem
from shows.core.proposing.relaxed import Offer, Relaxed


class Branch:
    """`bound`: no choice in it costs less. `options`: a relaxed choice, which costs the bound if `parts` is empty."""

    def __init__(self, problem: Problem, is_thorough: bool) -> None:
        """The branch that holds every choice."""
        self._problem, self._is_thorough = problem, is_thorough
        self._left = [tuple(range(len(row))) for row in problem.rows]
        self._shares = [problem.shares(couple, self._left) for couple in range(len(problem.couples))]
        self._relaxed = [Relaxed(side, len(self._left), problem.widths[side]) for side in problem.sides]
        self._put(range(len(self._left)))

    def child(self, less: Allowed) -> Iterator["Branch"]:
        """The branch with less left to some rows; none where nothing is left to one."""
        if not all(less.values()):
            return
        child = copy(self)
        child._left, child._shares = self._left[:], self._shares[:]
        child._relaxed = [each.copy() for each in self._relaxed]
        for row, options in less.items():
            child._left[row] = options
        couples = sorted({couple for row in less for couple in self._problem.couples_of[row]})
        for couple in couples:
            child._shares[couple] = self._problem.shares(couple, child._left)
        child._put(sorted({*less, *(row for couple in couples for row in self._problem.couples[couple])}))
        yield child

    def _put(self, rows: Sequence[int]) -> None:
        self._put_rows(rows)
        for couple in range(len(self._shares)) if self._is_thorough else ():
            self._share_anew(couple)
        worth = [relaxed.total + self._rise(relaxed) for relaxed in self._relaxed]
        self.bound = max(worth)
        self._dearest = self._relaxed[worth.index(self.bound)]
        self.options = self._dearest.options

    def _put_rows(self, rows: Sequence[int]) -> None:
        for row in rows:
            shares = self._shares_of(row)
            for relaxed in self._relaxed:
                relaxed.put(row, self._offers(row, relaxed, shares))

    def _share_anew(self, couple: int) -> None:
        relaxed = max(self._relaxed, key=lambda each: each.total)
        if not self._least(relaxed, couple):
            return
        problem, (first, second) = self._problem, self._shares[couple]
        one, other = problem.couples[couple]
        less = {kind: second[kind] - by for by, kind in relaxed.dearer(other)}
        met = {kind: [each for each in less if problem.can_meet(couple, kind, each)] for kind in first}
        more = {
            kind: min((problem.prices[kind][each] - less[each] for each in met[kind]), default=paid)
            for kind, paid in first.items()
        }
        self._shares[couple] = more, less
        self._put_rows((one, other))

    def _shares_of(self, row: int) -> dict[int, int]:
        """What an option of each kind pays towards the couples that the row is in."""
        mine = [
            self._shares[couple][self._problem.couples[couple].index(row)] for couple in self._problem.couples_of[row]
        ]
        kinds = {self._problem.rows[row][index].kind for index in self._left[row]}
        return {kind: sum(shares[kind] for shares in mine) for kind in kinds}

    def _offers(self, row: int, relaxed: Relaxed, shares: dict[int, int]) -> list[Offer]:
        options = self._problem.rows[row]
        left = ((index, options[index]) for index in self._left[row])
        return [Offer(index, one.takes[relaxed.side], one.kind, one.cost + shares[one.kind]) for index, one in left]

    def _rise(self, relaxed: Relaxed) -> int:
        """What couples of which no two share a row cost at least above the relaxed choice."""
        rise, used = 0, set[int]()
        for couple, rows in enumerate(self._problem.couples):
            if used.isdisjoint(rows) and (least := self._least(relaxed, couple)):
                rise += least
                used.update(rows)
        return rise

    def _least(self, relaxed: Relaxed, couple: int) -> int:
        """The least that two kinds of the couple add: what they are off the relaxed choice, and their gap."""
        one, other = self._problem.couples[couple]
        ours, theirs = relaxed.dearer(one), relaxed.dearer(other)
        least: int | None = None
        for by, kind in ours:
            for by_other, kind_other in theirs:
                if least is not None and by + by_other >= least:
                    break
                if self._problem.can_meet(couple, kind, kind_other):
                    added = by + by_other + self._gap(couple, kind, kind_other)
                    least = added if least is None else min(least, added)
        return least or 0

    def _gap(self, couple: int, kind: int, other: int) -> int:
        """What the two kinds cost above what they pay; never below 0 where they can meet."""
        first, second = self._shares[couple]
        return self._problem.prices[kind][other] - first[kind] - second[other]

    def parts(self) -> tuple[Allowed, ...]:
        """Two branches that hold all of this one but what its relaxed choice has wrong; none if that is right."""
        return self._parts_by_number() or self._parts_by_kind()

    def _parts_by_number(self) -> tuple[Allowed, ...]:
        """Where the choice takes a unit to two places (or to a place two units): the first of them, or the others."""
        here, there = self._dearest.side, 1 - self._dearest.side
        first: dict[int, int] = {}
        for options, index in zip(self._problem.rows, self.options, strict=True):
            takes = options[index].takes
            if takes[there] in first:
                return self._apart(first[takes[there]], takes[there])
            first[takes[there]] = takes[here]
        return ()

    def _apart(self, number: int, twice: int) -> tuple[Allowed, Allowed]:
        """What is taken twice goes with this number of the side only, or with any other."""
        here, there = self._dearest.side, 1 - self._dearest.side
        only: dict[int, tuple[int, ...]] = {}
        without: dict[int, tuple[int, ...]] = {}
        for row, (options, left) in enumerate(zip(self._problem.rows, self._left, strict=True)):
            with_it = {index for index in left if options[index].takes[there] == twice}
            with_both = {index for index in with_it if options[index].takes[here] == number}
            if with_it - with_both:
                only[row] = tuple(index for index in left if index not in with_it or index in with_both)
            if with_both:
                without[row] = tuple(index for index in left if index not in with_both)
        return only, without

    def _parts_by_kind(self) -> tuple[Allowed, ...]:
        """The first couple that pays too little: its first row of the kind that it has, or of the others.

        The first, since the lower numbers weigh most in the order of the house: what is open there decides.
        """
        kinds = [options[index].kind for options, index in zip(self._problem.rows, self.options, strict=True)]
        for couple, (one, other) in enumerate(self._problem.couples):
            if self._gap(couple, kinds[one], kinds[other]) > 0:
                same = {index for index in self._left[one] if self._problem.rows[one][index].kind == kinds[one]}
                rest = tuple(index for index in self._left[one] if index not in same)
                return {one: tuple(sorted(same))}, {one: rest}
        return ()
