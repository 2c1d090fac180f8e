"""The pool of a beam against a derived figure, a published puzzle, and rays sampled on the cone."""

import math

import numpy as np
import pytest

from venue.core.pools import pool_center, pool_on_deck, pool_on_person, pool_on_plane
from venue.core.sightlines import sightline
from venue.core.throws import Point

RAYS = 10_000
CASES = [
    (Point(0, -38, 14), Point(0, 0, 1.5), 7.0),
    (Point(4.5, -38, 14), Point(-3, 4, 1.5), 0.9),
    (Point(-46.36, -20.16, 16), Point(0, -30, 1.5), 6.0),
    (Point(2, 12, 18), Point(0, 0, 0), 12.0),  # from behind the stage
    (Point(1, 1, 9), Point(0, 0, 1.5), 40.0),  # nearly straight down: its near edge lies behind the foot
    (Point(0, -60, 9), Point(0, 0, 1.5), 3.0),
]


def rays(lens: Point, target: Point, full_deg: float) -> np.ndarray:
    """Unit vectors (RAYS, 3) on the cone about the axis, without any formula of an ellipse."""
    axis = np.array([target.x_m - lens.x_m, target.y_m - lens.y_m, target.z_m - lens.z_m], dtype=float)
    axis /= np.linalg.norm(axis)
    across = np.cross(axis, [0.3, -0.5, 0.8])
    across /= np.linalg.norm(across)
    turn = np.linspace(0, 2 * math.pi, RAYS, endpoint=False)[:, None]
    around = np.cos(turn) * across + np.sin(turn) * np.cross(axis, across)
    half = math.radians(full_deg) / 2
    return math.cos(half) * axis + math.sin(half) * around


def ahead(lens: Point, target: Point) -> np.ndarray:
    """The axis seen from above, as a unit vector (3,)."""
    plan = np.array([target.x_m - lens.x_m, target.y_m - lens.y_m, 0.0])
    return plan / np.linalg.norm(plan)


@pytest.mark.parametrize(("lens", "target", "full_deg"), CASES)
def test_the_pool_on_the_deck_is_where_rays_meet_it(lens: Point, target: Point, full_deg: float) -> None:
    cone = rays(lens, target, full_deg)
    met = -lens.z_m / cone[:, 2:] * cone  # from under the lens; every ray of these cases goes down
    along, across = met @ ahead(lens, target), met @ np.cross(ahead(lens, target), [0, 0, 1])
    line = sightline(lens, target)
    pool = pool_on_deck(lens.z_m, line.angle_deg, full_deg)
    assert pool is not None
    assert (pool.near_m, pool.far_m) == pytest.approx((along.min(), along.max()), rel=1e-6)
    assert (pool.length_m, pool.width_m) == pytest.approx((np.ptp(along), np.ptp(across)), rel=1e-6)
    middle = lens.x_m + np.ptp(met[:, 0]) / 2 + met[:, 0].min(), lens.y_m + np.ptp(met[:, 1]) / 2 + met[:, 1].min()
    assert pool_center(lens, line, pool) == pytest.approx(middle, abs=1e-4)


@pytest.mark.parametrize(("lens", "target", "full_deg"), [case for case in CASES if case[2] < 30])
def test_the_pool_on_a_person_is_where_rays_meet_the_upright_plane(lens: Point, target: Point, full_deg: float) -> None:
    cone, line = rays(lens, target, full_deg), sightline(lens, target)
    met = line.plan_m / (cone @ ahead(lens, target))[:, None] * cone
    heights, across = lens.z_m + met[:, 2], met @ np.cross(ahead(lens, target), [0, 0, 1])
    pool = pool_on_person(lens.z_m, line, full_deg)
    assert pool is not None
    assert (pool.top_z_m, pool.bottom_z_m) == pytest.approx((heights.max(), heights.min()), abs=1e-5)
    assert (pool.height_m, pool.width_m) == pytest.approx((np.ptp(heights), np.ptp(across)), rel=1e-6)


@pytest.mark.parametrize(("lens", "target", "full_deg"), CASES[:3])
def test_every_ray_meets_the_deck_on_the_ellipse(lens: Point, target: Point, full_deg: float) -> None:
    cone, line = rays(lens, target, full_deg), sightline(lens, target)
    met = -lens.z_m / cone[:, 2:] * cone
    pool = pool_on_deck(lens.z_m, line.angle_deg, full_deg)
    assert pool is not None
    along = met @ ahead(lens, target) - (pool.near_m + pool.far_m) / 2
    across = met @ np.cross(ahead(lens, target), [0, 0, 1])
    round_it = (along / (pool.length_m / 2)) ** 2 + (across / (pool.width_m / 2)) ** 2
    assert np.allclose(round_it, 1, rtol=0, atol=1e-9)


def test_a_lens_12_m_up_60_degrees_from_the_vertical() -> None:
    """Derived in closed form and checked by sampling; no published answer."""
    pool = pool_on_deck(12.0, 30.0, 10.0)
    line = sightline(Point(0, 0, 12), Point(0, 12 * math.tan(math.radians(60)), 0))
    assert pool is not None
    assert line.throw_m == pytest.approx(24.000, abs=5e-4)
    found = (2 * line.throw_m * math.tan(math.radians(5)), pool.length_m, pool.width_m, (pool.near_m + pool.far_m) / 2)
    assert found == pytest.approx((4.1995, 8.5963, 4.2485, 21.4359), abs=5e-5)


def test_the_puzzle_of_the_spotlight() -> None:
    """Published puzzle, "Where should the spotlight be placed?", solve.club. Read. A cone with a semi-angle of 20
    degrees makes an ellipse a = 10, b = 5 on the floor, centered at (20, 20), its long axis 30 degrees from x; with
    the apex (x, y, z) and the axis u, x + y + z + 10 (ux + uy + uz) = 50.04.

    The incidence follows from the ellipse's eccentricity, sin(i) = e cos(20); what is checked is the pool.
    """
    incidence = math.degrees(math.asin(math.sqrt(0.75) * math.cos(math.radians(20))))
    unit = pool_on_plane(1.0, incidence, 40.0)
    assert unit is not None
    height = 10 / unit.width_m
    pool = pool_on_plane(height, incidence, 40.0)
    assert pool is not None
    assert (pool.length_m, pool.width_m) == pytest.approx((20, 10))
    toward = -math.cos(math.radians(30)), -math.sin(math.radians(30))  # the axis comes from beyond the center
    away = (pool.near_m + pool.far_m) / 2
    apex = 20 - away * toward[0], 20 - away * toward[1], height
    level, down = math.sin(math.radians(incidence)), math.cos(math.radians(incidence))
    axis = level * toward[0], level * toward[1], -down
    assert sum(apex) + 10 * sum(axis) == pytest.approx(50.04, abs=0.005)
