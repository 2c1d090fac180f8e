"""A show's numbers and the house's places as a question to the solver, with the rows behind it.

rows --asked_of--> Asked    a constant number of queries, however many numbers and places there are
"""

import math
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from shows.asks import asks_from, color_book
from shows.core.fit.judging import spot_findings, undecided
from shows.core.fit.records import Ask, Finding, Offer
from shows.core.proposing import Candidate, Judged, Question, Wanted
from shows.core.proposing.light_classes import LightClass, light_class, prices
from shows.fit import decisions_on
from shows.hands import put_by_hand
from shows.models import Engagement, ShowSpot
from shows.offers import HouseOffers, house_for_show, largest_of, offer_at
from shows.paper_places import Paper, paper_of
from shows.tonight import ShowNumbers, Tonight, numbers_of, places_tonight
from venue.core.labels import label_key
from venue.core.pick_ups import Size
from venue.core.sources import Source, source_of
from venue.models import LampTally, Place, Unit
from venue.throw_book import sizes_of


@dataclass(frozen=True)
class ShowLight:
    """One light that the show wants: a number, or the `nth` of its team. `fixed` is where a person put it."""

    key: str
    spot: ShowSpot
    nth: int = 1
    fixed: Place | None = None


@dataclass(frozen=True)
class LeftOut:
    """A place in use that no number may be put at, and what nobody may decide away there."""

    place: Place
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class Asked:
    """The question, and what its keys stand for: lights of the show, places of the house.

    `findings` are all that were found of a light at a place, `needs` those of them that break, by the question's names.
    `decided` are the findings that a person decided, by key and fingerprint: they break nothing.
    """

    engagement: Engagement
    tonight: Tonight
    numbers: ShowNumbers
    asks: Mapping[str, Ask]
    paper: Paper
    house: HouseOffers
    sizes: tuple[Size, ...]
    question: Question
    lights: Mapping[str, ShowLight]
    places: Mapping[str, Place]
    findings: Mapping[tuple[str, str], tuple[Finding, ...]]
    needs: Mapping[tuple[str, str], Mapping[str, Finding]]
    left_out: tuple[LeftOut, ...]
    decided: Collection[tuple[tuple[str, str, str], str]]

    def unit_at(self, place: Place) -> Unit | None:
        """Who stands there then; nobody is asked about at a place out of use."""
        light = self.house.lights.get(place.pk)
        return None if light is None else light.unit


def asked_of(engagement: Engagement, at: datetime, now: datetime) -> Asked:
    """The question as the rows stand; `at` is when the show is. The engagement comes with its house and set-up."""
    return _Assembly(engagement, at, now).asked()


