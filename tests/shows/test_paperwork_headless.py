"""Text without a header row: columns by letter, the number column proposed."""

import pytest

from shows.core.paperwork import Column
from tests.shows.paperwork import codes, numbers, read, refusal


def test_the_first_rising_column_is_proposed_and_no_other_is_guessed() -> None:
    paperwork = read("1,4,booth,HL\n2,3,booth,HL\n10,2,rail,HR\n")
    assert paperwork.form == "headless"
    assert paperwork.columns == (
        Column("A", "number", "proposed"),
        *(Column(letter, None, None) for letter in "BCD"),
    )
    assert numbers(paperwork) == ["1", "2", "10"]
    assert paperwork.spots[0].position is None


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_number_column_may_stand_anywhere(separator: str) -> None:
    lines = [["booth", "1", "4"], ["booth", "2", "3"], ["rail", "2A", "2"], ["rail", "10", "1"]]
    paperwork = read("\n".join(map(separator.join, lines)))
    assert [column.field for column in paperwork.columns] == [None, "number", None]
    assert numbers(paperwork) == ["1", "2", "2A", "10"]


def test_a_column_of_position_names_that_rises_by_chance_is_passed_over() -> None:
    assert numbers(read("booth,1\nrail,2\n")) == ["1", "2"]


def test_a_single_line_goes_by_the_value_that_looks_like_a_number() -> None:
    assert numbers(read("rear booth,3,upper rail\n")) == ["3"]


def test_a_column_that_does_not_rise_is_not_proposed() -> None:
    problem = refusal("4,booth\n2,rail\n3,truss\n")
    assert (problem.field, problem.code) == ("number", "no-number-column")
    assert problem.data == {"headers": ("A", "B"), "examples": ("4", "booth")}


def test_a_number_twice_does_not_rise() -> None:
    assert refusal("1,booth\n1,rail\n").code == "no-number-column"


def test_columns_are_mapped_by_letter() -> None:
    paperwork = read("booth,4\nrail,2\n", {"number": "B", "position": "a"})
    assert paperwork.columns == (Column("A", "position", "mapped"), Column("B", "number", "mapped"))
    assert [(spot.number, spot.position) for spot in paperwork.spots] == [("4", "booth"), ("2", "rail")]


def test_a_number_is_proposed_beside_a_mapped_column() -> None:
    paperwork = read("4,1,booth\n5,2,rail\n", {"label": "A"})
    assert [column.how for column in paperwork.columns] == ["mapped", "proposed", None]
    assert [(spot.number, spot.label) for spot in paperwork.spots] == [("1", "4"), ("2", "5")]


def test_a_letter_that_is_not_there_is_refused_with_those_that_are() -> None:
    assert refusal("1,booth\n2,rail\n", {"number": "F"}).data == {"given": "F", "headers": ("A", "B")}


def test_names_are_read_as_numbers_only_when_mapped() -> None:
    assert refusal("Left,booth\nRight,rail\n").code == "no-number-column"
    assert numbers(read("Left,booth\nRight,rail\n", {"number": "A"})) == ["Left", "Right"]


@pytest.mark.parametrize("text", ["1\n2\n3\n", "3\n1\n2\n", "Spot 3\nSpot 1\n", "A\nB\nC\n"])
def test_a_single_column_of_numbers_is_the_number_column_even_unsorted(text: str) -> None:
    paperwork = read(text)
    assert paperwork.columns == (Column("A", "number", "proposed"),)
    assert numbers(paperwork) == text.split("\n")[:-1]


def test_titles_above_the_numbers_are_skipped_and_comments_below_are_named() -> None:
    paperwork = read("Lantern Road 2026\n1,booth\n2,booth\n3,rail\nTotal,3\nsee you there\n")
    assert numbers(paperwork) == ["1", "2", "3"]
    assert codes(paperwork) == [(5, "not-a-spot"), (6, "not-a-spot")]


def test_a_header_of_unknown_words_names_the_columns() -> None:
    paperwork = read("Lamp,Truck\n1,blue\n2,red\n")
    assert paperwork.columns == (Column("Lamp", "number", "proposed"), Column("Truck", None, None))
    assert numbers(paperwork) == ["1", "2"]


def test_a_row_without_a_number_is_kept() -> None:
    paperwork = read("1,booth,HL\n,booth,HR\n3,rail,HL\n,perhaps a fourth,\n")
    assert numbers(paperwork) == ["1", None, "3"]
    assert codes(paperwork) == [(4, "not-a-spot")]


def test_text_without_any_number_has_no_spots() -> None:
    assert refusal("Dear house,\nplease find our plans below.\nThank you\n").code == "no-number-column"
    assert refusal("Dear house\nplease find our plans below.\n").code == "no-spots"


def test_a_list_of_pairs_in_one_cell_says_why_it_has_no_spots() -> None:
    problem = refusal("1 - 4\n2 - 3\n")
    assert problem.code == "no-spots"
