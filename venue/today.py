"""What a house has to know of its lights today: read from indexes, each part bounded, whatever is on file.

The number of queries does not depend on how many units there are, and no query passes over all of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import cached_property
from typing import Any, Generic, TypeVar

from django.db.models import F, OuterRef, Q, QuerySet, Subquery

from venue.condition import Condition, DueItem, conditions_of, due_items
from venue.core.local_time import house_day
from venue.lamp_book import KindStock, stocks_of
from venue.models import CareItem, Event, Fault, House, LampDecision, LampTally, LogEntry, Placement, Unit
from venue.models.faults import Means
from venue.stays import house_day_span

MOST = 8
"""So many lines of each part; the rest is behind "more"."""
MOST_CHANGES = 12
FAULTS_READ = 40
"""Standing faults that are looked through for the units of one part."""
HIRE_AHEAD = timedelta(days=7)
LATE_SINCE = timedelta(days=60)
"""How long it is asked whether a unit that was lent has come back."""

Row = TypeVar("Row")


@dataclass(frozen=True)
class Part(Generic[Row]):
    """The first rows of a list, and whether there are more."""

    rows: tuple[Row, ...]
    are_more: bool

    def __bool__(self) -> bool:
        return bool(self.rows)


@dataclass(frozen=True)
class Judged:
    """A unit with its condition now."""

    unit: Unit
    condition: Condition


class HouseToday:
    """Everything that stands against the lights today, each part with the most pressing first.

    A part is read as it is asked for.
    """

    def __init__(self, house: House, now: datetime) -> None:
        self.house, self.now = house, now
        self.day = house_day(now, house.time_zone, house.day_turns_at)

    @property
    def out(self) -> Part[Judged]:
        return self._judged[0]

    @property
    def limited(self) -> Part[Judged]:
        return self._judged[1]

    @cached_property
    def _judged(self) -> tuple[Part[Judged], Part[Judged]]:
        return _judged(self.house, self.now)

    @cached_property
    def due(self) -> Part[DueItem]:
        return _due(self.house, self.day, self.now)

    @cached_property
    def relamps(self) -> Part[LogEntry]:
        to_answer = LogEntry.objects.to_answer().filter(house=self.house)
        return first_of(to_answer.select_related("unit").order_by("at", "pk"))

    @cached_property
    def away(self) -> Part[Placement]:
        return first_of(_away(self.house, self.now))

    @cached_property
    def late(self) -> Part[Placement]:
        return first_of(_late(self.house, self.now))

    @cached_property
    def going_back(self) -> Part[Unit]:
        return first_of(_going_back(self.house, self.day))

    @cached_property
    def short(self) -> Part[KindStock]:
        return part_of([stock for stock in stocks_of(self.house) if stock.state != "ok"])

    @cached_property
    def changed(self) -> Part[Event]:
        return first_of(_changed(self.house, self.day), MOST_CHANGES)


def first_of(rows: QuerySet[Any], most: int = MOST) -> Part[Any]:
    """The first of the rows, by one query."""
    return part_of(list(rows[: most + 1]), most)


def part_of(rows: Sequence[Row], most: int = MOST) -> Part[Row]:
    return Part(tuple(rows[:most]), len(rows) > most)


def _judged(house: House, now: datetime) -> tuple[Part[Judged], Part[Judged]]:
    """The units out of service and those limited. A unit that is out stands in the first part only."""
    faulty_out, faulty = _faulty(house, Means.OUT), _faulty(house, Means.LIMITED)
    out = {**{unit.pk: unit for unit in _past_stop(house)}, **{unit.pk: unit for unit in faulty_out}}
    limited = {unit.pk: unit for unit in faulty if unit.pk not in out}
    shown = [*list(out.values())[:MOST], *list(limited.values())[:MOST]]
    conditions = conditions_of(shown, now)
    parts = ([Judged(unit, conditions[unit.pk]) for unit in list(units.values())[:MOST]] for units in (out, limited))
    first, second = (tuple(part) for part in parts)
    return Part(first, len(out) > MOST), Part(second, len(limited) > MOST)


def _faulty(house: House, means: Means) -> list[Unit]:
    """Units with a standing fault that means so much for use, the latest seen first."""
    faults = Fault.objects.standing().filter(unit__house=house, unit__ended_at__isnull=True, means=means)
    found = [fault.unit for fault in faults.select_related("unit").order_by("-opened_at", "-pk")[:FAULTS_READ]]
    return list({unit.pk: unit for unit in found}.values())


def _past_stop(house: House) -> list[Unit]:
    """Units whose lamp is past its stop, with no decision of a named person that it burns on."""
    decided = LampDecision.objects.filter(lamp=OuterRef("lamp")).order_by("-at", "-pk").values("until_h")[:1]
    tallies = LampTally.objects.filter(house=house, unit__isnull=False, left_h__lte=0, unit__ended_at__isnull=True)
    past = tallies.annotate(until_h=Subquery(decided)).filter(Q(until_h__isnull=True) | Q(until_h__lte=F("hours")))
    return [row.unit for row in past.select_related("unit").order_by("left_h")[: MOST + 1] if row.unit is not None]


def _due(house: House, day: date, now: datetime) -> Part[DueItem]:
    items = CareItem.objects.standing().filter(house=house, due_on__lte=day)
    own = items.filter(Q(unit__isnull=True) | Q(unit__ended_at__isnull=True))
    rows = list(own.select_related("plan", "unit", "house").order_by("due_on", "pk")[: MOST + 1])
    return part_of(due_items(rows, now))


def _away(house: House, now: datetime) -> QuerySet[Placement]:
    """Stays elsewhere that are in force."""
    stays = Placement.objects.at(now).filter(place__isnull=True, unit__house=house, unit__ended_at__isnull=True)
    return stays.select_related("unit").order_by(F("ends_at").asc(nulls_last=True), "starts_at", "pk")


def _late(house: House, now: datetime) -> QuerySet[Placement]:
    """Stays elsewhere that were to end by now, of units that nobody put anywhere since."""
    since = Placement.objects.real().filter(unit=OuterRef("unit"), starts_at__gte=OuterRef("ends_at"))
    stays = Placement.objects.real().filter(place__isnull=True, ends_at__lte=now, ends_at__gt=now - LATE_SINCE)
    own = stays.filter(unit__house=house, unit__ended_at__isnull=True)
    later = own.annotate(later=Subquery(since.values("pk")[:1])).filter(later__isnull=True)
    return later.select_related("unit").order_by("ends_at", "pk")


def _going_back(house: House, day: date) -> QuerySet[Unit]:
    return house.units.standing().filter(back_on__lte=day + HIRE_AHEAD).order_by("back_on", "pk")


def _changed(house: House, day: date) -> QuerySet[Event]:
    """The house's history since its day began yesterday, the latest first."""
    since, _until = house_day_span(house, day - timedelta(days=1))
    return Event.objects.filter(house=house, at__gte=since).order_by("-at", "-pk")
