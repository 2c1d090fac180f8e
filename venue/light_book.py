"""How much light a unit gave: its readings at one setting against the first of them and against its mates."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from statistics import median

from django.db.models import OuterRef, Q, QuerySet, Subquery

from venue.care import is_same_source
from venue.core import light_trend as core
from venue.core.hours import Mark
from venue.core.names import name_key
from venue.ledgers import Book, mark_of, needed_book, run_of
from venue.models import Fitting, LightReading, Meter, Reading, Unit

MOST_READINGS = 60
MOST_OF_MATES = 200
"""No page asks for more rows than these, however long the house has been measuring."""


@dataclass(frozen=True)
class LightRow:
    """A reading with the lamp hours at which it was made [h] and its share of the first; None where not known."""

    reading: LightReading
    lamp_h: float | None
    share: float | None


@dataclass(frozen=True)
class UnitLight:
    """A unit's light at one setting. `rows` by time; `settings` are all at which it was measured lately.

    `mates_cd` is the median of what its mates gave last [cd].
    """

    setting: str = ""
    settings: tuple[str, ...] = ()
    rows: tuple[LightRow, ...] = ()
    trend: core.LightTrend | None = None
    findings: tuple[core.LightFinding, ...] = ()
    mates_cd: float | None = None


def light_of(unit: Unit, now: datetime, setting: str = "") -> UnitLight:
    """The unit's light at the setting, or at that of its last reading, in a constant number of queries."""
    latest = list(_counting(unit, now).order_by("-at", "-pk")[:MOST_READINGS])
    if not latest:
        return UnitLight()
    key = name_key(setting) if setting else latest[0].setting_key
    here = [reading for reading in latest if reading.setting_key == key]
    first = _counting(unit, now).filter(setting_key=key).order_by("at", "pk").first()
    if first is None:
        return UnitLight(setting=setting, settings=_settings(latest))
    readings = [first, *(reading for reading in reversed(here) if reading.pk != first.pk)]
    hours = lamp_hours_at(unit, readings)
    trend = core.light_trend([_as_core(each, hours.get(each.pk)) for each in readings], first.setting)
    mates = mates_of(unit, key, now)
    shares = _shares(trend)
    rows = tuple(LightRow(each, hours.get(each.pk), shares.get(each.pk)) for each in readings)
    findings = core.light_findings(trend, mates)
    usual = median(mates) if mates else None
    return UnitLight(readings[-1].setting, _settings(latest), rows, trend, findings, usual)


def _counting(unit: Unit, now: datetime) -> QuerySet[LightReading]:
    return LightReading.objects.counting().filter(unit=unit, at__lte=now).select_related("entry")


def _settings(readings: Sequence[LightReading]) -> tuple[str, ...]:
    """Each setting once, as it was written last."""
    return tuple({reading.setting_key: reading.setting for reading in reversed(readings)}.values())


def _as_core(reading: LightReading, hours: float | None) -> core.LightReading:
    return core.LightReading(reading.at, reading.lux, reading.distance_m, reading.setting, hours, reading.pk)


def _shares(trend: core.LightTrend | None) -> dict[object, float]:
    """Each comparable reading as a share of the first."""
    if trend is None or trend.readings[0].candela <= 0:
        return {}
    first = trend.readings[0].candela
    return {reading.key: reading.candela / first for reading in trend.readings}


def mates_of(unit: Unit, setting_key: str, now: datetime) -> list[float]:
    """What each other unit of the same source and watts gave last at the setting [cd]."""
    readings = LightReading.objects.counting().filter(setting_key=setting_key, at__lte=now)
    readings = readings.filter(unit__house=unit.house_id, unit__ended_at__isnull=True).exclude(unit=unit)
    last: dict[int, float] = {}
    for reading in readings.select_related("unit").order_by("-at", "-pk")[:MOST_OF_MATES]:
        if is_same_source(unit.source, reading.unit.source) and unit.watts == reading.unit.watts:
            last.setdefault(reading.unit_id, reading.candela)
    return list(last.values())


def lamp_hours_at(unit: Unit, readings: Sequence[LightReading]) -> dict[int, float]:
    """The hours of the lamp in the unit at each light reading [h], by the reading's id; no lamp, no hours."""
    fittings = list(Fitting.objects.real().filter(unit=unit).select_related("lamp"))
    inside = {each.pk: _fitting_at(fittings, each.at) for each in readings}
    book = needed_book([unit.pk], {fitting.lamp_id for fitting in inside.values() if fitting is not None})
    book = _with_marks(book, unit, readings)
    return {
        each.pk: float(book.of_lamp(fitting.lamp, each.at).hours)
        for each in readings
        if (fitting := inside[each.pk]) is not None
    }


def _fitting_at(fittings: Sequence[Fitting], at: datetime) -> Fitting | None:
    return next((f for f in fittings if f.from_at <= at and (f.until_at is None or at < f.until_at)), None)


def _with_marks(book: Book, unit: Unit, readings: Sequence[LightReading]) -> Book:
    """The book with what the unit's meters showed last before each light reading."""
    marks: dict[int, list[Mark]] = defaultdict(list)
    for reading in Reading.objects.filter(pk__in=_marks_before(readings)):
        marks[reading.meter_id].append(mark_of(reading))
    meters, runs = book.meters.get(unit.pk, []), book.runs.get(unit.pk, [])
    fuller = [run_of(meter, {*run.marks, *marks[meter.pk]}) for meter, run in zip(meters, runs, strict=True)]
    return replace(book, runs={**book.runs, unit.pk: fuller})


def _marks_before(readings: Sequence[LightReading]) -> set[int]:
    there = Meter.objects.filter(Q(ends_at__isnull=True) | Q(ends_at__gt=OuterRef("at")), unit=OuterRef("unit"))
    meter = there.filter(starts_at__lte=OuterRef("at")).order_by("-starts_at").values("pk")[:1]
    before = Reading.objects.counting().filter(meter=OuterRef("meter"), at__lte=OuterRef("at")).order_by("-at")
    rows = LightReading.objects.filter(pk__in=[each.pk for each in readings]).annotate(meter=Subquery(meter))
    return set(rows.annotate(mark=Subquery(before.values("pk")[:1])).values_list("mark", flat=True)) - {None}


def shares_of(units: Iterable[Unit], now: datetime) -> dict[int, float]:
    """What each unit gave last as a share of its first reading at the same setting, by its id, in two queries.

    A unit without two readings that compare is left out.
    """
    wanted = {unit.pk for unit in units}
    counting = LightReading.objects.counting().filter(at__lte=now)
    of_unit = counting.filter(unit=OuterRef("pk"))
    last_of = Subquery(of_unit.order_by("-at", "-pk").values("pk")[:1])
    last_ids = Unit.objects.filter(pk__in=wanted).annotate(last=last_of).values("last")
    same = counting.filter(unit=OuterRef("unit"), setting_key=OuterRef("setting_key"))
    first_of = Subquery(same.order_by("at", "pk").values("pk")[:1])
    last = list(LightReading.objects.filter(pk__in=last_ids).annotate(first=first_of).select_related("entry"))
    first = LightReading.objects.select_related("entry").in_bulk([each.first for each in last])
    found: dict[int, float] = {}
    for reading in last:
        trend = core.light_trend([_as_core(each, None) for each in (first[reading.first], reading)], reading.setting)
        if trend is not None and len(trend.readings) > 1 and trend.readings[0].candela > 0:
            found[reading.unit_id] = trend.readings[-1].candela / trend.readings[0].candela
    return found
