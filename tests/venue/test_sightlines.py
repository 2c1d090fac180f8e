"""The line from a lens to its target: by hand, then what holds for every house."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.bearings import wrapped
from venue.core.sightlines import CAMERA_LIMIT_DEG, findings, sightline
from venue.core.throws import Point, throw_to

FACE = Point(0.0, 0.0, 1.5)
POINTS = st.builds(Point, st.floats(-300, 300), st.floats(-300, 300), st.floats(-3, 90))
TURNS = st.floats(0, 360)


# A box of 2, 3, 6 with the diagonal 7, and the four ways that a lens may look along the floor.
@pytest.mark.parametrize(
    ("lens", "target", "throw", "plan", "rise", "angle", "pan", "bearing"),
    [
        (Point(0, -4, 4.5), FACE, 5, 4, 3, 36.8699, 0, 180),  # from the house, straight upstage
        (Point(0, 4, 4.5), FACE, 5, 4, 3, 36.8699, 180, 0),  # from behind the stage
        (Point(-4, 0, 4.5), FACE, 5, 4, 3, 36.8699, 90, 270),  # from house left toward stage left
        (Point(4, 0, 4.5), FACE, 5, 4, 3, 36.8699, -90, 90),
        (Point(2, -3, 6), Point(0, 0, 0), 7, math.sqrt(13), 6, 58.9973, -33.6901, 146.3099),
        (Point(0, -4, 0), Point(0, 0, 3), 5, 4, -3, -36.8699, 0, 180),  # from below
        (Point(0, 0, 9), FACE, 7.5, 0, 7.5, 90, 0, 0),  # straight above: no direction
        (FACE, FACE, 0, 0, 0, 0, 0, 0),  # in the target
    ],
)
def test_each_part_of_the_line_follows_from_two_points(
    lens: Point, target: Point, throw: float, plan: float, rise: float, angle: float, pan: float, bearing: float
) -> None:
    line = sightline(lens, target)
    found = (line.throw_m, line.plan_m, line.rise_m, line.angle_deg, line.pan_deg, line.bearing_deg)
    assert found == pytest.approx((throw, plan, rise, angle, pan, bearing), abs=5e-5)


def test_no_part_of_the_line_is_a_negative_zero() -> None:
    line = sightline(Point(0.0, -0.0, 0.0), Point(-0.0, 0.0, 0.0))
    assert all(math.copysign(1, each) == 1 for each in vars(line).values())


def test_the_line_to_a_point_on_the_deck_is_the_throw_of_a_record() -> None:
    lens = Point(4.5, -38.0, 14.0)
    assert sightline(lens, Point(0.0, -1.5, 0.0)).throw_m == pytest.approx(throw_to(lens, -1.5))


@settings(max_examples=40)
@given(POINTS, POINTS, TURNS)
def test_turning_the_house_changes_no_throw_and_turns_every_pan_alike(lens: Point, target: Point, turn: float) -> None:
    before, after = sightline(lens, target), sightline(_turned(lens, turn), _turned(target, turn))
    assert after.throw_m == pytest.approx(before.throw_m, abs=1e-9)
    assert after.angle_deg == pytest.approx(before.angle_deg, abs=1e-4)
    if before.plan_m > 1e-3:
        for one, two in ((before.pan_deg, after.pan_deg), (before.bearing_deg, after.bearing_deg)):
            assert math.cos(math.radians(two - one - turn)) == pytest.approx(1)


@settings(max_examples=40)
@given(POINTS, POINTS)
def test_the_target_lies_at_the_throw_along_pan_and_angle(lens: Point, target: Point) -> None:
    line = sightline(lens, target)
    pan, angle = math.radians(line.pan_deg), math.radians(line.angle_deg)
    assert lens.x_m + line.throw_m * math.cos(angle) * math.sin(pan) == pytest.approx(target.x_m, abs=1e-6)
    assert lens.y_m + line.throw_m * math.cos(angle) * math.cos(pan) == pytest.approx(target.y_m, abs=1e-6)
    assert lens.z_m - line.throw_m * math.sin(angle) == pytest.approx(target.z_m, abs=1e-6)


@settings(max_examples=40)
@given(POINTS, POINTS)
def test_the_bearing_looks_back_along_the_pan(lens: Point, target: Point) -> None:
    line = sightline(lens, target)
    if line.plan_m > 1e-3:
        assert math.cos(math.radians(wrapped(line.pan_deg + 180) - line.bearing_deg)) == pytest.approx(1)


def _turned(point: Point, deg: float) -> Point:
    """Clockwise seen from above."""
    sine, cosine = math.sin(math.radians(deg)), math.cos(math.radians(deg))
    return Point(point.x_m * cosine + point.y_m * sine, point.y_m * cosine - point.x_m * sine, point.z_m)


def codes(plan: float, rise: float, **more: float) -> list[str]:
    """What is odd about a lens so far from a face 1.5 m above the deck and so high above it."""
    lens = Point(0.0, -plan, rise + 1.5)
    return [each.code for each in findings(sightline(lens, FACE), lens.z_m, **more)]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("plan", "rise", "found"),
    [
        (40.0, 15.0, []),
        (30.0, 30.0, []),  # 45 degrees
        (30.0, 30.1, ["too-steep"]),
        (40.0, 10.6, ["too-flat"]),
        (40.0, 10.8, []),
        (20.0, -0.5, ["unlikely-height", "too-flat"]),
        (1.0, 0.5, ["impossible-throw"]),
        (6.0, 3.0, ["unlikely-throw"]),
        (130.0, 45.0, ["unlikely-throw", "unlikely-height"]),
        (280.0, 130.0, ["impossible-throw", "impossible-height"]),
        (5.0, -3.0, ["unlikely-throw", "unlikely-height", "impossible-angle"]),
    ],
)
def test_what_is_odd_about_a_line_is_named(plan: float, rise: float, found: list[str]) -> None:
    assert codes(plan, rise) == found


def test_on_camera_the_rise_is_no_more_than_half_the_horizontal_throw() -> None:
    assert codes(40.0, 20.0, is_on_camera=True) == []
    assert codes(40.0, 20.1, is_on_camera=True) == ["too-steep-for-camera"]
    assert codes(40.0, 20.1) == []


def test_a_stated_throw_is_a_question_over_five_percent_apart() -> None:
    assert codes(40.0, 30.0, stated_m=52.5) == []
    assert codes(40.0, 30.0, stated_m=52.6) == ["differs-from-stated"]
    lens = Point(0.0, -40.0, 31.5)
    (finding,) = findings(sightline(lens, FACE), lens.z_m, stated_m=60.0)
    assert (finding.value, finding.limit) == (pytest.approx(0.2), 0.05)


def test_a_finding_says_the_value_and_the_limit_that_it_passes() -> None:
    lens = Point(0.0, -10.0, 21.5)
    steep = findings(sightline(lens, FACE), lens.z_m, is_on_camera=True)
    assert [(each.code, each.limit) for each in steep] == [
        ("too-steep", 45.0),
        ("too-steep-for-camera", CAMERA_LIMIT_DEG),
    ]
    assert [each.value for each in steep] == pytest.approx([63.4349, 63.4349], abs=1e-4)
