"""Meters, readings and fittings in few words, for the tests of hours: instants are days and hours of one month."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal

from venue.core.hours import Added, Counts, Mark, MeterRun, Span

BEGIN = datetime(2026, 3, 1, tzinfo=UTC)
NOW = BEGIN + timedelta(days=400)


def day(number: float) -> datetime:
    """So many days after the beginning."""
    return BEGIN + timedelta(days=number)


def h(hours: str | float | None) -> Decimal:
    return Decimal(str(hours)).quantize(Decimal("0.01"))


def mark(at: float, hours: float, strikes: int | None = None, key: object = None) -> Mark:
    return Mark(day(at), h(hours), strikes, key)


def meter(
    at: float, shows: float, *marks: Mark, until: float | None = None, counts: Counts = "lamp", strikes: int | None = 0
) -> MeterRun:
    return MeterRun(day(at), None if until is None else day(until), h(shows), counts, marks, strikes)


def added(at: float, hours: float, strikes: int | None = None) -> Added:
    return Added(day(at), h(hours), strikes)


def span(at: float, shows: float | None, until: float | None = None, out: float | None = None) -> Span:
    return Span(
        day(at),
        None if until is None else day(until),
        None if shows is None else h(shows),
        None if out is None else h(out),
    )
