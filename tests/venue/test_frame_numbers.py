"""Frames as people list them, held against the magazine."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.frame_numbers import FrameProblem, as_list, read_frames


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("4", (4,)),
        ("2, 4", (2, 4)),
        ("4,2", (2, 4)),
        ("2 and 4", (2, 4)),
        ("2 4 6", (2, 4, 6)),
        ("2; 4 & 6", (2, 4, 6)),
        ("3-5", (3, 4, 5)),
        ("1 to 3, 6", (1, 2, 3, 6)),
        ("Frame 4", (4,)),
        ("frames 2, 4", (2, 4)),
        ("#5", (5,)),
        ("2, 2", (2,)),
        ("２, ４", (2, 4)),
    ],
)
def test_a_list_of_frames_is_read_in_many_ways(text: str, found: tuple[int, ...]) -> None:
    assert read_frames(text, 6) == found


@pytest.mark.parametrize(
    ("text", "frames", "code", "found"),
    [
        ("", 6, "empty", ""),
        ("  ", 6, "empty", ""),
        ("four", 6, "unreadable", "four"),
        ("2, x", 6, "unreadable", "x"),
        ("-4", 6, "unreadable", "-4"),
        ("2.5", 6, "unreadable", "2.5"),
        (",", 6, "unreadable", ","),
        ("5-3", 6, "backward", "5-3"),
        ("7", 6, "too-high", "7"),
        ("0", 6, "too-high", "0"),
        ("5-8", 6, "too-high", "8"),
        ("51", None, "too-high", "51"),
        ("99999", 6, "unreadable", "99999"),
        ("1", 0, "none", ""),
    ],
)
def test_what_lists_no_frame_of_the_magazine_is_named(text: str, frames: int | None, code: str, found: str) -> None:
    with pytest.raises(FrameProblem) as problem:
        read_frames(text, frames)
    assert (problem.value.code, problem.value.found) == (code, found)


@given(st.sets(st.integers(1, 12), min_size=1))
def test_the_stored_list_reads_back_as_the_same_frames(numbers: set[int]) -> None:
    ordered = tuple(sorted(numbers))
    assert read_frames(as_list(ordered), 12) == ordered


@given(st.text(max_size=30))
def test_any_text_is_frames_of_the_magazine_or_a_named_problem(text: str) -> None:
    try:
        assert set(read_frames(text, 6)) <= {1, 2, 3, 4, 5, 6}
    except FrameProblem as problem:
        assert problem.code in {"empty", "unreadable", "backward", "too-high"}