class _Assembly:
    """The rows fetched, then put together without a further query."""

    def __init__(self, engagement: Engagement, at: datetime, now: datetime) -> None:
        self.engagement = engagement
        self.tonight, self.numbers = places_tonight(engagement, at), numbers_of(engagement)
        self.by_hand = put_by_hand(engagement, self.tonight, self.numbers)
        self.paper = paper_of(engagement, self.tonight, self.numbers, self.by_hand)
        asks = asks_from(engagement, self.numbers.spots, color_book(engagement))
        self.asks = {ask.number: ask for ask in asks}
        self.sizes = sizes_of(engagement.house)
        self.house = house_for_show(engagement, self.tonight.places, at, now)
        self.decided = decisions_on(engagement, self.numbers).keys()
        self.life_h = _life_h(light.unit for light in self.house.lights.values())
        self._offers: dict[tuple[int, str], Offer] = {}

    def asked(self) -> Asked:
        left_out = tuple(self._left_out())
        out = {each.place.pk for each in left_out}
        lights = {light.key: light for spot in self.numbers.spots for light in self._lights(spot)}
        findings = {(key, _key(place)): found for key, light in lights.items() for place, found in self._at(light, out)}
        needs = {pair: self._needs(found) for pair, found in findings.items()}
        places = self._places_in(findings)
        classes = {key: self._light_class(place) for key, place in places.items()}
        question = Question(
            wanted=[self._wanted(light) for light in lights.values()],
            candidates=[self._candidate(places[key], classes[key], order) for order, key in enumerate(places)],
            judged=[Judged(*pair, frozenset(broken), self._life_at(places[pair[1]])) for pair, broken in needs.items()],
            pair_costs=prices(set(classes.values())),
        )
        rows = self.engagement, self.tonight, self.numbers, self.asks, self.paper, self.house, self.sizes
        return Asked(*rows, question, lights, places, findings, needs, left_out, self.decided)

    def _lights(self, spot: ShowSpot) -> Iterator[ShowLight]:
        """What a person put somewhere stays, for the whole team of the number."""
        fixed = self.by_hand.get(spot.pk, ())
        for nth in range(1, (len(fixed) or self.paper.lights.get(spot.number_key, 1)) + 1):
            yield ShowLight(_light_key(spot, nth), spot, nth, fixed[nth - 1] if fixed else None)

    def _left_out(self) -> Iterator[LeftOut]:
        """What nobody may decide away is the place's own, whatever a number asks."""
        for place in self.tonight.places:
            found = spot_findings(Ask(""), self._offer(place, largest_of((), self.sizes)))
            never = tuple(each for each in found if not each.may_be_decided)
            if never:
                yield LeftOut(place, never)

    def _at(self, light: ShowLight, out: set[int]) -> Iterator[tuple[Place, tuple[Finding, ...]]]:
        """The places that the light may be put at, each with what is found there.

        Where a person put it is held against the place and its unit, but not against the paperwork.
        """
        if light.fixed is not None:
            yield light.fixed, self._found(light, light.fixed)
            return
        paper = self.paper.of[light.spot.pk]
        for place in self.tonight.places:
            if place.pk not in out:
                found = (*paper.missed_at(light.spot.number, light.nth, place), *self._found(light, place))
                if all(each.may_be_decided for each in found):
                    yield place, found

    def _found(self, light: ShowLight, place: Place) -> tuple[Finding, ...]:
        if place.pk not in self.house.lights:
            facts = {"label": place.label, "position": place.position.name}
            return (Finding("not-in-use", "stops", light.spot.number, may_be_decided=False, facts=facts),)
        ask = self.asks[light.spot.number]
        return spot_findings(ask, self._offer(place, largest_of(ask.sizes, self.sizes)))

    def _offer(self, place: Place, size: Size) -> Offer:
        key = place.pk, size.name
        if key not in self._offers:
            self._offers[key] = offer_at(self.house, place.pk, size)
        return self._offers[key]

    def _needs(self, found: Iterable[Finding]) -> dict[str, Finding]:
        return {f"{each.code} {each.about}".strip(): each for each in undecided(found, self.decided)}

    def _places_in(self, findings: Iterable[tuple[str, str]]) -> dict[str, Place]:
        """The places asked about, in the house's order; those out of use last."""
        fixed = [place for places in self.by_hand.values() for place in places]
        known = {_key(place): place for place in (*self.tonight.places, *fixed)}
        wanted = {key for _, key in findings}
        return {key: place for key, place in known.items() if key in wanted}

    def _wanted(self, light: ShowLight) -> Wanted:
        fixed = None if light.fixed is None else _key(light.fixed)
        return Wanted(light.key, light.spot.number_key, fixed, self._pair_of(light))

    def _pair_of(self, light: ShowLight) -> str | None:
        """The first light of a team stands for it."""
        other = self._by_number.get(label_key(light.spot.matches))
        return None if other is None or light.nth > 1 else _light_key(other, 1)

    @cached_property
    def _by_number(self) -> dict[str, ShowSpot]:
        return {spot.number_key: spot for spot in self.numbers.spots}

    def _candidate(self, place: Place, light: LightClass, order: int) -> Candidate:
        unit = self._unit_at(place)
        unit_key = None if unit is None else str(unit.pk)
        return Candidate(_key(place), _key(place), unit_key, place.label_key, light=light.key, order=order)

    def _light_class(self, place: Place) -> LightClass:
        unit = self._unit_at(place)
        if unit is None:
            return LightClass()
        names = [name for ask in self.asks.values() if ask.matches for name in ask.sizes]
        lux = self.house.lights[place.pk].lux_on(largest_of(names, self.sizes))
        return light_class(unit.source, None if lux is None else lux.low)

    def _life_at(self, place: Place) -> float | None:
        unit = self._unit_at(place)
        return math.inf if unit is None else self.life_h.get(unit.pk, math.inf)

    def _unit_at(self, place: Place) -> Unit | None:
        light = self.house.lights.get(place.pk)
        return None if light is None else light.unit


def _key(place: Place) -> str:
    return str(place.pk)


def _light_key(spot: ShowSpot, nth: int) -> str:
    return f"{spot.pk}/{nth}"


def _life_h(units: Iterable[Unit | None]) -> dict[int, float | None]:
    """Hours left of the lamp in each unit that has one [h], None where its kind has no limit. One query."""
    burning = [unit.pk for unit in units if unit is not None and source_of(unit.source) != Source.LED]
    rows = LampTally.objects.filter(unit__in=burning).values_list("unit", "left_h")
    return {unit: None if left is None else float(left) for unit, left in rows if unit is not None}
