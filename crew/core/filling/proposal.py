"""People for all open lines of a call at once: as many lines filled as can be, then the best fits in sum, exact.

Each line has an edge to everybody who can come on it, with the levels of the fit; one integer a line and person holds
them all, most important first. Of n lines none needs more than its n best: the others take n - 1 of them at most.
"""

from collections import Counter
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from heapq import nsmallest
from typing import Generic, TypeVar

from crew.core.filling.ranking import Ranked
from crew.core.filling.records import Need
from shows.core.proposing.assignment import Assignment

Line = TypeVar("Line", bound=Hashable)
Levels = tuple[int, ...]


@dataclass(frozen=True)
class Unfilled:
    """Why nobody is proposed for a line.

    `taken` is how many could come and go elsewhere; `nobody_has` are kinds of certification that it requires and
    nobody has by its day; `kept_off` says how many are kept off by what, each person told by the first bar.
    """

    taken: int = 0
    nobody_has: tuple[int, ...] = ()
    kept_off: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True)
class Proposal(Generic[Line]):
    """Who is proposed for which line, and why the rest stays open."""

    chosen: Mapping[Line, Ranked]
    unfilled: Mapping[Line, Unfilled]


def propose(
    lines: Mapping[Line, tuple[Sequence[Need], Sequence[Ranked]]], on_call: frozenset[int] = frozenset()
) -> Proposal[Line]:
    """The best people for the lines, each given with its needs and everybody whom it may be offered to.

    `on_call` are keys of people who are on the call without a number: taking one of them calls nobody more.
    """
    offers = {line: _best(people, on_call, len(lines)) for line, (_needs, people) in lines.items()}
    columns = {key: at for at, key in enumerate(sorted({key for held in offers.values() for key in held}))}
    weigh = Weigher([levels for held in offers.values() for levels, _who in held.values()], len(lines))
    solver = Assignment(len(lines), len(columns) + len(lines))
    for row, held in enumerate(offers.values()):
        edges = {columns[key]: weigh(levels) for key, (levels, _who) in held.items()}
        solver.put(row, {**edges, len(columns) + row: weigh.unfilled})
    keys = list(columns)
    chosen = {
        line: held[keys[column]][1]
        for (line, held), column in zip(offers.items(), solver.columns, strict=True)
        if column < len(keys)
    }
    return Proposal(chosen, {line: why_unfilled(*given) for line, given in lines.items() if line not in chosen})


def _best(people: Iterable[Ranked], on_call: frozenset[int], most: int) -> dict[int, tuple[Levels, Ranked]]:
    """The best who can come, by key: their levels and themselves."""
    can_come = [(levels_of(each, on_call), each) for each in people if each.can_come]
    best = nsmallest(most, can_come, key=lambda found: (found[0], found[1].somebody.key))
    return {each.somebody.key: (levels, each) for levels, each in best}


def levels_of(who: Ranked, on_call: frozenset[int]) -> Levels:
    """Whether one more is called, then the fit."""
    return (int(who.somebody.key not in on_call), *who.fit)


class Weigher:
    """Levels as one integer: so many lines at the worst of all lower levels never outweigh one step of a higher one."""

    def __init__(self, levels: Sequence[Levels], lines: int) -> None:
        worst = [max(values) for values in zip(*levels, strict=True)]
        weights, weight = [], 1
        for most in reversed(worst):
            weights.append(weight)
            weight *= lines * most + 1
        self._weights = tuple(reversed(weights))
        self.unfilled = weight

    def __call__(self, levels: Levels) -> int:
        return sum(level * weight for level, weight in zip(levels, self._weights, strict=True))


def why_unfilled(needs: Sequence[Need], people: Sequence[Ranked]) -> Unfilled:
    """Why a line stays open."""
    lacking = [{bar.kind for bar in each.bars if bar.is_stop and bar.kind is not None} for each in people]
    required = [need.kind for need in needs if need.is_required]
    first = (next((bar.code for bar in each.bars if bar.is_stop), None) for each in people)
    return Unfilled(
        taken=sum(each.can_come for each in people),
        nobody_has=tuple(kind for kind in required if all(kind in lacks for lacks in lacking)),
        kept_off=Counter(code for code in first if code is not None),
    )
