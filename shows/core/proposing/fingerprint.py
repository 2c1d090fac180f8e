"""What a person saw when a proposal was shown: the question and the choice, as one short text."""

import hashlib
import json
from dataclasses import astuple

from shows.core.proposing.proposal import Proposal
from shows.core.proposing.records import Question


def fingerprint(question: Question, proposal: Proposal) -> str:
    """SHA-256 of all that the proposal was made from and of what was chosen; the order of what came in counts not."""
    judged = sorted((each.wanted, each.candidate, sorted(each.broken), each.life_h) for each in question.judged)
    said = [
        [astuple(spot) for spot in question.spots],
        [astuple(offer) for offer in question.offers],
        judged,
        sorted([*pair, cost] for pair, cost in question.pair_costs.items()),
        question.reserve_h,
        sorted(proposal.chosen.items()),
    ]
    return hashlib.sha256(json.dumps(said).encode()).hexdigest()
