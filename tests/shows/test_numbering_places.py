"""Places in words, and the order in which lenses stand."""

import pytest

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import House, Position, Slot, Spot
from tests.shows.numbering_cases import codes, count_to, flags, labels_of, ring, row, row_house, spots

SEVEN = row_house(list("abcdefg"))  # d is in the center
EIGHT = row_house(list("abcdefgh"))
ACROSS = "house left to house right"


def place(house: House, **words: str) -> str | None:
    comparison = compare(house, [Spot("1", **words)], None)
    return labels_of(comparison).get("1")


@pytest.mark.parametrize(
    ("words", "label"),
    [
        ({"side": "house left", "nth": "2"}, "b"),
        ({"side": "HR", "nth": "1st"}, "g"),
        ({"side": "SR", "nth": "second"}, "b"),
        ({"side": "stage left", "nth": "3rd"}, "e"),
        ({"side": "OP", "nth": "1"}, "a"),
        ({"side": "prompt", "nth": "1"}, "g"),
        ({"side": "center"}, "d"),
        ({"side": "C"}, "d"),
        ({"nth": "centre"}, "d"),
        ({"position": "center"}, "d"),
        ({"nth": "2nd from house right"}, "f"),
        ({"nth": "2nd from center", "side": "HL"}, "b"),
        ({"nth": "third from centre", "side": "house right"}, "g"),
        ({"side": "left", "nth": "1", "whose_left": "house"}, "a"),
        ({"side": "left", "nth": "1", "whose_left": "stage"}, "g"),
        ({"side": "R", "nth": "1", "whose_left": "as you look at the stage"}, "g"),
        ({"side": "R", "nth": "1", "whose_left": "from the audience"}, "g"),
        ({"position": "Row 1", "side": "HL", "nth": "4"}, "d"),
        ({"position": "front", "side": "HL", "nth": "4"}, "d"),
        ({"side": "house left"}, None),
        ({"side": "house left", "nth": "8"}, None),
        ({"nth": "2"}, None),
        ({"nth": "4th from center"}, None),
        ({"side": "up there", "nth": "1"}, None),
        ({"position": "lighthouse"}, None),
        ({"position": "Row 1"}, None),
        ({"side": "house left", "nth": "2nd from house right"}, None),
        ({"side": "house left", "nth": "none"}, None),
    ],
)
def test_a_place_in_words_names_a_slot_or_is_said_to_name_none(words: dict[str, str], label: str | None) -> None:
    assert place(SEVEN, **words) == label
    if label is None:
        assert flags(compare(SEVEN, [Spot("1", **words)], None))["unknown-place"]["number"] == "1"


def test_an_even_row_has_no_center() -> None:
    assert place(EIGHT, side="center") is None
    assert place(EIGHT, side="HL", nth="1st from center") == "d"


def test_a_side_alone_fits_where_one_slot_stands_there() -> None:
    house = House((row(["1", "2"], "Booth"), row(["T1", "T2"], "Truss", 4.0, zone="overhead", kind="truss")))
    assert place(house, position="truss", side="HL") == "T1"
    assert place(house, position="Truss HR") == "T2"
    assert place(house, side="HL") is None


def test_a_bare_left_in_a_place_is_unclear_with_both_readings() -> None:
    comparison = compare(SEVEN, [Spot("1", side="left", nth="1")], None)
    assert flags(comparison)["unclear"] == {"open": ("whose",)}
    assert [reading.pairs[0].slot for reading in comparison.readings] == [0, 6]


def test_a_bare_left_is_no_matter_at_the_center() -> None:
    assert labels_of(compare(SEVEN, [Spot("1", side="left", nth="4")], None)) == {"1": "d"}


def test_places_are_put_first_and_the_statement_fills_what_is_free() -> None:
    comparison = compare(SEVEN, [Spot("1"), Spot("2", side="HL", nth="1"), Spot("3")], ACROSS)
    assert labels_of(comparison) == {"1": "b", "2": "a", "3": "c"}
    assert [(pair.number, pair.source) for pair in comparison.pairs] == [
        ("1", "statement"),
        ("2", "place"),
        ("3", "statement"),
    ]


def test_a_position_alone_keeps_a_spot_there_and_the_statement_says_where() -> None:
    house = House((row(["1", "2", "3"], "Booth"), row(["4", "5"], "Catwalk", -20.0, kind="catwalk")))
    wanted = [Spot("1", position="Booth"), Spot("2", position="catwalk"), Spot("3", position="catwalk")]
    comparison = compare(house, wanted, "house right to house left")
    assert labels_of(comparison) == {"1": "3", "2": "5", "3": "4"}


