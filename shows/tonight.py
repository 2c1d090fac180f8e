"""The places in use for a show, as rows and as the comparison takes them, and the verdict on its numbers.

rows --places_tonight--> Tonight    rows --numbers_of--> ShowNumbers    both --compared--> Comparison
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, time
from functools import cached_property

from django.db.models import F, FilteredRelation, Q, QuerySet

from shows.access import places_for
from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison, House, Position, Slot, Spot
from shows.models import PUT_BY_PEOPLE, Engagement, ShowSpot
from venue.instants import the_instant
from venue.models import Place, Placement, Setup, Unit


@dataclass(frozen=True)
class Tonight:
    """The places in use at an instant, in the house's order. `places[i]` is `house.slots[i]`.

    `units` go by the place's primary key and come with their tags, sources and frames only; `idle` are the
    places that the show may use and does not.
    """

    at: datetime
    house: House
    places: tuple[Place, ...]
    idle: tuple[Place, ...]
    units: Mapping[int, Unit]

    @cached_property
    def slot_of(self) -> dict[int, int]:
        """Slot by the place's primary key."""
        return {place.pk: slot for slot, place in enumerate(self.places)}

    def unit_at(self, slot: int) -> str:
        """The tag of the unit that stands there then; empty where none does."""
        return self.tag_at(self.places[slot])

    def tag_at(self, place: Place) -> str:
        """As `unit_at`, of any place that the show may use."""
        unit = self.units.get(place.pk)
        return unit.tag if unit else ""


@dataclass(frozen=True)
class ShowNumbers:
    """The show's spots in natural order, and what each is bound to: (spot, place, source), primary keys, by team."""

    spots: tuple[ShowSpot, ...]
    bindings: tuple[tuple[int, int, str], ...]

    @cached_property
    def asked(self) -> list[Spot]:
        """The spots as the comparison takes them, in the paperwork's words."""
        return [_spot(spot) for spot in self.spots]

    @cached_property
    def source_at(self) -> dict[int, str]:
        """What bound each place, by the place's primary key."""
        return {place: source for _spot, place, source in self.bindings}

    def bound(self, tonight: Tonight, *, only_by_hand: bool = False) -> dict[str, list[int]]:
        """Show number -> the slots that it is bound to, those in use."""
        numbers = {spot.pk: spot.number for spot in self.spots}
        found: dict[str, list[int]] = {}
        for spot, place, source in self.bindings:
            is_taken = source in PUT_BY_PEOPLE or not only_by_hand
            if is_taken and spot in numbers and place in tonight.slot_of:
                found.setdefault(numbers[spot], []).append(tonight.slot_of[place])
        return found


def show_instant(engagement: Engagement) -> datetime:
    """When it counts who stands where: the first show's start, else noon of the first day in the house."""
    shows = engagement.events.standing().filter(kind="show").order_by("starts_at")
    first = shows.values_list("starts_at", flat=True).first()
    if first is not None:
        return first
    return the_instant(datetime.combine(engagement.starts_on, time(12)), engagement.house.time_zone, fold=0)


def places_tonight(engagement: Engagement, at: datetime) -> Tonight:
    """The places in use at the instant: where a unit stands, unless a person said otherwise.

    Two queries, however many places.
    """
    units = _units_at(engagement, at)
    used: list[Place] = []
    idle: list[Place] = []
    zones: dict[int, str] = {}
    for place in _places_as_said(engagement):
        is_used = place.pk in units if place.said is None else place.said
        (used if is_used else idle).append(place)
        if place.zone_here is not None:
            zones[place.position_id] = place.zone_here
    return Tonight(at, house_with(engagement.setup, used, zones), tuple(used), tuple(idle), units)


def _places_as_said(engagement: Engagement) -> QuerySet:
    """The places, each with what a person `said` of its use and the zone of its position in the set-up, or None."""
    use = FilteredRelation("place_uses", condition=Q(place_uses__engagement=engagement))
    zone = FilteredRelation("position__setup_zones", condition=Q(position__setup_zones__setup=engagement.setup_id))
    places = places_for(engagement).only(*_READ).annotate(use_here=use, setup_zone=zone)
    places = places.annotate(said=F("use_here__in_use"), zone_here=F("setup_zone__zone"))
    return places.order_by("position__row_order", "position_id", "sort_key", "pk")


