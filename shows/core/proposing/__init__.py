"""Places and units for all spots of a show at once: the best proposal, why it is so, and what else there is.

records     what is asked             proposal    what comes out
weighing    one integer that holds all that counts, most important first
problem → branch (relaxed → assignment) → search   the cheapest choice, exact
proposing   the proposal, the next best for one spot          reasons   line by line
light_classes   what a pair costs                             fingerprint   what a person saw of it
"""

from shows.core.proposing.proposal import Alternative, Costs, Proposal, Reason
from shows.core.proposing.proposing import alternatives, propose
from shows.core.proposing.reasons import reasons
from shows.core.proposing.records import Candidate, Judged, Question, Wanted

__all__ = [
    "Alternative",
    "Candidate",
    "Costs",
    "Judged",
    "Proposal",
    "Question",
    "Reason",
    "Wanted",
    "alternatives",
    "propose",
    "reasons",
]
