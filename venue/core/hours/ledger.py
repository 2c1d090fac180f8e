"""A unit's book, line by line: what was read, fitted, taken out or added, with the hours at that line."""

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass, replace
from datetime import datetime
from decimal import Decimal
from typing import Literal

from venue.core.hours.records import ZERO, Added, MeterRun, Span

What = Literal["reading", "hours-added", "lamp-out", "meter-fitted", "meter-replaced", "lamp-fitted"]
"""What a line is about."""

# Of lines at one instant: a lamp goes out after its last reading, and comes in after its meter.
_ORDER: tuple[What, ...] = ("reading", "hours-added", "lamp-out", "meter-fitted", "meter-replaced", "lamp-fitted")


@dataclass(frozen=True)
class Fitted:
    """A lamp's fitting in the unit, with the hours that the lamp had before it [h]; `lamp` is what it is known by."""

    span: Span
    lamp: object
    had_h: Decimal = ZERO


@dataclass(frozen=True)
class LedgerRow:
    """One line. `meter_h` and `strikes` are as read, `lamp_h` the hours of the lamp that is in, `added_h` what was
    added [h]; None where there is none. `key` is the reading's.
    """

    at: datetime
    what: What
    meter_h: Decimal | None = None
    lamp_h: Decimal | None = None
    strikes: int | None = None
    added_h: Decimal | None = None
    lamp: object = None
    key: object = None


def ledger(
    runs: Sequence[MeterRun], added: Sequence[Added], fitted: Sequence[Fitted], now: datetime
) -> tuple[LedgerRow, ...]:
    """The unit's lines by time, as known at `now`."""
    rows = [*_meter_rows(runs), *_added_rows(added), *_lamp_rows(fitted, {run.starts_at for run in runs})]
    return tuple(_walked(sorted((row for row in rows if row.at <= now), key=_place)))


def _place(row: LedgerRow) -> tuple[datetime, int, Decimal]:
    return row.at, _ORDER.index(row.what), row.meter_h or ZERO


def _meter_rows(runs: Sequence[MeterRun]) -> Iterator[LedgerRow]:
    for index, run in enumerate(sorted(runs, key=lambda each: each.starts_at)):
        what: What = "meter-replaced" if index else "meter-fitted"
        yield LedgerRow(run.starts_at, what, run.starts_h, None, run.starts_strikes)
        for mark in run.marks:
            yield LedgerRow(mark.at, "reading", mark.hours, None, mark.strikes, key=mark.key)


def _added_rows(added: Sequence[Added]) -> Iterator[LedgerRow]:
    for each in added:
        yield LedgerRow(each.at, "hours-added", strikes=each.strikes, added_h=each.hours)


def _lamp_rows(fitted: Sequence[Fitted], meter_starts: Set[datetime]) -> Iterator[LedgerRow]:
    """Fittings; one at the very start of a meter has that meter's first reading, whatever it points at."""
    for each in fitted:
        span = each.span
        from_h = None if span.from_at in meter_starts else span.from_h
        yield LedgerRow(span.from_at, "lamp-fitted", from_h, each.had_h, lamp=each.lamp)
        if span.until_at is not None:
            until_h = None if span.until_at in meter_starts else span.until_h
            yield LedgerRow(span.until_at, "lamp-out", until_h, lamp=each.lamp)


def _walked(rows: Iterable[LedgerRow]) -> Iterator[LedgerRow]:
    """The lines by time, each with the lamp that is in and its hours: they grow with the meter and by additions."""
    shown, lamp, lamp_h = ZERO, None, None
    for row in rows:
        if row.what == "lamp-fitted":
            lamp, lamp_h = row.lamp, row.lamp_h
        elif lamp_h is not None:
            lamp_h += _growth(row, shown)
        if row.meter_h is not None:
            shown = row.meter_h
        yield replace(row, lamp=lamp, lamp_h=lamp_h)
        if row.what == "lamp-out" and row.lamp == lamp:
            lamp, lamp_h = None, None


def _growth(row: LedgerRow, shown: Decimal) -> Decimal:
    """How much was burnt since the line before, by what this one says [h]."""
    if row.what == "hours-added":
        return row.added_h or ZERO
    if row.meter_h is None or row.what in ("meter-fitted", "meter-replaced"):
        return ZERO
    return max(ZERO, row.meter_h - shown)
