"""The rows of lamps, hours, faults and care as a book, in the file's order; a constant number of queries.

What was taken back (an empty span) is left out, as it is everywhere in a house file.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db.models import F

from venue.core.names import name_key
from venue.house_file.book.naming import EntryNames
from venue.house_file.keys import record_of
from venue.house_file.records import (
    AddedRecord,
    AnswersRecord,
    AttachmentRecord,
    CarePlanRecord,
    DecisionRecord,
    DoneRecord,
    EntryName,
    FaultRecord,
    FittingName,
    FittingRecord,
    LampKindRecord,
    LampRecord,
    LightRecord,
    LogRecord,
    MeterRecord,
    ReadingRecord,
)
from venue.house_file.records.file import Book
from venue.models import (
    Attachment,
    CareItem,
    Fault,
    Fitting,
    HoursAdded,
    House,
    LampDecision,
    LightReading,
    LogEntry,
    Meter,
    Reading,
    Unit,
)

Tags = Mapping[int | None, str]
"""The tags of the units in the file by their primary keys."""


def gathered_book(house: House, units: Iterable[Unit]) -> Book:
    """What is stored about the house's lamps and about these units."""
    tags: Tags = {unit.pk: unit.tag for unit in units}
    entries = _entries(house, tags)
    names = EntryNames(entries.values())
    return Book(
        lamp_kinds=tuple(record_of(LampKindRecord, kind) for kind in house.lamp_kinds.order_by("name_key")),
        lamps=_lamps(house, tags),
        meters=_meters(tags),
        readings=_readings(tags),
        hours_added=_hours_added(tags),
        faults=_faults(tags, entries, names),
        log=tuple(entries.values()),
        care_plans=_care_plans(house, tags, entries, names),
        light_readings=_light_readings(tags, entries, names),
    )


# -- lamps and hours -----------------------------------------------------------------------------------


def _lamps(house: House, tags: Tags) -> tuple[LampRecord, ...]:
    fitted, decisions = defaultdict(list), defaultdict(list)
    for fitting in _real_fittings(tags).select_related("lamp", "unit", "from_reading", "until_reading"):
        fitted[fitting.lamp_id].append(_fitting(fitting))
    for decision in LampDecision.objects.filter(lamp__house=house).order_by("at", "pk"):
        decisions[decision.lamp_id].append(record_of(DecisionRecord, decision))
    lamps = house.lamps.select_related("kind").order_by("serial_key")
    return tuple(
        record_of(
            LampRecord, lamp, kind=lamp.kind.name, fitted=tuple(fitted[lamp.pk]), decisions=tuple(decisions[lamp.pk])
        )
        for lamp in lamps
    )


def _real_fittings(tags: Tags) -> Any:
    return Fitting.objects.real().filter(unit__in=tags).order_by("from_at", "unit__tag_key", "pk")


def _fitting(fitting: Fitting) -> FittingRecord:
    first, last = fitting.from_reading, fitting.until_reading
    return record_of(
        FittingRecord,
        fitting,
        unit=fitting.unit.tag,
        from_h=None if first is None or first.is_struck else first.hours,
        until_h=None if last is None or last.is_struck else last.hours,
        lamp=fitting.lamp.serial,
    )


def _meters(tags: Tags) -> tuple[MeterRecord, ...]:
    meters = Meter.objects.exclude(ends_at=F("starts_at")).filter(unit__in=tags)
    rows = meters.order_by("unit__tag_key", "starts_at")
    return tuple(record_of(MeterRecord, meter, unit=tags[meter.unit_id]) for meter in rows)


def _readings(tags: Tags) -> tuple[ReadingRecord, ...]:
    rows = Reading.objects.filter(meter__unit__in=tags).annotate(of=F("meter__unit"), over_at=F("meter__ends_at"))
    rows = rows.order_by("meter__unit__tag_key", "at", "meter__starts_at", "pk")
    return tuple(
        record_of(
            ReadingRecord,
            row,
            unit=tags[row.of],
            closes_meter=row.at == row.over_at,
            meter=row.meter_id,
            entered_at=_entered(row),
        )
        for row in rows.iterator(chunk_size=5000)
    )


