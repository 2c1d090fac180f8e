"""The line that says how the show counts."""

import pytest

from tests.shows.paperwork import codes, numbers, read

TABLE = "Spot,Position\n1,booth\n2,rail\n"


@pytest.mark.parametrize(
    "line",
    [
        "Numbering: from the booth",
        "NUMBERING: from the booth",
        "numbering - from the booth",
        "Numbering – from the booth",
        "Spot numbering: from the booth",
        "Follow spot numbering: from the booth",
        "Numbering:,from the booth",
        "Numbering,from the booth",
        '"Numbering: from the booth",',
        '"Numbering: from the booth',
        "Numbering: from the booth,,,,",
    ],
)
@pytest.mark.parametrize(
    "rest", [TABLE, "1,booth\n2,rail\n", "1: booth\n2: rail\n"], ids=["table", "headless", "prose"]
)
def test_a_line_that_begins_with_numbering_is_the_statement(line: str, rest: str) -> None:
    paperwork = read(f"Lantern Road\n{line}\n{rest}")
    assert (paperwork.statement, paperwork.statement_line) == ("from the booth", 2)
    assert numbers(paperwork) == ["1", "2"]


def test_a_line_that_reads_as_a_statement_needs_no_mark() -> None:
    paperwork = read(f"House Left to house right\n{TABLE}")
    assert (paperwork.statement, paperwork.statement_line) == ("House Left to house right", 1)


def test_a_statement_cut_into_cells_at_its_commas_is_joined_again() -> None:
    assert read(f"Numbering: booth first, then rail, left to right,,\n{TABLE}").statement == (
        "booth first, then rail, left to right"
    )


def test_a_statement_of_numbers_is_not_taken_for_spots() -> None:
    paperwork = read("Numbering: 1, 2, 5, 6\n1,booth\n2,booth\n5,rail\n6,rail\n")
    assert paperwork.statement == "1, 2, 5, 6"
    assert numbers(paperwork) == ["1", "2", "5", "6"]


def test_two_statement_lines_are_joined() -> None:
    paperwork = read(f"Numbering: booth first\nhouse left to house right\n{TABLE}")
    assert (paperwork.statement, paperwork.statement_line) == ("booth first; house left to house right", 1)


def test_paperwork_without_a_statement_has_none() -> None:
    paperwork = read(f"Numbering:\n{TABLE}")
    assert (paperwork.statement, paperwork.statement_line) == (None, None)


@pytest.mark.parametrize("line", ["Numbering: booth first", "house left to house right"])
@pytest.mark.parametrize(
    "spots", [TABLE, "1,booth\n2,rail\n", "1: booth\n2: rail\n"], ids=["table", "headless", "prose"]
)
def test_a_statement_below_the_first_spot_is_named_and_not_obeyed(line: str, spots: str) -> None:
    paperwork = read(f"{spots}{line}\n")
    assert paperwork.statement is None
    assert codes(paperwork) == [(len(spots.splitlines()) + 1, "late-statement")]
    assert numbers(paperwork) == ["1", "2"]


def test_the_predicate_is_never_asked_about_endless_text() -> None:
    paperwork = read("left to " * 500 + f"\n{TABLE}")
    assert paperwork.statement is None
