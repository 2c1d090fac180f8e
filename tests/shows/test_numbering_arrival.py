"""What goes wrong on arrival (common practice, no source), each by what the comparison says of it."""

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import House, Position, Slot, Spot
from tests.shows.numbering_cases import by_hand, codes, count_to, flags, labels_of, ring, row, row_house, spots

HOUSE_RIGHT_TO_LEFT = row_house(["4", "3", "2", "1"])  # label 1 stands at house right


def test_numbers_matched_to_labels_mirror_the_whole_row_and_that_is_an_error() -> None:
    matched = by_hand(HOUSE_RIGHT_TO_LEFT, {n: n for n in count_to(4)}, "house left to house right")
    assert codes(matched) == ("same", "reversed")
    assert matched.against_statement is not None
    assert matched.against_statement.expected[0] == ("1", 0)


def test_the_right_assignment_on_a_house_that_counts_the_other_way_is_only_a_notice() -> None:
    right = compare(HOUSE_RIGHT_TO_LEFT, spots(*count_to(4)), "house left to house right")
    assert labels_of(right) == {"1": "4", "2": "3", "3": "2", "4": "1"}
    assert codes(right) == ("reversed", "same")


def test_a_row_mapped_backward_hides_in_its_middle_and_is_still_reversed() -> None:
    house = row_house(count_to(5))
    comparison = by_hand(house, dict(zip(count_to(5), "54321", strict=True)), "SR to SL")
    assert codes(comparison) == ("reversed", "reversed")


def test_one_place_fewer_than_expected_leaves_the_last_number_short() -> None:
    comparison = compare(row_house(count_to(4)), spots(*count_to(5)), "house left to house right")
    assert flags(comparison)["short"] == {"numbers": ("5",)}
    assert len(comparison.pairs) == 4


def test_a_place_out_of_use_in_the_middle_shifts_the_numbers_past_it_onto_other_labels() -> None:
    in_use = row_house(["1", "2", "4", "5"])
    comparison = compare(in_use, spots(*count_to(4)), "house left to house right")
    assert labels_of(comparison) == {"1": "1", "2": "2", "3": "4", "4": "5"}
    assert codes(comparison) == ("same-order", "same")


def test_house_paint_left_in_view_beside_the_tape_is_blanked_where_it_equals_a_tape() -> None:
    comparison = compare(
        row_house(count_to(5)), spots(1, 2, 3, 4), "1-4 HL to HR", {"1": "2", "2": "3", "3": "4", "4": "5"}
    )
    tape = comparison.ways_out[0]
    assert tape.way == "tape"
    assert (0, None) in tape.changes


def test_truss_spots_numbered_the_other_way_are_reversed_in_their_block_only() -> None:
    house = House((row(count_to(4), "Booth"), row(list("ABCD"), "Truss", 4.0, zone="overhead", kind="truss")))
    text = "booth house left to house right, truss house right to house left"
    comparison = compare(house, spots(*count_to(8)), text)
    assert codes(comparison) == ("reversed-in-blocks", "same")
    assert comparison.against_labels is not None
    assert dict(comparison.against_labels.blocks) == {0: "same", 1: "reversed"}


def test_two_ones_on_the_headset_need_their_position() -> None:
    house = House((row(["1", "2"], "Booth"), row(["1", "2"], "Truss", 4.0)))
    comparison = compare(house, [Spot("1", label="1"), Spot("2", label="2", position="Truss")], None)
    assert flags(comparison)["unknown-label"] == {"number": "1", "label": "1", "found": ("Booth/1", "Truss/1")}
    assert labels_of(comparison) == {"2": "Truss/2"}
    named = by_hand(house, {"1": "Truss/1", "2": "booth/02"})
    assert labels_of(named) == {"1": "Truss/1", "2": "Booth/2"}


def test_booth_and_catwalk_mixed_in_one_row_is_unclear_until_one_row_is_said() -> None:
    house = House((row(["1", "2"], "Booth"), row(["3", "4", "5"], "Catwalk", -20.0)))
    unclear = compare(house, spots(*count_to(5)), "house left to house right")
    assert flags(unclear)["unclear"] == {"open": ("rows",)}
    by_position, one_row = unclear.readings
    assert [pair.number for pair in by_position.pairs] == count_to(5)
    assert [house.slots[pair.slot].label for pair in by_position.pairs] == ["1", "2", "3", "4", "5"]
    assert [house.slots[pair.slot].label for pair in one_row.pairs] == ["3", "1", "4", "2", "5"]
    said = compare(house, spots(*count_to(5)), "all in one row, house left to house right")
    assert [house.slots[pair.slot].label for pair in said.pairs] == ["3", "1", "4", "2", "5"]


