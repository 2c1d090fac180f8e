"""The geometry of a throw, first by hand, then there and back."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.throws import Point, ThrowProblem, is_far_off, lens_by_throw, plan_m, side_of, signed_x, throw_to

# Right triangles: 3-4-5, 5-12-13, and a box of 2, 3, 6 with the diagonal 7.
LENSES = [
    (5.0, 3.0, 0.0, 0.0, Point(0.0, -4.0, 3.0)),
    (13.0, 5.0, 0.0, -1.5, Point(0.0, -13.5, 5.0)),
    (7.0, 2.0, 3.0, 0.0, Point(3.0, -6.0, 2.0)),
    (7.0, 2.0, -3.0, 5.0, Point(-3.0, -1.0, 2.0)),
    (5.0, -3.0, 0.0, 0.0, Point(0.0, -4.0, -3.0)),
    (5.0, 5.0, 0.0, 0.0, Point(0.0, 0.0, 5.0)),
]


@pytest.mark.parametrize(("throw", "height", "x", "end_y", "lens"), LENSES)
def test_the_lens_follows_from_throw_height_and_distance(
    throw: float, height: float, x: float, end_y: float, lens: Point
) -> None:
    assert lens_by_throw(throw, height, x, end_y) == lens


def test_a_position_behind_the_stage_lies_upstage_of_the_end_point() -> None:
    assert lens_by_throw(7.0, 2.0, 3.0, 1.0, is_upstage=True) == Point(3.0, 7.0, 2.0)


# Derived by hand from the right triangle, to a tenth of a foot; no source.
@pytest.mark.parametrize(("plan", "height", "throw"), [(100, 50, 111.8), (142, 45, 149.0), (100, 70, 122.1)])
def test_worked_triangles_agree_to_a_tenth(plan: float, height: float, throw: float) -> None:
    assert throw_to(Point(0.0, -plan, height), 0.0) == pytest.approx(throw, abs=0.05)
    assert plan_m(throw, height) == pytest.approx(plan, abs=0.1)


@pytest.mark.parametrize(
    ("throw", "height", "x", "code"), [(5.0, 5.1, 0.0, "too-high"), (5.0, 3.0, 4.1, "too-far-from-center")]
)
def test_a_lens_that_no_throw_reaches_is_refused(throw: float, height: float, x: float, code: str) -> None:
    with pytest.raises(ThrowProblem) as refused:
        lens_by_throw(throw, height, x, 0.0)
    assert refused.value.code == code


@given(st.floats(-60, 60), st.floats(1, 200), st.floats(-5, 60), st.floats(-10, 20), st.booleans())
def test_the_throw_of_a_placed_lens_is_the_throw(
    x: float, along: float, height: float, end_y: float, is_upstage: bool
) -> None:
    throw = math.sqrt(x**2 + along**2 + height**2)
    lens = lens_by_throw(throw, height, x, end_y, is_upstage=is_upstage)
    assert throw_to(lens, end_y) == pytest.approx(throw)
    assert (lens.y_m > end_y) == is_upstage


def test_sides_are_words_and_only_inside_a_sign() -> None:
    assert [signed_x(4.5, side) for side in ("house left", "center", "house right")] == [-4.5, 0.0, 4.5]  # type: ignore[arg-type]
    assert [side_of(x) for x in (-0.1, 0.0, 0.1)] == ["house left", "center", "house right"]


@pytest.mark.parametrize(("throw", "is_asked"), [(100.0, False), (105.0, False), (105.1, True), (94.9, True)])
def test_more_than_five_percent_of_the_computed_throw_is_asked(throw: float, is_asked: bool) -> None:
    assert is_far_off(throw, 100.0) == is_asked
