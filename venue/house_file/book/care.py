"""Faults, care plans with what was done, and light readings as rows."""

from typing import Any

from django.db.models import F

from venue.core.names import name_key
from venue.house_file.book.bulk import Bulk
from venue.house_file.book.entries import put_entries, struck_columns
from venue.house_file.book.log import Entries
from venue.house_file.keys import Written, columns_of
from venue.house_file.records.care import CarePlanRecord, DoneRecord, FaultRecord, LightRecord
from venue.house_file.records.file import Book
from venue.models import CareItem, CarePlan, Fault, LightReading


def load_care(bulk: Bulk, book: Book, entries: Entries) -> None:
    """Bring faults, care and light readings to what the book says."""
    _load_faults(bulk, book, entries)
    _load_plans(bulk, book, entries)
    _load_light(bulk, book, entries)


def _load_faults(bulk: Bulk, book: Book, entries: Entries) -> None:
    units, before = bulk.rows.units, _ids(bulk.stored.faults)

    def columns(fault: FaultRecord) -> dict[str, Any]:
        closing = entries.key_of((fault.unit_key, ""), fault.entry, is_stored=id(fault) in before)
        return {**columns_of(fault, "unit"), "unit_id": units[fault.unit_key].pk, "closing_id": closing}

    bulk.put("faults", Fault, book.faults, columns)


def _load_light(bulk: Bulk, book: Book, entries: Entries) -> None:
    units, before = bulk.rows.units, _ids(bulk.stored.light_readings)

    def columns(light: LightRecord) -> dict[str, Any]:
        own = {name: getattr(light, name) for name in ("at", "lux", "distance_m", "distance_text", "setting")}
        entry = entries.key_of((light.unit_key, ""), light.entry, is_stored=id(light) in before)
        return {**own, **struck_columns(light), "unit_id": units[light.unit_key].pk, "entry_id": entry}

    put_entries(bulk, "light_readings", LightReading, book.light_readings, columns, ("lux", "distance_m", "setting"))


def _load_plans(bulk: Bulk, book: Book, entries: Entries) -> None:
    units, house = bulk.rows.units, bulk.rows.house

    def columns(plan: CarePlanRecord) -> dict[str, Any]:
        unit_id = units[name_key(plan.unit)].pk if plan.unit else None
        return {**columns_of(plan, "unit"), "house_id": house.pk, "unit_id": unit_id}

    bulk.put("care_plans", CarePlan, book.care_plans, columns)
    _load_done(bulk, book, entries)


def _load_done(bulk: Bulk, book: Book, entries: Entries) -> None:
    """What was done; where an item stands that was never done, it is that one."""
    units, house = bulk.rows.units, bulk.rows.house
    before = {each.row: each for plan in bulk.stored.care_plans for each in plan.done}
    stored = _ids(before.values())
    plan_of = {id(each): plan for plan in (*bulk.stored.care_plans, *book.care_plans) for each in plan.done}
    waiting = {
        (item.plan_id, item.unit_id): item.pk
        for item in CareItem.objects.standing().filter(house=house, last_done_at__isnull=True)
    }

    new: list[tuple[DoneRecord, dict[str, Any]]] = []

    def columns(done: DoneRecord) -> dict[str, Any]:
        plan = plan_of[id(done)]
        entry = entries.key_of(plan.about_of(done), done.entry, is_stored=id(done) in stored)
        unit_id = units[done.unit_key].pk if done.unit else None
        keys = {"plan_id": bulk.key_of(plan), "house_id": house.pk, "unit_id": unit_id, "entry_id": entry}
        return {**columns_of(done, "unit"), **keys}

    for each in (each for plan in book.care_plans for each in plan.done):
        values = columns(each)
        row = each.row or (None if each.ended_at else waiting.get((values["plan_id"], values["unit_id"])))
        if row is None:
            new.append((each, values))
        elif each.row is None or values != columns(before[each.row]):
            bulk.changed += 1
            CareItem.objects.filter(pk=row).update(**values, version=F("version") + 1)
    bulk.create("care_done", CareItem, new)


def _ids(records: Any) -> set[int]:
    found: set[int] = {id(each) for each in records if isinstance(each, Written)}
    return found
