"""What a proposal of places and units takes in.

Keys are the caller's own; labels and show numbers come as `venue.core.labels.label_key` has them, hours as [h].
"""

import math
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import chain
from types import MappingProxyType

from venue.core.labels import sort_key

RESERVE_H = 50.0
"""Lamp hours that a unit should have left after the engagement (common practice, no source)."""
NO_COSTS: Mapping[tuple[str, str], int] = MappingProxyType({})


@dataclass(frozen=True)
class Wanted:
    """A show spot that wants a place. `label_key` is its show number as a label would be written.

    `fixed`: the key of the candidate that a person has chosen; it stands. `pair_of`: the key of the spot whose light
    it has to match. `may_be_left`: it may go without a place, which breaks nothing.
    """

    key: str
    label_key: str = ""
    fixed: str | None = None
    pair_of: str | None = None
    may_be_left: bool = False


@dataclass(frozen=True)
class Candidate:
    """A unit at a place; `unit_key` None: no unit. `label_key` is what is painted there, "" nothing.

    `is_moved`: the unit would have to be carried there. `light` names the class of its light (source and level), ""
    where it is not known; candidates of one class cost a pair the same. `order` is the house's own.
    """

    key: str
    place_key: str
    unit_key: str | None = None
    label_key: str = ""
    is_moved: bool = False
    light: str = ""
    order: int = 0


@dataclass(frozen=True)
class Judged:
    """A candidate held against a spot. A candidate that is not judged for a spot is not offered to it.

    `broken`: the hard needs that it breaks. `life_h`: lamp hours left after the engagement [h], below 0 where the lamp
    won't last it, infinite where nothing burns out, None where nobody knows.
    """

    wanted: str
    candidate: str
    broken: frozenset[str] = frozenset()
    life_h: float | None = None


@dataclass(frozen=True)
class Question:
    """All spots of a show and all that the house has for them. The order of what comes in means nothing.

    `pair_costs`: what it costs a pair to stand in two classes of light, the classes in either order; a pair of classes
    that is not in it costs nothing. Raises ValueError where keys are doubled, unknown or a figure is not one.
    """

    wanted: Sequence[Wanted]
    candidates: Sequence[Candidate]
    judged: Collection[Judged]
    pair_costs: Mapping[tuple[str, str], int] = field(default_factory=lambda: NO_COSTS)
    reserve_h: float = RESERVE_H

    def __post_init__(self) -> None:
        for fault in chain(self._doubled(), self._unknown(), self._no_figures()):
            raise ValueError(fault)

    @cached_property
    def spots(self) -> tuple[Wanted, ...]:
        """In the order of their numbers."""
        return tuple(sorted(self.wanted, key=lambda each: (sort_key(each.label_key), each.key)))

    @cached_property
    def offers(self) -> tuple[Candidate, ...]:
        """In the order of the house."""
        return tuple(sorted(self.candidates, key=lambda each: (each.order, sort_key(each.label_key), each.key)))

    @cached_property
    def spot_at(self) -> Mapping[str, Wanted]:
        return {each.key: each for each in self.wanted}

    @cached_property
    def offer_at(self) -> Mapping[str, Candidate]:
        return {each.key: each for each in self.candidates}

    @cached_property
    def judgements(self) -> Mapping[tuple[str, str], Judged]:
        """By spot and candidate."""
        return {(each.wanted, each.candidate): each for each in self.judged}

    @cached_property
    def offered(self) -> Mapping[str, tuple[Candidate, ...]]:
        """For each spot what is offered to it, in the order of the house."""
        judgements = self.judgements
        return {
            spot.key: tuple(each for each in self.offers if (spot.key, each.key) in judgements) for spot in self.wanted
        }

    @cached_property
    def couples(self) -> tuple[tuple[str, str], ...]:
        """Each pair of spots once, the lower number first; a spot that matches itself or nobody known is in none."""
        rank = {each.key: index for index, each in enumerate(self.spots)}
        found = {
            tuple(sorted((rank[each.key], rank[each.pair_of])))
            for each in self.wanted
            if each.pair_of in rank and each.pair_of != each.key
        }
        return tuple((self.spots[one].key, self.spots[other].key) for one, other in sorted(found))

    def pair_cost(self, one: str, other: str) -> int:
        """Between two classes of light."""
        return self.pair_costs.get((one, other), self.pair_costs.get((other, one), 0))

    def shortfall_h(self, judged: Judged) -> float:
        """Lamp hours by which it falls short of the reserve; what nobody knows counts as nothing left."""
        return max(0.0, self.reserve_h - (judged.life_h or 0.0))

    def _doubled(self) -> Iterator[str]:
        keys: dict[str, list[str]] = {
            "spot": [each.key for each in self.wanted],
            "candidate": [each.key for each in self.candidates],
            "judgement": [f"{each.candidate} for {each.wanted}" for each in self.judged],
        }
        for name, given in keys.items():
            for key, times in Counter(given).items():
                if times > 1:
                    yield f"A {name} is given {times} times: {key}"

    def _unknown(self) -> Iterator[str]:
        for each in self.judged:
            if each.wanted not in self.spot_at or each.candidate not in self.offer_at:
                yield f"Judged is what nobody asked about: {each.wanted}, {each.candidate}"
        for spot in self.wanted:
            if spot.fixed is not None and (spot.key, spot.fixed) not in self.judgements:
                yield f"{spot.key} is fixed on {spot.fixed}, which is not judged for it"

    def _no_figures(self) -> Iterator[str]:
        if not math.isfinite(self.reserve_h):
            yield f"The reserve is not a number of hours: {self.reserve_h}"
        for each in self.judged:
            if each.life_h is not None and (math.isnan(each.life_h) or each.life_h == -math.inf):
                yield f"The life of {each.candidate} for {each.wanted} is not a number of hours"
        for (one, other), cost in self.pair_costs.items():
            if cost < 0 or cost != self.pair_costs.get((other, one), cost):
                yield f"The cost of the pair {one}, {other} is below 0 or differs by its order"
