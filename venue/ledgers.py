"""The rows of meters, readings, hours added and fittings as the records that hours are counted from.

A count over years needs few readings: those that fittings point at, those about their ends, and each meter's
last one. `needed_book` asks for no more, in a constant number of queries; `whole_book` takes them all.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from django.db.models import F, OuterRef, Q, QuerySet, Subquery
from django.db.models.functions import Coalesce

from venue.core.hours import Added, Counted, Mark, MeterRun, Span, hours_in, lamp_hours, unit_hours
from venue.models import Fitting, HoursAdded, Lamp, Meter, Reading

END_OF_BOOK = datetime.max.replace(tzinfo=UTC)
"""Everything that is written counts, whatever the clock says."""

MARK_COLUMNS = ("meter_id", "at", "hours", "strikes", "pk")


def mark_of(reading: Reading) -> Mark:
    """The reading as the core knows it; its key is the row's id."""
    return Mark(reading.at, reading.hours, reading.strikes, reading.pk)


def run_of(meter: Meter, marks: Iterable[Mark] = ()) -> MeterRun:
    """The meter with these of its readings. One that starts at zero hours starts at zero strikes."""
    ordered = tuple(sorted(marks, key=lambda mark: (mark.at, mark.hours)))
    strikes = None if meter.starts_h else 0
    counts: Any = meter.counts
    return MeterRun(meter.starts_at, meter.ends_at, meter.starts_h, counts, ordered, strikes)


def span_of(fitting: Fitting) -> Span:
    """The fitting's time, with what its readings show."""
    first, last = fitting.from_reading, fitting.until_reading
    return Span(
        fitting.from_at, fitting.until_at, None if first is None else first.hours, None if last is None else last.hours
    )


@dataclass(frozen=True)
class Book:
    """What is written of some units, by the id of the unit, and the fittings of some lamps, by the lamp's."""

    meters: Mapping[int, list[Meter]]
    runs: Mapping[int, list[MeterRun]]
    added: Mapping[int, list[Added]] = field(default_factory=dict)
    fittings: Mapping[int, list[Fitting]] = field(default_factory=dict)

    def of_unit(self, unit: int, now: datetime = END_OF_BOOK) -> Counted:
        """The unit's own hours."""
        return unit_hours(self.runs.get(unit, []), self.added.get(unit, []), now)

    def of_fitting(self, fitting: Fitting, now: datetime = END_OF_BOOK) -> Counted:
        """What the lamp burned in the fitting."""
        unit = fitting.unit_id
        return hours_in(span_of(fitting), self.runs.get(unit, []), self.added.get(unit, []), now)

    def of_lamp(self, lamp: Lamp, now: datetime = END_OF_BOOK) -> Counted:
        """The lamp's hours in all its fittings, and those it came with."""
        return lamp_hours([self.of_fitting(each, now) for each in self.fittings.get(lamp.pk, [])], lamp.came_with_h)


def needed_book(units: Collection[int], lamps: Collection[int]) -> Book:
    """What counting these units and lamps needs, other units that the lamps were fitted to included."""
    fittings = _fittings(lamps)
    everywhere = {*units, *(each.unit_id for rows in fittings.values() for each in rows)}
    meters = Meter.objects.filter(unit__in=everywhere)
    keys = {key for about in [*_ends_of_meters(meters), *_ends_of_fittings(lamps)] for key in about}
    for rows in fittings.values():
        keys.update(key for each in rows for key in (each.from_reading_id, each.until_reading_id))
    marks = Reading.objects.counting().filter(pk__in={key for key in keys if key is not None})
    return _book(meters, marks, everywhere, fittings)


def whole_book(units: Collection[int], lamps: Collection[int]) -> Book:
    """Everything that is written of these units and lamps."""
    fittings = _fittings(lamps)
    everywhere = {*units, *(each.unit_id for rows in fittings.values() for each in rows)}
    marks = Reading.objects.counting().filter(meter__unit__in=everywhere)
    return _book(Meter.objects.filter(unit__in=everywhere), marks, everywhere, fittings)


def _book(
    meters: Iterable[Meter], marks: QuerySet[Reading], units: Collection[int], fittings: dict[int, list[Fitting]]
) -> Book:
    by_meter: dict[int, list[Mark]] = defaultdict(list)
    for meter_id, at, hours, strikes, key in marks.order_by().values_list(*MARK_COLUMNS):
        by_meter[meter_id].append(Mark(at, hours, strikes, key))
    of_unit: dict[int, list[Meter]] = defaultdict(list)
    for meter in meters:
        of_unit[meter.unit_id].append(meter)
    runs = {unit: [run_of(meter, by_meter[meter.pk]) for meter in rows] for unit, rows in of_unit.items()}
    return Book(dict(of_unit), runs, _added(units), fittings)


def _fittings(lamps: Collection[int]) -> dict[int, list[Fitting]]:
    found: dict[int, list[Fitting]] = defaultdict(list)
    rows = Fitting.objects.real().filter(lamp__in=lamps).select_related("from_reading", "until_reading")
    for fitting in rows.order_by("from_at", "pk"):
        found[fitting.lamp_id].append(fitting)
    return dict(found)


def _added(units: Collection[int]) -> dict[int, list[Added]]:
    found: dict[int, list[Added]] = defaultdict(list)
    rows = HoursAdded.objects.counting().filter(unit__in=units).order_by("at", "pk")
    for unit, at, hours, strikes in rows.values_list("unit_id", "at", "hours", "strikes"):
        found[unit].append(Added(at, hours, strikes))
    return dict(found)


def _one(readings: QuerySet[Reading], order: str) -> Subquery:
    return Subquery(readings.order_by(order).values("pk")[:1])


def _ends_of_meters(meters: QuerySet[Meter]) -> Iterable[tuple[int | None, ...]]:
    """For each meter its last reading, and the first and the last with strikes."""
    own = Reading.objects.counting().filter(meter=OuterRef("pk"))
    told = own.filter(strikes__isnull=False)
    ends = {"last": _one(own, "-at"), "first_told": _one(told, "at"), "last_told": _one(told, "-at")}
    return meters.annotate(**ends).order_by().values_list(*ends)


def _ends_of_fittings(lamps: Collection[int]) -> Iterable[tuple[int | None, ...]]:
    """For each fitting and each meter of its unit the readings about both ends, and those inside with strikes."""
    own = Reading.objects.counting().filter(meter=OuterRef("meter"))
    before = own.filter(at__lte=OuterRef("from_at"))
    until = own.filter(at__lte=OuterRef("end"))
    told = until.filter(strikes__isnull=False, at__gte=OuterRef("from_at"))
    rows = Fitting.objects.filter(Q(until_at__isnull=True) | Q(until_at__gt=F("from_at")), lamp__in=lamps)
    rows = rows.annotate(meter=F("unit__meters__pk"), end=Coalesce("until_at", END_OF_BOOK))
    ends = {
        "before": _one(before, "-at"),
        "last": _one(until, "-at"),
        "first_told": _one(told, "at"),
        "last_told": _one(told, "-at"),
    }
    return rows.annotate(**ends).order_by().values_list(*ends)
