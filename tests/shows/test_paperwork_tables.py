"""Tables with a header row: separators, records, ragged and empty rows, lines that are no spot."""

import csv

import pytest

from shows.core.paperwork import Row, read_rows
from tests.shows.paperwork import codes, names_a_direction, numbers, only_spot, read, read_file


def test_a_spreadsheet_with_titles_statement_and_quoted_line_breaks_is_read_line_by_line() -> None:
    paperwork = read_file("lantern_road.csv")
    assert paperwork.form == "table"
    assert (paperwork.statement, paperwork.statement_line) == ("house left to house right, booth first", 3)
    assert [spot.line for spot in paperwork.spots] == [6, 8, 9, 10]
    assert numbers(paperwork) == ["1", "2", None, "4"]
    assert [spot.label for spot in paperwork.spots] == ["4", "3", "2", "1"]
    assert paperwork.spots[0].notes == 'Says "one" on headset, not "spot one"'
    assert [spot.frames for spot in paperwork.spots] == [("pale pink",), ("pale pink", "deep blue"), (), ()]
    assert codes(paperwork) == [(12, "not-a-spot")]


def test_a_tab_separated_file_with_crlf_is_read() -> None:
    paperwork = read_file("lantern_road.tsv")
    assert [(spot.number, spot.position, spot.channel) for spot in paperwork.spots] == [
        ("1", "Rear booth", "B"),
        ("2", "Balcony rail", "B"),
    ]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_the_separator_is_found_from_the_header(separator: str) -> None:
    lines = [["Spot", "Position", "Notes"], ["1", "booth; upper", "bring tape, black"], ["2", "rail", "a\tb"]]
    text = "\n".join(separator.join(f'"{cell}"' for cell in line) for line in lines)
    spots = read(text).spots
    assert [spot.position for spot in spots] == ["booth; upper", "rail"]
    assert [spot.notes for spot in spots] == ["bring tape, black", "a b"]


def test_a_first_line_that_names_the_separator_is_obeyed() -> None:
    assert only_spot("sep=;\nSpot;Position\n1;booth, rear").position == "booth, rear"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_are_counted_whatever_ends_them(end: str) -> None:
    paperwork = read(end.join(["Spot,Notes", "", "1,a", "", "", "2,b"]))
    assert [spot.line for spot in paperwork.spots] == [3, 6]


def test_mixed_line_endings_are_counted_once_each() -> None:
    assert [spot.line for spot in read("Spot,Notes\r1,a\n2,b\r\n3,c\r\r4,d").spots] == [2, 3, 4, 6]


def test_a_quoted_line_break_does_not_shift_the_line_numbers_after_it() -> None:
    paperwork = read('Spot,Notes\n1,"two\r\nlines"\n2,one\n')
    assert [(spot.line, spot.notes) for spot in paperwork.spots] == [(2, "two lines"), (4, "one")]
    assert paperwork.spots[0].text == '1,"two\r\nlines"'


def test_a_blank_after_the_separator_does_not_spoil_the_quotes() -> None:
    assert only_spot('Spot, Position\n1, "booth, rear"').position == "booth, rear"


def test_an_inch_mark_inside_a_cell_is_text() -> None:
    assert only_spot('Spot,Notes,Side\n1,6" lens,HL').notes == '6" lens'


def test_a_quotation_mark_that_is_never_closed_is_named_and_swallows_nothing() -> None:
    paperwork = read('Spot,Position,Notes\n1,"booth,HL\n2,rail,"fine"\n3,truss,x\n')
    assert numbers(paperwork) == ["1", "2", "3"]
    assert paperwork.spots[1].notes == "fine"
    assert codes(paperwork) == [(2, "unbalanced-quote")]


def test_short_rows_are_filled_up_and_cells_beyond_the_header_are_named() -> None:
    paperwork = read("Spot,Position,Notes\n1\n2,rail,tape, black\n")
    assert paperwork.spots[0].position is None
    assert paperwork.spots[1].notes == "tape"
    assert codes(paperwork) == [(3, "extra-cells")]
    assert paperwork.problems[0].data == {"cells": ("black",)}


