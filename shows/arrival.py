"""The arrival check of a show: its places in walking order, what was found at each, who signed, what is in the way.

rows --arrival_of--> Arrival    a constant number of queries, however many places, marks and signatures there are
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from uuid import UUID

from shows.check_marks import states_of
from shows.conditions import units_at
from shows.core.checked_content import canonical, digest
from shows.core.checking import PlaceState, next_place, place_state
from shows.hands import renumbered_at
from shows.in_the_way import blockages_at
from shows.models import CheckMark, CheckSignature, Engagement, ShowSpot
from shows.tonight import Tonight, compared, numbers_at, numbers_of, places_tonight, show_instant
from venue.condition import Condition, conditions_of
from venue.core.labels import label_key
from venue.core.rows import Standing, row_of
from venue.models import Blockage, Fault, Place, Unit
from venue.stays import house_day_span

UNTOUCHED = place_state([])
READY = Condition()


@dataclass(frozen=True)
class CheckedPlace:
    """One place with what belongs there and what was found. `number` is "" where no show number stands there.

    `faults` are those that a failure here opened and nobody closed, by the item. `blockages` are in the way of it.
    """

    place: Place
    number: str
    spot: ShowSpot | None
    unit: Unit | None
    condition: Condition
    state: PlaceState
    faults: Mapping[str, Fault]
    blockages: tuple[Blockage, ...]


@dataclass(frozen=True)
class Signed:
    """A signature, and whether anything was marked, or any number put elsewhere, after it."""

    row: CheckSignature
    is_current: bool
    is_renumbered: bool = False


@dataclass(frozen=True)
class Arrival:
    """The check as it stands. `places` have a show number, `spare` are others in use, both in walking order.

    Where no number has a place yet, `places` are all that are in use. `unplaced` are the show numbers without a
    place. `sha256` is of what a signature stands for.
    """

    engagement: Engagement
    at: datetime
    places: tuple[CheckedPlace, ...]
    spare: tuple[CheckedPlace, ...]
    unplaced: tuple[str, ...]
    signatures: tuple[Signed, ...]
    sha256: str

    @cached_property
    def done(self) -> int:
        """How many places were looked at whole, whatever was found."""
        return sum(each.state.is_done for each in self.places)

    @cached_property
    def failing(self) -> int:
        return sum(each.state.state == "failed" for each in self.places)

    @property
    def is_begun(self) -> bool:
        return any(each.state.state != "untouched" for each in (*self.places, *self.spare))

    @property
    def has_numbers(self) -> bool:
        return bool(self.unplaced) or any(each.spot is not None for each in self.places)

    @property
    def positions(self) -> list[tuple[CheckedPlace, ...]]:
        """The places that the show uses, position by position."""
        found: dict[int, list[CheckedPlace]] = {}
        for each in self.places:
            found.setdefault(each.place.position_id, []).append(each)
        return [tuple(some) for some in found.values()]

    def at_place(self, ref: UUID) -> CheckedPlace | None:
        """The place in use of this reference; None where it is not in use."""
        return next((each for each in (*self.places, *self.spare) if each.place.ref == ref), None)

    def next(self, after: Place | None = None) -> CheckedPlace | None:
        """The place to go to, in walking order behind the one given; None where all were looked at."""
        by_key = {each.place.pk: each for each in self.places}
        states = {key: each.state for key, each in by_key.items()}
        found = next_place(states, list(states), None if after is None else after.pk)
        return None if found is None else by_key[found]


def check_instant(engagement: Engagement, now: datetime) -> datetime:
    """When it counts which unit stands where: until the show its start, then now, at last the end of its last day."""
    over = house_day_span(engagement.house, engagement.ends_on)[1]
    return min(max(show_instant(engagement), now), over)


def arrival_of(engagement: Engagement, at: datetime) -> Arrival:
    """The check as it stands, with the units that stand at the places at the instant."""
    tonight, numbers = places_tonight(engagement, at), numbers_of(engagement)
    number_at = numbers_at(tonight, compared(engagement, tonight, numbers))
    spots = {spot.number_key: spot for spot in numbers.spots}
    spot_at = {place: spots[key] for place, number in number_at.items() if (key := label_key(number)) in spots}
    marks = list(engagement.check_marks.select_related("fault__unit"))
    states = states_of(marks)
    walk = _checked(engagement, tonight, spot_at, marks, states)
    numbered = tuple(each for each in walk if each.spot is not None)
    placed = {spot.pk for spot in spot_at.values()}
    sha256 = digest(canonical(_by_ref(engagement, states)))
    return Arrival(
        engagement=engagement,
        at=at,
        places=numbered or walk,
        spare=tuple(each for each in walk if each.spot is None) if numbered else (),
        unplaced=tuple(spot.number for spot in numbers.spots if spot.pk not in placed),
        signatures=_signed(engagement, sha256),
        sha256=sha256,
    )


def _signed(engagement: Engagement, sha256: str) -> tuple[Signed, ...]:
    renumbered = renumbered_at(engagement)
    return tuple(
        Signed(row, row.sha256 == sha256, renumbered is not None and renumbered > row.at)
        for row in engagement.check_signatures.all()
    )


def _by_ref(engagement: Engagement, states: Mapping[int, PlaceState]) -> dict[str, PlaceState]:
    refs = Place.objects.filter(pk__in=states).values_list("pk", "ref")
    return {str(ref): states[key] for key, ref in refs}


def _checked(
    engagement: Engagement,
    tonight: Tonight,
    spot_at: Mapping[int, ShowSpot],
    marks: Sequence[CheckMark],
    states: Mapping[int, PlaceState],
) -> tuple[CheckedPlace, ...]:
    """Every place in use, in walking order."""
    units, faults = units_at(tonight.places, tonight.at), _faults(marks)
    conditions = conditions_of(units.values(), tonight.at)
    blockages = blockages_at(engagement, {place.position_id for place in tonight.places})
    return tuple(
        CheckedPlace(
            place=place,
            number=spot_at[place.pk].number if place.pk in spot_at else "",
            spot=spot_at.get(place.pk),
            unit=units.get(place.pk),
            condition=conditions.get(units[place.pk].pk, READY) if place.pk in units else READY,
            state=states.get(place.pk, UNTOUCHED),
            faults=faults.get(place.pk, {}),
            blockages=tuple(each for each in blockages.get(place.position_id, ()) if each.place_id in (None, place.pk)),
        )
        for place in _walk(tonight)
    )


def _walk(tonight: Tonight) -> Iterator[Place]:
    """The places in use, position after position in the house's order, along each row."""
    target = (tonight.house.target[0], tonight.house.target[1])
    for position, slots in zip(tonight.house.positions, tonight.house.slots_at, strict=True):
        some = [tonight.places[slot] for slot in slots]
        stands = [Standing(each.label, each.x_m, each.y_m, each.bearing_deg, each.row_order) for each in some]
        yield from (some[index] for index in row_of(stands, position.zone, target).places)


def _faults(marks: Sequence[CheckMark]) -> dict[int, dict[str, Fault]]:
    """The faults that the marks opened and nobody closed, by place and item."""
    found: dict[int, dict[str, Fault]] = {}
    for mark in marks:
        if mark.fault is not None and mark.fault.closed_at is None:
            found.setdefault(mark.place_id, {})[mark.item] = mark.fault
    return found
