"""How much units burn: their hours a day in the house's window, read from the rows in three queries."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any

from django.db.models import F, OuterRef, Q, Subquery

from venue.core.hours import Added, Mark, MeterRun, use_per_day
from venue.models import HoursAdded, House, Meter, Reading


def use_of(house: House, unit_ids: Iterable[int], now: datetime) -> dict[int, float]:
    """Hours a day of each unit over the house's window, dark days counted; units without a day read are left out."""
    ids = set(unit_ids)
    start = now - timedelta(days=house.use_window_days)
    runs, added = _runs(ids, start, now), _added(ids, start, now)
    found = {
        unit_id: use_per_day(runs.get(unit_id, ()), added.get(unit_id, ()), now, house.use_window_days)
        for unit_id in ids
    }
    return {unit_id: per_day for unit_id, per_day in found.items() if per_day is not None}


def _runs(ids: set[int], start: datetime, now: datetime) -> Mapping[int, list[MeterRun]]:
    """Each unit's meters as far as they reach into the window, begun at the last reading before it."""
    marks = defaultdict(list)
    inside = Reading.objects.counting().filter(meter__unit__in=ids, at__gt=start, at__lte=now).order_by("at", "hours")
    for meter_id, at, hours in inside.values_list("meter_id", "at", "hours"):
        marks[meter_id].append(Mark(at, hours))
    runs = defaultdict(list)
    for meter in _meters(ids, start, now):
        since = meter["before_at"] or meter["starts_at"]
        shown = meter["starts_h"] if meter["before_h"] is None else meter["before_h"]
        run = MeterRun(since, meter["ends_at"], shown, marks=tuple(marks[meter["pk"]]))
        runs[meter["unit_id"]].append(run)
    return runs


def _meters(ids: set[int], start: datetime, now: datetime) -> Any:
    before = Reading.objects.counting().filter(meter=OuterRef("pk"), at__lte=start).order_by("-at")
    meters = Meter.objects.filter(Q(ends_at__isnull=True) | Q(ends_at__gt=start), unit__in=ids, starts_at__lte=now)
    # A plan that was taken back, or a meter put there by mistake, has an empty span.
    meters = meters.exclude(ends_at=F("starts_at")).annotate(
        before_at=Subquery(before.values("at")[:1]), before_h=Subquery(before.values("hours")[:1])
    )
    return meters.order_by("starts_at").values(
        "pk", "unit_id", "starts_at", "ends_at", "starts_h", "before_at", "before_h"
    )


def _added(ids: set[int], start: datetime, now: datetime) -> Mapping[int, list[Added]]:
    added = defaultdict(list)
    inside = HoursAdded.objects.counting().filter(unit__in=ids, at__gt=start, at__lte=now).order_by("at")
    for unit_id, at, hours in inside.values_list("unit_id", "at", "hours"):
        added[unit_id].append(Added(at, hours))
    return added