def _entered(row: Reading | HoursAdded | LogEntry | LightReading) -> datetime | None:
    """When a person wrote it down; what came from a file says nothing of that."""
    return row.entered_at if row.entered_by else None


def _hours_added(tags: Tags) -> tuple[AddedRecord, ...]:
    rows = HoursAdded.objects.filter(unit__in=tags).order_by("unit__tag_key", "at", "pk")
    return tuple(record_of(AddedRecord, row, unit=tags[row.unit_id], entered_at=_entered(row)) for row in rows)


# -- log, faults, care ---------------------------------------------------------------------------------


def _entries(house: House, tags: Tags) -> dict[int, LogRecord]:
    """Every log entry by its primary key, in the file's order."""
    attached = defaultdict(list)
    for each in Attachment.objects.filter(entry__house=house).order_by("added_at", "pk"):
        attached[each.entry_id].append(record_of(AttachmentRecord, each, content=bytes(each.content)))
    fittings = {each.pk: each for each in _real_fittings(tags).filter(log__isnull=False).select_related("lamp")}
    rows = LogEntry.objects.filter(house=house).order_by("at", "pk")
    return {
        row.pk: _entry(row, tags, fittings.get(row.fitting_id), attached[row.pk])
        for row in rows
        if row.unit_id is None or row.unit_id in tags
    }


def _entry(row: LogEntry, tags: Tags, fitting: Fitting | None, attached: list[AttachmentRecord]) -> LogRecord:
    return record_of(
        LogRecord,
        row,
        unit=tags.get(row.unit_id, ""),
        fitting=None if fitting is None else FittingName(lamp=fitting.lamp.serial, from_at=fitting.from_at),
        answers=record_of(AnswersRecord, row),
        attachments=tuple(attached),
        entered_at=_entered(row),
    )


def _faults(tags: Tags, entries: Mapping[int, LogRecord], names: EntryNames) -> tuple[FaultRecord, ...]:
    rows = Fault.objects.filter(unit__in=tags).order_by("opened_at", "unit__tag_key", "pk")
    return tuple(
        record_of(FaultRecord, row, unit=tags[row.unit_id], entry=_name(entries, names, row.closing_id)) for row in rows
    )


def _name(entries: Mapping[int, LogRecord], names: EntryNames, key: int | None) -> EntryName | None:
    entry = entries.get(key or 0)
    return None if entry is None else names.name_of(entry)


def _care_plans(
    house: House, tags: Tags, entries: Mapping[int, LogRecord], names: EntryNames
) -> tuple[CarePlanRecord, ...]:
    done = defaultdict(list)
    items = CareItem.objects.filter(house=house, last_done_at__isnull=False)
    for item in items.order_by("unit__tag_key", "last_done_at", "pk"):
        if item.unit_id is None or item.unit_id in tags:
            entry = _name(entries, names, item.entry_id)
            done[item.plan_id].append(record_of(DoneRecord, item, unit=tags.get(item.unit_id, ""), entry=entry))
    plans = [
        record_of(CarePlanRecord, plan, unit=tags.get(plan.unit_id, ""), done=tuple(done[plan.pk]))
        for plan in house.care_plans.order_by("pk")
        if plan.unit_id is None or plan.unit_id in tags
    ]
    return tuple(sorted(plans, key=lambda plan: (name_key(plan.what), plan.about)))


def _light_readings(tags: Tags, entries: Mapping[int, LogRecord], names: EntryNames) -> tuple[LightRecord, ...]:
    rows = LightReading.objects.filter(unit__in=tags).order_by("unit__tag_key", "at", "pk")
    return tuple(
        record_of(
            LightRecord,
            row,
            unit=tags[row.unit_id],
            entered_at=_entered(row),
            entry=_name(entries, names, row.entry_id),
        )
        for row in rows
    )