_READ_OF_PLACES = ("label", "label_key", "sort_key", "x_m", "y_m", "z_m", "bearing_deg", "row_order", "operated_from")
_READ_OF_POSITIONS = (
    *("house", "name", "zone", "kind", "level", "row_order", "only_for"),
    *("access", "fall_protection", "show_exit", "show_exit_words", "power_switched_at"),
    *("needs", "load_limit_kg", "seats_lost"),
)
_READ = (
    *("ref", "only_for", "ended_at", "position", *_READ_OF_PLACES),
    *(f"position__{name}" for name in _READ_OF_POSITIONS),
)
"""What comparisons, drawings and sheets read of a place; a page of sixty need not fetch the rest."""


def _units_at(engagement: Engagement, at: datetime) -> dict[int, Unit]:
    """The unit at each place of the house, by the place's primary key."""
    stays = Placement.objects.at(at).filter(unit__house=engagement.house_id, unit__ended_at__isnull=True)
    read = ("unit__tag", "unit__source", "unit__frames", "unit__frame_1_end")
    stays = stays.select_related("unit").only("place", *read).order_by()
    return {stay.place_id: stay.unit for stay in stays if stay.place_id is not None}


def house_with(setup: Setup, places: Sequence[Place], zones: Mapping[int, str]) -> House:
    """The places, given in the house's order, as the comparison takes them; `zones` are the set-up's own."""
    groups: dict[int, list[Place]] = {}
    for place in places:
        groups.setdefault(place.position_id, []).append(place)
    return House(
        positions=tuple(_position(group, zones) for group in groups.values()),
        target=(setup.target_x_m, setup.target_y_m, setup.target_z_m),
        prompt_side=setup.prompt_side,
        twelve_deg=setup.twelve_deg,
    )


def _position(places: Sequence[Place], zones: Mapping[int, str]) -> Position:
    position = places[0].position
    return Position(
        name=position.name,
        slots=tuple(_slot(place) for place in places),
        zone=zones.get(position.pk, position.zone),  # type: ignore[arg-type]
        kind=position.kind,
        level=position.level or 0.0,
    )


def _slot(place: Place) -> Slot:
    return Slot(place.label, place.x_m, place.y_m, place.z_m, place.bearing_deg, place.row_order)


def numbers_of(engagement: Engagement) -> ShowNumbers:
    """The show's spots and what binds them. One query, however many."""
    standing = FilteredRelation("spot_places", condition=Q(spot_places__ended_at__isnull=True))
    rows = ShowSpot.objects.standing().filter(engagement=engagement).annotate(binding=standing)
    rows = rows.annotate(bound_to=F("binding__place_id"), source=F("binding__source"))
    spots, bindings = {}, []
    for spot in rows.order_by("sort_key", "pk", "binding__team_order"):
        spots[spot.pk] = spot  # once for each place of a team
        if spot.bound_to is not None:
            bindings.append((spot.pk, spot.bound_to, spot.source))
    return ShowNumbers(tuple(spots.values()), tuple(bindings))


def compared(
    engagement: Engagement, tonight: Tonight, numbers: ShowNumbers, *, only_by_hand: bool = False
) -> Comparison:
    """The show's numbers held against the places in use: bound places first, the paperwork's words for the rest.

    `only_by_hand` takes as bound what a person bound, and follows the paperwork anew for all else.
    """
    bound = numbers.bound(tonight, only_by_hand=only_by_hand)
    return compare(tonight.house, numbers.asked, engagement.statement or None, given=bound)


def numbers_at(tonight: Tonight, comparison: Comparison) -> dict[int, str]:
    """Show number by the place's primary key, where the comparison put one."""
    return {tonight.places[pair.slot].pk: pair.number for pair in comparison.pairs}


def obeying(engagement: Engagement, tonight: Tonight, numbers: ShowNumbers) -> Comparison:
    """Where the show's own statement and place words put its numbers, whatever labels or hands say."""
    spots = [replace(spot, label=None) for spot in numbers.asked]
    return compare(tonight.house, spots, engagement.statement or None)


def _spot(spot: ShowSpot) -> Spot:
    return Spot(
        number=spot.number,
        label=spot.house_label or None,
        position=spot.position_words or None,
        side=spot.side or None,
        nth=spot.nth or None,
        whose_left=spot.whose_left or None,
    )
