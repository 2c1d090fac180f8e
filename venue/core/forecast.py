"""When a lamp will pass its limits, by the shows that are booked and beyond them by what the unit usually burns.

    last reading    burns                                   end of the calendar
    ----|---------[====]----[====]------[==*=]----------------|- - - - - - - -
     940 h        +3 h      +3 h        passes here            usual hours a day

A forecast starts at the lamp's last reading: what the calendar had it burn since then counts, though nobody has
read it yet.
"""

from bisect import bisect_right
from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from itertools import accumulate
from typing import Literal

State = Literal["ok", "warn", "stop", "unknown"]

_EPOCH = datetime(2000, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)
_MICROSECONDS_AN_HOUR = 3_600_000_000
_HUNDREDTH = Decimal("0.01")
FARTHEST_DAYS = 36_500
"""Nobody asks for a later day."""


@dataclass(frozen=True)
class Burn:
    """A time for which a light is booked to burn, and the event it burns for."""

    starts_at: datetime
    ends_at: datetime
    key: Hashable


def burn_of(
    starts_at: datetime, ends_at: datetime | None, before: timedelta, usual_length: timedelta
) -> tuple[datetime, datetime]:
    """When a light burns for an event: from some time before its start until its end, or its usual length."""
    end = ends_at if ends_at is not None else starts_at + usual_length
    return starts_at - before, max(starts_at, end)


class Calendar:
    """Booked burns, added up once so that any number of lamps may ask.

    Where burns overlap, the time counts once, for the one that started first.
    """

    def __init__(self, burns: Iterable[Burn]) -> None:
        pieces = _pieces(burns)
        self._starts = [start for start, _end, _key in pieces]
        self._keys = [key for _start, _end, key in pieces]
        self._sums = [0, *accumulate(end - start for start, end, _key in pieces)]

    @property
    def ends_at(self) -> datetime | None:
        """When the last burn ends; None without any."""
        return self._instant(len(self._starts) - 1, self._sums[-1]) if self._starts else None

    def hours(self, start: datetime, end: datetime | None = None) -> Decimal:
        """Hours booked from an instant until another, or until the end of the calendar [h]."""
        total = self._sums[-1] if end is None else self._burnt(_ticks(end))
        return _as_hours(max(0, total - self._burnt(_ticks(start))))

    def passing(self, start: datetime, hours: Decimal) -> tuple[datetime, Hashable] | None:
        """The instant at which more than so many hours are burnt from `start` on, and the event; None if never.

        A burn that ends just as they are reached does not pass them: the next one does, as it starts.
        """
        target = self._burnt(_ticks(start)) + int(hours * _MICROSECONDS_AN_HOUR)
        index = bisect_right(self._sums, target) - 1
        if index >= len(self._starts):
            return None
        return self._instant(index, target), self._keys[index]

    def _burnt(self, at: int) -> int:
        """What is burnt from the calendar's beginning until an instant [ticks]."""
        index = bisect_right(self._starts, at) - 1
        if index < 0:
            return 0
        return min(self._sums[index] + at - self._starts[index], self._sums[index + 1])

    def _instant(self, index: int, burnt: int) -> datetime:
        return _EPOCH + (self._starts[index] + burnt - self._sums[index]) * _MICROSECOND


def _pieces(burns: Iterable[Burn]) -> list[tuple[int, int, Hashable]]:
    """The burns by time, cut so that none overlaps another [ticks]."""
    pieces: list[tuple[int, int, Hashable]] = []
    covered = None
    for burn in sorted(burns, key=lambda each: (each.starts_at, each.ends_at)):
        start, end = _ticks(burn.starts_at), _ticks(burn.ends_at)
        start = start if covered is None else max(start, covered)
        if end > start:
            pieces.append((start, end, burn.key))
            covered = end
    return pieces


def _ticks(instant: datetime) -> int:
    return (instant - _EPOCH) // _MICROSECOND


def _as_hours(ticks: int) -> Decimal:
    return (Decimal(ticks) / _MICROSECONDS_AN_HOUR).quantize(_HUNDREDTH)


@dataclass(frozen=True)
class Outlook:
    """A lamp against its limits.

    `state`: by its last reading. `remaining_h`: until the stop, negative past it. `unread_h`: what the calendar
    had it burn since that reading; `booked_h`: from now on [h]. `warns_at`, `stops_at`: when the limit is passed,
    `…_in` the event in which; the instant of the reading, without an event, where it is passed already; before
    now where the calendar had it pass since. `beyond_calendar`: the booked burns do not pass the stop, so that
    `stops_at` is told by the usual use, and None where that is not known.
    """

    state: State
    remaining_h: Decimal | None
    booked_h: Decimal
    unread_h: Decimal
    warns_at: datetime | None = None
    warns_in: Hashable = None
    stops_at: datetime | None = None
    stops_in: Hashable = None
    beyond_calendar: bool = False


def outlook(
    hours: Decimal | None,
    warn_h: Decimal | None,
    stop_h: Decimal | None,
    calendar: Calendar,
    now: datetime,
    per_day: float | None,
    as_of: datetime | None = None,
) -> Outlook:
    """The outlook of a lamp with so many hours at its last reading, `as_of` (None: now).

    `per_day`: what its unit burns a day, dark days counted [h], for the time after the last booked burn. Without
    hours or a stop the state is unknown.
    """
    since = min(as_of, now) if as_of is not None else now
    booked, unread = calendar.hours(now), calendar.hours(since, now)
    if hours is None or stop_h is None:
        return Outlook("unknown", None, booked, unread)
    warns_at, warns_in, _is_beyond = _passes(hours, warn_h, calendar, since, now, per_day)
    stops_at, stops_in, is_beyond = _passes(hours, stop_h, calendar, since, now, per_day)
    state = state_of(hours, warn_h, stop_h)
    return Outlook(state, stop_h - hours, booked, unread, warns_at, warns_in, stops_at, stops_in, is_beyond)


def state_of(hours: Decimal | None, warn_h: Decimal | None, stop_h: Decimal | None) -> State:
    """What so many hours mean: a limit holds from the very hour on. Unknown without hours or a stop."""
    if hours is None or stop_h is None:
        return "unknown"
    if hours >= stop_h:
        return "stop"
    return "warn" if warn_h is not None and hours >= warn_h else "ok"


def _passes(
    hours: Decimal, limit: Decimal | None, calendar: Calendar, since: datetime, now: datetime, per_day: float | None
) -> tuple[datetime | None, Hashable, bool]:
    """When and in which event a limit is passed, and whether that lies beyond the booked burns."""
    if limit is None:
        return None, None, False
    if hours >= limit:
        return since, None, False
    found = calendar.passing(since, limit - hours)
    if found is not None:
        return found[0], found[1], False
    left = limit - hours - calendar.hours(since)
    return _by_use(max(now, calendar.ends_at or now), left, per_day), None, True


def _by_use(start: datetime, hours: Decimal, per_day: float | None) -> datetime | None:
    """When so many hours are burnt by the usual use; None where it is not known or too slow to tell."""
    if per_day is None or per_day <= 0 or float(hours) / per_day > FARTHEST_DAYS:
        return None
    return start + timedelta(days=max(0.0, float(hours)) / per_day)
