"""One unit's book, a page at a time, and what its pictures are drawn from: never all of its readings at once."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import cached_property
from typing import TypeVar
from zoneinfo import ZoneInfo

from django.db.models import DateTimeField, ExpressionWrapper, F, Max, OuterRef, Q, QuerySet, Subquery
from django.db.models.functions import TruncDate
from django.utils.dateparse import parse_datetime

from venue.core.hours import Added, Fitted, LedgerRow, Mark, MeterRun, Span, ledger
from venue.ledgers import END_OF_BOOK, Book, mark_of, needed_book, run_of, span_of
from venue.models import Fitting, HoursAdded, Lamp, Meter, Reading, Unit
from venue.wording_hours import line_words

AnEntry = TypeVar("AnEntry", Reading, HoursAdded)

LINES_A_PAGE = 30
MOMENT = timedelta(microseconds=1)
DAYS_SHOWN = 371


@dataclass(frozen=True)
class Line:
    """A line of the ledger, with the lamp in by then, and the entry that it stands for, struck out or not."""

    row: LedgerRow
    lamp: Lamp | None = None
    entry: Reading | HoursAdded | None = None

    @property
    def words(self) -> str:
        return line_words(self.row.what, "" if self.lamp is None else self.lamp.serial)


@dataclass(frozen=True)
class LedgerPage:
    """Lines, the last first; `earlier` is the instant before which more lie, None where none do."""

    lines: tuple[Line, ...]
    earlier: datetime | None


def instant_in(text: str | None) -> datetime | None:
    """The instant that an address names; None where it names none."""
    try:
        found = parse_datetime(text or "")
    except ValueError:
        return None
    return found.astimezone(UTC) if found is not None and found.tzinfo is not None else None


def ledger_page(unit: Unit, before: datetime | None) -> LedgerPage:
    """The last lines of the unit's book, or those before an instant."""
    end = before or END_OF_BOOK
    meters = list(unit.meters.all())
    readings = _last(Reading.objects.filter(meter__in=meters), end)
    added = _last(HoursAdded.objects.filter(unit=unit), end)
    fittings = list(_fittings(unit).filter(from_at__lt=end).order_by("-from_at")[: LINES_A_PAGE + 1])
    everything: list[Reading | HoursAdded] = [*readings, *added]
    times = [entry.at for entry in everything] + [meter.starts_at for meter in meters]
    times += [at for fitting in fittings for at in (fitting.from_at, fitting.until_at) if at is not None]
    shown = sorted((at for at in times if at < end), reverse=True)
    if not shown:
        return LedgerPage((), None)
    start = shown[:LINES_A_PAGE][-1]
    entries = [entry for entry in everything if entry.at >= start]
    window = _Window(unit, meters, [fitting for fitting in fittings if _reaches(fitting, start)], start, end)
    lines = window.lines(entries)
    return LedgerPage(tuple(reversed(lines)), start if shown[-1] < start else None)


def _last(entries: QuerySet[AnEntry], end: datetime) -> list[AnEntry]:
    """The last entries before an instant, one more than a page holds."""
    return list(entries.filter(at__lt=end).order_by("-at", "-pk")[: LINES_A_PAGE + 1])


def _reaches(fitting: Fitting, start: datetime) -> bool:
    return fitting.until_at is None or fitting.until_at >= start


def _fittings(unit: Unit) -> QuerySet[Fitting]:
    rows = Fitting.objects.real().filter(unit=unit)
    return rows.select_related("lamp__kind", "from_reading", "until_reading")


