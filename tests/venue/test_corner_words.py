"""Corners in words: read line by line, refused line by line, written back to the last bit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.corner_words import CornersRead, corners_as_typed, read_corners, write_corners

FOOT = 0.3048
"""[m], exactly (NIST Handbook 44, appendix C)."""


@pytest.mark.parametrize(
    ("line", "x", "y"),
    [
        ("12' house left, 3' upstage", -12 * FOOT, 3 * FOOT),
        ("12 house right, 3 downstage", 12 * FOOT, -3 * FOOT),
        ("4 m house right, 2 m downstage", 4.0, -2.0),
        ("4 m stage left, 2,5 m downstage", 4.0, -2.5),
        ("4 m Stage Right; 2 m toward the house", -4.0, -2.0),
        ("center, 0", 0.0, 0.0),
        ("0, 0", 0.0, 0.0),
        ("0, 3 m upstage", 0.0, 3.0),
        ("0, 2 m stage left", 2.0, 0.0),
        ("3 m upstage, 2 m SL", 2.0, 3.0),
        ("house left 2 m, us 3 m", -2.0, 3.0),
        ("on the center line, at the plaster line", 0.0, 0.0),
        ("1 m house left of center, 1 m upstage of the plaster line", -1.0, 1.0),
        ("12′ 6″ house left,3′ upstage", -12.5 * FOOT, 3 * FOOT),
    ],
)
def test_a_line_is_a_corner(line: str, x: float, y: float) -> None:
    read = read_corners(line, "imperial")
    assert read.problems == ()
    assert read.corners == (pytest.approx((x, y), abs=1e-12),)


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("12' house left", "parts"),
        ("12' house left, 3' upstage, 4' upstage", "parts"),
        ("12', 3' upstage", "no-side"),
        ("12' left, 3' upstage", "which-side"),
        ("12' house left, 3'", "no-direction"),
        ("12' house left, 3' stage left", "both-across"),
        ("3' upstage, 3' downstage", "both-along"),
        ("house left, 3' upstage", "no-distance"),
        ("2' center, 3' upstage", "at-center"),
        ("2' house left, 3' plaster line", "at-plaster"),
        ("-12' house left, 3' upstage", "minus"),
        ("2000 m house left, 3' upstage", "too-far"),
        (f"{'9' * 3000} m house left, 3' upstage", "unreadable"),
        ("far house left, 3' upstage", "unreadable"),
        ("12' house left house right, 3' upstage", "unreadable"),
        ("1,200' house left, 3' upstage", "comma"),
        ("12' 13\" house left, 3' upstage", "inches"),
        ("12' 5/4\" house left, 3' upstage", "fraction"),
        ("\ud800, \x00", "parts"),
        ("nan house left, inf upstage", "unreadable"),
    ],
)
def test_a_line_that_is_none_says_why(line: str, code: str) -> None:
    read = read_corners(line, "imperial")
    assert [problem.code for problem in read.problems] == [code]
    assert read.corners == ()


def test_every_bad_line_is_named_by_its_number_and_the_good_ones_are_kept() -> None:
    read = read_corners("here\n\n1 m house left, 2 m upstage\r\n1 m, 2 m upstage", "metric")
    assert [(problem.line, problem.text, problem.code) for problem in read.problems] == [
        (1, "here", "parts"),
        (4, "1 m", "no-side"),
    ]
    assert read.corners == ((-1.0, 2.0),)


COORDINATES = st.floats(-1000, 1000).filter(lambda value: value == 0 or abs(value) > 1e-9)


@given(st.lists(st.tuples(COORDINATES, COORDINATES), max_size=6))
def test_corners_written_are_read_back_to_the_last_bit_in_any_house(corners: list[tuple[float, float]]) -> None:
    text = write_corners(corners)
    for system in ("metric", "imperial"):
        assert read_corners(text, system) == CornersRead(tuple(corners), ())  # type: ignore[arg-type]


@given(st.text(max_size=60))
def test_no_text_breaks_the_reader(text: str) -> None:
    read = read_corners(text, "metric")
    assert len(read.corners) + len(read.problems) <= len(text.splitlines())


def test_what_was_typed_stays_until_the_corners_or_the_units_change() -> None:
    assert corners_as_typed([[-1.0, 2.0]], "1 house left, 2 upstage", "metric") == "1 house left, 2 upstage"
    written = "1 m house left, 2 m upstage"
    assert corners_as_typed([[-1.0, 2.0]], "1 house left, 2 upstage", "imperial") == written
    assert corners_as_typed([[-1.0, 2.0]], "1 m house left, 3 m upstage", "metric") == written
