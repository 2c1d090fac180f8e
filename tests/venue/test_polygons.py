"""Plan polygons, cut and taken away."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.polygons import (
    HalfPlane,
    Polygon,
    PolygonProblem,
    area,
    clipped,
    contains,
    convex_pieces,
    intersected,
    left_of,
    sides_of,
    signed_area,
    subtracted,
)

SQUARE: Polygon = ((0, 0), (4, 0), (4, 4), (0, 4))
CORNER_SHAPE: Polygon = ((0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4))
POINTS = st.tuples(st.floats(-20, 20), st.floats(-20, 20))


def test_a_square_is_measured_with_its_sense_of_turning() -> None:
    assert (signed_area(SQUARE), signed_area(SQUARE[::-1]), area(SQUARE[::-1]), signed_area(())) == (16, -16, 16, 0)


def test_a_line_keeps_what_lies_to_its_left() -> None:
    upper = left_of((0, 3), (-1, 3))  # leftward, so that left of it is below
    assert area(clipped(SQUARE, upper)) == pytest.approx(12)
    assert area(clipped(SQUARE, upper.reversed())) == pytest.approx(4)


@pytest.mark.parametrize(
    ("line", "left"),
    [(HalfPlane(1, 0, -1), 0), (HalfPlane(1, 0, 0), 0), (HalfPlane(1, 0, 4), 16), (HalfPlane(1, 1, 4), 8)],
)
def test_a_line_beside_on_or_through_a_polygon(line: HalfPlane, left: float) -> None:
    assert area(clipped(SQUARE, line)) == pytest.approx(left)


def test_the_middle_is_cut_out_of_a_square_in_pieces_that_do_not_overlap() -> None:
    middle = sides_of(((1, 1), (3, 1), (3, 3), (1, 3)))
    pieces = list(subtracted(SQUARE, middle))
    assert sum(map(area, pieces)) == pytest.approx(12)
    assert [sum(contains(sides_of(piece), point) for piece in pieces) for point in ((0.5, 0.6), (2, 2))] == [1, 0]


def test_a_convex_polygon_stays_whole_whichever_way_it_turns() -> None:
    assert convex_pieces(SQUARE) == (SQUARE,)
    assert [signed_area(piece) for piece in convex_pieces(SQUARE[::-1])] == [16]
    with_repeats = (*SQUARE, (0, 2), (0, 0))
    assert [len(piece) for piece in convex_pieces(with_repeats)] == [4]


def test_a_polygon_with_a_notch_becomes_convex_pieces_of_the_same_area() -> None:
    pieces = convex_pieces(CORNER_SHAPE)
    assert sum(map(signed_area, pieces)) == pytest.approx(12)
    assert all(signed_area(piece) > 0 for piece in pieces)
    assert not any(contains(sides_of(piece), (3, 3)) for piece in pieces)


@pytest.mark.parametrize(
    ("corners", "code"),
    [
        ((), "too-few-corners"),
        (((0, 0), (1, 1)), "too-few-corners"),
        (((0, 0), (0, 0), (1, 1), (1, 1)), "too-few-corners"),
        (((0, 0), (1, 1), (2, 2)), "no-area"),
        (((0, 0), (4, 4), (4, 0), (0, 3)), "crosses-itself"),
        (((0, 0), (4, 0), (2, 0.5), (0, 4), (0, 2), (2, 0.5)), "crosses-itself"),  # one corner twice
        (((0, 0), (4, 0), (4, 4), (2, 0), (0, 4)), "crosses-itself"),  # a corner on another side
    ],
)
def test_corners_that_are_no_area_are_refused_by_their_reason(corners: Polygon, code: str) -> None:
    with pytest.raises(PolygonProblem) as refused:
        convex_pieces(corners)
    assert refused.value.code == code


@st.composite
def stars(draw: st.DrawFn) -> Polygon:
    """Polygons with notches, around the origin."""
    count = draw(st.integers(3, 9))
    reaches = draw(st.lists(st.floats(1, 10), min_size=count, max_size=count))
    turns = [2 * math.pi * number / count for number in range(count)]
    return tuple((reach * math.cos(turn), reach * math.sin(turn)) for reach, turn in zip(reaches, turns, strict=True))


@settings(max_examples=40)
@given(stars())
def test_pieces_fill_the_polygon_that_they_come_from(star: Polygon) -> None:
    pieces = convex_pieces(star)
    assert sum(map(signed_area, pieces)) == pytest.approx(area(star))


@settings(max_examples=40)
@given(stars(), POINTS, POINTS)
def test_both_sides_of_a_line_make_up_the_whole(
    star: Polygon, start: tuple[float, float], end: tuple[float, float]
) -> None:
    line = left_of(start, end)
    for piece in convex_pieces(star):
        both = area(clipped(piece, line)) + area(clipped(piece, line.reversed()))
        assert both == pytest.approx(area(piece)) or start == end


@settings(max_examples=40)
@given(stars(), st.lists(POINTS, min_size=3, max_size=3, unique=True))
def test_what_is_common_and_what_is_taken_away_make_up_the_whole(
    star: Polygon, three: list[tuple[float, float]]
) -> None:
    if area(tuple(three)) < 1e-6:
        return
    region = sides_of(tuple(three) if signed_area(tuple(three)) > 0 else tuple(three[::-1]))
    for piece in convex_pieces(star):
        parts = [intersected(piece, region), *subtracted(piece, region)]
        assert sum(map(area, parts)) == pytest.approx(area(piece))
