"""Bad lines are named and the rest is still compared."""

import pytest

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import House, Spot
from shows.wording.verdict import is_to_tell, labels_sentence
from tests.shows.numbering_cases import codes, count_to, even_ring, flags, labels_of, row, row_house, spots

FOUR = row_house(count_to(4))
ACROSS = "house left to house right"


def test_an_undeclared_hole_keeps_its_place_free() -> None:
    comparison = compare(FOUR, spots(1, 2, 4), ACROSS)
    assert labels_of(comparison) == {"1": "1", "2": "2", "4": "4"}
    assert flags(comparison)["missing-number"] == {"numbers": ("3",)}


def test_a_hole_wider_than_any_show_is_another_series() -> None:
    comparison = compare(FOUR, spots(1, 2, 101, 102), ACROSS)
    assert labels_of(comparison) == {"1": "1", "2": "2", "101": "3", "102": "4"}
    assert not comparison.flags


def test_a_hole_in_letters_skips_the_letters_that_are_never_used() -> None:
    lettered = row_house(list("12345678"))
    assert "missing-number" not in flags(compare(lettered, spots(*"ABCDEFGH"), ACROSS))
    assert "missing-number" not in flags(compare(row_house(list("12")), spots("H", "J"), ACROSS))
    assert flags(compare(lettered, spots("A", "C"), ACROSS))["missing-number"] == {"numbers": ("B",)}


def test_a_line_without_a_number_is_named_and_shifts_nobody() -> None:
    comparison = compare(FOUR, [*spots(1, 2), Spot(None, position="booth", line=9), *spots(3)], ACROSS)
    assert flags(comparison)["missing-number"]["lines"] == (9,)
    assert labels_of(comparison) == {"1": "1", "2": "2", "3": "3"}


def test_spellings_of_one_number_are_one_number() -> None:
    comparison = compare(FOUR, spots("#01", "Spot 2", "No. 3", "004"), ACROSS)
    assert labels_of(comparison) == {"1": "1", "2": "2", "3": "3", "4": "4"}
    assert flags(compare(FOUR, spots("t1", "T 01"), ACROSS))["duplicate"] == {"numbers": ("T1",)}


def test_numbers_are_taken_in_natural_order_whatever_the_order_of_lines() -> None:
    comparison = compare(row_house(count_to(11)), spots(10, 9, "2A", 2, 1), "1, 2, 2A, 9, 10 " + ACROSS)
    assert list(labels_of(comparison)) == ["1", "2", "2A", "9", "10"]


def test_two_spots_that_name_one_slot_get_no_pair() -> None:
    comparison = compare(FOUR, [Spot("1", label="2"), Spot("2", label="2"), Spot("3", label="3")], None)
    assert flags(comparison)["duplicate"] == {"numbers": ("1", "2"), "position": "Row 1", "label": "2"}
    assert labels_of(comparison) == {"3": "3"}
    assert flags(comparison)["spare"]["labels"] == ("1", "4")


def test_an_unknown_label_is_named_and_the_rest_is_compared() -> None:
    comparison = compare(FOUR, [Spot("1", label="9"), Spot("2", label="2")], None)
    assert flags(comparison)["unknown-label"] == {"number": "1", "label": "9", "found": ()}
    assert labels_of(comparison) == {"2": "2"}


def test_more_places_than_spots_fill_from_the_stated_start_and_the_rest_is_spare() -> None:
    comparison = compare(FOUR, spots(1, 2), "house right to house left")
    assert labels_of(comparison) == {"1": "4", "2": "3"}
    assert flags(comparison)["spare"] == {"position": "Row 1", "labels": ("1", "2")}


def test_given_labels_obey_a_statement_whichever_places_stay_empty() -> None:
    given = [Spot("1", label="1"), Spot("2", label="3"), Spot("3", label="4")]
    assert codes(compare(FOUR, given, ACROSS))[1] == "same"


def test_a_show_that_states_nothing_is_held_against_the_labels_alone() -> None:
    comparison = compare(FOUR, [Spot("1", label="4"), Spot("2", label="3")], None)
    assert codes(comparison) == ("reversed", None)
    assert flags(comparison)["convention-missing"] == {"numbers": ("1", "2")}


def test_a_show_that_states_nothing_and_names_no_labels_gets_no_pair() -> None:
    comparison = compare(FOUR, spots(1, 2), "  ")
    assert (comparison.pairs, codes(comparison)) == ((), (None, None))
    assert flags(comparison)["convention-missing"] == {"numbers": ("1", "2")}


