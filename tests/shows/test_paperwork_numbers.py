"""Number cells: what spreadsheets do to them, and what is not one number."""

import pytest

from shows.core.paperwork import LineProblem
from tests.shows.paperwork import codes, numbers, read


def test_whole_decimals_are_read_as_whole_numbers_without_complaint() -> None:
    paperwork = read("Spot,House label,Channel\n1.0,4.0,2.0\n2.0,3.0,2.0\n10.00,2.0,2.0\n")
    assert numbers(paperwork) == ["1", "2", "10"]
    assert [(spot.label, spot.channel) for spot in paperwork.spots] == [("4", "2"), ("3", "2"), ("2", "2")]
    assert paperwork.problems == ()


def test_whole_decimals_among_letters_and_plain_numbers_are_whole() -> None:
    assert numbers(read("Spot;Position\n1,0;booth\n2;booth\nT1;truss\n")) == ["1", "2", "T1"]


def test_decimals_with_a_fraction_stay_as_they_came() -> None:
    assert numbers(read("Spot,Position\n1.0,booth\n1.5,booth\n")) == ["1.0", "1.5"]


@pytest.mark.parametrize(
    "value",
    [
        *("1-Feb", "01-Feb", "1-Feb-26", "Feb-01", "Jan-2", "2 Jan", "Jan 2", "2. January 2026", "January 2, 2026"),
        *("2026-01-02", "2026-01-02 00:00:00", "2026-01-02T00:00:00", "1/2/2026", "01.02.26", "2-1-2026"),
    ],
)
def test_a_date_in_the_number_column_is_asked_about(value: str) -> None:
    paperwork = read(f'Spot,Position\n1,booth\n"{value}",booth\n')
    assert numbers(paperwork) == ["1", None]
    assert paperwork.problems == (LineProblem(3, "number", "date-like", {"value": value}),)


@pytest.mark.parametrize("value", ["1-2", "1", "Mark 1", "Decker", "A1", "2A", "May", "T-2", "1/2"])
def test_labels_near_to_dates_are_numbers(value: str) -> None:
    paperwork = read(f"Spot,Position\n{value},booth\n")
    assert numbers(paperwork) == [value]
    assert paperwork.problems == ()


@pytest.mark.parametrize("value", ["=1+1", "=A2", '=HYPERLINK("x")', "@SUM(A1)", "+1+1", "-2+3", "'=1+1"])
def test_a_formula_is_never_computed(value: str) -> None:
    quoted = value.replace('"', '""')
    paperwork = read(f'Spot,Position\n1,booth\n"{quoted}",booth\n')
    assert numbers(paperwork) == ["1", None]
    assert paperwork.problems == (LineProblem(3, "number", "formula", {"value": value.lstrip("'")}),)


def test_a_formula_in_another_column_is_plain_text() -> None:
    paperwork = read("Spot,Notes\n1,=1+1\n")
    assert paperwork.spots[0].notes == "=1+1"
    assert paperwork.problems == ()


@pytest.mark.parametrize("value", ["1, 2", "1 & 2", "1 and 2", "1–4", "Spots 1 to 4", "1 - 4", "1+2"])
def test_several_numbers_in_one_cell_are_asked_about(value: str) -> None:
    paperwork = read(f'Spot,Position\n"{value}",booth\n9,rail\n')
    assert numbers(paperwork) == [None, "9"]
    assert codes(paperwork) == [(2, "several-numbers")]


def test_sixty_characters_of_a_number_are_kept() -> None:
    paperwork = read(f"Spot,Position\n{'x' * 60},booth\n{'9' * 61},rail\n")
    assert numbers(paperwork) == ["x" * 60, "9" * 60]
    assert paperwork.problems == (LineProblem(3, "number", "number-too-long", {"limit": 60}),)


def test_a_number_is_kept_as_it_was_written() -> None:
    assert numbers(read("Spot,Position\n#01,a\nSpot 2,b\nNo. 3,c\n't 4,d\n'05,e\n")) == [
        *("#01", "Spot 2", "No. 3", "'t 4", "05"),
    ]


def test_a_number_of_marks_alone_is_none() -> None:
    assert numbers(read("Spot,Position\n1,booth\n.,rail\n")) == ["1", None]
