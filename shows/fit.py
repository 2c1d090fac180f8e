"""The show on the house: what every number asks, what its places offer, what is found, what was decided.

rows --fit_of--> Fit    a constant number of queries, however many numbers and places there are
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from shows.asks import asks_of
from shows.core.fit.judging import fingerprint, show_findings, undecided
from shows.core.fit.pairs import pairs_of
from shows.core.fit.records import Ask, Finding, Offer
from shows.models import Decision, Engagement, ShowColor, ShowSpot
from shows.offers import HouseOffers, house_for_show, largest_of, offer_at
from shows.tonight import ShowNumbers, Tonight, compared, numbers_of, places_tonight
from venue.core.filters import Filter
from venue.core.labels import label_key
from venue.core.matching import Light, Match, match
from venue.core.pick_ups import Size
from venue.models import ColorFilter, Place
from venue.throw_book import PlaceLight, sizes_of


@dataclass(frozen=True)
class Decided:
    """A finding and the decision on it that stands; None where nobody decided, or what was decided has changed."""

    finding: Finding
    decision: Decision | None

    @property
    def is_open(self) -> bool:
        """Whether it still keeps the show from being ready."""
        return self.finding.gravity == "stops" and self.decision is None


@dataclass(frozen=True)
class Fit:
    """Everything between a show and the house at an instant. `places` are those of each number, by the number."""

    engagement: Engagement
    at: datetime
    tonight: Tonight
    numbers: ShowNumbers
    asks: tuple[Ask, ...]
    places: Mapping[str, tuple[Place, ...]]
    offers: Mapping[str, tuple[Offer, ...]]
    matches: Mapping[tuple[str, str], Match]
    findings: tuple[Decided, ...]
    house: HouseOffers

    @cached_property
    def open(self) -> tuple[Decided, ...]:
        """What stops the show and is undecided."""
        return tuple(each for each in self.findings if each.is_open)

    @property
    def is_ready(self) -> bool:
        """Nothing that stops is undecided; a show without numbers is not ready."""
        return bool(self.asks) and not self.open

    @cached_property
    def spot_of(self) -> dict[str, ShowSpot]:
        return {spot.number: spot for spot in self.numbers.spots}

    def of(self, number: str) -> list[Decided]:
        """What was found of one number, the worst first."""
        return [each for each in self.findings if each.finding.number == number]


def fit_of(engagement: Engagement, at: datetime, now: datetime, numbers: ShowNumbers | None = None) -> Fit:
    """The fit as it stands; `at` is when the show is. The engagement comes with its house and set-up.

    With `numbers` as it would be if they stood on those places.
    """
    tonight, numbers = places_tonight(engagement, at), numbers or numbers_of(engagement)
    places = _places(engagement, tonight, numbers)
    asks, sizes = asks_of(engagement), sizes_of(engagement.house)
    bound = [place for some in places.values() for place in some]
    house = house_for_show(engagement, bound, at, now)
    offers = {ask.number: _offers(ask, places.get(ask.number, ()), house, sizes) for ask in asks}
    matches = matches_of(engagement, asks, places, house, sizes)
    findings = show_findings(asks, offers, matches)
    decided = _decided(engagement, numbers, findings)
    return Fit(engagement, at, tonight, numbers, asks, places, offers, matches, decided, house)


def _places(engagement: Engagement, tonight: Tonight, numbers: ShowNumbers) -> dict[str, tuple[Place, ...]]:
    """The places of each number: bound by hand or as the paperwork puts it, the first standing for a team."""
    spelled = {spot.number_key: spot.number for spot in numbers.spots}
    found: dict[str, list[Place]] = {}
    for pair in compared(engagement, tonight, numbers).pairs:
        number = spelled.get(label_key(pair.number))
        if number is not None:
            found.setdefault(number, []).append(tonight.places[pair.slot])
    return {number: tuple(some) for number, some in found.items()}


def _offers(ask: Ask, places: Sequence[Place], house: HouseOffers, sizes: Sequence[Size]) -> tuple[Offer, ...]:
    largest = largest_of(ask.sizes, sizes)
    return tuple(offer_at(house, place.pk, largest) for place in places)


def matches_of(
    engagement: Engagement,
    asks: Sequence[Ask],
    places: Mapping[str, Sequence[Place]],
    house: HouseOffers,
    sizes: Sequence[Size],
) -> dict[tuple[str, str], Match]:
    """Each pair whose two numbers both have a unit at a measured place. Two queries, none without pairs."""
    pairs = [pair for pair in pairs_of(asks) if all(places.get(number) for number in pair)]
    if not pairs:
        return {}
    filters, of_number, found = _corrections(engagement), {ask.number: ask for ask in asks}, {}
    for pair in pairs:
        size = largest_of(of_number[pair[0]].sizes, sizes)
        lights = [_light(number, house.lights[places[number][0].pk], size) for number in pair]
        known = [light for light in lights if light is not None]
        if len(known) == len(pair):
            found[pair] = match(known, size, filters)
    return found


def _corrections(engagement: Engagement) -> list[Filter]:
    """The filters that the house and the show have between them; a diffusion would change the pool."""
    rows: list[ColorFilter | ShowColor] = [*engagement.house.color_filters.standing()]
    rows += engagement.colors.standing()
    return [each for row in rows if (each := row.as_filter) is not None and not row.is_diffusion]


def _light(number: str, light: PlaceLight, size: Size) -> Light | None:
    if light.unit is None or light.line is None:
        return None
    lux = light.lux_on(size)
    optics = light.optics
    return Light(
        name=number,
        throw_m=light.line.throw_m,
        lux=None if lux is None else lux.low,
        source=light.unit.source,
        color_k=light.unit.cct_k,
        narrow_deg=optics.narrow_deg,
        wide_deg=optics.wide_deg,
        percent=optics.percent,
    )


def decisions_on(engagement: Engagement, numbers: ShowNumbers) -> dict[tuple[tuple[str, str, str], str], Decision]:
    """The decisions that stand, by the key and the fingerprint of the finding that was decided. One query."""
    spelled = {spot.pk: spot.number for spot in numbers.spots}
    return {
        ((spelled.get(row.spot_id or 0, ""), row.code, row.about), row.facts): row
        for row in Decision.objects.standing().filter(engagement=engagement)
    }


def _decided(engagement: Engagement, numbers: ShowNumbers, findings: Sequence[Finding]) -> tuple[Decided, ...]:
    """Each finding with what was decided of exactly it."""
    rows = decisions_on(engagement, numbers)
    still = {finding.key for finding in undecided(findings, rows.keys())}
    return tuple(
        Decided(finding, None if finding.key in still else rows.get((finding.key, fingerprint(finding))))
        for finding in findings
    )
