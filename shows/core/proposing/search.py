"""The cheapest choice of one option a row, no place and no unit taken twice, couples of rows priced by kind.

Best first over branches, by what each is worth at least (see `branch`). The first to come up whose relaxed choice
really costs what the branch is worth is the cheapest of all: nothing that is still open can be cheaper. What quick
branches have not settled soon, thorough ones work on too, turn by turn; the first to get there has the answer.
"""

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from heapq import heapify, heappop, heappush
from itertools import count

from shows.core.proposing.branch import Branch
from shows.core.proposing.problem import Allowed, Problem

QUICK_ALONE = 30
"""So many quick branches are looked into before thorough ones join in: most shows need fewer."""


@dataclass(frozen=True)
class Solution:
    """The option of each row, and the index of the start that it comes from.

    `is_best` is False where the search was given up: then a better one may exist.
    """

    options: tuple[int, ...]
    start: int
    is_best: bool = True


def solutions(problem: Problem, starts: Sequence[Allowed], most_branches: int) -> Iterator[Solution]:
    """The cheapest under each start (what is left to some rows), the cheapest start first; a start may have none.

    After so many branches have been looked into, each start is answered by the first choice found below its best.
    """
    queues, told = [_Queue(problem, starts, is_thorough=False)], set[int]()
    for turn in count(1):
        if turn == QUICK_ALONE:
            queues.append(_Queue(problem, starts, is_thorough=True))
        queue = queues[turn % len(queues)]
        taken = queue.take(told)
        if taken is None:
            return
        start, branch = taken
        parts = branch.parts()
        if parts and turn <= most_branches:
            queue.put(start, (child for less in parts for child in branch.child(less)))
        else:
            told.add(start)
            yield Solution(_below(branch).options, start, is_best=not parts)


class _Queue:
    """The branches that are open, for each start, the one worth least first."""

    def __init__(self, problem: Problem, starts: Sequence[Allowed], is_thorough: bool) -> None:
        root, self._ticket = Branch(problem, is_thorough), count()
        self._heap = [
            (branch.bound, next(self._ticket), start, branch)
            for start, less in enumerate(starts)
            for branch in root.child(less)
        ]
        heapify(self._heap)

    def take(self, told: AbstractSet[int]) -> tuple[int, Branch] | None:
        """The next, of a start that is not told yet."""
        while self._heap:
            _, _, start, branch = heappop(self._heap)
            if start not in told:
                return start, branch
        return None

    def put(self, start: int, branches: Iterator[Branch]) -> None:
        for branch in branches:
            heappush(self._heap, (branch.bound, next(self._ticket), start, branch))


def _below(branch: Branch) -> Branch:
    """The branch itself if its choice is right, else the first right one down its first parts; those never run out."""
    while parts := branch.parts():
        branch = next(branch.child(parts[0]))
    return branch
