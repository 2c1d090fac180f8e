"""The best places for all numbers of a show at once, from rows to what a person may take.

rows --proposed_for--> Proposed    a constant number of queries, however many numbers and places there are
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from shows.core.fit.judging import undecided
from shows.core.fit.pairs import pair_findings
from shows.core.fit.records import Finding
from shows.core.proposing import Alternative, Proposal, Reason, alternatives, propose, reasons
from shows.core.proposing.fingerprint import fingerprint
from shows.fit import matches_of
from shows.models import Engagement, ShowSpot, Source
from shows.proposal_question import Asked, ShowLight, asked_of
from venue.core.labels import label_key
from venue.models import Place


@dataclass(frozen=True)
class Proposed:
    """What is proposed. `of_pairs` is what keeps the lights of pairs apart where they stand then, the worst first."""

    asked: Asked
    proposal: Proposal
    of_pairs: tuple[Finding, ...]

    @cached_property
    def fingerprint(self) -> str:
        """Of everything that the person sees."""
        return fingerprint(self.asked.question, self.proposal)

    @cached_property
    def reason_of(self) -> Mapping[str, Reason]:
        """Why each light stands where it does, by the light's key."""
        return {each.wanted: each for each in reasons(self.asked.question, self.proposal)}

    @property
    def pairs_to_decide(self) -> tuple[Finding, ...]:
        """What of the pairs stops the show until a person decides."""
        return tuple(each for each in self.of_pairs if each.gravity == "stops")

    def place_of(self, light: ShowLight) -> Place | None:
        """None: no place is left for it."""
        chosen = self.proposal.chosen[light.key]
        return None if chosen is None else self.asked.places[chosen]

    @cached_property
    def places_of(self) -> dict[ShowSpot, list[Place]]:
        """The places of each number that no person fixed, by team."""
        found: dict[ShowSpot, list[Place]] = {}
        for light in self.asked.lights.values():
            if light.fixed is None:
                place = self.place_of(light)
                found.setdefault(light.spot, []).extend([] if place is None else [place])
        return found

    @cached_property
    def changes(self) -> dict[ShowSpot, list[Place]]:
        """Of those the numbers that are not bound there yet."""
        return {
            spot: places
            for spot, places in self.places_of.items()
            if self._bound.get(spot.pk, []) != [place.pk for place in places]
        }

    @cached_property
    def _bound(self) -> dict[int, list[int]]:
        """Primary keys of the places that each number is bound to now, by team."""
        found: dict[int, list[int]] = {}
        for spot, place, _source in self.asked.numbers.bindings:
            found.setdefault(spot, []).append(place)
        return found

    def now_at(self, spot: ShowSpot) -> list[Place]:
        """Where the number stands now, bound or by the paperwork, as far as the show may still use those places."""
        usable = {place.pk: place for place in (*self.asked.tonight.places, *self.asked.tonight.idle)}
        bound = [usable[key] for key in self._bound.get(spot.pk, []) if key in usable]
        return bound or list(self.asked.paper.of[spot.pk].places)

    @cached_property
    def moving(self) -> frozenset[ShowSpot]:
        """The numbers that go to other places than they have now; the rest of the changes stores what is so already."""
        return frozenset(spot for spot, places in self.changes.items() if self.now_at(spot) != places)

    def source_of(self, spot: ShowSpot) -> str:
        """What puts the number there: the paperwork where it says the same, else whoever takes the proposal."""
        paper = self.asked.paper.of[spot.pk]
        is_as_in_paperwork = bool(paper.places) and list(paper.places) == self.places_of[spot]
        return paper.source if is_as_in_paperwork else Source.PROPOSAL

    def lights_of(self, number: str) -> list[ShowLight]:
        """The lights of a number as somebody writes it; none where the show has no such number."""
        key = label_key(number)
        return [light for light in self.asked.lights.values() if light.spot.number_key == key]

    def next_best(self, light: ShowLight, most: int = 3) -> tuple[Alternative, ...]:
        """Other places for the light, best first, each with the best of all else."""
        return alternatives(self.asked.question, light.key, most)


def proposed_for(engagement: Engagement, at: datetime, now: datetime) -> Proposed:
    """The best proposal as the rows stand; `at` is when the show is. The engagement comes with its house and set-up."""
    asked = asked_of(engagement, at, now)
    proposal = propose(asked.question)
    return Proposed(asked, proposal, _of_pairs(asked, proposal))


def _of_pairs(asked: Asked, proposal: Proposal) -> tuple[Finding, ...]:
    """As the fit will find it once the proposal is taken, without what was decided. Two queries at most."""
    places: dict[str, list[Place]] = {}
    for light in asked.lights.values():
        chosen = proposal.chosen[light.key]
        if chosen is not None and asked.places[chosen].pk in asked.house.lights:
            places.setdefault(light.spot.number, []).append(asked.places[chosen])
    asks = list(asked.asks.values())
    found = list(pair_findings(asks, matches_of(asked.engagement, asks, places, asked.house, asked.sizes)))
    return tuple(undecided(found, asked.decided) + [each for each in found if each.gravity == "limits"])
