"""Every way in which numbering is stated (common practice, no source), by its code in the trade's list."""

import pytest

from shows.core.numbering.comparison import compare
from shows.core.numbering.directions import (
    Alternating,
    Depth,
    Direction,
    Outward,
    Ring,
    Row,
    Start,
    Statement,
    Unreadable,
)
from shows.core.numbering.records import House, Position, Slot
from shows.core.numbering.statement import read_statement, reads_as_statement
from tests.shows.numbering_cases import (
    codes,
    count_to,
    even_ring,
    flags,
    labels_of,
    ring,
    row,
    row_house,
    spots,
)

HOUSE = House(
    (
        row(count_to(4), "Rear booth", kind="booth", level=3),
        row(["5", "6", "7", "8"], "Catwalk", -20.0, kind="catwalk", level=2),
        row(["A", "B", "C", "D"], "Truss 2", 4.0, kind="truss", zone="overhead", level=4),
        Position("Box booms", (Slot("L1", x=-9.0, y=-6.0), Slot("L2", x=-9.0, y=-4.0)), "side", "box boom"),
        row(["R1", "R2"], "Upstage bridge", 12.0, kind="bridge", zone="rear"),
    )
)
FROM_LEFT, FROM_RIGHT = Row("house left"), Row("house right")


def direction_of(text: str, house: House = HOUSE) -> Direction | None:
    statement = read_statement(text, house)
    assert isinstance(statement, Statement), statement
    return statement.direction


@pytest.mark.parametrize(
    ("code", "text", "direction"),
    [
        ("N1", "house left to house right", FROM_LEFT),
        ("N1", "HL to HR", FROM_LEFT),
        ("N1", "House Left → House Right", FROM_LEFT),
        ("N1", "h.l.-h.r.", FROM_LEFT),
        ("N1", "house left to right", FROM_LEFT),
        ("N1", "Spots are numbered from house left", FROM_LEFT),
        ("N1", "starting house left", FROM_LEFT),
        ("N1", "house left first", FROM_LEFT),
        ("N2", "house right to house left", FROM_RIGHT),
        ("N2", "HR > HL", FROM_RIGHT),
        ("N3", "stage right to stage left", FROM_LEFT),
        ("N3", "SR TO SL", FROM_LEFT),
        ("N4", "stage left to stage right", FROM_RIGHT),
        ("N4", "sl - sr", FROM_RIGHT),
        ("N4", "starting at stage left, going to stage right", FROM_RIGHT),
        ("N5", "left to right as you look at the stage", FROM_LEFT),
        ("N5", "L to R from the house", FROM_LEFT),
        ("N5", "left to right, seen from FOH", FROM_LEFT),
        ("N5", "right to left facing the stage", FROM_RIGHT),
        ("N6", "left to right from the stage", FROM_RIGHT),
        ("N6", "left to right, from the truss", FROM_RIGHT),
        ("N6", "L-R as you face the audience", FROM_RIGHT),
        ("N7", "prompt side to opposite side", FROM_RIGHT),
        ("N7", "PS to OP", FROM_RIGHT),
        ("N7", "opposite prompt to prompt", FROM_LEFT),
        ("N8", "clockwise from above, starting at 3 o'clock", Ring(True, Start("clock", "3"))),
        ("N8", "CW from 12 o’clock, with 12 o'clock at the stage end", Ring(True, Start("clock", "12"))),
        ("N8", "clockwise from house right", Ring(True, Start("side", "house right"))),
        ("N8", "clockwise, number 1 at house label 4", Ring(True, Start("label", "4"))),
        ("N8", "clockwise starting at bearing 210", Ring(True, Start("bearing", "210"))),
        ("N8", "clockwise starting at the stage end", Ring(True, Start("bearing", "0"))),
        ("N9", "anticlockwise from 12 o'clock", Ring(False, Start("clock", "12"))),
        ("N9", "counter-clockwise from 6 o'clock", Ring(False, Start("clock", "6"))),
        ("N9", "CCW from 90°", Ring(False, Start("bearing", "90"))),
        ("N9", "clockwise as seen from below, from 12 o'clock", Ring(False, Start("clock", "12"))),
        ("N12", "odd house left, even house right", Alternating("house left")),
        ("N12", "evens on house left, odds on house right", Alternating("house right")),
        ("N12", "odd one side, even the other", Alternating(None)),
        ("N12", "1-3-5 house left / 2-4-6 house right", Alternating("house left")),
        ("N12", "1, 3, 5 HL; 2, 4, 6 HR, outside in", Alternating("house left", inward=True)),
        ("N12", "odd stage left, even stage right, from center outward", Alternating("house right")),
        ("N13", "outward from centre", Outward()),
        ("N13", "center out, house left first", Outward("house left")),
        ("side", "front to back", Depth("front")),
        ("side", "upstage to downstage", Depth("back")),
        ("side", "DS first", Depth("front")),
        ("bare", "left to right", Row("left")),
        ("bare", "R to L", Row("right")),
    ],
)
def test_a_direction_is_read_in_full_and_abbreviated(code: str, text: str, direction: Direction) -> None:
    assert direction_of(text) == direction, code
    assert direction_of(text.upper()) == direction, code
    assert reads_as_statement(text)


