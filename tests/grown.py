"""Houses grown large: units with lamps, years of readings and booked shows, made in bulk instead of by their verbs."""

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

from django.db import connection, models

from shows.models import Engagement, ShowEvent, ShowSpot, SpotPlace
from tests.factories import ACTOR, NOON
from venue.actions import make_house
from venue.models import (
    CareItem,
    CarePlan,
    Event,
    Fault,
    Fitting,
    House,
    Lamp,
    LampKind,
    LampTally,
    LogEntry,
    Meter,
    Place,
    Placement,
    Position,
    Reading,
    Unit,
    UnitTally,
)
from venue.models.record import ActorKind

PLACES_A_POSITION = 200
LATEST = NOON - timedelta(hours=12)
"""When every meter was read last."""
NIGHT_H = 3
ENTRIES, FAULTY = 10, 50
"""Log entries a unit; one unit in so many has a fault."""

Row = models.Model


def stored(rows: Iterable[Row]) -> list[Any]:
    """The rows, added in bulk."""
    found = list(rows)
    return type(found[0])._base_manager.bulk_create(found, batch_size=1000) if found else []


def grown_house(slug: str, units: int, nights: int) -> House:
    """A house of so many units, each with a lamp at its place and a reading a night, up to last night."""
    house = make_house(actor=ACTOR, name=slug.title(), slug=slug, time_zone="America/Chicago")
    lights = _units(house, units)
    began = LATEST - timedelta(days=nights)
    meters = stored(Meter(unit=unit, starts_at=began, starts_h=Decimal(0)) for unit in lights)
    _lamps(house, lights, began, nights)
    _readings(meters[0].pk, meters[-1].pk, began, nights)
    hours = Decimal(NIGHT_H * nights)
    stored(UnitTally(unit=unit, house=house, hours=hours, meter_h=hours, counted_to=LATEST) for unit in lights)
    _care(house, lights, began)
    return house


def _units(house: House, count: int) -> list[Unit]:
    """Each at a place of its own."""
    numbers = range(-(-count // PLACES_A_POSITION))
    positions = stored(Position(house=house, name=f"Row {number}", row_order=number) for number in numbers)
    in_position = (positions[number // PLACES_A_POSITION] for number in range(count))
    places = stored(Place(position=each, label=str(number)) for number, each in enumerate(in_position))
    units = stored(Unit(house=house, tag=f"FS-{number:04}", source="short-arc") for number in range(count))
    pairs = zip(units, places, strict=True)
    stored(Placement(unit=unit, place=place, starts_at=NOON - timedelta(days=2000)) for unit, place in pairs)
    return units


def _lamps(house: House, units: list[Unit], began: datetime, nights: int) -> None:
    """From nearly new to past the stop."""
    kinds = stored([LampKind(house=house, name="2 kW short-arc", source="short-arc", rated_h=2000.0, spares=9)])
    burned = [Decimal(number * 2001 // len(units)) for number in range(len(units))]
    lamps = stored(
        Lamp(house=house, kind=kinds[0], serial=f"L-{number:05}", came_with_h=hours)
        for number, hours in enumerate(burned)
    )
    stored(Fitting(lamp=lamp, unit=unit, from_at=began) for lamp, unit in zip(lamps, units, strict=True))
    own = Decimal(NIGHT_H * nights) if nights < 100 else Decimal(0)
    stored(
        LampTally(lamp=lamp, house=house, unit=unit, hours=hours + own, left_h=2000 - hours - own, counted_to=LATEST)
        for lamp, unit, hours in zip(lamps, units, burned, strict=True)
    )


def _care(house: House, units: list[Unit], began: datetime) -> None:
    """A log, faults, care due on many days, and the history of it."""
    stored(
        LogEntry(house=house, unit=unit, kind="clean", at=began + timedelta(days=20 * number), text="lenses")
        for unit in units
        for number in range(ENTRIES)
    )
    faulty = units[::FAULTY]
    stored(
        Fault(unit=unit, means="limited", limit_kind="blackout", opened_at=LATEST - timedelta(hours=number))
        for number, unit in enumerate(faulty)
    )
    plans = stored([CarePlan(house=house, what="Clean the lenses", covers="all", every_days=90)])
    stored(
        CareItem(
            plan=plans[0],
            house=house,
            unit=unit,
            last_done_at=began,
            due_on=date(2026, 1, 1) + timedelta(days=number % 180),
        )
        for number, unit in enumerate(units)
    )
    stored(
        Event(house=house, at=began + timedelta(days=number % 300), actor_kind=ActorKind.COMMAND, actor_name="bench",
              verb="unit.changed", subject_kind="unit", subject_ref=unit.ref, data={"subject": unit.tag})
        for number, unit in enumerate(units)
    )  # fmt: skip


_SQL = {
    "sqlite": ("lower(hex(randomblob(16)))", "datetime(%s, n.i || ' days')"),
    "postgresql": ("gen_random_uuid()", "%s::timestamptz + n.i * interval '1 day'"),
}
"""A new reference, and the instant of night n.i."""


def _readings(first_meter: int, last_meter: int, began: datetime, nights: int) -> None:
    """A reading of each meter for each night, made by the database itself: two million take the framework minutes."""
    ref, at = _SQL[connection.vendor]
    columns = "ref, entered_at, entered_by, struck_by, struck_reason, meter_id, at, hours, strikes, cause"
    since = connection.ops.adapt_datetimefield_value(began)
    with connection.cursor() as cursor:
        cursor.execute(
            f"INSERT INTO {Reading._meta.db_table} ({columns}) "
            f"WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {nights}) "
            f"SELECT {ref}, %s, '', '', '', m.id, {at}, {NIGHT_H} * n.i, n.i, 'booth' "
            f"FROM {Meter._meta.db_table} AS m CROSS JOIN n WHERE m.id BETWEEN %s AND %s",
            [since, since, first_meter, last_meter],
        )


def booked(house: House, engagements: int, events: int, numbers: int = 60) -> None:
    """So many shows in a row, every second one with numbers on the first places, each of so many events."""
    setup = house.setups.get()
    spans = [(NOON.date() + timedelta(days=events * index)) for index in range(engagements)]
    shows = stored(
        Engagement(house=house, setup=setup, name=f"Show {index}", starts_on=day, ends_on=day + timedelta(days=events))
        for index, day in enumerate(spans)
    )
    stored(
        _event(show, day + timedelta(days=night))
        for show, day in zip(shows, spans, strict=True)
        for night in range(events)
    )
    places = list(Place.objects.filter(position__house=house).order_by("pk")[:numbers])
    spots = stored(ShowSpot(engagement=show, number=str(n)) for show in shows[::2] for n in range(1, len(places) + 1))
    stored(
        SpotPlace(engagement=spot.engagement, spot=spot, place=places[index % len(places)])
        for index, spot in enumerate(spots)
    )


def _event(show: Engagement, day: date) -> ShowEvent:
    starts = datetime.combine(day, time(19, 30))
    at = {
        "starts_at": starts.replace(tzinfo=NOON.tzinfo),
        "ends_at": (starts + timedelta(hours=3)).replace(tzinfo=NOON.tzinfo),
    }
    wall = {"starts_date": day, "starts_time": time(19, 30), "ends_date": day, "ends_time": time(22, 30)}
    return ShowEvent(engagement=show, kind="show", zone="UTC", **at, **wall)
