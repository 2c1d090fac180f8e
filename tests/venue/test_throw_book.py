"""The house as light: from rows to what each place can do, at a constant number of queries."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, make_a_house, make_place, make_position, make_unit
from venue.actions import measure_light, place_unit
from venue.core.lengths import read_length
from venue.core.light import Span
from venue.models import Blockage, House, PickUpSize
from venue.throw_book import lights_of, limits_of, sizes_of

pytestmark = pytest.mark.django_db


def stocked(places: int) -> House:
    house = make_a_house()
    position = make_position(house, glass="fixed", glass_loss_pct=10.0)
    for number in range(places):
        place = make_place(
            position, f"{number + 1}", x_m=float(number), y_m=-40.0, z_m=13.0,
            throw_m=50.0, throw_end="plaster", throw_end_y_m=0.0,
        )  # fmt: skip
        unit = make_unit(house, narrow_deg=1.0, wide_deg=8.0, narrow_cd=6_400_000, wide_cd=100_000, sized_by="zoom")
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
        for day, lux in enumerate((2000.0, 1500.0)):
            facts = {"distance": read_length("40 m", "metric"), "setting": "iris open"}
            measure_light(actor=ACTOR, unit=unit, at=NOON + timedelta(days=day), lux=lux, **facts)
    return house


def test_a_place_knows_its_lines_its_units_optics_its_glass_and_its_lamps_age() -> None:
    house = stocked(1)
    (light,) = lights_of(house.setups.get(), NOON + timedelta(days=3))
    assert light.line is not None
    assert light.line.throw_m == pytest.approx((40**2 + 11.5**2) ** 0.5)
    assert light.end_line is not None
    assert light.end_line.throw_m == pytest.approx((40**2 + 13**2) ** 0.5)
    assert light.shares == (Span(0.9, 0.9), Span(0.75, 0.75))
    assert [each.code for each in light.findings()] == ["differs-from-stated"]
    body = light.ability.pick_ups[-1].size
    lux = light.lux_on(body)
    assert lux is not None
    assert 0.675 * 100_000 / 41.62**2 < lux.low == lux.high < 0.675 * 6_400_000 / 41.61**2


def test_the_queries_do_not_grow_with_the_places() -> None:
    counts = []
    for places in (2, 20):
        setup = stocked(places).setups.select_related("house").get()
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert len(lights_of(setup, NOON + timedelta(days=3))) == places
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_the_houses_own_size_replaces_the_usual_one() -> None:
    house = make_a_house()
    PickUpSize.objects.create(house=house, size="head", diameter_m=0.8)
    assert [(size.name, size.diameter_m) for size in sizes_of(house)][:2] == [
        ("head", 0.8),
        ("head and shoulders", 1.0),
    ]


def test_what_is_in_the_way_of_one_place_limits_that_place_alone() -> None:
    position = make_position(farthest_upstage_m=8.0, pan_from_deg=-40.0, pan_to_deg=30.0)
    first, second = make_place(position, "1"), make_place(position, "2")
    zone = {"name": "banner", "corners": [[0, 0], [1, 0], [1, 1]], "place": first}
    Blockage.objects.create(position=position, **zone)
    rows = list(position.blockages.all())
    assert [zone.name for zone in limits_of(position, rows, first).blocked_zones] == ["banner"]
    assert limits_of(position, rows, second).blocked_zones == ()
    assert limits_of(position, rows).pan is not None
