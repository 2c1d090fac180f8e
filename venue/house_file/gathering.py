"""A house's rows as the records of a house file.

Positions and places that have ended are history and no part of the file, nor are the placements there and what is in
their way, circuits, filters and areas that have ended, plans that were taken back and whatever a single engagement
brings along. Units stay in it with their end: a lamp's hours may be from there.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from django.db.models import Prefetch

from venue.core.bearings import wrapped
from venue.house_file.book.gathering import gathered_book
from venue.house_file.checking.names import USUAL_SETUP
from venue.house_file.keys import record_of
from venue.house_file.records import (
    AreaRecord,
    BlockageRecord,
    CircuitRecord,
    ElsewhereRecord,
    FilterRecord,
    HouseFile,
    HouseRecord,
    PlacementRecord,
    PlaceName,
    PositionRecord,
    SetupRecord,
    SizeRecord,
    SlotRecord,
    UnitRecord,
)
from venue.models import Area, Blockage, Circuit, House, PickUpSize, Place, Placement, Position, Setup, Unit
from venue.models.optics import SizeName

Places = Mapping[int, Place]
"""The places in the file by their primary keys."""


def gathered(house: House) -> HouseFile:
    """The house as it is stored now."""
    positions = list(house.positions.standing().of_house().order_by("row_order", "pk"))
    places = _places_in(positions)
    circuits = list(house.circuits.standing().order_by("name_key"))
    blockages = _blockages_in(positions, places)
    setups = [_setup(setup, positions) for setup in _setups_of(house)]
    usual = house.setups.filter(is_default=True).values_list("name", flat=True).first()
    units = list(house.units.order_by("tag_key"))
    return HouseFile(
        house=_house(house, next((setup for setup in setups if setup.name == usual), SetupRecord(USUAL_SETUP))),
        positions=tuple(_position(position, places, circuits, blockages[position.pk]) for position in positions),
        setups=tuple(setup for setup in setups if setup.name != usual),
        circuits=tuple(record_of(CircuitRecord, circuit) for circuit in circuits),
        filters=tuple(record_of(FilterRecord, row) for row in house.color_filters.standing().order_by("code_key")),
        sizes=tuple(record_of(SizeRecord, row) for row in _sizes_of(house)),
        units=tuple(record_of(UnitRecord, unit) for unit in units),
        placements=tuple(
            _placement(row, places[row.place_id]) for row in _placements_of(units, places) if row.place_id is not None
        ),
        elsewhere=tuple(record_of(ElsewhereRecord, row, unit=row.unit.tag) for row in _away(units)),
        book=gathered_book(house, units),
    )


def _setups_of(house: House) -> Iterable[Setup]:
    areas = Prefetch("areas", Area.objects.standing().order_by("name_key"))
    return house.setups.prefetch_related("zones", areas).order_by("name", "pk")


def _sizes_of(house: House) -> list[PickUpSize]:
    return sorted(house.pick_up_sizes.all(), key=lambda row: SizeName.values.index(row.size))


def _blockages_in(positions: list[Position], places: Places) -> Mapping[int, list[Blockage]]:
    """The house's own in the order of their noting, by position."""
    found = defaultdict(list)
    for each in Blockage.objects.standing().of_house().filter(position__in=positions).order_by("pk"):
        if each.place_id is None or each.place_id in places:
            found[each.position_id].append(each)
    return found


def _away(units: list[Unit]) -> Iterable[Placement]:
    found = Placement.objects.real().filter(unit__in=units, place__isnull=True).select_related("unit")
    return sorted(found, key=lambda row: (row.starts_at, row.unit.tag_key, row.pk))


def _places_in(positions: list[Position]) -> Places:
    places = Place.objects.standing().of_house().filter(position__in=positions)
    return {place.pk: place for place in places.select_related("position").order_by("sort_key", "pk")}


def _placements_of(units: list[Unit], places: Places) -> Iterable[Placement]:
    found = Placement.objects.real().filter(unit__in=units, place__in=places)
    rows = found.select_related("unit", "place__position")
    return sorted(rows, key=lambda row: (row.starts_at, row.unit.tag_key, row.pk))


def _house(house: House, setup: SetupRecord) -> HouseRecord:
    return HouseRecord(
        name=house.name,
        slug=house.slug,
        setup=setup,
        time_zone=house.time_zone,
        units=house.unit_system,
        day_turns_at=house.day_turns_at,
        burn_before_min=house.burn_before_min,
        usual_event_min=house.usual_event_min,
        use_window_days=house.use_window_days,
        tech_note=house.tech_note,
    )


