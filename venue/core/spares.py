"""Spare lamps: how many will be wanted until an order arrives, and whether to order."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from math import ceil, sqrt
from statistics import NormalDist
from typing import Literal

from venue.core.lamp_life import Weibull

StockState = Literal["ok", "order", "none"]

UNITS_A_SPARE = 4
"""One spare of each kind up to 4 units, two for 5 to 8 (common practice, no source)."""
RISK = 0.05
"""Of running out until an order arrives, where the house has set none (practice)."""


@dataclass(frozen=True)
class LampAhead:
    """A lamp in use: its hours, what it will burn until an order arrives [h], and when it passes its stop."""

    hours: float
    ahead_h: float
    stops_at: datetime | None


@dataclass(frozen=True)
class Demand:
    """Lamps wanted within a time: how many to expect, and the standard deviation of that."""

    mean: float
    deviation: float


def lead_time_demand(lamps: Iterable[LampAhead], until: datetime, life: Weibull | None = None) -> Demand:
    """Relamps until an order arrives: a lamp that passes its stop is one, any other as likely as its kind dies.

    Lamps die independently. Without a life only the stops count.
    """
    chances = [_chance(lamp, until, life) for lamp in lamps]
    return Demand(sum(chances), sqrt(sum(chance * (1.0 - chance) for chance in chances)))


def _chance(lamp: LampAhead, until: datetime, life: Weibull | None) -> float:
    if lamp.stops_at is not None and lamp.stops_at <= until:
        return 1.0
    return 0.0 if life is None else life.dying_within(lamp.hours, lamp.ahead_h)


@dataclass(frozen=True)
class ReorderPoint:
    """The stock at which to order: the demand until it arrives and a safety stock of z deviations."""

    z: float
    safety_stock: float
    point: float


def reorder_point(demand: Demand, risk: float = RISK) -> ReorderPoint:
    """Order at mean + z deviations, z leaving `risk` (above 0, below 1) of running out before the order arrives."""
    z = NormalDist().inv_cdf(1.0 - risk)
    safety = max(0.0, z * demand.deviation)
    return ReorderPoint(z, safety, demand.mean + safety)


def usual_minimum(units: int) -> int:
    """Spares of a kind to keep for so many units (common practice, no source)."""
    return ceil(units / UNITS_A_SPARE)


def stock_state(on_shelf: int, on_order: int, keep_at_least: int, reorder_at: float | None = None) -> StockState:
    """none: the shelf is empty of what should be kept; order: with what is coming it is below the minimum, or at
    or below the reorder point; ok otherwise.
    """
    is_wanted = keep_at_least > 0 or (reorder_at is not None and reorder_at > 0)
    if not is_wanted:
        return "ok"
    if on_shelf <= 0:
        return "none"
    coming = on_shelf + on_order
    is_low = coming < keep_at_least or (reorder_at is not None and coming <= reorder_at)
    return "order" if is_low else "ok"
