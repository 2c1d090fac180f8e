"""How much light a unit gives over its lamp hours, against its own first reading and against its mates.

Readings are made on the unit's own full-open flat field without color, at a named setting and distance. They
compare as candela; behind another setting, or from a distance far from the first, they do not compare at all.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import isclose
from statistics import linear_regression, median
from typing import Literal

from venue.core.light import candela_for
from venue.core.names import name_key

LightCode = Literal["below-first", "under-mates", "uneven"]

LEAST_OF_FIRST = 0.70
LEAST_OF_MATES = 0.75
MOST_SPREAD = 0.10
"""Less than 70 % of its first reading, more than a quarter under its mates (both common practice, no source), or
a beam that differs by more than 10 % either way (seen for general fixtures) is a finding."""
DISTANCE_TOLERANCE = 0.15
"""By how much [of the first distance] a later one may differ (practice): the inverse square is rough up close."""


@dataclass(frozen=True)
class LightReading:
    """Illuminance on the axis [lx] at a distance [m] and a setting, after so many lamp hours (None: not known)."""

    at: datetime
    lux: float
    distance_m: float
    setting: str
    lamp_h: float | None = None
    key: object = None

    @property
    def candela(self) -> float:
        return candela_for(self.lux, self.distance_m)


@dataclass(frozen=True)
class Slope:
    """The line y = slope * x + intercept through points, by least squares."""

    slope: float
    intercept: float

    def at(self, x: float) -> float:
        return self.slope * x + self.intercept


@dataclass(frozen=True)
class LightTrend:
    """A unit's comparable readings by time, the last one as a share of the first, and candela over lamp hours.

    `line` is None below two different lamp hours. `left_out` are readings that do not compare with the first.
    """

    readings: tuple[LightReading, ...]
    share_of_first: float
    line: Slope | None
    left_out: tuple[LightReading, ...] = ()


@dataclass(frozen=True)
class LightFinding:
    """Something to see to: the measured share against the one that is asked for."""

    code: LightCode
    share: float
    limit: float


def light_trend(readings: Iterable[LightReading], setting: str) -> LightTrend | None:
    """The trend at one setting against the first reading there; None without any."""
    here = sorted((each for each in readings if name_key(each.setting) == name_key(setting)), key=lambda each: each.at)
    if not here:
        return None
    first = here[0]
    kept = tuple(each for each in here if is_comparable(each, first))
    left_out = tuple(each for each in here if not is_comparable(each, first))
    share = kept[-1].candela / first.candela if first.candela > 0 else 1.0
    points = [(each.lamp_h, each.candela) for each in kept if each.lamp_h is not None]
    return LightTrend(kept, share, line_through(points), left_out)


def is_comparable(reading: LightReading, first: LightReading) -> bool:
    """Whether two readings were made at the same setting and about the same distance."""
    is_near = isclose(reading.distance_m, first.distance_m, rel_tol=0.0, abs_tol=DISTANCE_TOLERANCE * first.distance_m)
    return is_near and name_key(reading.setting) == name_key(first.setting)


def line_through(points: Sequence[tuple[float, float]]) -> Slope | None:
    """The least-squares line of (x, y); None where all x are one."""
    if len({x for x, _y in points}) < 2:
        return None
    found = linear_regression([x for x, _y in points], [y for _x, y in points])
    return Slope(found.slope, found.intercept)


def spread(lux: Sequence[float]) -> float:
    """How far readings across one beam lie about their middle, as a share: 0.1 is plus or minus 10 %."""
    if not lux or max(lux) <= 0:
        return 0.0
    return (max(lux) - min(lux)) / (max(lux) + min(lux))


def light_findings(
    trend: LightTrend | None, mates_cd: Sequence[float] = (), across_lux: Sequence[float] = ()
) -> tuple[LightFinding, ...]:
    """What the last reading says: against the unit's first, against the median of its mates, across the beam.

    `mates_cd` are last readings [cd] of other units of the same kind at the same setting, its own left out.
    """
    found = []
    if trend is not None and trend.share_of_first < LEAST_OF_FIRST:
        found.append(LightFinding("below-first", trend.share_of_first, LEAST_OF_FIRST))
    usual = median(mates_cd) if mates_cd else 0.0
    if trend is not None and usual > 0 and trend.readings[-1].candela < LEAST_OF_MATES * usual:
        found.append(LightFinding("under-mates", trend.readings[-1].candela / usual, LEAST_OF_MATES))
    if spread(across_lux) > MOST_SPREAD:
        found.append(LightFinding("uneven", spread(across_lux), MOST_SPREAD))
    return tuple(found)
