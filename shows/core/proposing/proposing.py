"""The best places and units for all spots of a show at once, and the next best for one of them."""

from dataclasses import replace
from itertools import islice

from shows.core.proposing.proposal import Alternative, Proposal
from shows.core.proposing.records import Question
from shows.core.proposing.search import solutions
from shows.core.proposing.weighing import Weighed

MOST_BRANCHES = 1000
"""So many are looked into, some seconds' work, before a search is given up."""


def propose(question: Question, most_branches: int = MOST_BRANCHES) -> Proposal:
    """The one best proposal; there always is one, in the worst case without any place.

    What counts is in `Costs`, in its order; after that the lowest number gets the first place in the house's order.
    """
    weighed = Weighed(question)
    best = next(solutions(weighed.problem, [{}], most_branches))
    return weighed.proposal(best)


def alternatives(
    question: Question, wanted: str, most: int = 3, most_branches: int = MOST_BRANCHES
) -> tuple[Alternative, ...]:
    """The next best candidates for the spot, best first, each with the best proposal that has it there.

    What others have been fixed on stays theirs; the spot itself is asked about as if nobody had fixed it. Raises
    KeyError for a spot that is not in the question.
    """
    now = propose(question, most_branches)
    freed = replace(question.spot_at[wanted], fixed=None)
    weighed = Weighed(replace(question, wanted=[freed if each.key == wanted else each for each in question.wanted]))
    row = [spot.key for spot in question.spots].index(wanted)
    starts = [
        (choice.candidate.key, {row: (index,)})
        for index, choice in enumerate(weighed.choices[row])
        if choice.candidate is not None and choice.candidate.key != now.chosen[wanted]
    ]
    found = islice(solutions(weighed.problem, [start for _, start in starts], most_branches), max(0, most))
    return tuple(_alternative(starts[each.start][0], wanted, now, weighed.proposal(each)) for each in found)


def _alternative(candidate: str, wanted: str, now: Proposal, then: Proposal) -> Alternative:
    moved = tuple(key for key, chosen in then.chosen.items() if key != wanted and chosen != now.chosen[key])
    return Alternative(candidate, then, moved)