def test_n7_prompt_side_follows_the_house() -> None:
    bastard_prompt = House(HOUSE.positions, prompt_side="stage right")
    assert direction_of("prompt side to opposite side", bastard_prompt) == FROM_LEFT


def test_n8_a_start_with_a_bare_number_is_settled_only_where_its_meanings_agree() -> None:
    twelve = even_ring(12)  # label 3 lies at bearing 60, 3 o'clock at 90
    unclear = compare(twelve, spots(*count_to(12)), "clockwise from 3")
    assert unclear.pairs == ()
    assert flags(unclear)["convention-missing"]["could_be"] == (
        "clockwise from house label 3",
        "clockwise from 3 o'clock",
        "clockwise from bearing 3",
    )
    marked = ring({"30": 30.0, "90": 90.0, "150": 150.0, "210": 210.0, "270": 270.0, "330": 330.0})
    assert labels_of(compare(marked, spots(1, 2), "clockwise from 30")) == {"1": "30", "2": "90"}


def test_n8_a_ring_without_a_start_is_no_convention() -> None:
    comparison = compare(even_ring(6), spots(1, 2), "clockwise")
    assert comparison.pairs == ()
    assert flags(comparison)["convention-missing"]["quoted"] == "clockwise"


def test_n10_blocks_in_order_without_a_direction_are_asked_about() -> None:
    comparison = compare(HOUSE, spots(1, 2, 3), "front first, then rear, then sides")
    assert flags(comparison)["convention-missing"]["numbers"] == ("1", "2", "3")


def test_n10_each_block_takes_its_own_direction() -> None:
    text = "booth house right to house left, then bridge house left to house right, then sides front to back"
    pairs = labels_of(compare(HOUSE, spots(*count_to(8)), text))
    assert [pairs[number] for number in count_to(8)] == ["4", "3", "2", "1", "R1", "R2", "L1", "L2"]


def test_n11_by_booth_with_numbers_then_across() -> None:
    text = "Rear booth 1-4, catwalk 5-8, all house right to house left"
    pairs = labels_of(compare(HOUSE, spots(*count_to(8)), text))
    assert [pairs[number] for number in count_to(8)] == ["4", "3", "2", "1", "8", "7", "6", "5"]


def test_n11_by_level_takes_the_lowest_first() -> None:
    house = House((row(["3", "4"], "Upper booth", level=2), row(["1", "2"], "Lower rail", -20.0, level=1)))
    pairs = labels_of(compare(house, spots(*count_to(4)), "by level, then house left to house right"))
    assert [pairs[number] for number in count_to(4)] == ["1", "2", "3", "4"]


def test_n12_alternation_counts_each_half_outward_from_center() -> None:
    house = row_house(["a", "b", "c", "d", "e", "f"])
    pairs = labels_of(compare(house, spots(*count_to(6)), "odd house left, even house right"))
    assert [pairs[number] for number in count_to(6)] == ["c", "d", "b", "e", "a", "f"]
    inward = labels_of(compare(house, spots(*count_to(6)), "odd house left, even house right, outside in"))
    assert [inward[number] for number in count_to(6)] == ["a", "f", "b", "e", "c", "d"]


def test_n12_the_center_slot_goes_to_the_half_that_needs_it() -> None:
    house = row_house(["a", "b", "c", "mid", "e", "f", "g"])
    seven = labels_of(compare(house, spots(*count_to(7)), "odd house left, even house right"))
    assert seven["1"] == "MID" or seven["1"] == "mid"
    six = compare(house, spots(*count_to(6)), "odd house left, even house right")
    assert flags(six)["spare"]["labels"] == ("mid",)


def test_n12_one_side_and_the_other_is_unclear_until_somebody_says_which() -> None:
    comparison = compare(row_house(list("abcdef")), spots(*count_to(6)), "odd one side, even the other")
    assert [reading.reading for reading in comparison.readings] == ["house-left-first", "house-right-first"]


def test_n13_outward_without_a_side_is_unclear_with_both_readings() -> None:
    comparison = compare(row_house(list("abcd")), spots(1, 2, 3, 4), "outward from center")
    assert comparison.pairs == ()
    assert {reading.reading: labels_of_reading(reading.pairs, comparison.house) for reading in comparison.readings} == {
        "house-left-first": ["b", "c", "a", "d"],
        "house-right-first": ["c", "b", "d", "a"],
    }


def labels_of_reading(pairs: object, house: House) -> list[str]:
    return [house.slots[pair.slot].label for pair in pairs]  # type: ignore[attr-defined]


def test_n13_fourth_from_center_is_no_statement_and_says_what_could_be() -> None:
    assert read_statement("fourth from center", HOUSE) == Unreadable(
        "fourth from center", ("outward from center, house left first", "outward from center, house right first")
    )