@dataclass
class _Window:
    """A stretch of the unit's book, from `start` on: its meters begin there at what they showed last before."""

    unit: Unit
    meters: Sequence[Meter]
    fittings: Sequence[Fitting]
    start: datetime
    end: datetime = END_OF_BOOK

    def lines(self, entries: Sequence[Reading | HoursAdded]) -> list[Line]:
        """The lines of these entries and of meters and fittings among them, by time."""
        readings = [entry for entry in entries if isinstance(entry, Reading)]
        marks = _by_meter((entry.meter_id, mark_of(entry)) for entry in readings if not entry.is_struck)
        hours = [entry for entry in entries if isinstance(entry, HoursAdded)]
        rows = self.rows(marks, [_added(entry) for entry in hours if not entry.is_struck])
        by_key: dict[object, Reading | HoursAdded] = {entry.pk: entry for entry in readings}
        waiting = {(entry.at, entry.hours): entry for entry in hours if not entry.is_struck}
        lamps = {fitting.lamp_id: fitting.lamp for fitting in self.fittings}
        lines = [
            Line(row, lamps.get(_key(row)), by_key.get(row.key) or waiting.get((row.at, row.added_h or 0)))
            for row in rows
        ]
        lines += [_struck_line(entry) for entry in entries if entry.is_struck]
        return sorted(lines, key=lambda line: line.row.at)

    def runs(self, marks: Mapping[int, Sequence[Mark]]) -> list[MeterRun]:
        """The meters of the stretch, each begun at what it showed last before."""
        return [
            _cut(meter, self.bases.get(meter.pk), marks.get(meter.pk, ()))
            for meter in self.meters
            if meter.ends_at is None or meter.ends_at > self.start
        ]

    def rows(self, marks: Mapping[int, Sequence[Mark]], added: Sequence[Added]) -> list[LedgerRow]:
        """The rows of the stretch, with the hours of the lamp that is in at each."""
        runs, book = self.runs(marks), self._book()
        fitted = [self._fitted(fitting, book) for fitting in self.fittings]
        found = ledger(runs, added, fitted, self.end - MOMENT)
        return [row for row in found if row.at >= self.start]

    @cached_property
    def bases(self) -> dict[int, Mark]:
        """What each meter showed last before the start."""
        before = Reading.objects.counting().filter(meter=OuterRef("pk"), at__lt=self.start).order_by("-at")
        last = Subquery(before.values("pk")[:1])
        keys = Meter.objects.filter(unit=self.unit).order_by().annotate(last=last).values("last")
        return {reading.meter_id: mark_of(reading) for reading in Reading.objects.filter(pk__in=keys)}

    def _book(self) -> Book:
        """What counting the lamps up to the start needs."""
        book = needed_book([self.unit.pk], [fitting.lamp_id for fitting in self.fittings])
        meters = book.meters.get(self.unit.pk, [])
        runs = [
            _with(run, self.bases.get(meter.pk))
            for meter, run in zip(meters, book.runs.get(self.unit.pk, []), strict=True)
        ]
        return replace(book, runs={**book.runs, self.unit.pk: runs})

    def _fitted(self, fitting: Fitting, book: Book) -> Fitted:
        """The fitting from the start on, with the hours that its lamp had by then."""
        span = span_of(fitting)
        if fitting.from_at >= self.start:
            return Fitted(span, fitting.lamp_id, book.of_lamp(fitting.lamp, fitting.from_at).hours)
        since = self.start - MOMENT
        had_h = book.of_lamp(fitting.lamp, since).hours
        return Fitted(Span(since, span.until_at, None, span.until_h), fitting.lamp_id, had_h)


def _key(row: LedgerRow) -> int:
    return row.lamp if isinstance(row.lamp, int) else 0


def _cut(meter: Meter, base: Mark | None, marks: Sequence[Mark]) -> MeterRun:
    run = run_of(meter, marks)
    return run if base is None else replace(run, starts_at=base.at, starts_h=base.hours, starts_strikes=base.strikes)


def _with(run: MeterRun, mark: Mark | None) -> MeterRun:
    if mark is None or mark in run.marks:
        return run
    return replace(run, marks=tuple(sorted((*run.marks, mark), key=lambda each: (each.at, each.hours))))


def _by_meter(marks: Iterable[tuple[int, Mark]]) -> dict[int, list[Mark]]:
    found: dict[int, list[Mark]] = defaultdict(list)
    for meter, mark in marks:
        found[meter].append(mark)
    return found


def _added(entry: HoursAdded) -> Added:
    return Added(entry.at, entry.hours, entry.strikes)


def _struck_line(entry: Reading | HoursAdded) -> Line:
    if isinstance(entry, HoursAdded):
        row = LedgerRow(entry.at, "hours-added", strikes=entry.strikes, added_h=entry.hours)
    else:
        row = LedgerRow(entry.at, "reading", entry.hours, strikes=entry.strikes, key=entry.pk)
    return Line(row, entry=entry)


@dataclass(frozen=True)
class YearOfUse:
    """A year of the unit's book, a reading a day at most: rows with lamp hours, and the runs and additions."""

    rows: tuple[LedgerRow, ...]
    runs: tuple[MeterRun, ...]
    added: tuple[Added, ...]


def year_of_use(unit: Unit, now: datetime) -> YearOfUse:
    """What the pictures are drawn from, each meter's last reading of each of the house's days."""
    start, meters = now - timedelta(days=DAYS_SHOWN), list(unit.meters.all())
    marks = _daily_marks(unit, meters, start, now)
    rows = HoursAdded.objects.counting().filter(unit=unit, at__gte=start, at__lte=now).order_by("at")
    added = [Added(at, hours) for at, hours in rows.values_list("at", "hours")]
    fittings = _fittings(unit).filter(Q(until_at__isnull=True) | Q(until_at__gte=start), from_at__lte=now)
    window = _Window(unit, meters, list(fittings.order_by("from_at")), start, now + MOMENT)
    return YearOfUse(tuple(window.rows(marks, added)), tuple(window.runs(marks)), tuple(added))


def _daily_marks(unit: Unit, meters: Sequence[Meter], start: datetime, now: datetime) -> dict[int, list[Mark]]:
    turns_at = unit.house.day_turns_at
    turned = F("at") - timedelta(hours=turns_at.hour, minutes=turns_at.minute)
    day = TruncDate(ExpressionWrapper(turned, DateTimeField()), tzinfo=ZoneInfo(unit.house.time_zone))
    rows = Reading.objects.counting().filter(meter__in=meters, at__gte=start, at__lte=now).order_by()
    days = rows.annotate(day=day).values("meter_id", "day").annotate(last=Max("at"), most=Max("hours"))
    return _by_meter((meter, Mark(last, most)) for meter, last, most in days.values_list("meter_id", "last", "most"))
