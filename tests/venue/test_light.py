"""Light that arrives: by hand, then what holds for every lamp."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.light import (
    Span,
    arriving_lx,
    candela_at,
    candela_for,
    foot_candles,
    illuminance_lx,
    is_too_near,
    lux_of,
    solid_angle_sr,
    through_glass,
)

CANDELA = st.floats(1e3, 5e7)
THROWS = st.floats(1.5, 305)


@pytest.mark.parametrize(
    ("candela", "throw", "incidence", "lux"),
    [(1600, 40, 0, 1), (1600, 40, 60, 0.5), (1600, 40, -60, 0.5), (1600, 40, 90, 0), (1600, 40, 120, 0), (0, 40, 0, 0)],
)
def test_light_falls_with_the_square_of_the_throw_and_the_cosine(
    candela: float, throw: float, incidence: float, lux: float
) -> None:
    assert illuminance_lx(candela, throw, incidence) == pytest.approx(lux)


@pytest.mark.parametrize("throw", [0.0, 1e-200, -1.0])
def test_in_the_lens_itself_no_light_is_said(throw: float) -> None:
    assert illuminance_lx(1e6, throw) is None


@settings(max_examples=40)
@given(CANDELA, THROWS, st.floats(0, 89))
def test_doubling_the_throw_quarters_the_light(candela: float, throw: float, incidence: float) -> None:
    near, far = illuminance_lx(candela, throw, incidence), illuminance_lx(candela, 2 * throw, incidence)
    assert near is not None
    assert far == pytest.approx(near / 4)


@settings(max_examples=40)
@given(CANDELA, THROWS)
def test_the_intensity_for_a_reading_gives_the_reading(lux: float, throw: float) -> None:
    assert illuminance_lx(candela_for(lux, throw), throw) == pytest.approx(lux)
    assert lux_of(foot_candles(lux)) == pytest.approx(lux)


def test_150_foot_candles_at_150_feet_take_three_and_three_eighths_million_candela() -> None:
    assert candela_for(lux_of(150), 150 * 0.3048) == pytest.approx(3.375e6)


@pytest.mark.parametrize(
    ("glass", "loss", "low", "high"),
    [
        ("sliding", None, 0.85, 0.88),
        ("fixed", None, 0.85, 0.88),
        ("fixed", 0.2, 0.8, 0.8),
        ("open", None, 1, 1),
        ("open", 0.2, 1, 1),
        ("", None, 1, 1),
    ],
)
def test_a_recorded_pane_takes_12_to_15_percent_or_what_the_house_measured(
    glass: str, loss: float | None, low: float, high: float
) -> None:
    span = through_glass(glass, loss)
    assert (span.low, span.high) == pytest.approx((low, high))


def test_what_arrives_is_what_each_leaves_of_it() -> None:
    left = arriving_lx(1000.0, through_glass("fixed"), Span(0.5, 0.5), Span(0.8, 0.8))
    assert (left.low, left.high) == pytest.approx((340, 352))
    assert arriving_lx(1000.0) == Span(1000.0, 1000.0)


def test_the_whole_sphere_has_four_pi() -> None:
    assert solid_angle_sr(360) == pytest.approx(4 * math.pi)
    assert solid_angle_sr(180) == pytest.approx(2 * math.pi)


NARROW, WIDE = (0.9, 6.5e6), (7.0, 9e5)


def test_the_intensity_between_both_ends_of_a_zoom_meets_them_and_falls() -> None:
    found = [candela_at(angle, NARROW, WIDE) for angle in (0.9, 2.0, 4.0, 7.0)]
    assert (found[0], found[-1]) == (pytest.approx(6.5e6), pytest.approx(9e5))
    assert found == sorted(found, key=lambda candela: -(candela or 0))


@pytest.mark.parametrize(
    ("angle", "narrow"), [(0.8, NARROW), (7.1, NARROW), (2.0, (0.9, 0.0)), (1.0, (0.0, 6.5e6)), (8.0, (8.0, 6.5e6))]
)
def test_outside_the_zoom_or_without_intensity_nothing_is_said(angle: float, narrow: tuple[float, float]) -> None:
    assert candela_at(angle, narrow, WIDE) is None


def test_a_unit_without_a_zoom_has_one_intensity() -> None:
    assert candela_at(5.0, (5.0, 1e6), (5.0, 1e6)) == pytest.approx(1e6)


@settings(max_examples=40)
@given(st.floats(0.3, 5), st.floats(1, 12), st.floats(0, 1), st.floats(10, 1e5))
def test_a_zoom_that_loses_no_light_keeps_its_flux(narrow: float, times: float, along: float, flux: float) -> None:
    wide = narrow * times
    ends = [(angle, flux / solid_angle_sr(angle)) for angle in (narrow, wide)]
    angle = narrow + along * (wide - narrow)
    assert candela_at(angle, ends[0], ends[1]) == pytest.approx(flux / solid_angle_sr(angle))


def test_nearer_than_the_far_field_the_inverse_square_is_only_a_guide() -> None:
    assert [is_too_near(throw, 8.0) for throw in (7.9, 8.0)] == [True, False]
    assert is_too_near(5.0, None) is None