def test_rows_that_are_empty_or_only_dashes_are_skipped() -> None:
    assert numbers(read("Spot,Position\n,\n1,booth\n----,----\n  , \n2,-\n")) == ["1", "2"]


def test_a_cell_of_dashes_is_empty() -> None:
    assert only_spot("Spot,Position,Side\n1,booth,—").side is None


def test_a_row_without_a_number_is_kept_when_another_field_is_filled() -> None:
    paperwork = read("Spot,Position\n1,booth\n,booth\n")
    assert numbers(paperwork) == ["1", None]
    assert paperwork.problems == ()


def test_a_row_filled_only_in_a_column_that_is_not_read_is_named() -> None:
    assert codes(read("Spot,Position,Truck\n1,booth,\n,,second truck\n")) == [(3, "not-a-spot")]


@pytest.mark.parametrize(
    "line",
    [
        "Total,4",
        "Grand total: 4",
        ",Total 4",
        "Sum",
        "Note: bring tape",
        "* all spots on one channel",
        "Page 2",
        "Revision 3",
        "// draft",
        "see you on Friday",
        "please call the head, thanks",
        "4 spots in all for us",
    ],
)
def test_totals_and_comments_are_named_and_left_out(line: str) -> None:
    paperwork = read(f"Spot,Position\n1,booth\n2,rail\n{line}\n3,truss\n")
    assert numbers(paperwork) == ["1", "2", "3"]
    assert codes(paperwork) == [(4, "not-a-spot")]
    assert paperwork.problems[0].data == {"text": line}


def test_names_stand_for_numbers() -> None:
    paperwork = read("Spot,Position\nLeft,booth\nHouse center spot,booth\nRight,booth")
    assert numbers(paperwork) == ["Left", "House center spot", "Right"]


def test_a_name_among_numbers_is_kept_when_its_row_is_filled() -> None:
    assert numbers(read("Spot,Position,Side\n1,booth,\n2,rail,\nTower left spot,tower,HL")) == [
        "1",
        "2",
        "Tower left spot",
    ]


def test_a_header_row_repeated_further_down_is_skipped() -> None:
    paperwork = read("Spot,Position\n1,booth\nSPOT,Position\n2,rail\n")
    assert numbers(paperwork) == ["1", "2"]
    assert paperwork.problems == ()


def test_several_columns_of_notes_are_joined() -> None:
    assert only_spot("Spot,Notes,Comments\n1,hazy,steep").notes == "hazy; steep"


def test_frames_stand_at_their_number_whatever_the_order_of_the_columns() -> None:
    assert only_spot("Spot,Frame 4,Frame 1\n1,frost,pink").frames == ("pink", "", "", "frost")


def test_the_text_of_a_line_is_kept_as_it_came() -> None:
    assert only_spot('Spot,Position\n  01 ,"booth"\n').text == '  01 ,"booth"'


def test_two_thousand_spots_are_read_and_one_more_is_refused_elsewhere() -> None:
    text = "Spot,Position\n" + "".join(f"{number},booth\n" for number in range(2_000))
    assert len(read(text).spots) == 2_000


def test_rows_cut_elsewhere_are_read_alike() -> None:
    rows = [
        Row(1, ("Numbering: house left to house right", ""), ""),
        Row(3, ("Spot", "Position"), ""),
        Row(4, ("1.0", "booth"), ""),
    ]
    paperwork = read_rows(rows, reads_as_statement=names_a_direction)
    assert paperwork.statement == "house left to house right"
    assert [(spot.line, spot.number, spot.position) for spot in paperwork.spots] == [(4, "1", "booth")]


def test_the_csv_field_limit_of_the_process_is_left_alone() -> None:
    before = csv.field_size_limit()
    read("Spot,Notes\n1,a")
    assert csv.field_size_limit() == before
