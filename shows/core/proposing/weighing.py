"""A question made into a problem of integers, and its solution made into a proposal.

One integer holds all that counts, most important first, like digits of a number: each level's unit is one more than
all that the levels below it can add up to, so no sum of them reaches it. Python's integers have no bound, so nothing is
rounded and nothing overflows. The lowest digits, one a spot, are the candidate's rank in the house: the spot with the
lowest number gets the first place that it can have, so there is exactly one best choice.

Lamp life is a sum of shortfalls from a reserve, not the least life among the chosen: a sum adds up spot by spot, which
lets it be a digit, and it counts each lamp that would run low, not only the lowest.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from math import prod
from operator import mul
from types import MappingProxyType

from shows.core.proposing.problem import Option, Problem, Side
from shows.core.proposing.proposal import PLACE, SAME_PLACE, SAME_UNIT, Costs, Proposal
from shows.core.proposing.records import Candidate, Question, Wanted
from shows.core.proposing.search import Solution

MOST_H = 1e6
"""Shortfalls are counted in tenths of an hour, and no farther than this [h]."""
Digits = tuple[int, int, int, int, int, int, int]
"""The levels of `Costs` in their order, hours as tenths."""
MOVED, TAPE, PAIR, LEVELS = 3, 4, 5, 7


@dataclass(frozen=True)
class Choice:
    """A candidate for a spot, or none; the needs that break with it, sorted; the numbers that it takes."""

    candidate: Candidate | None
    needs: tuple[str, ...]
    digits: Digits
    takes: tuple[int, int]


class Weighed:
    """The question as a problem: for each spot, in the order of the numbers, the choices that it has."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self._numbers: tuple[dict[object, int], dict[object, int]] = ({}, {})
        self._taken = _Taken(question)
        self.choices = tuple(tuple(self._choices(spot)) for spot in question.spots)

    def _choices(self, spot: Wanted) -> Iterator[Choice]:
        for candidate in self.question.offered[spot.key]:
            if candidate.key == spot.fixed or (spot.fixed is None and self._taken.leaves(candidate)):
                yield self._choice(spot, candidate)
        if spot.fixed is None:
            digits = (0, 0, 1, 0, 0, 0, 0) if spot.may_be_left else (1, 0, 0, 0, 0, 0, 0)
            yield Choice(None, () if spot.may_be_left else (PLACE,), digits, self._alone(spot))

    def _choice(self, spot: Wanted, candidate: Candidate) -> Choice:
        judged = self.question.judgements[spot.key, candidate.key]
        needs = (*sorted(judged.broken), *self._taken.twice.get(spot.key, ()))
        tape, tenths = int(needs_tape(spot, candidate)), round(10 * min(self.question.shortfall_h(judged), MOST_H))
        takes = self._takes(candidate) if spot.fixed is None else self._alone(spot)
        return Choice(candidate, needs, (0, len(needs), 0, int(candidate.is_moved), tape, 0, tenths), takes)

    def _takes(self, candidate: Candidate) -> tuple[int, int]:
        unit = ("unit", candidate.unit_key) if candidate.unit_key is not None else ("none", candidate.key)
        return self._number(0, ("place", candidate.place_key)), self._number(1, unit)

    def _alone(self, spot: Wanted) -> tuple[int, int]:
        """What nobody else can take: none of the others is offered what a person has fixed."""
        return self._number(0, ("spot", spot.key)), self._number(1, ("spot", spot.key))

    def _number(self, side: Side, key: object) -> int:
        return self._numbers[side].setdefault(key, len(self._numbers[side]))

    @cached_property
    def problem(self) -> Problem:
        couples = tuple((self._row[one], self._row[other]) for one, other in self.question.couples)
        rows = tuple(tuple(self._option(row, choice) for choice in choices) for row, choices in enumerate(self.choices))
        prices = [[self.units[PAIR] * price for price in row] for row in self._prices]
        return Problem(rows, couples, prices)

    def _option(self, row: int, choice: Choice) -> Option:
        places = len(self._rank) + 1
        rank = places - 1 if choice.candidate is None else self._rank[choice.candidate.key]
        cost = sum(map(mul, choice.digits, self.units))
        cost += rank * places ** (len(self.choices) - 1 - row)
        return Option(choice.takes, cost, 0 if choice.candidate is None else self._kind[choice.candidate.light])

    @cached_property
    def units(self) -> tuple[int, ...]:
        """What one of each level weighs: one more than all the levels below it can add up to."""
        most = [
            sum(max(choice.digits[level] for choice in choices) for choices in self.choices) for level in range(LEVELS)
        ]
        most[PAIR] = len(self.question.couples) * max(map(max, self._prices))
        bases = [(len(self._rank) + 1) ** len(self.choices), *(each + 1 for each in reversed(most))]
        return tuple(prod(bases[: LEVELS - level]) for level in range(LEVELS))

    @cached_property
    def _row(self) -> dict[str, int]:
        return {spot.key: row for row, spot in enumerate(self.question.spots)}

    @cached_property
    def _rank(self) -> dict[str, int]:
        return {candidate.key: rank for rank, candidate in enumerate(self.question.offers)}

    @cached_property
    def _kind(self) -> dict[str, int]:
        """Classes of light; kind 0 is a spot without a place."""
        return {
            light: kind for kind, light in enumerate(sorted({each.light for each in self.question.offers}), start=1)
        }

    @cached_property
    def _prices(self) -> list[list[int]]:
        lights = list(self._kind)
        between = [[self.question.pair_cost(one, other) for other in lights] for one in lights]
        return [[0] * (len(lights) + 1), *([0, *row] for row in between)]

    def proposal(self, solution: Solution) -> Proposal:
        """What the solution says, in the trade's terms."""
        chosen = {
            spot: choices[index]
            for spot, choices, index in zip(self.question.spots, self.choices, solution.options, strict=True)
        }
        held = {spot.key: choice.candidate for spot, choice in chosen.items()}
        pairs = tuple((one, other, self._between(held[one], held[other])) for one, other in self.question.couples)
        sums = [sum(choice.digits[level] for choice in chosen.values()) for level in range(LEVELS)]
        without, broken, left, moved, tape, _, tenths = sums
        return Proposal(
            chosen=MappingProxyType({key: candidate.key if candidate else None for key, candidate in held.items()}),
            broken=tuple((spot.key, need) for spot, choice in chosen.items() for need in choice.needs),
            taped=tuple(spot.key for spot, choice in chosen.items() if choice.digits[TAPE]),
            carried=tuple(spot.key for spot, choice in chosen.items() if choice.digits[MOVED]),
            pairs=pairs,
            costs=Costs(without, broken, left, moved, tape, sum(cost for _, _, cost in pairs), tenths / 10),
            is_best=solution.is_best,
        )

    def _between(self, one: Candidate | None, other: Candidate | None) -> int:
        return self.question.pair_cost(one.light, other.light) if one and other else 0


def needs_tape(spot: Wanted, candidate: Candidate) -> bool:
    return not spot.label_key or spot.label_key != candidate.label_key


class _Taken:
    """The places and units that persons have fixed, and the spots whose own are taken by a lower number already."""

    def __init__(self, question: Question) -> None:
        self.places: set[str] = set()
        self.units: set[str | None] = set()
        self.twice: dict[str, tuple[str, ...]] = {}
        for spot in question.spots:
            if spot.fixed is not None:
                self._take(spot, question.offer_at[spot.fixed])

    def _take(self, spot: Wanted, candidate: Candidate) -> None:
        if candidate.place_key in self.places:
            self.twice[spot.key] = (SAME_PLACE,)
        elif candidate.unit_key in self.units:
            self.twice[spot.key] = (SAME_UNIT,)
        self.places.add(candidate.place_key)
        if candidate.unit_key is not None:
            self.units.add(candidate.unit_key)

    def leaves(self, candidate: Candidate) -> bool:
        return candidate.place_key not in self.places and candidate.unit_key not in self.units
