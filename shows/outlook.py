"""Which lamps will pass their limits, when, and in which show: by what is booked, and beyond that by the usual use.

A constant number of queries, however many lamps and events.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from decimal import Decimal
from functools import cached_property
from typing import Any

from shows.burning import NOWHERE, Bookings
from shows.models import ShowEvent
from venue.core.forecast import Calendar, Outlook, outlook
from venue.core.spares import Demand, LampAhead, ReorderPoint, StockState, lead_time_demand, reorder_point, stock_state
from venue.lamp_book import KindStock, kind_life, stocks_of
from venue.models import House, Lamp, LampTally
from venue.use import use_of

UNREAD_DAYS = 366
"""What was booked since a lamp's last reading counts, as far back as this."""
MOST_OF_A_KIND = 500
"""Lamps that a kind's reorder point is worked out from."""


@dataclass(frozen=True)
class LampCount:
    """A lamp with its kind, the unit it is in (None: none), and what it had burned at its last reading."""

    lamp: Lamp
    unit_id: int | None
    hours: Decimal
    strikes: int | None
    counted_to: datetime | None

    @classmethod
    def of(cls, tally: LampTally) -> "LampCount":
        return cls(tally.lamp, tally.unit_id, tally.hours, tally.strikes, tally.counted_to)


@dataclass(frozen=True)
class LampOutlook:
    """A lamp's way to its limits. `warns_in` and `stops_in` are events with their shows, None where none is booked
    then; `outlook` holds the hours and the instants.
    """

    count: LampCount
    outlook: Outlook
    warn_h: Decimal | None
    stop_h: Decimal | None
    warns_in: ShowEvent | None = None
    stops_in: ShowEvent | None = None


class Forecast:
    """What is booked for these lamps and what their units usually burn, fetched as far as it is asked for.

    `other_units` are units without a lamp, by primary keys, whose calendars are wanted too.
    """

    def __init__(
        self, house: House, counts: Iterable[LampCount], now: datetime, other_units: Collection[int] = ()
    ) -> None:
        self.house, self.counts, self.now = house, list(counts), now
        self._others = set(other_units)

    @cached_property
    def calendars(self) -> dict[int, Calendar]:
        """By the unit's primary key; four queries."""
        oldest = min((count.counted_to for count in self.counts if count.counted_to), default=self.now)
        since = max(min(oldest, self.now), self.now - timedelta(days=UNREAD_DAYS))
        units = self._others | {count.unit_id for count in self.counts if count.unit_id is not None}
        return Bookings(self.house, since).calendars(units) if units else {}

    def outlooks(self) -> list[Outlook]:
        """In the order of the lamps. The usual use is looked up only for units whose calendar is not enough."""
        limits = {count.lamp.kind_id: (count.lamp.kind.warn_h, count.lamp.kind.stop_h) for count in self.counts}
        found = [self._outlook(count, limits[count.lamp.kind_id], None) for count in self.counts]
        open_ended = [index for index, each in enumerate(found) if each.beyond_calendar]
        use = self.use(self.counts[index] for index in open_ended)
        for index in open_ended:
            count = self.counts[index]
            found[index] = self._outlook(count, limits[count.lamp.kind_id], use.get(count.unit_id or 0))
        return found

    def use(self, counts: Iterable[LampCount]) -> dict[int, float]:
        """Hours a day by the unit's primary key; three queries."""
        units = {count.unit_id for count in counts if count.unit_id is not None}
        return use_of(self.house, units, self.now) if units else {}

    def calendar(self, count: LampCount) -> Calendar:
        return self.calendars.get(count.unit_id or 0, NOWHERE)

    def _outlook(
        self, count: LampCount, limits: tuple[Decimal | None, Decimal | None], per_day: float | None
    ) -> Outlook:
        return outlook(count.hours, *limits, self.calendar(count), self.now, per_day, count.counted_to)


def outlooks_of(house: House, counts: Iterable[LampCount], now: datetime) -> dict[int, LampOutlook]:
    """The outlook of each lamp, by its primary key."""
    return forecast_outlooks(Forecast(house, counts, now))