def _setup(setup: Setup, positions: list[Position]) -> SetupRecord:
    changed = {zone.position_id: zone.zone for zone in setup.zones.all()}
    return SetupRecord(
        name=setup.name,
        layout=setup.layout,
        opening_m=setup.opening_m,
        depth_m=setup.depth_m,
        apron_m=setup.apron_m,
        prompt_side=setup.prompt_side,
        target=(setup.target_x_m, setup.target_y_m, setup.target_z_m),
        twelve_deg=wrapped(setup.twelve_deg),
        house_left_landmark=setup.house_left_landmark,
        house_right_landmark=setup.house_right_landmark,
        stage_end_landmark=setup.stage_end_landmark,
        opening_text=setup.opening_text,
        depth_text=setup.depth_text,
        apron_text=setup.apron_text,
        target_x_text=setup.target_x_text,
        target_y_text=setup.target_y_text,
        target_z_text=setup.target_z_text,
        zones=tuple((each.name, changed[each.pk]) for each in positions if each.pk in changed),
        areas=tuple(record_of(AreaRecord, area, corners=area.polygon) for area in setup.areas.all()),
    )


def _position(
    position: Position, places: Places, circuits: Iterable[Circuit], blockages: Iterable[Blockage]
) -> PositionRecord:
    names = {circuit.pk: circuit.name for circuit in circuits}
    own = [place for place in places.values() if place.position_id == position.pk]
    return PositionRecord(
        name=position.name,
        kind=position.kind,
        zone=position.zone,
        level=position.level,
        access=position.access,
        access_min=position.access_min,
        passage_m=position.passage_m,
        passage_text=position.passage_text,
        load_limit_kg=position.load_limit_kg,
        power=position.power,
        power_switched_at=position.power_switched_at,
        intercom=position.intercom,
        glass=position.glass,
        fall_protection=position.fall_protection,
        rescue_plan=position.rescue_plan,
        show_exit=position.show_exit,
        show_exit_words=position.show_exit_words,
        who_may_operate=position.who_may_operate,
        checked_on=position.checked_on,
        checked_by=position.checked_by,
        glass_loss_pct=position.glass_loss_pct,
        other_load_kg=position.other_load_kg,
        seats_lost=position.seats_lost,
        needs=position.needs,
        farthest_upstage_m=position.farthest_upstage_m,
        farthest_upstage_text=position.farthest_upstage_text,
        farthest_downstage_m=position.farthest_downstage_m,
        farthest_downstage_text=position.farthest_downstage_text,
        pan_from_deg=position.pan_from_deg,
        pan_to_deg=position.pan_to_deg,
        blocked=tuple(_blockage(each, places) for each in blockages),
        slots=tuple(_slot(place, places, names.get(place.circuit_id or 0, "")) for place in own),
    )


def _blockage(blockage: Blockage, places: Places) -> BlockageRecord:
    label = "" if blockage.place_id is None else places[blockage.place_id].label
    return record_of(BlockageRecord, blockage, place=label, corners=blockage.polygon)


def _slot(place: Place, places: Places, circuit: str) -> SlotRecord:
    elsewhere = places.get(place.operated_from_id or 0)
    return SlotRecord(
        label=place.label,
        x_m=place.x_m,
        y_m=place.y_m,
        z_m=place.z_m,
        x_text=place.x_text,
        y_text=place.y_text,
        z_text=place.z_text,
        throw_m=place.throw_m,
        throw_text=place.throw_text,
        throw_end=place.throw_end,
        throw_mark=place.throw_mark,
        throw_end_y_m=place.throw_end_y_m,
        throw_end_text=place.throw_end_text,
        bearing_deg=None if place.bearing_deg is None else wrapped(place.bearing_deg),
        order=place.row_order,
        operated_from=None if elsewhere is None else _place_name(elsewhere),
        circuit=circuit,
    )


def _place_name(place: Place) -> PlaceName:
    return PlaceName(place.position.name, place.label)


def _placement(placement: Placement, place: Place) -> PlacementRecord:
    return PlacementRecord(
        unit=placement.unit.tag,
        place=_place_name(place),
        starts_at=placement.starts_at,
        ends_at=placement.ends_at,
    )