def test_two_positions_on_which_both_readings_agree_are_not_asked_about() -> None:
    left = Position("Left booth", (Slot("1", x=-9.0, y=-30.0), Slot("2", x=-7.0, y=-30.0)))
    right = Position("Right booth", (Slot("3", x=7.0, y=-30.0), Slot("4", x=9.0, y=-30.0)))
    comparison = compare(House((left, right)), spots(*count_to(4)), "house left to house right")
    assert codes(comparison) == ("same", "same")
    assert not comparison.readings


def test_left_without_house_or_stage_is_unclear_with_both_readings() -> None:
    comparison = compare(HOUSE_RIGHT_TO_LEFT, spots(*count_to(4)), "left to right")
    assert (comparison.pairs, codes(comparison)) == ((), (None, None))
    assert [
        (reading.reading, reading.against_labels.code) for reading in comparison.readings if reading.against_labels
    ] == [
        ("house", "reversed"),
        ("stage", "same"),
    ]


def test_left_without_house_or_stage_is_no_matter_with_one_spot_on_one_place() -> None:
    comparison = compare(row_house(["7"]), spots(1), "left to right")
    assert labels_of(comparison) == {"1": "7"}
    assert not comparison.readings


def test_labels_given_by_hand_stay_where_the_statement_is_unclear_but_are_not_judged_by_it() -> None:
    comparison = by_hand(HOUSE_RIGHT_TO_LEFT, {n: n for n in count_to(4)}, "left to right")
    assert codes(comparison) == ("same", None)
    assert len(comparison.pairs) == 4
    assert [reading.against_statement.code for reading in comparison.readings if reading.against_statement] == [
        "reversed",
        "same",
    ]


def test_story_1_letters_left_to_right_against_a_show_from_stage_left() -> None:
    house = row_house(list("ABCD"))
    matched = by_hand(house, dict(zip("1234", "ABCD", strict=True)), "stage left to stage right")
    assert codes(matched)[1] == "reversed"
    right = by_hand(house, dict(zip("1234", "DCBA", strict=True)), "stage left to stage right")
    assert codes(right) == ("reversed", "same")


def test_story_2_other_words_for_the_same_order_warn_of_nothing() -> None:
    comparison = compare(row_house(list("ABCD")), spots(*count_to(4)), "stage right to stage left")
    assert codes(comparison) == ("same-order", "same")
    assert not comparison.flags


def test_story_11_an_oval_is_told_mirrored_from_rotated() -> None:
    house = ring({str(at): float(at) for at in (30, 90, 150, 210, 270, 330)})
    mirrored = dict(zip("123456", ["30", "330", "270", "210", "150", "90"], strict=True))
    rotated = dict(zip("123456", ["90", "150", "210", "270", "330", "30"], strict=True))
    assert codes(by_hand(house, mirrored, "clockwise from 30"))[1] == "other-way-round"
    assert codes(by_hand(house, rotated, "clockwise from 30"))[1] == "starts-elsewhere"


def test_story_14_twice_and_missing_are_both_named_and_shift_nobody() -> None:
    comparison = compare(row_house(count_to(4)), spots(1, 2, 2, 4), "house left to house right")
    assert flags(comparison)["duplicate"] == {"numbers": ("2",)}
    assert flags(comparison)["missing-number"] == {"numbers": ("3",)}
    assert labels_of(comparison) == {"1": "1", "4": "4"}


def test_story_27_front_straight_and_truss_reversed_flags_the_truss_only() -> None:
    house = House((row(count_to(4), "Booth"), row(list("ABCD"), "Truss", 4.0, zone="overhead", kind="truss")))
    assignment = {**{n: n for n in count_to(4)}, **dict(zip("ABCD", "DCBA", strict=True))}
    comparison = by_hand(house, assignment, "front 1-4 house left to house right; truss A-D house left to house right")
    assert comparison.against_statement is not None
    assert comparison.against_statement.code == "reversed-in-blocks"
    assert dict(comparison.against_statement.blocks) == {0: "same", 1: "reversed"}
