"""Everything that follows for one place, put together."""

import json
from dataclasses import asdict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.abilities import Optics, ability
from venue.core.beams import BeamAngle
from venue.core.pick_ups import Size
from venue.core.sightlines import sightline
from venue.core.throws import Point

LENS, FACE = Point(0.0, -30.0, 16.5), Point(0.0, 0.0, 1.5)
BOTH = Optics(1.0, 8.0, 5e6, 6e5, 50)


def test_the_parts_are_those_of_the_line_and_of_the_unit() -> None:
    found = ability(LENS, FACE, BOTH)
    assert found.line == sightline(LENS, FACE)
    assert found.narrow is not None
    assert found.wide is not None
    assert (found.narrow.angle, found.wide.angle) == (BeamAngle(1.0, 50), BeamAngle(8.0, 50))
    assert (found.narrow.lux, found.wide.lux) == pytest.approx((5e6 / 1125, 6e5 / 1125))  # 30^2 + 15^2
    assert [each.reach for each in found.pick_ups] == ["ok"] * 5
    assert found.narrow.person is not None
    assert found.narrow.deck is not None
    assert found.narrow.person.bottom_z_m < 1.5 < found.narrow.person.top_z_m
    assert found.narrow.deck.near_m < 33 < found.narrow.deck.far_m  # the axis meets the deck 16.5 / tan a away


def test_without_a_lens_only_the_sizes_are_left() -> None:
    found = ability(None, FACE, BOTH)
    assert (found.line, found.narrow, found.wide) == (None, None, None)
    assert {(each.beam_deg, each.reach) for each in found.pick_ups} == {(None, None)}
    assert [each.size.name for each in found.pick_ups] == ["head", "head and shoulders", "waist", "knees", "full body"]


def test_without_a_unit_the_line_and_the_angles_that_sizes_need_are_left() -> None:
    found = ability(LENS, FACE)
    assert found.line is not None
    assert (found.narrow, found.wide) == (None, None)
    assert all(each.beam_deg and each.reach is None for each in found.pick_ups)


def test_of_a_beam_what_its_data_give_is_said_and_no_more() -> None:
    found = ability(LENS, FACE, Optics(narrow_deg=1.0, wide_cd=6e5))
    assert found.narrow is not None
    assert found.wide is not None
    assert (found.narrow.lux, found.narrow.diameter_m is None) == (None, False)
    assert (found.wide.diameter_m, found.wide.deck, found.wide.person) == (None, None, None)
    assert found.wide.lux == pytest.approx(6e5 / 1125)


def test_a_lens_in_the_target_breaks_nothing() -> None:
    found = ability(FACE, FACE, BOTH)
    assert found.narrow is not None
    assert (found.narrow.lux, found.narrow.diameter_m, found.narrow.deck) == (None, 0, None)
    assert {each.reach for each in found.pick_ups} == {"too-large"}


def test_a_house_may_have_its_own_sizes() -> None:
    (found,) = ability(LENS, FACE, BOTH, [Size("pair", 3.6)]).pick_ups
    assert (found.size.name, found.reach) == ("pair", "ok")


COORDINATES = st.floats(-1000, 1000)
POINTS = st.builds(Point, COORDINATES, COORDINATES, COORDINATES)
ANGLES, CANDELA = st.none() | st.floats(0.3, 60), st.none() | st.floats(1e3, 5e7)


@settings(max_examples=50)
@given(POINTS, POINTS, st.builds(Optics, ANGLES, ANGLES, CANDELA, CANDELA))
def test_whatever_is_recorded_every_value_is_a_finite_number_or_none(
    lens: Point, target: Point, optics: Optics
) -> None:
    found = ability(lens, target, optics)
    assert json.dumps(asdict(found), allow_nan=False)
    assert (found.narrow is None) == (optics.narrow_deg is None and optics.narrow_cd is None)
