"""The rows of a house, brought to what a file says, section by section; nothing is ended or taken away."""

from collections.abc import Callable
from dataclasses import fields
from typing import Any

from venue import actions
from venue.core.names import name_key
from venue.errors import AlreadyEnded
from venue.house_file.keys import columns_of
from venue.house_file.lighting import put_areas, put_blockages, put_stock
from venue.house_file.order import merged_order
from venue.house_file.paths import Path
from venue.house_file.records import HouseFile, HouseRecord, PositionRecord, SetupRecord, SlotRecord, UnitRecord
from venue.house_file.rows import AnyRow, Rows
from venue.house_file.standing import put_placements, slots_of, stand_units
from venue.models import Setup


def load(rows: Rows, file: HouseFile) -> None:
    """Add and change rows until they say what the file says; what is refused is in `rows.problems`."""
    rows.change(("house",), rows.house, columns_of_house(file.house))
    put_stock(rows, file)
    for index, unit in enumerate(file.units):
        _put_unit(rows, ("units", index), unit)
    _put_positions(rows, file)
    _put_operators(rows, file)
    put_blockages(rows, file)
    _put_setups(rows, file)
    put_placements(rows, file)
    stand_units(rows, file)
    _end_units(rows, file)


def _put_unit(rows: Rows, path: Path, record: UnitRecord) -> None:
    stored = rows.units.get(record.key)
    if stored is not None and stored.ended_at is not None and "ended_at" not in record.given:
        rows.refuse((*path, "tag"), AlreadyEnded(stored, stored.ended_at))
        return
    values = columns_of(record, "ended_at", "ended_reason")
    unit = rows.put(path, stored, _adder(actions.add_unit, house=rows.house), values)
    if unit is not None:
        rows.units[record.key] = unit


def _end_units(rows: Rows, file: HouseFile) -> None:
    """After all placements: a unit that has ended stood somewhere before."""
    for index, record in enumerate(file.units):
        unit = rows.units.get(record.key)
        if unit is not None and unit.ended_at is None and record.ended_at is not None:
            with rows.at(("units", index, "ended")):
                actions.end_unit(actor=rows.actor, unit=unit, at=record.ended_at, reason=record.ended_reason)


def _put_positions(rows: Rows, file: HouseFile) -> None:
    before = _order(rows)
    for index, record in enumerate(file.positions):
        path, add = ("positions", index), _adder(actions.add_position, house=rows.house)
        position = rows.put(path, rows.positions.get(record.key), add, _columns(record, "slots", "blocked"))
        if position is not None:
            rows.positions[record.key] = position
            _put_places(rows, path, record)
    _put_in_order(rows, before, [record.key for record in file.positions])


def _put_places(rows: Rows, path: Path, record: PositionRecord) -> None:
    add = _adder(actions.add_place, position=rows.positions[record.key])
    for index, slot in enumerate(record.slots):
        key = (record.key, slot.key)
        place = rows.put((*path, "slots", index), rows.places.get(key), add, _columns_of_place(rows, slot))
        if place is not None:
            rows.places[key] = place


def _order(rows: Rows) -> list[str]:
    return sorted(rows.positions, key=lambda key: rows.positions[key].row_order)


def _put_in_order(rows: Rows, before: list[str], named: list[str]) -> None:
    """The order of the file is the house's order of its positions."""
    wanted = merged_order(before, [key for key in named if key in rows.positions])
    if wanted != _order(rows):
        for index, key in enumerate(wanted):
            rows.change(("positions",), rows.positions[key], {"row_order": index})


def _put_operators(rows: Rows, file: HouseFile) -> None:
    """After all places, since a place may be operated from a later one."""
    for path, name, slot in slots_of(file):
        elsewhere = rows.places.get(slot.operated_from.key) if slot.operated_from else None
        if elsewhere is not None and name.key in rows.places:
            rows.change((*path, "operated_from"), rows.places[name.key], {"operated_from": elsewhere})


def _put_setups(rows: Rows, file: HouseFile) -> None:
    usual = rows.house.setups.filter(is_default=True).first()
    _put_setup(rows, ("house",), usual, file.house.setup, is_default=True)
    others = {setup.name: setup for setup in rows.house.setups.filter(is_default=False)}
    for index, record in enumerate(file.setups):
        _put_setup(rows, ("setups", index), others.get(record.name), record, is_default=False)


def _put_setup(rows: Rows, path: Path, stored: Setup | None, record: SetupRecord, *, is_default: bool) -> None:
    add = _adder(actions.add_setup, house=rows.house, is_default=is_default)
    setup = rows.put(path, stored, add, columns_of_setup(record))
    if setup is not None:
        _put_zones(rows, path, setup, record)
        put_areas(rows, path, setup, record.areas)


def _put_zones(rows: Rows, path: Path, setup: Setup, record: SetupRecord) -> None:
    standing = {zone.position_id: zone.zone for zone in setup.zones.all()}
    for name, zone in record.zones:
        position = rows.positions.get(name_key(name))
        if position is not None and standing.get(position.pk) != zone:
            with rows.at((*path, "zones", name)):
                actions.set_zone(actor=rows.actor, setup=setup, position=position, zone=zone)


def _adder(verb: Callable[..., AnyRow], **parent: Any) -> Callable[..., AnyRow]:
    return lambda **values: verb(**parent, **values)


def columns_of_house(house: HouseRecord) -> dict[str, Any]:
    """The columns of `House` but its slug."""
    return {
        "name": house.name,
        "time_zone": house.time_zone,
        "unit_system": house.units,
        "day_turns_at": house.day_turns_at,
        "burn_before_min": house.burn_before_min,
        "usual_event_min": house.usual_event_min,
        "use_window_days": house.use_window_days,
        "tech_note": house.tech_note,
    }


def columns_of_setup(setup: SetupRecord) -> dict[str, Any]:
    """The columns of `Setup`."""
    x_m, y_m, z_m = setup.target
    columns = _columns(setup, "target", "zones", "areas")
    return {**columns, "target_x_m": x_m, "target_y_m": y_m, "target_z_m": z_m}


def _columns_of_place(rows: Rows, slot: SlotRecord) -> dict[str, Any]:
    circuit = rows.circuits.get(name_key(slot.circuit))
    return {**_columns(slot, "order", "unit", "operated_from", "circuit"), "row_order": slot.order, "circuit": circuit}


def _columns(record: Any, *others: str) -> dict[str, Any]:
    """The record's fields that are columns of the same name."""
    left_out = {"given", *others}
    return {each.name: getattr(record, each.name) for each in fields(record) if each.name not in left_out}
