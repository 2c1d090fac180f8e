"""Who stands where, brought to what a file says."""

from collections.abc import Iterator
from datetime import datetime

from venue import actions
from venue.actions.locking import lock
from venue.actions.staying import begin_elsewhere
from venue.core.names import name_key
from venue.errors import AlreadyEnded
from venue.history import record as record_event
from venue.house_file.paths import Path
from venue.house_file.records import ElsewhereRecord, HouseFile, PlacementRecord, PlaceName, SlotRecord
from venue.house_file.rows import Rows
from venue.models import Placement, Unit
from venue.models.units import Elsewhere

Stay = PlacementRecord | ElsewhereRecord


def put_placements(rows: Rows, file: HouseFile) -> None:
    """Placements that are stored already come first: one that ends makes room for a new one."""
    new: list[Stay] = []
    named: list[Stay] = [*file.placements, *file.elsewhere]
    for record in named:
        stored = _stored(rows, record)
        if stored is None:
            new.append(record)
            continue
        if stored.ends_at != record.ends_at:
            _end(rows, (*record.path, "until"), stored, record.ends_at)
        if isinstance(record, ElsewhereRecord) and stored.elsewhere_words != record.elsewhere_words:
            rows.change(record.path, stored, {"elsewhere_words": record.elsewhere_words})
    for record in new:
        _begin(rows, record.path, record)


def _stored(rows: Rows, record: Stay) -> Placement | None:
    found = rows.placements(record.unit, record.place) if isinstance(record, PlacementRecord) else rows.away(record)
    stays = found.filter(starts_at=record.starts_at).select_related("unit__house", "place__position")
    placement: Placement | None = stays.first()
    return placement


def _end(rows: Rows, path: Path, stored: Placement, ends_at: datetime | None) -> None:
    with rows.at(path):
        if ends_at is None:
            raise AlreadyEnded(stored, stored.ends_at or rows.now)
        actions.end_placement(actor=rows.actor, placement=stored, at=ends_at)


def _begin(rows: Rows, path: Path, record: Stay) -> None:
    unit = rows.units.get(name_key(record.unit))
    if unit is None:
        return
    with rows.at(path):
        if isinstance(record, ElsewhereRecord):
            _send(rows, unit, record)
        elif record.place.key in rows.places:
            place, starts_at, ends_at = rows.places[record.place.key], record.starts_at, record.ends_at
            actions.place_unit(actor=rows.actor, unit=unit, place=place, starts_at=starts_at, ends_at=ends_at)


def _send(rows: Rows, unit: Unit, record: ElsewhereRecord) -> None:
    """A stay elsewhere as the file has it: where the unit was before is told by its other placements."""
    lock(Unit, [unit])
    where, words = Elsewhere(record.elsewhere), record.elsewhere_words
    stay = begin_elsewhere(unit, where, words, record.starts_at, record.ends_at)
    facts = {"from_place": "", "where": stay.where, "at": record.starts_at, "until": record.ends_at}
    record_event(rows.actor, "unit.sent", unit, house=rows.house, tag=unit.tag, **facts)


def stand_units(rows: Rows, file: HouseFile) -> None:
    """A unit named at a slot stands there from now on, unless it does already."""
    for path, name, slot in slots_of(file):
        if slot.unit is not None and not rows.placements(slot.unit, name).still_open().exists():
            _begin(rows, (*path, "unit"), PlacementRecord(slot.unit, name, starts_at=rows.now))


def slots_of(file: HouseFile) -> Iterator[tuple[Path, PlaceName, SlotRecord]]:
    """Each slot with its path and the name of its place."""
    for index, position in enumerate(file.positions):
        for number, slot in enumerate(position.slots):
            yield ("positions", index, "slots", number), PlaceName(position.name, slot.label), slot
