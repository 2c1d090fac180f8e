"""Files made to hurt: refused or read in bounded time, always with a code."""

import tracemalloc
from time import process_time

import pytest

from shows.core.paperwork import PaperworkUnreadable
from tests.shows.paperwork import read, refusal

SLOWEST = 5.0  # seconds of one processor, several times what each takes


def test_an_endless_line_is_refused_by_its_size_alone() -> None:
    problem = refusal(b"x" * 6_000_000)
    assert (problem.code, problem.data) == ("too-big", {"limit": 5_000_000, "size": 6_000_000})


@pytest.mark.parametrize("text", ["x" * 4_900_000, '"' + "x" * 4_900_000 + '"', "Spot\n" + "x" * 10_001])
def test_a_line_longer_than_ten_thousand_characters_is_refused(text: str) -> None:
    problem = refusal(text)
    assert (problem.line, problem.code, problem.data) == (text.count("\n") + 1, "line-too-long", {"limit": 10_000})


@pytest.mark.parametrize(
    "text",
    [
        "Spot,Position\n" + "1,booth\n" * 100_000,
        "1,booth\n" * 2_200,
        "Spot,Position\n" + "1,booth\n" * 2_001,
        "Spot 1 – booth\n" * 2_001,
        "1\n" * 2_400_000,
        '1,"open\n' + "x\n" * 100_000,
    ],
    ids=["lines", "headless", "table", "prose", "short", "quote"],
)
def test_more_than_two_thousand_rows_are_refused(text: str) -> None:
    assert refusal(text).code == "too-many-rows"


def test_blank_rows_of_a_spreadsheet_do_not_count() -> None:
    assert len(read("Spot,Position\n1,booth\n" + ",,,\n" * 1_000_000).spots) == 1


def test_more_than_two_hundred_columns_are_refused() -> None:
    problem = refusal("Spot,Position\n1" + ",x" * 200 + "\n")
    assert (problem.line, problem.code) == (2, "too-many-columns")
    assert problem.data == {"limit": 200, "columns": 201}
    assert len(read("Spot,Position\n1,booth" + "," * 500).spots) == 1


HOSTILE = {
    "commas": ("," * 9_990 + "x\n") * 200,
    "wide": ("x," * 199 + "y\n") * 1_000,
    "rising": "".join(",".join([str(row)] * 199) + "\n" for row in range(1_000)) + ",".join(["0"] * 199),
    "quotes": ('"' * 9_990 + "\n") * 490,
    "open quotes": ('"a' + "b" * 2_400 + "\n") * 1_990,
    "accents": "Spot,Notes\n" + "".join(f"{row}," + "é" * 2_000 + "\n" for row in range(1_000)),
    "ligatures": "Spot,Notes\n" + "".join(f"{row}," + "\ufdfa" * 900 + "\n" for row in range(150)),
    "phrases": "".join(f"Spot {row} – " + "booth HL, 2nd from, " * 24 + "\n" for row in range(400)),
    "ordinals": ("Spot 1: " + "2nd " * 120 + "\n") * 400,
    "joined": ("1 & " * 120 + "\n") * 400,
    "statements": ("Numbering: " + "left " * 1_900 + "\n") * 200 + "1,a\n2,b\n",
    "headers": ("Least light in fc per," * 199 + "\n") * 500,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_text_is_answered_in_bounded_time(text: str) -> None:
    start = process_time()
    try:
        read(text)
    except PaperworkUnreadable as refused:
        assert refused.problems
    assert process_time() - start < SLOWEST


def test_memory_stays_within_a_small_multiple_of_the_limit() -> None:
    tracemalloc.start()
    try:
        refusal("1,booth\n" * 600_000)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert peak < 60_000_000


def test_problems_quote_no_more_than_a_line() -> None:
    paperwork = read("Spot,Position\n1,booth\nTotal " + "x" * 9_000 + "\n2," + ("y" * 900 + ",") * 9 + "\n")
    assert all(len(str(problem.data)) < 1_000 for problem in paperwork.problems)
    assert len(paperwork.problems) == 2


def test_terminal_escapes_never_reach_a_message() -> None:
    (problem,) = read("Spot,Position\n1,booth\nTotal \x1b[2J4\n").problems
    assert problem.data == {"text": "Total [2J4"}
