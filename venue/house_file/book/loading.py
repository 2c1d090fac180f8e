"""The book's records as rows, section by section: each refers only to what was stored before it."""

from typing import Any

from venue.core.names import name_key
from venue.history import record as record_event
from venue.house_file.book.bulk import Bulk
from venue.house_file.book.care import load_care
from venue.house_file.book.completing import Completed
from venue.house_file.book.entries import put_entries, struck_columns
from venue.house_file.book.log import load_log
from venue.house_file.keys import columns_of
from venue.house_file.records import (
    AddedRecord,
    FittingRecord,
    LampKindRecord,
    LampRecord,
    MeterRecord,
    ReadingRecord,
)
from venue.house_file.records.file import Book
from venue.house_file.rows import Rows
from venue.models import Fitting, HoursAdded, Lamp, LampDecision, LampKind, Meter, Reading
from venue.tallies import retally_house

Keys = dict[Any, int | None]
"""Primary keys by what tells the things apart; None for one that could not be stored."""


def load_book(rows: Rows, stored: Book, completed: Completed) -> None:
    """Add and change rows until they say what the book says; what is refused is in `rows.problems`."""
    bulk, book = Bulk(rows, stored), completed.book
    kinds = _load_kinds(bulk, book)
    lamps = _load_lamps(bulk, book, kinds)
    _load_meters(bulk, book)
    _load_readings(bulk, completed)
    fittings = _load_fittings(bulk, completed, lamps)
    entries = load_log(bulk, book, fittings)
    load_care(bulk, book, entries)
    if (bulk.made or bulk.changed) and not rows.problems:
        retally_house(rows.house)
    if bulk.made:
        listed = ", ".join(f"{section} {count}" for section, count in sorted(bulk.made.items()))
        record_event(rows.actor, "house.book_loaded", rows.house, house=rows.house, listed=listed)


def _load_kinds(bulk: Bulk, book: Book) -> Keys:
    """The kinds' primary keys by name."""
    house = bulk.rows.house

    def columns(kind: LampKindRecord) -> dict[str, Any]:
        return {"house_id": house.pk, **columns_of(kind)}

    bulk.put("lamp_kinds", LampKind, book.lamp_kinds, columns)
    return {kind.key: bulk.key_of(kind) for kind in book.lamp_kinds}


def _load_lamps(bulk: Bulk, book: Book, kinds: Keys) -> Keys:
    """The lamps' primary keys by serial; with their decisions."""
    house = bulk.rows.house

    def columns(lamp: LampRecord) -> dict[str, Any]:
        return {"house_id": house.pk, **columns_of(lamp, "kind"), "kind_id": kinds[name_key(lamp.kind)]}

    bulk.put("lamps", Lamp, book.lamps, columns)
    decisions = [
        (each, {"lamp_id": bulk.key_of(lamp), **columns_of(each)})
        for lamp in book.lamps
        for each in lamp.decisions
        if each.row is None
    ]
    bulk.create("decisions", LampDecision, decisions)
    return {lamp.key: bulk.key_of(lamp) for lamp in book.lamps}


def _load_meters(bulk: Bulk, book: Book) -> None:
    units = bulk.rows.units

    def columns(meter: MeterRecord) -> dict[str, Any]:
        return {**columns_of(meter, "unit"), "unit_id": units[meter.unit_key].pk}

    bulk.put("meters", Meter, book.meters, columns)


def _load_readings(bulk: Bulk, completed: Completed) -> None:
    units, book = bulk.rows.units, completed.book
    meters = {id(each): bulk.key_of(run.meter) for run in completed.runs.all() for each in run.readings}

    def columns(reading: ReadingRecord) -> dict[str, Any]:
        own = {name: getattr(reading, name) for name in ("at", "hours", "strikes", "cause")}
        return {**own, **struck_columns(reading), "meter_id": meters.get(id(reading), reading.meter)}

    def added(hours: AddedRecord) -> dict[str, Any]:
        own = {name: getattr(hours, name) for name in ("at", "hours", "strikes", "why")}
        return {**own, **struck_columns(hours), "unit_id": units[hours.unit_key].pk}

    put_entries(bulk, "readings", Reading, book.readings, columns, ("hours", "strikes"))
    put_entries(bulk, "hours_added", HoursAdded, book.hours_added, added, ("hours", "strikes"))


def _load_fittings(bulk: Bulk, completed: Completed, lamps: Keys) -> Keys:
    """The fittings' primary keys by lamp, unit and start."""
    units, fittings = bulk.rows.units, completed.book.fittings
    read = {(each.unit_key, each.at, each.hours): each for each in completed.book.readings if each.counts}

    def reading(fitting: FittingRecord, at: Any, hours: Any) -> int | None:
        return bulk.key_of(read.get((fitting.unit_key, at, hours)))

    def columns(fitting: FittingRecord) -> dict[str, Any]:
        return {
            **columns_of(fitting, "unit", "from_h", "until_h"),
            "lamp_id": lamps[fitting.lamp_key],
            "unit_id": units[fitting.unit_key].pk,
            "from_reading_id": reading(fitting, fitting.from_at, fitting.from_h),
            "until_reading_id": reading(fitting, fitting.until_at, fitting.until_h),
        }

    before = {each.row: each for each in bulk.stored.fittings}
    bulk.put_among("fittings", Fitting, before, fittings, columns)
    return {(each.lamp_key, each.unit_key, each.from_at): bulk.key_of(each) for each in fittings}
