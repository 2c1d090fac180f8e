"""How long the pages of a drawn house of 24 places take once its rows are fetched, as a ratio to a floor.

The floor takes the 24 throws and writes as many plain lines and texts as the drawing has shapes. All that is derived
for the 24 places, the plan with their pools and its SVG stay within 30 ms together.
"""

import math
from collections.abc import Callable
from typing import Any
from unittest.mock import patch

import pytest

from tests.bench.measuring import milliseconds, report
from tests.factories import ACTOR, NOON, make_a_house, make_place, make_position, make_unit
from venue import throw_book
from venue.actions import place_unit
from venue.book import book_of
from venue.core.drawing.shapes import Drawing
from venue.house_drawings import as_figure, plan_drawing, section_drawing
from venue.models import Setup
from venue.throw_book import PlaceLight, lens_of, lights_in, sizes_of, target_of

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
PLACES, MOST_MS = 24, 30.0
Derive = Callable[[], list[PlaceLight]]


@pytest.fixture
def setup() -> Setup:
    house = make_a_house("Quillmark Hall")
    house.setups.update(opening_m=14.0, depth_m=11.0, apron_m=1.5)
    position = make_position(house, "Rear booth")
    told = {"throw_m": 43.28, "throw_text": "142 ft", "throw_end": "plaster", "throw_end_y_m": 0.0}
    for number in range(PLACES):
        at = {"x_m": -11.5 + number, "y_m": -38.0 + number % 5, "z_m": 14.0}
        place = make_place(position, str(number + 1), **at, **told)
        unit = make_unit(house, narrow_deg=0.9, wide_deg=7.0, narrow_cd=6.5e6, wide_cd=9e5, angle_percent=50)
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    return house.setups.select_related("house").get()


@pytest.fixture
def derive(setup: Setup) -> Derive:
    """Everything that is derived for the places, of rows that were fetched before."""
    entries, sizes = book_of(setup, NOON), sizes_of(setup.house)

    def lights() -> list[PlaceLight]:
        with (
            patch.object(throw_book, "sizes_of", lambda _house: sizes),
            patch.object(throw_book, "shares_of", lambda _units, _now: {}),
        ):
            return list(lights_in(entries, setup, NOON))

    return lights


def plain(setup: Setup, lights: list[PlaceLight], drawing: Drawing) -> Callable[[], str]:
    """The throws, and the same count of elements written out."""
    lenses, aim, count = [lens_of(light.place) for light in lights], target_of(setup), sum(1 for _ in drawing.flat())

    def written() -> str:
        throws = [math.dist((lens.x_m, lens.y_m, lens.z_m), (aim.x_m, aim.y_m, aim.z_m)) for lens in lenses if lens]
        return "".join(
            f'<line class="a" x1="{throws[index % PLACES]:.1f}" y1="0.0" x2="{index:.1f}" y2="9.0"/>'
            for index in range(count)
        )

    return written


def test_the_plan_of_twenty_four_places(setup: Setup, derive: Derive, django_assert_num_queries: Any) -> None:
    def work() -> str:
        return as_figure(plan_drawing(setup, derive(), with_pools="narrow"), "Plan", "plan")

    with django_assert_num_queries(0):
        work()
    floor = plain(setup, derive(), plan_drawing(setup, derive(), with_pools="narrow"))
    report("24 places of rows: derived values, plan with pools, SVG", work, floor)
    assert milliseconds(work) <= MOST_MS


def test_the_section_of_twenty_four_places(setup: Setup, derive: Derive) -> None:
    def work() -> str:
        return as_figure(section_drawing(setup, derive()), "Section", "section")

    floor = plain(setup, derive(), section_drawing(setup, derive()))
    report("24 places of rows: derived values, section, SVG", work, floor)
    assert milliseconds(work) <= MOST_MS
