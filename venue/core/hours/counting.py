"""Hours of a lamp and of a unit: sums over meters and over hours added."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal

from venue.core.hours.records import ZERO, Added, Counted, Mark, MeterRun, Span


def hours_in(span: Span, runs: Sequence[MeterRun], added: Sequence[Added], now: datetime) -> Counted:
    """What was burnt in a fitting, as known at `now`: each meter's part of it and what was added after its start.

    A fitting's own readings count where its ends lie inside a meter's time. At a meter's own start or end the
    meter's first or last reading does. Without a reading to point at, the last one before counts. Of a meter's
    readings only those about the ends of the fitting matter, and the last one: others may be left out.
    """
    if span.from_at > now:
        return Counted()
    parts = [part for run in runs if (part := _part(span, run, now)) is not None]
    parts += [_as_counted(each) for each in added if _is_inside(each.at, span, now)]
    return _sum([Counted(as_of=span.from_at, strikes_are_all=True), *parts])


def lamp_hours(fittings: Iterable[Counted], came_with: Decimal = ZERO, came_with_strikes: int = 0) -> Counted:
    """A lamp's hours and strikes: those it came with and those of all its fittings."""
    before = Counted(came_with, came_with_strikes or None, strikes_are_all=came_with == ZERO or came_with_strikes > 0)
    return _sum([before, *fittings])


def unit_hours(
    runs: Sequence[MeterRun], added: Sequence[Added], now: datetime, came_with: Decimal | None = None
) -> Counted:
    """A unit's own hours, whatever lamps burnt in it.

    `came_with` are those from before the book began; where nobody knows, the first meter is taken to have
    counted from the unit's beginning.
    """
    begun = sorted((run for run in runs if run.starts_at <= now), key=lambda run: run.starts_at)
    if came_with is None:
        came_with = begun[0].starts_h if begun else ZERO
    whole = Span(min([run.starts_at for run in begun] + [each.at for each in added], default=now))
    parts = [part for run in begun if (part := _part(whole, run, now)) is not None]
    parts += [_as_counted(each) for each in added if each.at <= now]
    return _sum([Counted(hours=came_with, strikes_are_all=came_with == ZERO), *parts])


def _part(span: Span, run: MeterRun, now: datetime) -> Counted | None:
    """What one meter counted of a fitting; None if they never met."""
    until = span.until(now)
    if (until is not None and until <= run.starts_at) or (run.ends_at is not None and run.ends_at <= span.from_at):
        return None
    marks = run.marks_until(min(now, until) if until is not None else now)
    if not marks:
        return None
    first, last = _first(span, run, marks), _last(span, run, marks, until)
    strikes, are_all = _strikes(first, last, marks)
    return Counted(max(ZERO, last.hours - first.hours), strikes, run.counts == "power", last.at, are_all)


def _first(span: Span, run: MeterRun, marks: Sequence[Mark]) -> Mark:
    """What the meter showed as the fitting began, or as the meter did, if that was later."""
    if span.from_at <= run.starts_at:
        return run.start
    before = [mark for mark in marks if mark.at <= span.from_at]
    return before[-1] if span.from_h is None else _read_at(span.from_at, span.from_h, before)


def _last(span: Span, run: MeterRun, marks: Sequence[Mark], until: datetime | None) -> Mark:
    """What the meter showed as the fitting ended, or when it was last read."""
    is_inside = until is not None and (run.ends_at is None or until < run.ends_at)
    if until is None or not is_inside or span.until_h is None:
        return marks[-1]
    return _read_at(until, span.until_h, marks)


def _read_at(at: datetime, hours: Decimal, marks: Sequence[Mark]) -> Mark:
    """The reading that a fitting points at, with its strikes if it is among the marks."""
    same = [mark for mark in marks if mark.hours == hours and mark.strikes is not None]
    return Mark(at, hours, same[-1].strikes if same else None)


def _strikes(first: Mark, last: Mark, marks: Sequence[Mark]) -> tuple[int | None, bool]:
    """Strikes between two readings, and whether that is all of them; both ends need a count for that."""
    inside = [mark for mark in marks if first.hours <= mark.hours <= last.hours and mark.at >= first.at]
    counts = [mark.strikes for mark in (first, *inside, last) if mark.strikes is not None]
    if not counts:
        return None, False
    is_all = first.strikes is not None and (last.strikes is not None or last.hours == first.hours)
    return max(counts) - min(counts), is_all


def _as_counted(added: Added) -> Counted:
    return Counted(added.hours, added.strikes, False, added.at, added.strikes is not None)


def _is_inside(at: datetime, span: Span, now: datetime) -> bool:
    until = span.until(now)
    return span.from_at < at <= (now if until is None else until)


def _sum(parts: Sequence[Counted]) -> Counted:
    strikes = [part.strikes for part in parts if part.strikes is not None]
    return Counted(
        hours=sum((part.hours for part in parts), ZERO),
        strikes=sum(strikes) if strikes else None,
        power_hours=any(part.power_hours for part in parts),
        as_of=max((part.as_of for part in parts if part.as_of is not None), default=None),
        strikes_are_all=bool(strikes) and all(part.strikes_are_all for part in parts),
    )
