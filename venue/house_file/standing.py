"""Who stands where, brought to what a file says."""

from collections.abc import Iterator
from datetime import datetime

from venue import actions
from venue.core.names import name_key
from venue.errors import AlreadyEnded
from venue.house_file.paths import Path
from venue.house_file.records import HouseFile, PlacementRecord, PlaceName, SlotRecord
from venue.house_file.rows import Rows
from venue.models import Placement


def put_placements(rows: Rows, file: HouseFile) -> None:
    """Placements that are stored already come first: one that ends makes room for a new one."""
    new: list[tuple[Path, PlacementRecord]] = []
    for index, record in enumerate(file.placements):
        stored = _stored(rows, record)
        if stored is None:
            new.append((("placements", index), record))
        elif stored.ends_at != record.ends_at:
            _end(rows, ("placements", index, "until"), stored, record.ends_at)
    for path, record in new:
        _place(rows, path, record)


def _stored(rows: Rows, record: PlacementRecord) -> Placement | None:
    found = rows.placements(record.unit, record.place).filter(starts_at=record.starts_at)
    placement: Placement | None = found.select_related("unit__house", "place__position").first()
    return placement


def _end(rows: Rows, path: Path, stored: Placement, ends_at: datetime | None) -> None:
    with rows.at(path):
        if ends_at is None:
            raise AlreadyEnded(stored, stored.ends_at or rows.now)
        actions.end_placement(actor=rows.actor, placement=stored, at=ends_at)


def _place(rows: Rows, path: Path, record: PlacementRecord) -> None:
    unit, place = rows.units.get(name_key(record.unit)), rows.places.get(record.place.key)
    if unit is None or place is None:
        return
    with rows.at(path):
        actions.place_unit(actor=rows.actor, unit=unit, place=place, starts_at=record.starts_at, ends_at=record.ends_at)


def stand_units(rows: Rows, file: HouseFile) -> None:
    """A unit named at a slot stands there from now on, unless it does already."""
    for path, name, slot in slots_of(file):
        if slot.unit is not None and not rows.placements(slot.unit, name).still_open().exists():
            _place(rows, (*path, "unit"), PlacementRecord(slot.unit, name, starts_at=rows.now))


def slots_of(file: HouseFile) -> Iterator[tuple[Path, PlaceName, SlotRecord]]:
    """Each slot with its path and the name of its place."""
    for index, position in enumerate(file.positions):
        for number, slot in enumerate(position.slots):
            yield ("positions", index, "slots", number), PlaceName(position.name, slot.label), slot