def test_an_unreadable_statement_still_lets_labels_be_held_against_the_house() -> None:
    comparison = compare(FOUR, [Spot("1", label="2"), Spot("2", label="1")], "as the caller likes")
    assert codes(comparison) == ("reversed", None)
    assert flags(comparison)["convention-missing"]["quoted"] == "as the caller likes"


def test_left_to_right_round_a_full_ring_is_no_convention() -> None:
    comparison = compare(even_ring(8), spots(1, 2), ACROSS)
    assert flags(comparison)["convention-missing"]["could_be"] == (
        "clockwise from 12 o'clock",
        "counterclockwise from 12 o'clock",
    )


def test_a_name_has_no_order_and_a_statement_cannot_place_it() -> None:
    comparison = compare(FOUR, spots("Vocal", 1, 2), ACROSS)
    assert labels_of(comparison) == {"1": "1", "2": "2"}
    assert flags(comparison)["convention-missing"]["numbers"] == ("Vocal",)


def test_numbers_that_no_block_takes_are_named() -> None:
    house = House((row(count_to(2), "Booth"), row(["3", "4"], "Catwalk", -20.0)))
    comparison = compare(house, spots(1, 2, 3, 4, 5), "booth 1-2, catwalk 3-4, house left to house right")
    assert labels_of(comparison) == {"1": "1", "2": "2", "3": "3", "4": "4"}
    assert flags(comparison)["convention-missing"]["numbers"] == ("5",)


def test_unnamed_positions_are_not_used_once_blocks_are_named() -> None:
    house = House((row(count_to(2), "Booth"), row(["3", "4"], "Catwalk", -20.0)))
    comparison = compare(house, spots(1, 2, 3), "booth house left to house right")
    assert labels_of(comparison) == {"1": "1", "2": "2"}
    assert flags(comparison)["short"] == {"numbers": ("3",)}


def test_a_spot_that_stands_in_an_unnamed_position_breaks_the_statement() -> None:
    house = House((row(count_to(2), "Booth"), row(["3", "4"], "Catwalk", -20.0)))
    comparison = compare(house, [Spot("1", label="1"), Spot("2", label="3")], "booth house left to house right")
    assert codes(comparison) == ("same-order", "mixed")


def test_a_number_in_another_block_than_its_own_breaks_the_statement() -> None:
    house = House((row(list("abc"), "Booth"), row(list("xyz"), "Catwalk", -20.0)))
    given = [Spot(n, label=label) for n, label in zip("1234", "abcx", strict=True)]
    text = "booth 1-2, catwalk 3-4, house left to house right"
    assert codes(compare(house, given, text))[1] == "mixed"
    assert codes(compare(house, given, "booth then catwalk, house left to house right"))[1] == "same"


@pytest.mark.parametrize("numbers", [[], [None]])
def test_paperwork_without_any_number_gives_an_empty_answer(numbers: list[None]) -> None:
    comparison = compare(FOUR, [Spot(number, line=3) for number in numbers], ACROSS)
    assert (comparison.pairs, codes(comparison)) == ((), (None, None))


def test_a_house_without_slots_leaves_everybody_short() -> None:
    assert flags(compare(House(()), spots(1, 2), ACROSS))["short"] == {"numbers": ("1", "2")}


def test_places_given_by_hand_overrule_labels_and_serve_teams() -> None:
    wanted = [Spot("1", label="2"), Spot("2")]
    given = {"1": [3], "2": [0, 1]}
    comparison = compare(FOUR, wanted, ACROSS + "; 2 is a team of 2", given=given)
    assert [(pair.number, pair.slot, pair.source) for pair in comparison.pairs] == [
        ("1", 3, "label"),
        ("2", 0, "label"),
        ("2", 1, "label"),
    ]
    assert codes(comparison)[1] == "reversed"


def test_names_are_told_of_only_where_one_could_be_taken_for_another() -> None:
    house = row_house(["Left", "Center", "Right"])
    plain = compare(house, spots(1, 2), None, {"1": "Left", "2": "Center"})
    crossed = compare(house, spots("Left", "Center"), None, {"Left": "Center", "Center": "Left"})
    assert not is_to_tell(plain)
    assert is_to_tell(crossed)
    assert labels_sentence(plain) == "Names have no order: show 1 = house Left; show 2 = house Center."
