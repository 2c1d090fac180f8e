"""People proposed for all open lines of a call: as rows, with what a page says of them, and a fingerprint of that."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import astuple, dataclass
from functools import cached_property

from crew.candidates import Asked, Offers, asked_of
from crew.core.filling.proposal import Proposal, propose
from crew.core.filling.ranking import Ranked, judged
from crew.line_needs import Seat
from crew.models import Call
from crew.models.calls import LineRole


@dataclass(frozen=True)
class Proposed:
    """The call, who is proposed for each of its open lines, and why the rest stays open."""

    asked: Asked
    offers: Offers
    proposal: Proposal[Seat]

    @cached_property
    def new(self) -> Mapping[Seat, Ranked]:
        """Who is to be put on a line; not those of the spot talk, who are on the call and hear their number there."""
        on = self.asked.on_call
        return {seat: who for seat, who in self.proposal.chosen.items() if who.somebody.key not in on}

    @cached_property
    def fingerprint(self) -> str:
        """SHA-256 of what the page says: the lines, who is proposed, how well they fit, why the rest stays open."""
        chosen = [[seat, who.somebody.key, who.fit, len(who.bars)] for seat, who in self.proposal.chosen.items()]
        open_lines = [[seat, why.taken, why.nobody_has] for seat, why in self.proposal.unfilled.items()]
        standing = [[seat, line.pk, line.version] for seat, line in self.asked.standing.items()]
        wanted = [
            [seat, str(line.starts), str(line.ends), *map(astuple, line.needs)]
            for seat, line in self.asked.wanted.items()
        ]
        said = [self.asked.call.pk, standing, wanted, chosen, open_lines]
        return hashlib.sha256(json.dumps(said).encode()).hexdigest()


def proposed_for(call: Call) -> Proposed:
    """The best people for the open lines. As many queries however many lines and people."""
    asked = asked_of(call)
    offers = Offers(asked)
    talk = frozenset(line.person_id for line in _talk(asked) if line.person_id is not None)
    lines = {seat: (asked.wanted[seat].needs, _for_line(offers, seat, talk)) for seat in open_seats(asked)}
    return Proposed(asked, offers, propose(lines, talk))


def _for_line(offers: Offers, seat: Seat, talk: frozenset[int]) -> list[Ranked]:
    """Everybody who is not on another line; for a light those of the spot talk too."""
    wanted, on = offers.asked.wanted[seat], offers.asked.on_call
    stay = on.keys() - talk if seat[0] else on.keys()
    return judged((pair for pair in offers.bars(wanted) if pair[0].key not in stay), wanted, offers.roll)


def _talk(asked: Asked) -> list:
    return [line for (key, _seat), line in asked.standing.items() if not key and line.role == LineRole.OPERATOR]


def open_seats(asked: Asked) -> list[Seat]:
    """The lines that somebody is still to be found for.

    Those of the spot talk take the lights that nobody is on: a line there is open only as far as there are more of
    these lines than such lights.
    """
    lights = [seat for seat in asked.wanted if seat[0] and _is_open(asked, seat)]
    talk = [(line.number_key, line.seat) for line in _talk(asked)]
    waiting = [seat for seat in talk if _is_open(asked, seat)]
    more = max(0, len(talk) - len(lights))
    hands = [seat for seat in asked.wanted if not seat[0] and seat not in talk and _is_open(asked, seat)]
    return [*lights, *waiting[:more], *hands]


def _is_open(asked: Asked, seat: Seat) -> bool:
    line = asked.standing.get(seat)
    return line is None or line.person_id is None
