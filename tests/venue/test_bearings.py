"""Bearings about the target: hand-checkable directions first, then what holds for every lens."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from venue.core.bearings import bearing_about, wrapped

METERS = st.floats(-305, 305)
DEGREES = st.floats(0, 359.99)


@pytest.mark.parametrize(
    ("x_m", "y_m", "bearing"),
    [
        (0, 10, 0),  # the stage end
        (10, 10, 45),
        (10, 0, 90),  # house right, which is stage left
        (10, -10, 135),
        (0, -10, 180),  # the far end, facing the stage
        (-10, -10, 225),
        (-10, 0, 270),  # house left
        (-10, 10, 315),
    ],
)
def test_the_eight_winds_of_a_bowl_grow_clockwise_from_the_stage_end(x_m, y_m, bearing):
    assert bearing_about(x_m, y_m) == pytest.approx(bearing)


def test_a_bearing_is_taken_about_the_target_and_not_about_the_origin():
    assert bearing_about(5, 3, target_x_m=5, target_y_m=-7) == 0
    assert bearing_about(0, -7, target_x_m=5, target_y_m=-7) == 270


def test_a_lens_right_above_the_target_has_bearing_zero():
    assert bearing_about(2.5, -4.0, 2.5, -4.0) == 0


def test_a_hair_before_the_stage_end_is_never_written_as_360():
    assert 0 <= bearing_about(-1e-300, 10) < 360
    assert 0 <= wrapped(-1e-17) < 360


def test_a_zero_bearing_carries_no_minus_sign():
    assert math.copysign(1, wrapped(-0.0)) == 1
    assert math.copysign(1, wrapped(-360.0)) == 1


def test_turning_from_350_to_10_is_20_clockwise_and_340_the_other_way():
    assert wrapped(10 - 350) == 20
    assert wrapped(350 - 10) == 340


@given(DEGREES, st.floats(1, 300), METERS, METERS)
def test_a_lens_set_out_by_bearing_and_distance_is_read_back_at_that_bearing(bearing, away, x_m, y_m):
    turn = math.radians(bearing)
    found = bearing_about(x_m + away * math.sin(turn), y_m + away * math.cos(turn), x_m, y_m)
    assert min(wrapped(bearing - found), wrapped(found - bearing)) < 1e-6


@given(METERS, METERS)
def test_every_bearing_lies_on_the_circle(x_m, y_m):
    assert 0 <= bearing_about(x_m, y_m) < 360


@given(METERS, METERS)
def test_mirroring_house_left_and_right_mirrors_the_bearing(x_m, y_m):
    assume(math.hypot(x_m, y_m) > 1e-3)
    assert (bearing_about(x_m, y_m) + bearing_about(-x_m, y_m)) % 360 == pytest.approx(0, abs=1e-9) or (
        bearing_about(x_m, y_m) + bearing_about(-x_m, y_m)
    ) == pytest.approx(360)