def test_n14_truss_numbers_continue_and_without_a_direction_of_their_own_are_unclear() -> None:
    house = House((row(count_to(4), "Booth"), row(["5", "6", "7", "8"], "Truss", 4.0, zone="overhead", kind="truss")))
    text = "front 1-4 house left to house right, truss spots continue 5-8"
    comparison = compare(house, spots(*count_to(8)), text)
    assert flags(comparison)["unclear"] == {"open": ("overhead",)}
    assert [reading.reading for reading in comparison.readings] == ["house", "stage"]
    plain = compare(house, spots(*count_to(8)), text + ", house right to house left")
    assert labels_of(plain)["5"] == "8"


def test_n15_letters_name_the_truss_spots() -> None:
    house = House((row(count_to(4), "Booth"), row(["T1", "T2"], "Truss", 4.0, zone="overhead", kind="truss")))
    comparison = compare(house, spots(1, 2, 3, 4, "A", "B"), "front 1-4 HL to HR; truss A-B HR to HL")
    assert labels_of(comparison) == {"1": "1", "2": "2", "3": "3", "4": "4", "A": "T2", "B": "T1"}


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("N16", "house left spot"),
        ("N17", "by pick-up: vocal, guitar"),
        ("N19", "caller's own order"),
        ("N19", "as given at the spot talk"),
        ("-", "house left to house right except 3 and 4"),
        ("-", "house left to stage right"),
        ("-", "odd left, even left"),
        ("-", "HL to HR, then HR to HL"),
        ("-", "booth HL to HR, booth HR to HL"),
        ("-", "nine to the left"),
        ("-", "to"),
        ("-", "x" * 700),
        ("-", "1-99999 HL to HR"),
        ("-", "cove house left to house right"),
    ],
)
def test_what_cannot_be_read_is_quoted_with_statements_that_can(code: str, text: str) -> None:
    statement = read_statement(text, HOUSE)
    assert isinstance(statement, Unreadable), code
    assert statement.quoted == text
    assert statement.could_be
    assert all(isinstance(read_statement(other, HOUSE), Statement) for other in statement.could_be)
    comparison = compare(HOUSE, spots(1, 2), text)
    assert flags(comparison)["convention-missing"]["quoted"] == text


def test_n16_and_n17_names_stand_for_numbers_where_labels_place_them() -> None:
    comparison = compare(row_house(["1", "2"]), spots("Vocal", "Guitar"), None, {"Vocal": "2", "Guitar": "1"})
    assert labels_of(comparison) == {"Guitar": "1", "Vocal": "2"}
    assert codes(comparison) == ("mixed", None)


def test_n18_a_team_shares_a_number_and_its_first_slot_stands_for_it() -> None:
    comparison = compare(row_house(count_to(5)), spots(1, 2, 3), "house left to house right; 2 is a team of 3")
    assert [(pair.number, comparison.house.slots[pair.slot].label) for pair in comparison.pairs] == [
        ("1", "1"),
        ("2", "2"),
        ("2", "3"),
        ("2", "4"),
        ("3", "5"),
    ]
    assert codes(comparison) == ("same-order", "same")


def test_n18_a_team_of_more_lines_than_declared_is_a_duplicate() -> None:
    comparison = compare(row_house(count_to(5)), spots(1, 2, 2, 2), "house left to house right; 2 is a team of 2")
    assert flags(comparison)["duplicate"] == {"numbers": ("2",)}


@pytest.mark.parametrize(
    "text",
    [
        "1, 2, 5, 6 house left to house right",
        "house left to house right, 3 and 4 not used",
        "HL to HR, no spots 3 or 4",
        "HL to HR; skip 3 and 4",
    ],
)
def test_n20_declared_gaps_are_legal_and_take_no_place(text: str) -> None:
    comparison = compare(row_house(list("abcd")), spots(1, 2, 5, 6), text)
    assert labels_of(comparison) == {"1": "a", "2": "b", "5": "c", "6": "d"}
    assert "missing-number" not in flags(comparison)


def test_a_viewpoint_may_stand_before_the_direction() -> None:
    assert direction_of("from the stage: left to right") == FROM_RIGHT


def test_the_same_direction_said_twice_is_one_direction() -> None:
    assert direction_of("house left to house right (stage right to stage left)") == FROM_LEFT


def test_a_direction_before_a_block_that_has_its_own_belongs_to_nobody() -> None:
    text = "house right to house left, then truss house left to house right"
    assert isinstance(read_statement(text, HOUSE), Unreadable)


def test_one_row_and_position_by_position_are_read() -> None:
    one_row = read_statement("all in one row, SR to SL", HOUSE)
    by_position = read_statement("position by position, HL to HR", HOUSE)
    assert isinstance(one_row, Statement)
    assert isinstance(by_position, Statement)
    assert (one_row.in_one_row, by_position.by_position) == (True, True)


@pytest.mark.parametrize("title", ["Front truss", "Spot plot", "Tour of the north, week 3", "1, 2, 3", "Booth HL", ""])
def test_a_title_does_not_read_as_a_statement(title: str) -> None:
    assert not reads_as_statement(title)