def test_a_spot_with_place_words_is_judged_by_its_place() -> None:
    obeying = Spot("1", label="b", side="HL", nth="2")
    breaking = Spot("1", label="c", side="HL", nth="2")
    assert codes(compare(SEVEN, [obeying], None))[1] == "same"
    broken = compare(SEVEN, [breaking], None)
    assert codes(broken)[1] == "mixed"
    assert broken.against_statement is not None
    assert broken.against_statement.expected == (("1", 1),)


def test_two_places_that_name_one_slot_get_no_pair() -> None:
    comparison = compare(SEVEN, [Spot("1", side="HL", nth="1"), Spot("2", nth="7th from house right")], None)
    assert flags(comparison)["duplicate"]["numbers"] == ("1", "2")
    assert comparison.pairs == ()


def test_a_side_position_is_ordered_by_depth_only() -> None:
    boom = Position("Box boom", (Slot("up", x=9.0, y=-3.0), Slot("down", x=9.1, y=-6.0)), "side", "box boom")
    assert labels_of(compare(House((boom,)), spots(1, 2), "front to back")) == {"1": "down", "2": "up"}
    assert labels_of(compare(House((boom,)), spots(1, 2), "upstage to downstage")) == {"1": "up", "2": "down"}
    across = compare(House((boom,)), spots(1, 2), ACROSS)
    assert flags(across)["not-ordered"]["labels"] == ("down", "up")
    assert place(House((boom,)), nth="1st from front") == "down"


def test_a_row_has_no_depth() -> None:
    comparison = compare(row_house(["1", "2"]), spots(1, 2), "front to back")
    assert comparison.pairs == ()
    assert flags(comparison)["not-ordered"]["labels"] == ("1", "2")


def knot(*lenses: tuple[str, float, float, float]) -> House:
    """One position a lens (label, x, y, level), so that levels may differ."""
    return House(tuple(Position(f"P{n}", (Slot(n, x=x, y=y, z=9.0),), level=level) for n, x, y, level in lenses))


def test_inside_a_knot_the_lower_level_comes_first_whichever_way_the_row_is_counted() -> None:
    house = knot(("high", 0.0, -20.0, 2), ("low", 0.1, -20.0, 1), ("right", 4.0, -20.0, 1))
    one_row = "all in one row, "
    assert list(labels_of(compare(house, spots(1, 2, 3), one_row + ACROSS)).values()) == ["low", "high", "right"]
    back = labels_of(compare(house, spots(1, 2, 3), one_row + "house right to house left"))
    assert list(back.values()) == ["right", "low", "high"]


def test_on_one_level_the_farther_from_the_target_comes_first() -> None:
    house = knot(("near", 0.0, -20.0, 1), ("far", 0.2, -30.0, 1))
    assert labels_of(compare(house, spots(1, 2), "all in one row, " + ACROSS)) == {"1": "far", "2": "near"}


def test_what_is_still_tied_gets_no_pair_and_the_others_keep_theirs() -> None:
    house = House(
        (
            Position(
                "Booth", tuple(Slot(n, x=x, y=-20.0, z=9.0) for n, x in (("a", -4), ("b", 0), ("c", 0.2), ("d", 4)))
            ),
        )
    )
    comparison = compare(house, spots(1, 2, 3, 4), ACROSS)
    assert labels_of(comparison) == {"1": "a", "4": "d"}
    assert flags(comparison)["not-ordered"] == {"position": "Booth", "labels": ("b", "c")}
    named = compare(house, [Spot("1"), Spot("2", label="c"), Spot("3"), Spot("4")], ACROSS)
    assert labels_of(named) == {"1": "a", "2": "c", "3": "b", "4": "d"}


def test_lenses_just_at_the_tolerance_are_not_a_knot() -> None:
    slots = tuple(Slot(n, x=x, y=-20.0, z=9.0) for n, x in (("a", 0.7), ("b", 1.0), ("c", 1.3)))
    assert list(labels_of(compare(House((Position("Booth", slots),)), spots(1, 2, 3), ACROSS)).values()) == [
        "a",
        "b",
        "c",
    ]


def test_order_alone_is_enough_and_decides_where_one_slot_lacks_coordinates() -> None:
    ordered = House((Position("Booth", tuple(Slot(label, order=at) for label, at in (("x", 3), ("y", 1), ("z", 2)))),))
    assert labels_of(compare(ordered, spots(1, 2, 3), ACROSS)) == {"1": "y", "2": "z", "3": "x"}
    assert place(ordered, side="center") == "z"
    assert place(ordered, side="HL") == "y"
    partly = House((Position("Booth", (Slot("x", x=-5.0, y=0.0, z=1.0, order=2), Slot("y", order=1))),))
    assert labels_of(compare(partly, spots(1, 2), ACROSS)) == {"1": "y", "2": "x"}


