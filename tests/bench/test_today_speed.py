"""How long the day's page of a house with 5,000 units and 2,000,000 readings takes, against one with 50 units."""

from collections.abc import Iterator
from datetime import timedelta
from decimal import Decimal
from itertools import islice

import pytest
import time_machine
from django.db import connection
from django.test import Client

from tests.bench.measuring import report
from tests.factories import ACTOR, NOON, make_position, make_unit, make_user
from venue.actions import grant_membership
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
    Meter,
    Place,
    Placement,
    Unit,
    UnitTally,
)

pytestmark = [pytest.mark.bench, pytest.mark.django_db]

FEW, MANY = 50, 5_000
READINGS_A_UNIT = 400
FAULTY, PAST_STOP, AWAY = 10, 25, 20
"""One unit in so many."""


def a_house_of(number: int) -> House:
    """A house of so many units, each at a place with a lamp, a meter, readings, care and some history."""
    house = make_unit().house
    row = make_position(house, name="Rear booth")
    units = _stored(Unit(house=house, tag=f"U-{n:05}", tag_key=f"U-{n:05}") for n in range(number))
    places = _stored(Place(position=row, label=f"{n}", label_key=f"{n}", sort_key=f"{n:05}") for n in range(number))
    _put(house, units, places)
    _light(house, units)
    _wear(house, units)
    return house


def _stored(rows: Iterator) -> list:
    found = []
    while some := list(islice(rows, 2_000)):
        found += type(some[0]).objects.bulk_create(some)
    return found


def _put(house: House, units: list[Unit], places: list[Place]) -> None:
    since = NOON - timedelta(days=400)
    _stored(
        Placement(unit=unit, place=place, starts_at=since, ends_at=None if n % AWAY else NOON)
        for n, (unit, place) in enumerate(zip(units, places, strict=True))
    )
    _stored(Placement(unit=unit, elsewhere="shop", starts_at=NOON, ends_at=None) for unit in units[::AWAY])


def _light(house: House, units: list[Unit]) -> None:
    kind = LampKind.objects.create(house=house, name="2 kW", name_key="2KW", rated_h=1000.0, spares=1)
    lamps = _stored(Lamp(house=house, kind=kind, serial=f"L-{u.pk}", serial_key=f"L-{u.pk}") for u in units)
    pairs = list(zip(units, lamps, strict=True))
    _stored(Fitting(unit=unit, lamp=lamp, from_at=NOON - timedelta(days=400)) for unit, lamp in pairs)
    _stored(
        LampTally(
            lamp=lamp, house=house, unit=unit, hours=Decimal(400),
            left_h=Decimal(-1 if n % PAST_STOP == 0 else 600), counted_to=NOON,
        )
        for n, (unit, lamp) in enumerate(pairs)
    )  # fmt: skip
    meters = _stored(Meter(unit=unit, starts_at=NOON - timedelta(days=400)) for unit in units)
    _read(meters)


def _read(meters: list[Meter]) -> None:
    """Readings of every day, made by the database: so many rows would take minutes one by one."""
    days = " UNION ALL ".join(f"SELECT {day} AS day" for day in range(1, READINGS_A_UNIT + 1))
    made = "gen_random_uuid()" if connection.vendor == "postgresql" else "lower(hex(randomblob(16)))"
    at = "%s - day * interval '1 day'" if connection.vendor == "postgresql" else "datetime(%s, '-' || day || ' days')"
    with connection.cursor() as cursor:
        cursor.execute(
            f"""INSERT INTO venue_reading (ref, meter_id, at, hours, cause, entered_at, entered_by, struck_by,
                struck_reason) SELECT {made}, meter.id, {at}, {READINGS_A_UNIT} - day, 'file', %s, '', '', ''
                FROM venue_meter meter CROSS JOIN ({days}) days WHERE meter.id BETWEEN %s AND %s""",
            [NOON, NOON, meters[0].pk, meters[-1].pk],
        )


def _wear(house: House, units: list[Unit]) -> None:
    _stored(UnitTally(unit=unit, house=house, hours=Decimal(400)) for unit in units)
    _stored(
        Fault(unit=unit, part="douser", means="out" if n % 2 else "limited", limit_kind="blackout", opened_at=NOON)
        for n, unit in enumerate(units[::FAULTY])
    )
    plan = CarePlan.objects.create(house=house, what="Clean front lens", covers="all", every_days=7)
    due = NOON.date()
    _stored(
        CareItem(plan=plan, house=house, unit=unit, due_on=due + timedelta(days=n % 30 - 1))
        for n, unit in enumerate(units)
    )
    _stored(
        Event(
            house=house, at=NOON - timedelta(hours=n % 900), actor_kind="command", actor_name="tests",
            verb="unit.changed", subject_kind="unit", subject_ref=unit.ref, data={"subject": unit.tag},
        )
        for n, unit in enumerate(units * 4)
    )  # fmt: skip


def test_the_days_page(client: Client) -> None:
    head = make_user("head")
    small, large = a_house_of(FEW), a_house_of(MANY)
    for house in (small, large):
        grant_membership(actor=ACTOR, house=house, user=head, role="head")
    client.force_login(head)
    with time_machine.travel(NOON + timedelta(hours=1), tick=False):
        report(f"today, {MANY} units against {FEW}", lambda: got(client, large), lambda: got(client, small))


def got(client: Client, house: House) -> None:
    assert client.get(f"/houses/{house.slug}/today/").status_code == 200
