"""How long the house book takes when a house is large: loading, forecasting, and its pages.

The floor of the loading is its largest table alone, the floor of the forecast the same rows only read. A page has no
other floor than itself in a small house: it may take twice as long in a house a hundred times as large.
"""

import json
from collections.abc import Iterator
from datetime import timedelta
from time import perf_counter
from unittest.mock import patch

import pytest
import time_machine
from django.db import connection
from django.template import Template
from django.test import Client
from django.urls import reverse

from shows.models import ShowEvent, SpotPlace
from shows.outlook import LampCount, lamps_that_will_not_last, outlooks_of
from tests.bench.measuring import milliseconds, report
from tests.factories import ACTOR, NOON, make_user
from tests.grown import booked, grown_house
from venue.actions import grant_membership
from venue.house_file.reading import read_house_file
from venue.house_file.storing import store_house
from venue.models import House, LampTally, Placement, Reading

pytestmark = pytest.mark.bench
ROUNDS = 40


@pytest.fixture(autouse=True)
def as_a_server() -> Iterator[None]:
    """A fixed clock, and templates rendered as a server does it, without the copies that tests take."""
    as_served = patch.object(Template, "_render", lambda page, context: page.nodelist.render(context))
    with time_machine.travel(NOON, tick=False), as_served:
        yield


# -- loading -------------------------------------------------------------------------------------------


def years_of_readings(units: int, readings: int) -> bytes:
    """A house file of so many units, each with a meter, a lamp and so many readings."""
    began = NOON - timedelta(days=readings)
    tags = [f"FS-{number:03}" for number in range(units)]
    nights = range(1, readings + 1)
    at = [(began + timedelta(days=night)).isoformat() for night in range(readings + 1)]
    document = {
        "format": "throwbook-house",
        "version": 1,
        "house": {"name": "Quillmark Hall", "time_zone": "America/Chicago"},
        "positions": [],
        "units": [{"tag": tag, "source": "short-arc"} for tag in tags],
        "lamp_kinds": [{"name": "2 kW short-arc", "rated_h": 2000}],
        "lamps": [
            {"serial": f"L-{tag}", "kind": "2 kW short-arc", "fitted": [{"unit": tag, "from": at[0], "meter_h": 100.0}]}
            for tag in tags
        ],
        "meters": [{"unit": tag, "from": at[0], "starts_h": 100.0} for tag in tags],
        "readings": [
            {"unit": tag, "at": at[night], "meter_h": 100 + 3.5 * night, "strikes": night}
            for tag in tags
            for night in nights
        ],
    }
    return json.dumps(document).encode()


@pytest.mark.django_db
def test_loading_two_hundred_units_with_four_hundred_readings_each() -> None:
    data = years_of_readings(200, 400)
    started = perf_counter()
    file = read_house_file(data)
    read = perf_counter() - started
    store_house(file, actor=ACTOR, now=NOON)
    loaded = perf_counter() - started
    rows = list(Reading.objects.all())
    later = timedelta(minutes=1)
    bare = [Reading(meter_id=row.meter_id, at=row.at + later, hours=row.hours, strikes=row.strikes) for row in rows]
    floor = milliseconds(lambda: Reading.objects.bulk_create(bare, batch_size=1000), rounds=1) / 1000
    assert len(rows) == 200 * 401
    print(
        f"\nloading {len(rows):,} readings from {len(data) / 1e6:.1f} MB: {loaded:.1f} s, of which {read:.1f} s to "
        f"read and check; {loaded / floor:.1f} times storing the readings alone ({floor:.1f} s)"
    )


# -- forecast ------------------------------------------------------------------------------------------


@pytest.mark.django_db
@pytest.mark.parametrize(("units", "events"), [(50, 20), (5000, 2000)])
def test_the_forecast(units: int, events: int) -> None:
    house = grown_house("quillmark", units, 30)
    booked(house, engagements=10, events=events // 10)
    assert (LampTally.objects.count(), ShowEvent.objects.count()) == (units, events)
    name = f"forecast of {units:,} lamps against {events:,} booked events"
    report(name, lambda: forecast(house), lambda: only_read(house), rounds=5)
    report(f"{name}, the twelve with the least hours left", lambda: lamps_that_will_not_last(house, NOON),
           lambda: only_read(house, 12), rounds=5)  # fmt: skip


def forecast(house: House) -> None:
    tallies = LampTally.objects.filter(house=house).select_related("lamp__kind")
    assert len(outlooks_of(house, map(LampCount.of, tallies), NOON)) == house.units.count()


def only_read(house: House, lamps: int | None = None) -> None:
    """The same rows, fetched."""
    tallies = list(LampTally.objects.filter(house=house).select_related("lamp__kind").order_by("left_h")[:lamps])
    list(ShowEvent.objects.filter(engagement__house=house).values_list("pk", "engagement_id", "starts_at", "ends_at"))
    list(SpotPlace.objects.filter(engagement__house=house).values_list("engagement_id", "place_id"))
    units = [tally.unit_id for tally in tallies]
    list(Placement.objects.filter(unit__in=units).values_list("unit_id", "place_id", "starts_at", "ends_at"))
    since = NOON - timedelta(days=house.use_window_days)
    readings = Reading.objects.filter(meter__unit__in=units, at__gt=since).order_by("at", "hours")
    list(readings.values_list("meter_id", "at", "hours"))


# -- pages ---------------------------------------------------------------------------------------------


@pytest.mark.django_db(transaction=True)
def test_the_pages_of_a_house_of_five_thousand_units(client: Client, shared_database: None) -> None:
    head = make_user("head")
    small = for_head(grown_house("small", 50, 400), head)
    booked(small, engagements=10, events=10)
    client.force_login(head)
    before = {name: page_ms(client, address) for name, address in addresses(small).items()}
    started = perf_counter()
    large = for_head(grown_house("large", 5000, 400), head)
    booked(large, engagements=10, events=10)
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
    print(f"\n{Reading.objects.count():,} readings made in {perf_counter() - started:.0f} s")
    again = {name: page_ms(client, address) for name, address in addresses(small).items()}
    for name, address in addresses(large).items():
        spent = page_ms(client, address)
        print(
            f"{name}: {spent:.1f} ms at 5,000 units, {before[name]:.1f} ms at 50 (beside them {again[name]:.1f} ms): "
            f"{spent / before[name]:.2f} times"
        )


def for_head(house: House, head: object) -> House:
    grant_membership(actor=ACTOR, house=house, user=head, role="head")  # type: ignore[arg-type]
    return house


def addresses(house: House) -> dict[str, str]:
    """The pages that are measured, by what they are."""
    unit = house.units.order_by("tag_key")[25]
    return {
        "a unit's page": reverse("venue:unit_detail", args=[house.slug, unit.ref]),
        "the Today page": reverse("shows:today", args=[house.slug]),
    }


def page_ms(client: Client, address: str) -> float:
    def got() -> None:
        assert client.get(address).status_code == 200

    got()
    return min(milliseconds(got, rounds=1) for _round in range(ROUNDS))
