"""The places in use for a show, as rows and as the comparison takes them, and the verdict on its numbers.

rows --places_tonight--> Tonight --compared--> Comparison
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, time
from functools import cached_property

from shows.access import places_for
from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison, House, Position, Slot, Spot
from shows.models import Engagement, ShowSpot, Source, SpotPlace
from venue.instants import the_instant
from venue.models import Place, Placement, Setup, SetupZone, Unit


@dataclass(frozen=True)
class Tonight:
    """The places in use at an instant, in the house's order. `places[i]` is `house.slots[i]`."""

    at: datetime
    house: House
    places: tuple[Place, ...]
    units: Mapping[int, Unit]

    @cached_property
    def slot_of(self) -> dict[int, int]:
        """Slot by the place's primary key."""
        return {place.pk: slot for slot, place in enumerate(self.places)}

    def unit_at(self, slot: int) -> Unit | None:
        """The unit that stands there then."""
        return self.units.get(self.places[slot].pk)


def show_instant(engagement: Engagement) -> datetime:
    """When it counts who stands where: the first show's start, else noon of the first day in the house."""
    event = engagement.events.standing().filter(kind="show").order_by("starts_at").first()
    if event is not None:
        return event.starts_at
    return the_instant(datetime.combine(engagement.starts_on, time(12)), engagement.house.time_zone, fold=0)


def places_tonight(engagement: Engagement, at: datetime) -> Tonight:
    """The places in use at the instant: where a unit stands, unless a person said otherwise.

    Four queries, however many places.
    """
    open_places = list(places_for(engagement))
    standing = Placement.objects.at(at).filter(place__in=open_places, unit__ended_at__isnull=True)
    units = {placement.place_id: placement.unit for placement in standing.select_related("unit")}
    zones = dict(SetupZone.objects.filter(setup=engagement.setup_id).values_list("position", "zone"))
    said = dict(engagement.place_uses.values_list("place", "in_use"))
    used = [place for place in open_places if said.get(place.pk, place.pk in units)]
    return Tonight(at, house_with(engagement.setup, used, zones), tuple(used), units)


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


def compared(engagement: Engagement, tonight: Tonight, *, only_by_hand: bool = False) -> Comparison:
    """The show's numbers held against the places in use: bound places first, the paperwork's words for the rest.

    `only_by_hand` takes as bound what a person bound, and follows the paperwork anew for all else.
    """
    rows = SpotPlace.objects.standing().filter(engagement=engagement).select_related("spot")
    rows = rows.filter(source=Source.HAND) if only_by_hand else rows
    bound: dict[str, list[int]] = {}
    for row in rows.order_by("spot", "team_order"):
        if row.place_id in tonight.slot_of:
            bound.setdefault(row.spot.number, []).append(tonight.slot_of[row.place_id])
    return compare(tonight.house, spots_of(engagement), engagement.statement or None, given=bound)


def obeying(engagement: Engagement, tonight: Tonight) -> Comparison:
    """Where the show's own statement and place words put its numbers, whatever labels or hands say."""
    spots = [replace(spot, label=None) for spot in spots_of(engagement)]
    return compare(tonight.house, spots, engagement.statement or None)


def spots_of(engagement: Engagement) -> list[Spot]:
    """The show's spots as the comparison takes them."""
    return [_spot(spot) for spot in engagement.spots.standing()]


def _spot(spot: ShowSpot) -> Spot:
    return Spot(
        number=spot.number,
        label=spot.house_label or None,
        position=spot.position_words or None,
        side=spot.side or None,
        nth=spot.nth or None,
        whose_left=spot.whose_left or None,
    )
