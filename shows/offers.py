"""What the house offers each show number: its places with their units, as the fit takes them.

The number of queries does not depend on how many numbers and places there are.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from shows.check_marks import states_at
from shows.core.fit.records import LampEnd, Offer, UnitOffer
from shows.in_the_way import blockages_at
from shows.models import Engagement
from shows.outlook import LampCount, LampOutlook, outlooks_of
from venue.book import book_of_positions
from venue.condition import Condition, conditions_of
from venue.core.pick_ups import Size
from venue.core.sightlines import CAMERA_LIMIT_DEG
from venue.load_book import circuit_sums, stands_of
from venue.models import Blockage, LampTally, Place, Placement, Position, Unit
from venue.throw_book import PlaceLight, lights_in

UP_HIGH = frozenset({"overhead"})
READY = Condition()


@dataclass(frozen=True)
class HouseOffers:
    """What was fetched of the house for one show at one instant, by primary keys of places, units, positions."""

    lights: Mapping[int, PlaceLight]
    conditions: Mapping[int, Condition]
    lamps: Mapping[int, LampEnd]
    away: Mapping[int, str]
    blockages: Mapping[int, list[Blockage]]
    failed: Mapping[int, tuple[tuple[str, str], ...]]
    over: Mapping[int, tuple[str, float]]
    """By the place: the circuit that is over its rating and by how many amperes."""


def house_for_show(engagement: Engagement, places: Iterable[Place], at: datetime, now: datetime) -> HouseOffers:
    """Everything that offers of these places are made of; `at` is when the show is, `now` when it is asked."""
    keys = {place.pk for place in places}
    positions = Position.objects.filter(places__in=keys).distinct().order_by("row_order", "pk")
    entries = book_of_positions(engagement.setup, positions, at)
    lights = {light.place.pk: light for light in lights_in(entries, engagement.setup, at) if light.place.pk in keys}
    units = [light.unit for light in lights.values() if light.unit is not None]
    return HouseOffers(
        lights=lights,
        conditions=conditions_of(units, at),
        lamps=_lamp_ends(engagement, units, now),
        away=_away([key for key, light in lights.items() if light.unit is None], at),
        blockages=blockages_at(engagement, {light.place.position_id for light in lights.values()}),
        failed=_failed(engagement, keys),
        over=_over(engagement, at),
    )


def offer_at(house: HouseOffers, place_key: int, size: Size) -> Offer:
    """What the place offers for a number whose largest size is this one."""
    light = house.lights[place_key]
    place, position = light.place, light.place.position
    circuit, over_a = house.over.get(place_key, ("", None))
    return Offer(
        label=place.label,
        position=position.name,
        unit=None if light.unit is None else _unit(light.unit, house),
        away=house.away.get(place_key, ""),
        pick_ups=light.ability.pick_ups,
        lux=light.lux_on(size),
        is_steep_for_camera=None if light.line is None else light.line.angle_deg > CAMERA_LIMIT_DEG + 1e-9,
        fall_protection=position.fall_protection,  # type: ignore[arg-type]
        has_rescue_plan=bool(position.rescue_plan.strip()),
        is_up_high=light.entry.zone in UP_HIGH,
        show_exit=position.show_exit,  # type: ignore[arg-type]
        who_may_operate=position.who_may_operate,
        needs=position.needs,
        circuit=circuit,
        circuit_over_a=over_a,
        blockages=tuple(
            str(each) for each in house.blockages.get(position.pk, ()) if each.place_id in (None, place_key)
        ),
        failed=house.failed.get(place_key, ()),
    )


def _unit(unit: Unit, house: HouseOffers) -> UnitOffer:
    condition = house.conditions.get(unit.pk, READY)
    lamp = house.lamps.get(unit.pk)
    if condition.past_lamp:
        lamp = LampEnd(condition.past_lamp, is_past=True)
    stops = tuple(words for words in condition.stops if not condition.past_lamp or condition.past_lamp not in words)
    return UnitOffer(
        tag=unit.tag,
        source=unit.source,
        frames=unit.frames,
        frame_1_end=unit.frame_1_end,  # type: ignore[arg-type]
        magazine=unit.magazine,  # type: ignore[arg-type]
        frames_out=frozenset(condition.frames_out),
        limits=condition.limit_kinds,
        other_limits=condition.other_limits,
        stops=stops,
        is_dangerous=condition.is_dangerous,
        lamp=lamp,
    )


def _lamp_ends(engagement: Engagement, units: Iterable[Unit], now: datetime) -> dict[int, LampEnd]:
    """The lamps that pass their stop by the end of the show's last event, by the unit."""
    last = engagement.events.standing().order_by("-starts_at").first()
    if last is None:
        return {}
    until = last.ends_at or last.starts_at
    tallies = LampTally.objects.filter(unit__in=[unit.pk for unit in units], left_h__gt=0).select_related("lamp__kind")
    found = outlooks_of(engagement.house, map(LampCount.of, tallies), now).values()
    return {each.count.unit_id or 0: _lamp_end(each) for each in found if _passes_by(each, until)}


def _passes_by(each: LampOutlook, until: datetime) -> bool:
    return each.stops_in is not None and each.outlook.stops_at is not None and each.outlook.stops_at <= until


def _lamp_end(each: LampOutlook) -> LampEnd:
    event = each.stops_in
    if event is None:
        return LampEnd(each.count.lamp.serial)
    name = f"{event.engagement.name}, {event}"
    return LampEnd(each.count.lamp.serial, event=name, event_key=str(event.ref))


def _away(places: list[int], at: datetime) -> dict[int, str]:
    """Where the unit that stood last at each of the empty places is now, where it is elsewhere. Two queries."""
    before = Placement.objects.real().filter(place__in=places, ends_at__lte=at).order_by("ends_at")
    last = {stay.place_id: stay.unit_id for stay in before}
    elsewhere = Placement.objects.at(at).filter(unit__in=last.values(), place__isnull=True).select_related("unit")
    words = {stay.unit_id: str(stay) for stay in elsewhere}
    return {place: words[unit] for place, unit in last.items() if place is not None and unit in words}


def _failed(engagement: Engagement, places: Iterable[int]) -> dict[int, tuple[tuple[str, str], ...]]:
    """The items that the arrival check found failing at each place, with their notes. One query."""
    states = states_at(engagement, places)
    return {key: tuple((mark.item, mark.note) for mark in state.failed) for key, state in states.items()}


def _over(engagement: Engagement, at: datetime) -> dict[int, tuple[str, float]]:
    """The circuits over their rating by all that stands on them then, whether the show uses it or not."""
    found = {}
    for each in circuit_sums(stands_of(engagement.house, at)):
        if each.sum.verdict == "exceeded" and each.sum.over is not None:
            found.update({light.place.pk: (str(each.circuit), each.sum.over) for light in each.lights})
    return found


def largest_of(names: Iterable[str], sizes: Iterable[Size]) -> Size:
    """The largest of the sizes named; the largest of all where none is named or known."""
    known = list(sizes)
    wanted = set(names)
    return max([size for size in known if size.name in wanted] or known, key=lambda size: size.diameter_m)