def test_positions_known_by_order_alone_cannot_be_pooled() -> None:
    house = House(tuple(Position(name, (Slot(name + "1", order=1), Slot(name + "2", order=2))) for name in "AB"))
    one_row = compare(house, spots(1, 2, 3, 4), "all in one row, " + ACROSS)
    assert one_row.pairs == ()
    assert labels_of(compare(house, spots(1, 3), "position by position, " + ACROSS)) == {"1": "A1", "3": "B1"}


END_STAGE = ring({"1": 100.0, "2": 140.0, "3": 180.0, "4": 220.0, "5": 260.0})


def test_a_bowl_used_toward_an_end_stage_is_read_as_a_row() -> None:
    comparison = compare(END_STAGE, spots(*count_to(5)), ACROSS)
    assert labels_of(comparison) == {"1": "5", "2": "4", "3": "3", "4": "2", "5": "1"}
    assert codes(comparison) == ("reversed", "same")
    assert place(END_STAGE, side="center") == "3"
    assert place(END_STAGE, side="HL", nth="1") == "5"


def test_number_one_is_the_first_at_or_after_the_start_and_two_degrees_behind_counts_as_at_it() -> None:
    house = ring({"a": 88.5, "b": 120.0, "c": 240.0, "d": 359.0})
    clockwise = labels_of(compare(house, spots(1, 2, 3, 4), "clockwise from 3 o'clock"))
    assert list(clockwise.values()) == ["a", "b", "c", "d"]
    counter = labels_of(compare(house, spots(1, 2, 3, 4), "counterclockwise from house right"))
    assert list(counter.values()) == ["a", "d", "c", "b"]
    later = ring({"a": 87.5, "b": 120.0})
    assert labels_of(compare(later, spots(1), "clockwise from 3 o'clock")) == {"1": "b"}
    top = labels_of(compare(house, spots(1, 2, 3, 4), "clockwise from the stage end"))
    assert list(top.values()) == ["d", "a", "b", "c"]


def test_a_knot_in_a_ring_may_lie_over_the_stage_end() -> None:
    house = House(
        (
            Position("Upper", (Slot("high", bearing=359.5), Slot("far", bearing=180.0)), "bowl", level=2),
            Position("Lower", (Slot("low", bearing=0.5),), "bowl", level=1),
        )
    )
    assert list(labels_of(compare(house, spots(1, 2, 3), "clockwise from 12 o'clock")).values()) == [
        "low",
        "high",
        "far",
    ]


def test_bearings_come_from_coordinates_about_the_target() -> None:
    slots = tuple(
        Slot(n, x=x, y=y, z=9.0)
        for n, x, y in (("stage", 0, 30), ("right", 20, 10), ("far", 0, -10), ("left", -20, 10))
    )
    house = House((Position("Bowl", slots, "bowl"),), target=(0.0, 10.0, 1.5))
    assert list(labels_of(compare(house, spots(1, 2, 3, 4), "clockwise from 12 o'clock")).values()) == [
        "stage",
        "right",
        "far",
        "left",
    ]


def test_a_ring_known_by_order_alone_starts_at_the_stage_end_or_at_a_label() -> None:
    house = House((Position("Bowl", tuple(Slot(n, order=at) for at, n in enumerate("abcd", 1)), "bowl"),))
    assert list(labels_of(compare(house, spots(1, 2, 3, 4), "clockwise from 12 o'clock")).values()) == list("abcd")
    assert list(labels_of(compare(house, spots(1, 2, 3, 4), "clockwise from house label c")).values()) == list("cdab")
    assert list(labels_of(compare(house, spots(1, 2, 3), "counterclockwise from house label c")).values()) == list(
        "cba"
    )
    assert compare(house, spots(1, 2), "clockwise from 3 o'clock").pairs == ()
    assert compare(house, spots(1, 2), "counterclockwise from 12 o'clock").pairs == ()


def test_twelve_oclock_may_be_turned_by_the_set_up() -> None:
    house = ring({"a": 0.0, "b": 90.0, "c": 180.0})
    turned = House(house.positions, twelve_deg=180.0)
    assert labels_of(compare(turned, spots(1), "clockwise from 12 o'clock")) == {"1": "c"}
