"""The beam as a cone: diameters and angles by hand, then there and back."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.beams import (
    BeamAngle,
    at_level_by_cosine_power,
    cosine_flux_lm,
    cosine_power,
    diameter_m,
    full_angle_deg,
)

ANGLES = st.floats(0.3, 170)
THROWS = st.floats(1, 305)


@pytest.mark.parametrize(
    ("angle", "throw", "diameter"), [(90, 10, 20), (60, 3, 2 * math.sqrt(3)), (0, 40, 0), (10, 0, 0)]
)
def test_the_diameter_is_twice_the_throw_by_the_tangent_of_half_the_angle(
    angle: float, throw: float, diameter: float
) -> None:
    assert diameter_m(angle, throw) == pytest.approx(diameter)


def test_at_no_throw_at_all_every_diameter_needs_half_a_turn() -> None:
    assert full_angle_deg(1.0, 0.0) == 180
    assert full_angle_deg(0.0, 0.0) == 0


@settings(max_examples=40)
@given(ANGLES, THROWS)
def test_the_angle_for_a_diameter_is_the_angle_that_makes_it(angle: float, throw: float) -> None:
    assert full_angle_deg(diameter_m(angle, throw), throw) == pytest.approx(angle)


@settings(max_examples=40)
@given(ANGLES, THROWS)
def test_twice_the_throw_makes_twice_the_diameter(angle: float, throw: float) -> None:
    assert diameter_m(angle, 2 * throw) == pytest.approx(2 * diameter_m(angle, throw))


def test_an_angle_without_its_level_is_never_turned_into_another() -> None:
    assert at_level_by_cosine_power(BeamAngle(10.0), 50) is None
    assert cosine_power(BeamAngle(10.0)) is None
    assert cosine_power(BeamAngle(180.0, 50)) is None


def test_a_perfectly_diffuse_beam_ends_at_120_degrees_at_half_its_peak() -> None:
    """cos 60 degrees = 1/2 with the exponent 1; the flux over the half space is then pi times the peak."""
    assert cosine_power(BeamAngle(120.0, 50)) == pytest.approx(1.0)
    assert cosine_flux_lm(100.0, 1.0) == pytest.approx(100 * math.pi)


@settings(max_examples=40)
@given(st.floats(0.3, 60))
def test_the_field_is_wider_than_the_beam_and_leads_back_to_it(angle: float) -> None:
    beam = BeamAngle(angle, 50)
    field = at_level_by_cosine_power(beam, 10)
    assert field is not None
    assert (field.percent, field.full_deg > angle) == (10, True)
    back = at_level_by_cosine_power(field, 50)
    assert back is not None
    assert back.full_deg == pytest.approx(angle)
    assert at_level_by_cosine_power(beam, 50) is beam
