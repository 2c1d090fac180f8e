"""How much a unit burns: its hours as a curve over time, by day, and in recent use."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise

from venue.core.hours.records import Added, MeterRun

_DAY = timedelta(days=1)
LEAST_DAYS = 1.0
"""Use is told from no less."""


@dataclass(frozen=True)
class Curve:
    """Hours burnt since the first thing known, at each instant at which something was read or added [h].

    Both rise; at one instant the later value holds.
    """

    at: tuple[datetime, ...]
    hours: tuple[float, ...]

    def value(self, instant: datetime) -> float:
        """Hours burnt until the instant, evenly between readings; 0 before the first, the last ones after it."""
        after = bisect_right(self.at, instant)
        if after == 0:
            return 0.0
        if after == len(self.at):
            return self.hours[-1]
        start, end = self.at[after - 1], self.at[after]
        share = (instant - start) / (end - start)
        return self.hours[after - 1] + share * (self.hours[after] - self.hours[after - 1])


def unit_curve(runs: Sequence[MeterRun], added: Sequence[Added], now: datetime) -> Curve:
    """The unit's hours over time, of all its meters and of what was added, as known at `now`."""
    changes = [(each.at, float(each.hours)) for each in added if each.at <= now]
    for run in runs:
        marks = run.marks_until(now)
        changes += [(marks[0].at, 0.0)] if marks else []
        changes += [(later.at, float(later.hours - earlier.hours)) for earlier, later in pairwise(marks)]
    total, at, hours = 0.0, [], []
    for instant, change in sorted(changes):
        total += max(0.0, change)
        at.append(instant)
        hours.append(total)
    return Curve(tuple(at), tuple(hours))


def use_per_day(
    runs: Sequence[MeterRun], added: Sequence[Added], now: datetime, window_days: float = 90.0
) -> float | None:
    """Hours a day over the days before `now`, dark days counted, as far as they were read [h].

    Days since the last reading tell nothing and are left out. None: less than a day was read in the window.
    """
    curve = unit_curve(runs, added, now)
    if not curve.at:
        return None
    start = max(curve.at[0], now - timedelta(days=window_days))
    days = (curve.at[-1] - start) / _DAY
    if days < LEAST_DAYS:
        return None
    return (curve.hours[-1] - curve.value(start)) / days


def hours_by_day(
    runs: Sequence[MeterRun], added: Sequence[Added], now: datetime, day_of: Callable[[datetime], date]
) -> dict[date, float]:
    """Hours burnt on each of the house's days [h]; a step over several days is spread evenly over them.

    A step belongs to the days after that of the reading before it, up to its own: a night read at its end is
    that night's. `day_of` gives the house's day of an instant.
    """
    curve = unit_curve(runs, added, now)
    found: dict[date, float] = {}
    days = [day_of(instant) for instant in curve.at]
    steps = [0.0, *(later - earlier for earlier, later in pairwise(curve.hours))]
    if curve.hours:
        steps[0] = curve.hours[0]
    for before, day, step in zip([None, *days], days, steps, strict=False):
        if step <= 0:
            continue
        count = 1 if before is None else max(1, (day - before).days)
        for back in range(count):
            found[day - _DAY * back] = found.get(day - _DAY * back, 0.0) + step / count
    return found
