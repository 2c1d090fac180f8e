"""The pool of a beam: by hand, then what holds for every cone and plane."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.beams import diameter_m
from venue.core.pools import pool_center, pool_on_deck, pool_on_person, pool_on_plane
from venue.core.sightlines import sightline
from venue.core.throws import Point

HEIGHTS = st.floats(0.5, 90)
BEAMS = st.floats(0.3, 30)


def test_straight_down_the_pool_is_a_circle_about_the_foot() -> None:
    pool = pool_on_deck(10.0, 90.0, 20.0)
    assert pool is not None
    assert (pool.near_m, pool.far_m) == pytest.approx((-1.76327, 1.76327), abs=1e-5)  # 10 tan 10
    assert (pool.length_m, pool.width_m) == pytest.approx((3.52654, 3.52654), abs=1e-5)


def test_near_and_far_edge_by_the_right_triangles_of_30_and_60_degrees() -> None:
    """The axis 45 degrees down, the cone 30 wide: its edges go down at 60 and at 30 degrees."""
    pool = pool_on_deck(3.0, 45.0, 30.0)
    assert pool is not None
    assert (pool.near_m, pool.far_m) == pytest.approx((math.sqrt(3), 3 * math.sqrt(3)))
    assert pool.length_m == pytest.approx(2 * math.sqrt(3))


@pytest.mark.parametrize(
    ("height", "angle", "beam"), [(10, 5, 10), (10, 4, 10), (10, -20, 10), (0, 45, 10), (-1, 45, 10), (10, 0, 0)]
)
def test_there_is_no_pool_where_the_cone_reaches_the_horizon_or_the_lens_is_not_above_the_deck(
    height: float, angle: float, beam: float
) -> None:
    assert pool_on_deck(height, angle, beam) is None


@settings(max_examples=40)
@given(HEIGHTS, st.floats(0, 90), BEAMS)
def test_a_pool_is_there_whenever_the_far_edge_goes_down(height: float, angle: float, beam: float) -> None:
    pool = pool_on_deck(height, angle, beam)
    if abs(angle - beam / 2) > 1e-9:
        assert (pool is not None) == (angle > beam / 2)
    if pool is not None:
        assert pool.far_m - pool.near_m == pytest.approx(pool.length_m, rel=1e-6)
        assert pool.width_m <= pool.length_m * (1 + 1e-12)


@settings(max_examples=40)
@given(HEIGHTS, BEAMS)
def test_the_ellipse_tends_to_a_circle_as_the_beam_points_straight_down(height: float, beam: float) -> None:
    pools = [pool_on_deck(height, angle, beam) for angle in (60.0, 75.0, 85.0, 89.0, 90.0)]
    slender = [pool.length_m / pool.width_m for pool in pools if pool is not None]
    assert slender == sorted(slender, reverse=True)
    assert slender[-1] == pytest.approx(1)
    assert pools[-1] is not None
    assert pools[-1].width_m == pytest.approx(diameter_m(beam, height))


@settings(max_examples=40)
@given(HEIGHTS, st.floats(35, 90), BEAMS, st.floats(0.1, 10))
def test_a_house_of_another_size_has_pools_of_that_size(height: float, angle: float, beam: float, by: float) -> None:
    one, two = pool_on_deck(height, angle, beam), pool_on_deck(by * height, angle, beam)
    assert one is not None
    assert two is not None
    assert vars(two) == pytest.approx({name: by * value for name, value in vars(one).items()})


@settings(max_examples=40)
@given(st.floats(1, 200), st.floats(-40, 40), st.floats(0.3, 2))
def test_across_the_line_a_narrow_pool_is_as_wide_as_the_beam(distance: float, incidence: float, beam: float) -> None:
    pool = pool_on_plane(distance, incidence, beam)
    assert pool is not None
    throw = distance / math.cos(math.radians(incidence))
    assert pool.width_m == pytest.approx(diameter_m(beam, throw), rel=1e-3)


def test_a_level_beam_makes_a_circle_on_a_person_about_the_target() -> None:
    line = sightline(Point(0, -10, 1.2), Point(0, 0, 1.2))
    pool = pool_on_person(1.2, line, 10.0)
    assert pool is not None
    radius = 10 * math.tan(math.radians(5))
    assert (pool.top_z_m, pool.bottom_z_m) == pytest.approx((1.2 + radius, 1.2 - radius))
    assert (pool.height_m, pool.width_m) == pytest.approx((2 * radius, 2 * radius))


def test_from_above_the_pool_on_a_person_is_drawn_out_downward() -> None:
    """The axis 45 degrees down, the cone 30 wide, 3 m away: its edges go down by 3 tan 30 and 3 tan 60."""
    pool = pool_on_person(5.0, sightline(Point(0, -3, 5.0), Point(0, 0, 2.0)), 30.0)
    assert pool is not None
    assert (pool.top_z_m, pool.bottom_z_m) == pytest.approx((5 - math.sqrt(3), 5 - 3 * math.sqrt(3)))
    assert pool.height_m > pool.width_m


def test_straight_above_a_person_there_is_no_plane_that_faces_the_lens() -> None:
    assert pool_on_person(9.0, sightline(Point(0, 0, 9), Point(0, 0, 1.5)), 10.0) is None


@settings(max_examples=40)
@given(st.floats(-50, 50), st.floats(-80, 80), st.floats(8, 40))
def test_the_center_of_the_pool_lies_along_the_pan_beyond_the_axis(x: float, y: float, z: float) -> None:
    lens, target = Point(x, y, z), Point(0.0, 0.0, 0.0)
    line = sightline(lens, target)
    pool = pool_on_deck(z, line.angle_deg, 5.0)
    if pool is None or line.plan_m < 1e-3:
        return
    center_x, center_y = pool_center(lens, line, pool)
    beyond = math.hypot(center_x - x, center_y - y) - line.plan_m
    assert math.hypot(center_x, center_y) == pytest.approx(beyond, abs=1e-6)
    assert 0 <= beyond < pool.far_m - line.plan_m
