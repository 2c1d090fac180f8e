"""Throws, angles and beams against published figures. Each value is tested at its printed precision."""

import pytest

from venue.core.beams import diameter_m, full_angle_deg
from venue.core.pick_ups import SIZES, Size, sizes_below_body
from venue.core.sightlines import CAMERA_LIMIT_DEG, sightline
from venue.core.throws import Point

FOOT = 0.3048


def test_azimuth_elevation_and_range_of_pymap3d() -> None:
    """Test suite of pymap3d (its enu2aer): east 186.277521, north 286.842228, up 939.692621 lie at azimuth 33,
    elevation 70, range 1000. Read. The target is above the lens, so that its angle below the horizontal is -70.
    """
    line = sightline(Point(0, 0, 0), Point(186.277521, 286.842228, 939.692621))
    assert (line.pan_deg, line.angle_deg, line.throw_m) == pytest.approx((33, -70, 1000), abs=1e-6)


def test_a_performer_six_feet_tall_on_a_four_foot_stage() -> None:
    """Worked case in a trade forum: the light 12 ft in front of the performer, 22 ft up: 45 degrees. Read."""
    line = sightline(Point(0, -12 * FOOT, 22 * FOOT), Point(0, 0, 10 * FOOT))
    assert line.angle_deg == pytest.approx(45)


def test_the_limit_for_camera() -> None:
    """A broadcast lighting column: the rise no more than half the horizontal throw, 26.565 degrees. Read."""
    assert pytest.approx(26.565, abs=5e-4) == CAMERA_LIMIT_DEG


@pytest.mark.parametrize(
    ("plan", "rise", "throw", "angle"), [(100, 50, 111.8, 26.6), (142, 45, 149.0, 17.6), (100, 70, 122.1, 35.0)]
)
def test_worked_triangles_in_feet(plan: float, rise: float, throw: float, angle: float) -> None:
    """Derived from the right triangle, no published answer."""
    line = sightline(Point(0, -plan * FOOT, rise * FOOT), Point(0, 0, 0))
    assert (line.throw_m / FOOT, line.angle_deg) == pytest.approx((throw, angle), abs=0.05)


@pytest.mark.parametrize(("angle", "across"), [(50, 0.93), (36, 0.65), (26, 0.46), (10, 0.17), (5, 0.09)])
def test_pool_diameters_of_a_theater_technicians_table(angle: float, across: float) -> None:
    """A theater technician's table (public tutoring page): the pool's diameter for each unit of throw. Read."""
    assert diameter_m(angle, 1.0) == pytest.approx(across, abs=0.005)


@pytest.mark.parametrize(("feet", "angle"), [(3, 1.15), (8, 3.06)])
def test_angles_for_a_bust_and_a_full_body_at_150_feet(feet: float, angle: float) -> None:
    """Derived from 2 atan(d / 2t), no published answer."""
    assert full_angle_deg(feet * FOOT, 150 * FOOT) == pytest.approx(angle, abs=0.005)


def test_the_default_full_body_holds_a_tall_person_with_a_hat() -> None:
    """ANSUR II (Gordon et al., NATICK/TR-15/007), public individual data of 4082 men and 1986 women, statistics
    computed from the files: men's stature 1870 mm at the 95th percentile. City University of Hong Kong, Online
    Anthropometry Ch2-1, prints the same for US men; hats add 25 mm. Read. The size itself is practice."""
    assert SIZES[-1].diameter_m > 1.870 + 0.025


@pytest.mark.parametrize(
    ("name", "least_mm"),
    [("head", 259), ("head and shoulders", 558), ("waist", 743), ("knees", 1338), ("full body", 1870)],
)
def test_sizes_hold_at_least_the_measured_part_of_a_body(name: str, least_mm: int) -> None:
    """ANSUR II as above, 95th percentile, both sexes pooled as sampled (stature: men): from the crown down to the
    neck's base, the breadth of the shoulders, down to waist, to mid-knee, to the floor."""
    assert sizes_below_body([Size(name, least_mm / 1000 - 0.0005)]) != ()
    assert sizes_below_body([Size(name, least_mm / 1000 + 0.0005)]) == ()
