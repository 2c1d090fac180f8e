"""Why each spot stands where it does: what speaks against the candidate that one would have expected.

Expected is the candidate whose place has the spot's number painted on it, since it needs no tape; where there is none,
the first in the house that is free. Each reason holds for that spot alone, the others staying where they are; what a
change costs with the others moving too is in `alternatives`.
"""

from shows.core.proposing.proposal import Proposal, Reason
from shows.core.proposing.records import Candidate, Question, Wanted
from shows.core.proposing.weighing import needs_tape


def reasons(question: Question, proposal: Proposal) -> tuple[Reason, ...]:
    """One for each spot, in the order of the numbers. The proposal is one for this question."""
    return tuple(_Reasoning(question, proposal, spot).reason() for spot in question.spots)


class _Reasoning:
    """About one spot of a proposal."""

    def __init__(self, question: Question, proposal: Proposal, spot: Wanted) -> None:
        self.question, self.proposal, self.spot = question, proposal, spot
        key = proposal.chosen[spot.key]
        self.chosen = None if key is None else question.offer_at[key]
        held = {other: chosen for other, chosen in proposal.chosen.items() if chosen is not None and other != spot.key}
        self.holders = [(other, question.offer_at[chosen]) for other, chosen in held.items()]

    def reason(self) -> Reason:
        if self.spot.fixed is not None:
            return Reason(self.spot.key, "fixed")
        if self.chosen is not None and not needs_tape(self.spot, self.chosen):
            return Reason(self.spot.key, "own-label")
        own = [each for each in self.question.offered[self.spot.key] if not needs_tape(self.spot, each)]
        return self._against(min(own, key=self._rank)) if own else self._without_label()

    def _rank(self, candidate: Candidate) -> tuple[int, bool, bool]:
        """Of several with the number: the one that breaks least, is free, stands there; then the house's order."""
        return len(self._needs(candidate)), self._holder(candidate) is not None, candidate.is_moved

    def _against(self, candidate: Candidate) -> Reason:
        """Free, no worse and standing there it would have been chosen, unless the search was given up."""
        needs, holder = self._needs(candidate), self._holder(candidate)
        if len(needs) > self._most_needs():
            return Reason(self.spot.key, "needs-broken", candidate.key, needs)
        if holder is not None:
            return Reason(self.spot.key, "taken-by", candidate.key, other=holder)
        return Reason(self.spot.key, "moved" if candidate.is_moved else "given-up", candidate.key)

    def _without_label(self) -> Reason:
        """Against the first that is free, breaks no more and is not carried."""
        if self.chosen is None:
            return Reason(self.spot.key, "left" if self.spot.may_be_left else "no-place")
        first = next(each for each in self.question.offered[self.spot.key] if self._is_as_good(each))
        if first == self.chosen:
            return Reason(self.spot.key, "house-order")
        return self._by_pair(first) or self._by_life(first) or Reason(self.spot.key, "given-up", first.key)

    def _is_as_good(self, candidate: Candidate) -> bool:
        is_carried_more = candidate.is_moved and self.chosen is not None and not self.chosen.is_moved
        is_free = self._holder(candidate) is None
        return is_free and not is_carried_more and len(self._needs(candidate)) <= self._most_needs()

    def _by_pair(self, candidate: Candidate) -> Reason | None:
        """The partner from which the candidate would stand out most, if the pairs cost more with it."""
        more = {
            other: self._pair_cost(candidate, other) - self._pair_cost(self.chosen, other)
            for couple in self.question.couples
            if self.spot.key in couple
            for other in couple
            if other != self.spot.key
        }
        if sum(more.values()) <= 0:
            return None
        return Reason(self.spot.key, "pair", candidate.key, other=max(more, key=lambda other: more[other]))

    def _by_life(self, candidate: Candidate) -> Reason | None:
        if self.chosen is None or self._short_h(candidate) <= self._short_h(self.chosen):
            return None
        hours = self.question.judgements[self.spot.key, candidate.key].life_h
        return Reason(self.spot.key, "life", candidate.key, hours=hours)

    def _pair_cost(self, candidate: Candidate | None, other: str) -> int:
        key = self.proposal.chosen[other]
        if candidate is None or key is None:
            return 0
        return self.question.pair_cost(candidate.light, self.question.offer_at[key].light)

    def _short_h(self, candidate: Candidate) -> float:
        return self.question.shortfall_h(self.question.judgements[self.spot.key, candidate.key])

    def _needs(self, candidate: Candidate) -> tuple[str, ...]:
        return tuple(sorted(self.question.judgements[self.spot.key, candidate.key].broken))

    def _most_needs(self) -> float:
        """How many needs the spot breaks as it is; to go without a place that it must have is worse than any number."""
        if self.chosen is not None:
            return len(self._needs(self.chosen))
        return 0 if self.spot.may_be_left else float("inf")

    def _holder(self, candidate: Candidate) -> str | None:
        """Who has the place or the unit: a person's choice among them."""
        for other, held in self.holders:
            if held.place_key == candidate.place_key or held.unit_key == candidate.unit_key is not None:
                return other
        return None
