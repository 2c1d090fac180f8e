"""Headers by meaning, headers the user names, and the ones that can't be used."""

import pytest

from shows.core.paperwork import FIELDS, Column
from tests.shows.paperwork import numbers, only_spot, read, refusal

MEANINGS = {
    "number": (
        *("Spot", "Spot #", "SPOTS", "No.", "Nr", "#", "№", "Follow spot", "Followspot #", "Follow-spot number"),
        *("Show number", "Show #", "Call number", "number", "Spot/No.", "Spot (show)"),
    ),
    "label": ("House label", "House #", "House no.", "Label", "House spot", "HOUSE NUMBER", "Your #", "label"),
    "position": ("Position", "Location", "Place", "Where", "Booth/Position", "Position (house)", "positions"),
    "side": ("Side", "HL/HR", "House side", "SL/SR"),
    "nth": ("Nth", "Order", "From end", "nth"),
    "whose_left": ("Whose left", "Whose left?", "View", "As seen from", "whose_left"),
    "frame 1": ("Frame 1", "Fr 1", "Fr. 1", "F1", "Color 1", "Colour 1", "Gel 1", "Frame #1", "frame 01"),
    "frame 6": ("Frame 6", "FR6", "Color frame 6"),
    "least_lux": (
        *("Least light", "Min lux", "Min. lux", "lux", "Lux (min)", "least_lux", "Least light (fc)"),
        *("Min fc", "Foot-candles", "Minimum footcandles", "Least light in lux"),
    ),
    "pick_up": ("Pick-up", "Pickup", "Pick ups", "Target", "Covers", "pick_up"),
    "channel": ("Channel", "Ch", "Ch.", "Headset", "Intercom", "Headset channel"),
    "notes": ("Notes", "Note", "Remarks", "Comments", "Notes / Comments"),
}


@pytest.mark.parametrize(("field", "header"), [(f, h) for f, headers in MEANINGS.items() for h in headers])
def test_a_header_is_matched_by_its_meaning(field: str, header: str) -> None:
    columns = {"number": "Lamp"} if field != "number" else {}
    quoted = header.replace('"', '""')
    paperwork = read(f'Lamp,"{quoted}",Truck\n1,2,x\n', columns)
    assert paperwork.columns[1] == Column(header.replace("№", "No"), field, "matched")


@pytest.mark.parametrize(
    "header", ["Light", "House", "Truck", "Frame 0", "Frame 99", "Frames", "Spotter", "Position/Notes"]
)
def test_a_header_of_no_known_meaning_is_kept_without_a_field(header: str) -> None:
    assert read(f"Spot,{header}\n1,2\n").columns[1] == Column(header, None, None)


def test_a_column_without_a_header_goes_by_its_letter() -> None:
    assert read("Spot,,Position\n1,x,booth\n").columns[1] == Column("B", None, None)


def test_titles_above_the_header_are_skipped_without_complaint() -> None:
    paperwork = read("Lantern Road,,\nSpots,4,\n10 June,,\n\nSpot,Position,Side\n1,booth,HL\n")
    assert [(spot.line, spot.number, spot.side) for spot in paperwork.spots] == [(6, "1", "HL")]
    assert paperwork.problems == ()


def test_a_title_of_one_cell_is_not_taken_for_the_header() -> None:
    assert numbers(read("Follow spots,,\nNo.,Position,Side\n1,booth,HL\n")) == ["1"]


def test_the_header_is_looked_for_in_the_first_twenty_rows() -> None:
    title = "title without meaning,\n"
    assert read(title * 19 + "Spot,Position\n1,booth\n").form == "table"
    (column, _) = read(title * 20 + "Spot,Position\n1,booth\n2,rail\n").columns
    assert column == Column("Spot", "number", "proposed")


def test_a_list_of_one_column_has_a_header_too() -> None:
    assert numbers(read("Spot\n3\n1\n2\n")) == ["3", "1", "2"]


def test_a_mapped_header_is_found_whatever_its_case() -> None:
    paperwork = read("Lamp,Stand\n1,booth\n", {"number": "lamp", "position": "STAND"})
    assert paperwork.columns == (Column("Lamp", "number", "mapped"), Column("Stand", "position", "mapped"))
    assert paperwork.spots[0].position == "booth"


def test_a_mapped_field_takes_the_place_of_a_matched_one() -> None:
    paperwork = read("Spot,No.,Position\n7,1,booth\n", {"number": "No."})
    assert [column.field for column in paperwork.columns] == [None, "number", "position"]
    assert numbers(paperwork) == ["1"]


def test_a_column_letter_serves_where_headers_are_the_same() -> None:
    assert numbers(read("Spot,Spot,Position\n7,1,booth\n", {"number": "B"})) == ["1"]


def test_field_names_are_read_as_people_write_them() -> None:
    columns = {"Number": "Lamp", "pick-up": "Who", "Frame 2": "Second"}
    spot = read("Lamp,Who,Second\n1,fiddler,blue\n", columns).spots[0]
    assert (spot.pick_up, spot.frames) == ("fiddler", ("", "blue"))


def test_two_columns_for_the_number_are_refused_with_both_named() -> None:
    problem = refusal("Spot,Position,No.\n1,booth,2\n")
    assert (problem.code, problem.field) == ("duplicate-header", "number")
    assert problem.data == {"headers": ("Spot", "No."), "letters": ("A", "C")}


def test_the_same_header_twice_is_refused() -> None:
    assert refusal("Spot,Position,Position\n1,a,b\n").data["headers"] == ("Position", "Position")
    assert refusal("Lamp,Lamp,Position\n1,2,b\n", {"number": "Lamp"}).code == "duplicate-header"


def test_a_table_without_a_number_column_names_its_headers() -> None:
    problem = refusal("Position,Side\nbooth,HL\n")
    assert (problem.line, problem.field, problem.code) == (1, "number", "no-number-column")
    assert problem.data["headers"] == ("Position", "Side")


def test_a_mapped_header_that_is_missing_is_refused_with_those_that_are_there() -> None:
    problem = refusal("Spot,Position\n1,booth\n", {"side": "Edge"})
    assert (problem.field, problem.code) == ("side", "header-missing")
    assert problem.data == {"given": "Edge", "headers": ("Spot", "Position")}


def test_an_unknown_field_is_refused_with_those_that_are_known() -> None:
    problem = refusal("Spot,Position\n1,booth\n", {"wattage": "Position"})
    assert problem.code == "unknown-field"
    assert problem.data == {"given": "wattage", "known": (*FIELDS, "frame 1 … frame 24")}


def test_one_column_asked_for_two_fields_is_refused() -> None:
    problem = refusal("Spot,Position\n1,booth\n", {"number": "Spot", "label": "Spot"})
    assert problem.code == "header-taken"
    assert problem.data == {"given": "Spot", "fields": ("number", "label")}


def test_a_header_with_nothing_below_has_no_spots() -> None:
    assert refusal("Spot,Position\n").code == "no-spots"


def test_the_unit_of_the_least_light_stays_in_the_header() -> None:
    paperwork = read("Spot,Min fc\n1,150\n")
    assert paperwork.columns[1].header == "Min fc"
    assert only_spot("Spot,Min fc\n1,150\n").least_lux == "150"
