"""A file laid over the house as it is stored: what the file leaves out stays as it is."""

from collections.abc import Iterable, Sequence
from dataclasses import fields, replace
from typing import Any, TypeVar

from venue.core.names import name_key
from venue.house_file.book.pairing import book_over, laid_over
from venue.house_file.records import (
    STOCK,
    HouseFile,
    HouseRecord,
    PlacementRecord,
    PlaceName,
    PositionRecord,
    SetupRecord,
    SlotRecord,
)
from venue.house_file.typed import without_stale_texts

AnyRecord = TypeVar("AnyRecord", HouseRecord, SetupRecord, PositionRecord, SlotRecord)


def overlaid(stored: HouseFile, file: HouseFile) -> HouseFile:
    """The file with every value that it does not give taken from the stored house.

    Things only stored are not in it. A `slots[].unit` that stands there already becomes its stored placement.
    """
    setups = {setup.name: setup for setup in stored.setups}
    positions = {position.key: position for position in stored.positions}
    standing = [placement for placement in stored.placements if placement.ends_at is None]
    return replace(
        file,
        house=_house(stored.house, file.house),
        setups=tuple(_setup(setups.get(each.name), each) for each in file.setups),
        positions=tuple(_position(positions.get(each.key), each, standing) for each in file.positions),
        **{name: laid_over(getattr(stored, name), getattr(file, name)) for name in STOCK},
        units=laid_over(stored.units, file.units),
        placements=tuple(_placements(stored, file, standing)),
        elsewhere=laid_over(stored.elsewhere, file.elsewhere),
        book=book_over(stored.book, file.book),
    )


def _over(stored: AnyRecord | None, file: AnyRecord, **made: Any) -> AnyRecord:
    if stored is None:
        return replace(file, **made)
    left_out = {each.name for each in fields(file)} - file.given - made.keys() - {"given"}
    laid = replace(file, **{name: getattr(stored, name) for name in left_out}, **made)
    return without_stale_texts(laid, stored, file.given)


def _house(stored: HouseRecord, file: HouseRecord) -> HouseRecord:
    return _over(stored, file, slug=stored.slug, setup=_setup(stored.setup, file.setup))


def _setup(stored: SetupRecord | None, file: SetupRecord) -> SetupRecord:
    if stored is None:
        return file
    changed = {name_key(name): (name, zone) for name, zone in file.zones}
    kept = [(name, changed.pop(name_key(name), (name, zone))[1]) for name, zone in stored.zones]
    return _over(stored, file, zones=(*kept, *changed.values()), areas=laid_over(stored.areas, file.areas))


def _position(
    stored: PositionRecord | None, file: PositionRecord, standing: Sequence[PlacementRecord]
) -> PositionRecord:
    slots = {slot.key: slot for slot in stored.slots} if stored else {}
    laid = (_slot(slots.get(each.key), each) for each in file.slots)
    blocked = laid_over(stored.blocked, file.blocked) if stored else file.blocked
    places = tuple(_without_unit_that_stands(file, each, standing) for each in laid)
    return _over(stored, file, slots=places, blocked=blocked)


def _slot(stored: SlotRecord | None, file: SlotRecord) -> SlotRecord:
    """The same circuit in another spelling is no change."""
    if stored is None:
        return file
    is_same = name_key(file.circuit) == name_key(stored.circuit)
    return _over(stored, file, **({"circuit": stored.circuit} if is_same else {}))


def _without_unit_that_stands(
    position: PositionRecord, slot: SlotRecord, standing: Sequence[PlacementRecord]
) -> SlotRecord:
    return replace(slot, unit=None) if _stay_of(position, slot, standing) else slot


def _stay_of(position: PositionRecord, slot: SlotRecord, standing: Iterable[PlacementRecord]) -> PlacementRecord | None:
    """The open placement that the slot's `unit` is short for, if there is one."""
    place = PlaceName(position.name, slot.label).key
    wanted = None if slot.unit is None else name_key(slot.unit)
    return next((each for each in standing if each.key[:2] == (wanted, place)), None)


def _placements(stored: HouseFile, file: HouseFile, standing: Sequence[PlacementRecord]) -> Iterable[PlacementRecord]:
    known = {placement.key: placement for placement in stored.placements}
    named = {placement.key for placement in file.placements}
    for placement in file.placements:
        yield _placement(known.get(placement.key), placement)
    for position in file.positions:
        for slot in position.slots:
            stay = _stay_of(position, slot, standing)
            if stay is not None and stay.key not in named:
                yield stay


def _placement(stored: PlacementRecord | None, file: PlacementRecord) -> PlacementRecord:
    if stored is None:
        return file
    ends_at = file.ends_at if "until" in file.given else stored.ends_at
    return replace(file, unit=stored.unit, place=stored.place, ends_at=ends_at)