def forecast_outlooks(forecast: Forecast) -> dict[int, LampOutlook]:
    """The outlook of each lamp of the forecast, by its primary key."""
    found = [
        LampOutlook(count, each, count.lamp.kind.warn_h, count.lamp.kind.stop_h)
        for count, each in zip(forecast.counts, forecast.outlooks(), strict=True)
    ]
    return {each.count.lamp.pk: each for each in _with_events(found)}


def _with_events(found: Sequence[LampOutlook]) -> Iterable[LampOutlook]:
    """The outlooks with the events that their limits are passed in. One query."""
    passed = {key for each in found for key in (each.outlook.warns_in, each.outlook.stops_in)}
    keys = [key for key in passed if isinstance(key, int)]
    rows = ShowEvent.objects.filter(pk__in=keys).select_related("engagement") if keys else ()
    events: dict[Any, ShowEvent] = {event.pk: event for event in rows}
    for each in found:
        warns_in, stops_in = events.get(each.outlook.warns_in), events.get(each.outlook.stops_in)
        yield replace(each, warns_in=warns_in, stops_in=stops_in)


def lamps_that_will_not_last(house: House, now: datetime, limit: int = 12) -> list[LampOutlook]:
    """Of the lamps with the fewest hours left those that pass their stop at a booked event, the first one first.

    However many lamps there are, no more than `limit` are looked at. Those past their stop already are told apart.
    """
    tallies = LampTally.objects.filter(house=house, unit__isnull=False, unit__ended_at__isnull=True, left_h__gt=0)
    least = tallies.select_related("lamp__kind", "unit").order_by("left_h")[:limit]
    found = outlooks_of(house, map(LampCount.of, least), now).values()
    ending = [each for each in found if each.stops_in is not None]
    return sorted(ending, key=lambda each: (each.outlook.stops_at or now, each.outlook.remaining_h or 0))


@dataclass(frozen=True)
class SpareNeed:
    """A kind's stock against the relamps to expect until an order arrives, `lead_days` from now.

    Demand, reorder point and days are None where nobody wrote how long an order takes.
    """

    stock: KindStock
    state: StockState
    lead_days: int | None = None
    demand: Demand | None = None
    reorder: ReorderPoint | None = None


def spare_needs(house: House, now: datetime) -> list[SpareNeed]:
    """What each kind that the house uses has on the shelf, and what it will need by what is booked."""
    stocks = stocks_of(house)
    tallies = LampTally.objects.filter(house=house, unit__isnull=False).select_related("lamp__kind").order_by("left_h")
    waiting = {stock.kind.pk for stock in stocks if stock.kind.lead_days is not None and stock.fitted}
    counts = [LampCount.of(tally) for tally in tallies.filter(lamp__kind__in=waiting)[: MOST_OF_A_KIND * len(waiting)]]
    forecast = Forecast(house, counts, now)
    ahead = list(zip(counts, forecast.outlooks(), strict=True))
    use = forecast.use(counts)
    of_kind = {stock.kind.pk: [pair for pair in ahead if pair[0].lamp.kind_id == stock.kind.pk] for stock in stocks}
    return [_need(stock, forecast, of_kind[stock.kind.pk], use) for stock in stocks]


def _need(
    stock: KindStock, forecast: Forecast, lamps: Sequence[tuple[LampCount, Outlook]], use: dict[int, float]
) -> SpareNeed:
    kind = stock.kind
    if kind.lead_days is None or not lamps:
        return SpareNeed(stock, stock.state, kind.lead_days)
    until = forecast.now + timedelta(days=kind.lead_days)
    ahead = [
        LampAhead(float(count.hours), _burns_until(until, forecast, count, use), each.stops_at) for count, each in lamps
    ]
    demand = lead_time_demand(ahead, until, kind_life(kind))
    point = reorder_point(demand)
    state = stock_state(stock.on_shelf, kind.on_order, stock.keep, point.point)
    return SpareNeed(stock, state, kind.lead_days, demand, point)


def _burns_until(until: datetime, forecast: Forecast, count: LampCount, use: dict[int, float]) -> float:
    """Hours that the lamp burns until then: those booked, and beyond the calendar as usual [h]."""
    calendar = forecast.calendar(count)
    beyond = until - max(forecast.now, calendar.ends_at or forecast.now)
    by_use = use.get(count.unit_id or 0, 0.0) * max(0.0, beyond / timedelta(days=1))
    return float(calendar.hours(forecast.now, until)) + by_use
