"""Lamps as pages show them: how far each is through its life, where it was, what lies on the shelf."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import Count, F, Q

from venue.core.forecast import State, state_of
from venue.core.hours import Counted
from venue.core.lamp_life import LifeProblem, Weibull, fit_weibull
from venue.core.spares import (
    LampAhead,
    ReorderPoint,
    StockState,
    lead_time_demand,
    reorder_point,
    stock_state,
    usual_minimum,
)
from venue.ledgers import needed_book
from venue.models import Fitting, House, Lamp, LampDecision, LampKind, LampTally
from venue.models.lamps import Fate
from venue.use import use_of
from venue.wording_hours import life_words, state_words, stock_words

LAMPS_A_PAGE = 60
MOST_COUNTED = 500
"""Lamps of a kind that a reorder point is worked out from."""


@dataclass(frozen=True)
class LampLife:
    """A lamp's hours against its limits [h]; `words` say how far it is, `state_words` what that means."""

    lamp: Lamp
    hours: Decimal
    strikes: int | None
    warn_h: Decimal | None
    stop_h: Decimal | None
    left_h: Decimal | None
    state: State
    counted_to: datetime | None

    @property
    def words(self) -> str:
        return life_words(self.hours, self.stop_h, self.left_h)

    @property
    def state_words(self) -> str:
        return state_words(self.state)


def life_of(lamp: Lamp) -> LampLife:
    """The lamp's life by its tally; no query where kind and tally were fetched with it."""
    tally: LampTally | None = getattr(lamp, "tally", None)
    hours = lamp.came_with_h if tally is None else tally.hours
    warn_h, stop_h = lamp.kind.warn_h, lamp.kind.stop_h
    return LampLife(
        lamp=lamp,
        hours=hours,
        strikes=None if tally is None else tally.strikes,
        warn_h=warn_h,
        stop_h=stop_h,
        left_h=None if stop_h is None else stop_h - hours,
        state=state_of(hours, warn_h, stop_h),
        counted_to=None if tally is None else tally.counted_to,
    )


@dataclass(frozen=True)
class LampPage:
    """One lamp, each of its fittings with the hours burned in it, and the decisions about it, the last first."""

    life: LampLife
    fittings: tuple[tuple[Fitting, Counted], ...]
    decisions: tuple[LampDecision, ...]


def lamp_page(lamp: Lamp) -> LampPage:
    """What the lamp's page shows."""
    book = needed_book([], [lamp.pk])
    rows = list(Fitting.objects.real().filter(lamp=lamp).select_related("unit").order_by("-from_at"))
    counted = {each.pk: book.of_fitting(each) for each in book.fittings.get(lamp.pk, [])}
    fittings = tuple((row, counted[row.pk]) for row in rows)
    return LampPage(life_of(lamp), fittings, tuple(lamp.decisions.order_by("-at", "-pk")))


@dataclass(frozen=True)
class KindStock:
    """A kind with what lies on the shelf, what is fitted, what should be kept, and whether to order."""

    kind: LampKind
    on_shelf: int
    fitted: int
    keep: int
    is_usual: bool
    state: StockState

    @property
    def words(self) -> str:
        return stock_words(self.state, self.on_shelf, self.kind.on_order, self.keep)


def stock_of(kind: LampKind, on_shelf: int, fitted: int) -> KindStock:
    """The kind's stock: lamps with a serial on the shelf and spares without one. What is kept: what the house
    wrote, else what is usual for so many.
    """
    keep = usual_minimum(fitted) if kind.keep_at_least is None else kind.keep_at_least
    total = on_shelf + kind.spares
    is_usual = kind.keep_at_least is None
    return KindStock(kind, total, fitted, keep, is_usual, stock_state(total, kind.on_order, keep))


@dataclass(frozen=True)
class ShelfPage:
    """The house's kinds with their stock, and one page of its lamps, nearest to their stop first."""

    stocks: tuple[KindStock, ...]
    page: Page
    lives: tuple[LampLife, ...]


def shelf_page(house: House, number: Any) -> ShelfPage:
    """What the list of lamps shows. A constant number of queries."""
    lamps = house.lamps.standing().select_related("kind", "tally__unit")
    lamps = lamps.order_by(F("tally__left_h").asc(nulls_last=True), "serial_key", "pk")
    page = Paginator(lamps, LAMPS_A_PAGE).get_page(number)
    return ShelfPage(tuple(stocks_of(house)), page, tuple(map(life_of, page)))


def stocks_of(house: House) -> list[KindStock]:
    """The stock of every kind that the house uses. Two queries."""
    fitted = Count("pk", filter=Q(tally__unit__isnull=False))
    counts = house.lamps.standing().order_by().values("kind").annotate(all=Count("pk"), fitted=fitted)
    found = {row["kind"]: (row["all"] - row["fitted"], row["fitted"]) for row in counts}
    return [stock_of(kind, *found.get(kind.pk, (0, 0))) for kind in house.lamp_kinds.standing()]


@dataclass(frozen=True)
class Reorder:
    """When to order the kind, by what its lamps will burn until an order arrives in so many days."""

    point: ReorderPoint
    lead_days: int
    expected: float


def reorder_of(kind: LampKind, now: datetime) -> Reorder | None:
    """The kind's reorder point; None where nobody wrote how long an order takes, or none is fitted."""
    fitted = list(LampTally.objects.filter(lamp__kind=kind, unit__isnull=False)[:MOST_COUNTED])
    if kind.lead_days is None or not fitted:
        return None
    per_day = use_of(kind.house, [tally.unit_id for tally in fitted if tally.unit_id], now)
    ahead = [_ahead(tally, per_day.get(tally.unit_id or 0, 0.0), kind.lead_days, now) for tally in fitted]
    demand = lead_time_demand(ahead, now + timedelta(days=kind.lead_days), kind_life(kind))
    return Reorder(reorder_point(demand), kind.lead_days, demand.mean)


def _ahead(tally: LampTally, per_day: float, lead_days: int, now: datetime) -> LampAhead:
    stops_at = None
    if tally.left_h is not None and tally.left_h <= 0:
        stops_at = now
    elif tally.left_h is not None and per_day > 0 and float(tally.left_h) <= per_day * lead_days:
        stops_at = now + timedelta(days=float(tally.left_h) / per_day)
    return LampAhead(float(tally.hours), per_day * lead_days, stops_at)


def kind_life(kind: LampKind) -> Weibull | None:
    """How long lamps of the kind last, told by those that broke; None where too few did."""
    lamps = kind.lamps.select_related("tally").prefetch_related("fittings")[:MOST_COUNTED]
    failed: list[float] = []
    unfailed: list[float] = []
    for lamp in lamps:
        hours = float(life_of(lamp).hours)
        if hours > 0:
            is_broken = any(fitting.fate == Fate.BROKEN for fitting in lamp.fittings.all())
            (failed if is_broken else unfailed).append(hours)
    try:
        return fit_weibull(failed, unfailed)
    except LifeProblem:
        return None
