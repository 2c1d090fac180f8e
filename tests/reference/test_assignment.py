"""Places and units for spots, against published assignments and two solvers of a reference library."""

from collections.abc import Sequence

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, linear_sum_assignment, milp
from scipy.sparse import coo_array

from shows.core.proposing.assignment import Assignment
from shows.core.proposing.proposal import Costs
from shows.core.proposing.proposing import propose
from shows.core.proposing.records import Candidate, Judged, Question, Wanted
from tests.shows.proposed import questions

# OR-Tools documentation, "Solving an Assignment Problem": five workers, four tasks. The matrix was read; its total of
# 265 is from memory, and what the reference library finds.
WORKERS_BY_TASKS = ((90, 80, 75, 70), (35, 85, 55, 65), (125, 95, 90, 95), (45, 110, 95, 115), (50, 100, 90, 100))


def short_by(costs: Sequence[Sequence[int]]) -> Question:
    """A spot a row, a unit a column; each is short of a reserve of nothing by as many lamp hours as the cost."""
    spots = [Wanted(f"w{row}", str(row)) for row in range(len(costs))]
    units = [Candidate(f"c{column}", f"p{column}", f"u{column}", order=column) for column in range(len(costs[0]))]
    judged = [
        Judged(f"w{row}", f"c{column}", life_h=-float(cost))
        for row, line in enumerate(costs)
        for column, cost in enumerate(line)
    ]
    return Question(spots, units, judged, reserve_h=0.0)


def test_the_assignment_of_the_reference_library_s_documentation() -> None:
    # scipy.optimize.linear_sum_assignment, its example: columns 1, 0, 2, cost 5. Read.
    found = propose(short_by([[4, 1, 3], [2, 0, 5], [3, 2, 2]]))
    assert list(found.chosen.values()) == ["c1", "c0", "c2"]
    assert found.costs.short_h == 5.0


def test_the_five_workers_and_four_tasks_of_the_or_tools_documentation() -> None:
    found = propose(short_by(list(zip(*WORKERS_BY_TASKS, strict=True))))
    assert found.costs.short_h == 265.0
    assert found.costs.short_h == total_by_library(np.array(WORKERS_BY_TASKS))


def total_by_library(costs: np.ndarray) -> int:
    return int(costs[linear_sum_assignment(costs)].sum())


@settings(max_examples=50)
@given(st.integers(0, 2**32 - 1), st.integers(1, 8), st.integers(0, 5), st.sampled_from((1, 9, 10**6)))
def test_rows_put_in_and_put_in_anew_cost_what_the_reference_library_finds(
    start: int, rows: int, spare: int, most: int
) -> None:
    # scipy.optimize.linear_sum_assignment after every change.
    random = np.random.default_rng(start)
    costs = random.integers(-most, most + 1, (rows, rows + spare))
    found = Assignment(rows, rows + spare)
    for row in range(rows):
        found.put(row, dict(enumerate(costs[row].tolist())))
    for row in [None, *random.integers(0, rows, 6).tolist()]:
        if row is not None:
            costs[row] = random.integers(-most, most + 1, rows + spare)
            found.put(row, dict(enumerate(costs[row].tolist())))
        assert found.total == total_by_library(costs)
        assert len(set(found.columns)) == rows
        reduced = np.array([found.reduced(each) for each in range(rows)])
        assert (costs >= reduced).all()


# -- the whole question as an integer program ----------------------------------------------------------


class Program:
    """The question in 0-1 variables for scipy.optimize.milp (HiGHS): a spot's candidate, and each couple's two."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.chosen = [(each.wanted, each.candidate) for each in question.judged]
        self.costs: list[tuple[int, ...]] = []
        self.rows: list[tuple[dict[int, int], int, int]] = []
        self._choose()
        for one, other in question.couples:
            self._couple(one, other)

    def _choose(self) -> None:
        question = self.question
        self.costs += [self._digits(*each) for each in self.chosen]
        for spot in question.wanted:
            mine = {index: 1 for index, (wanted, _) in enumerate(self.chosen) if wanted == spot.key}
            left = len(self.costs)
            self.costs.append((0, 0, 1, 0, 0, 0, 0) if spot.may_be_left else (1, 0, 0, 0, 0, 0, 0))
            self.rows.append((mine | {left: 1}, 1, 1))
        for side in ("place_key", "unit_key"):
            for key in {getattr(each, side) for each in question.candidates} - {None}:
                of_it = {
                    index: 1
                    for index, (_, candidate) in enumerate(self.chosen)
                    if getattr(question.offer_at[candidate], side) == key
                }
                self.rows.append((of_it, 0, 1))

    def _digits(self, wanted: str, candidate: str) -> tuple[int, ...]:
        offer, judged = self.question.offer_at[candidate], self.question.judgements[wanted, candidate]
        tape = int(self.question.spot_at[wanted].label_key != offer.label_key)
        short = round(10 * self.question.shortfall_h(judged))
        return 0, len(judged.broken), 0, int(offer.is_moved), tape, 0, short

    def _couple(self, one: str, other: str) -> None:
        """At least one of each two choices' variable where both are made, as a transport between the two spots."""
        ours, theirs = ([i for i, (wanted, _) in enumerate(self.chosen) if wanted == key] for key in (one, other))
        for mine in ours:
            between = {}
            for its in theirs:
                lights = (self.question.offer_at[self.chosen[index][1]].light for index in (mine, its))
                if cost := self.question.pair_cost(*lights):
                    between[its] = cost
            for cost in sorted(set(between.values())):
                dear = [its for its, each in between.items() if each >= cost]
                step = cost - max((each for each in between.values() if each < cost), default=0)
                paid = len(self.costs)
                self.costs.append((0, 0, 0, 0, 0, step, 0))
                self.rows.append(({mine: 1, **dict.fromkeys(dear, 1), paid: -1}, -9, 1))

    def least(self) -> Costs:
        """Level by level, each held at its least for those below."""
        costs, rows = np.array(self.costs, dtype=float), list(self.rows)
        found: list[int] = []
        for level in range(7):
            result = milp(costs[:, level], constraints=self._constraint(rows), integrality=1, bounds=Bounds(0, 1),
                          options={"mip_rel_gap": 0.0})  # fmt: skip
            assert result.status == 0
            found.append(round(result.fun))
            kept = {index: int(cost) for index, cost in enumerate(costs[:, level]) if cost}
            rows.append((kept, 0, found[-1]))
        return Costs(*found[:-1], short_h=found[-1] / 10)

    def _constraint(self, rows: list[tuple[dict[int, int], int, int]]) -> LinearConstraint:
        at = [(row, column, factor) for row, (line, _, _) in enumerate(rows) for column, factor in line.items()]
        where, columns, factors = zip(*at, strict=True)
        matrix = coo_array((factors, (where, columns)), shape=(len(rows), len(self.costs)))
        return LinearConstraint(matrix.tocsr(), [low for _, low, _ in rows], [high for _, _, high in rows])


@settings(max_examples=15)
@given(questions(7, 12, may_fix=False))
def test_a_proposal_costs_what_the_integer_program_finds(question: Question) -> None:
    # scipy.optimize.milp, level by level.
    assert propose(question).costs == Program(question).least()
