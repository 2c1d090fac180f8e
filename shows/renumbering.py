"""A show number put on another place, or two of them swapped: what that changes, before anything is stored.

rows --standing_of--> Standing --moved--> Renumbering    a constant number of queries, however many numbers and places
"""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property
from uuid import UUID

from shows.core.fit.judging import fingerprint
from shows.core.numbering.records import Comparison
from shows.fit import Decided, Fit, fit_of
from shows.lines import Verdict, chosen_way, verdict_of
from shows.models import Engagement, ShowSpot, Source
from shows.tonight import ShowNumbers, Tonight, compared, numbers_of, places_tonight
from venue.core.labels import label_key
from venue.models import Place

TOLD = frozenset({"stops", "limits"})
"""What a finding must be so that it counts as a consequence; what is only good to know does not."""


@dataclass(frozen=True)
class Light:
    """One light of a number: the `nth` of its team, counted from 0; `place` None where it has none."""

    spot: ShowSpot
    nth: int
    place: Place | None

    @property
    def key(self) -> str:
        return f"{self.spot.ref}.{self.nth}"


@dataclass(frozen=True)
class Standing:
    """Which number stands where, as the arrival check has it. `numbers` are the rows behind it."""

    engagement: Engagement
    tonight: Tonight
    numbers: ShowNumbers

    @cached_property
    def comparison(self) -> Comparison:
        return compared(self.engagement, self.tonight, self.numbers)

    @cached_property
    def verdict(self) -> Verdict:
        """One query."""
        return verdict_of(self.comparison, chosen_way(self.engagement))

    @cached_property
    def places(self) -> dict[int, tuple[Place, ...]]:
        """The places in use of each spot by its primary key, the first standing for a team."""
        spots = {spot.number_key: spot.pk for spot in self.numbers.spots}
        found: dict[int, tuple[Place, ...]] = {spot.pk: () for spot in self.numbers.spots}
        for pair in self.comparison.pairs:
            spot = spots.get(label_key(pair.number))
            if spot is not None:
                found[spot] = (*found[spot], self.tonight.places[pair.slot])
        return found

    @cached_property
    def lights(self) -> tuple[Light, ...]:
        """Every light of every number, in natural order."""
        return tuple(
            Light(spot, nth, place)
            for spot in self.numbers.spots
            for nth, place in enumerate(self.places[spot.pk] or (None,))
        )

    def light(self, key: str) -> Light | None:
        return next((light for light in self.lights if light.key == key), None)

    def light_at(self, place: Place) -> Light | None:
        """Which light stands there; None where no number does."""
        return next((light for light in self.lights if light.place == place), None)

    def place(self, ref: UUID) -> Place | None:
        """The place in use of this reference."""
        return next((place for place in self.tonight.places if place.ref == ref), None)

    def unused(self, spot: ShowSpot) -> list[Place]:
        """Places that the spot is bound to and that are out of use tonight: a team keeps them."""
        own = {place for key, place, _source in self.numbers.bindings if key == spot.pk}
        return [place for place in self.tonight.idle if place.pk in own]


@dataclass(frozen=True)
class Renumbering:
    """What is to be done, and both ways that things stand: now and then. `places` are to be bound, by the spot."""

    light: Light
    place: Place
    now: Standing
    then: Standing
    fit_now: Fit
    fit_then: Fit
    places: Mapping[ShowSpot, Sequence[Place]]

    @property
    def other(self) -> Light | None:
        """The light that stands there now, with which it swaps."""
        return self.now.light_at(self.place)

    @cached_property
    def moves(self) -> list[tuple[str, tuple[Place, ...], tuple[Place, ...]]]:
        """Each number that then stands elsewhere, with its places now and then; others may follow from the first."""
        return [
            (spot.number, self.now.places[spot.pk], self.then.places[spot.pk])
            for spot in self.now.numbers.spots
            if self.now.places[spot.pk] != self.then.places[spot.pk]
        ]

    @cached_property
    def comes(self) -> list[Decided]:
        """What the fit finds then and does not find now, as far as it stops or limits the show."""
        return _only_in(self.fit_then, self.fit_now)

    @cached_property
    def goes(self) -> list[Decided]:
        """What the fit finds now and does not find then."""
        return _only_in(self.fit_now, self.fit_then)

    @cached_property
    def fingerprint(self) -> str:
        """SHA-256 of all that the person sees, and of the versions of the numbers that are put elsewhere."""
        said = [
            [(str(spot.ref), spot.version) for spot in self.places],
            [(number, _refs(before), _refs(after)) for number, before, after in self.moves],
            [(each.verdict.kind, each.verdict.sentence) for each in (self.now, self.then)],
            [[fingerprint(each.finding) for each in some] for some in (self.comes, self.goes)],
        ]
        return hashlib.sha256(json.dumps(said).encode()).hexdigest()


def standing_of(engagement: Engagement, at: datetime) -> Standing:
    """Which number stands where at the instant. Three queries, another with the verdict."""
    return Standing(engagement, places_tonight(engagement, at), numbers_of(engagement))


def moved(standing: Standing, light: Light, place: Place, now: datetime) -> Renumbering:
    """What it changes to put the light at the place; what stands there takes its place, or has none."""
    engagement, at = standing.engagement, standing.tonight.at
    places = _places_then(standing, light, place)
    numbers = _bound_to(standing.numbers, places)
    return Renumbering(
        light=light,
        place=place,
        now=standing,
        then=Standing(engagement, standing.tonight, numbers),
        fit_now=fit_of(engagement, at, now, standing.numbers),
        fit_then=fit_of(engagement, at, now, numbers),
        places=places,
    )


def _places_then(standing: Standing, light: Light, place: Place) -> dict[ShowSpot, list[Place]]:
    """The places of the number, and of the other that it swaps with: to be bound by hand."""
    other = standing.light_at(place)
    found = {light.spot: _with(standing, light, place)}
    if other is not None:
        found[other.spot] = _with(standing, other, light.place)
    return found


def _with(standing: Standing, light: Light, place: Place | None) -> list[Place]:
    """The places of the light's number with this one in place of where the light stands now."""
    places = list(standing.places[light.spot.pk])
    places[light.nth : light.nth + 1] = [] if place is None else [place]
    return places + standing.unused(light.spot)


def _bound_to(numbers: ShowNumbers, places: Mapping[ShowSpot, Sequence[Place]]) -> ShowNumbers:
    changed = {spot.pk for spot in places}
    kept = [binding for binding in numbers.bindings if binding[0] not in changed]
    put = [(spot.pk, place.pk, str(Source.HAND)) for spot, some in places.items() for place in some]
    return replace(numbers, bindings=(*kept, *put))


def _only_in(one: Fit, other: Fit) -> list[Decided]:
    known = {(each.finding.key, fingerprint(each.finding)) for each in other.findings}
    return [
        each
        for each in one.findings
        if each.finding.gravity in TOLD and (each.finding.key, fingerprint(each.finding)) not in known
    ]


def _refs(places: Sequence[Place]) -> list[str]:
    return [str(place.ref) for place in places]
