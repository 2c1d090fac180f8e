"""What keeps somebody off a line."""

from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, time, timedelta

from crew.core.filling.records import Bar, Booking, Code, Held, Need, Rules, Somebody, Wanted
from venue.core.local_time import house_day, wall_time

LEAST = timedelta(microseconds=1)


def bars_of(somebody: Somebody, wanted: Wanted, rules: Rules) -> tuple[Bar, ...]:
    """Everything that keeps the person off the line, what can't be changed first; nothing where nothing does."""
    return (*time_bars(somebody, wanted, rules), *certification_bars(somebody.held, wanted))


def has_stop(bars: Sequence[Bar]) -> bool:
    """Whether the person may not come on the line at all."""
    return any(bar.is_stop for bar in bars)


def time_bars(somebody: Somebody, wanted: Wanted, rules: Rules) -> tuple[Bar, ...]:
    """Those that have nothing to do with what the line asks for: all of them stops, but for a no, which may change."""
    if not (somebody.has_left or somebody.bookings or somebody.off or somebody.has_declined):
        return ()
    left = (Bar("left"),) if somebody.has_left else ()
    booked = tuple(
        Bar("booked", starts=each.starts, ends=each.ends)
        for each in somebody.bookings
        if each.starts < wanted.ends and each.ends > wanted.starts
    )
    declined = (Bar("declined", is_stop=False),) if somebody.has_declined else ()
    return (*left, *booked, *_rest(somebody.bookings, wanted, rules), *_days_off(somebody, wanted), *declined)


def _rest(bookings: Sequence[Booking], wanted: Wanted, rules: Rules) -> Iterator[Bar]:
    """A rest cut short before the line or after it. None is due within a working day or where calls touch."""
    for each in bookings:
        if _is_short(each.rests_from, wanted.starts, rules) and _is_other_day(each.starts, wanted.starts, rules):
            yield Bar("short-rest", starts=each.starts, ends=each.ends, until=each.rests_from + rules.rest)
        elif _is_short(wanted.ends, each.starts, rules) and _is_other_day(wanted.starts, each.starts, rules):
            until = wanted.ends + rules.rest
            yield Bar("short-rest", starts=each.starts, ends=each.ends, until=until, is_next=True)


def _is_short(ends: datetime, starts: datetime, rules: Rules) -> bool:
    return timedelta(0) < starts - ends < rules.rest


def _is_other_day(one: datetime, other: datetime, rules: Rules) -> bool:
    return working_day(one, rules) != working_day(other, rules)


def working_day(instant: datetime, rules: Rules) -> date:
    """The working day to which a line that begins at the instant belongs, as hours are counted."""
    return house_day(instant.astimezone(UTC), rules.zone, rules.day_turns)


def _days_off(somebody: Somebody, wanted: Wanted) -> Iterator[Bar]:
    first, last = wanted.works_on
    for off in somebody.off:
        if off.first <= last and off.last >= first:
            yield Bar("day-off", day=off.first, last=off.last)


def certification_bars(held: Sequence[Held], wanted: Wanted) -> tuple[Bar, ...]:
    """Each certification that the line asks for and the person lacks by the line's last day."""
    return tuple(bar for need in wanted.needs if (bar := _certification(held, need, wanted.days[1])) is not None)


def _certification(held: Sequence[Held], need: Need, by: date) -> Bar | None:
    last_day: date | None = None
    for each in held:
        if each.kind == need.kind and each.house == need.house:
            if each.expires_on is None or each.expires_on >= by:
                return None
            last_day = max(last_day or each.expires_on, each.expires_on)
    code: Code = "certification-missing" if last_day is None else "certification-expired"
    return Bar(code, need.is_required, kind=need.kind, day=last_day)


def calendar_days(starts: datetime, ends: datetime, zone: str) -> tuple[date, date]:
    """The first and the last day of the calendar that the span touches, by the zone's clocks."""
    return wall_time(starts, zone).date(), wall_time(max(starts, ends - LEAST), zone).date()


def days_worked(starts: datetime, ends: datetime, zone: str, day_turns: time) -> tuple[date, date]:
    """As `calendar_days`; but a night that ends before the house's day turns belongs to the day before."""
    first = wall_time(starts, zone).date()
    return first, max(first, house_day(max(starts, ends - LEAST), zone, day_turns))
