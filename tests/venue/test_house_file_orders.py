"""The order of slots where it is stated: needed, doubled, or against where the lenses are."""

import pytest

from tests.venue.house_documents import a_house, booth, found, ordered, read, sample, sentence, slot, warned
from venue.house_file.reading import read_house_file


def ring(*slots, name="Ring", **more):
    return {"name": name, "zone": "bowl", "slots": list(slots), **more}


def at(label, bearing_deg, **more):
    return {"label": label, "bearing_deg": bearing_deg, **more}


# -- rows ----------------------------------------------------------------------------------------------


def test_a_row_may_be_known_by_order_alone():
    assert read(a_house(booth(ordered("A", 2), ordered("B", 1)))).warnings == ()


def test_equal_orders_in_a_position_are_refused():
    document = a_house(booth(ordered("1", 1), ordered("2", 1)))
    assert found(document) == {"$.positions[0].slots[1].order": "equal-orders"}
    assert sentence(document, "$.positions[0].slots[1].order") == (
        "order 1 is taken by $.positions[0].slots[0]; in the position each order stands once"
    )


def test_equal_orders_are_refused_even_where_coordinates_would_do():
    document = a_house(booth(slot("1", -2.0, order=1), slot("2", 2.0, order=1)))
    assert found(document) == {"$.positions[0].slots[1].order": "equal-orders"}


def test_two_rows_may_use_the_same_orders():
    assert read(a_house(booth(ordered("1", 1)), booth(ordered("1", 1), name="Rail"))).warnings == ()


def test_if_one_slot_lacks_coordinates_every_slot_of_its_position_needs_an_order():
    document = a_house(booth(slot("1", -2.0), ordered("2", 2), slot("3", 2.0), slot("4", 4.0, order=4)))
    assert found(document) == {
        "$.positions[0].slots[0].order": "order-needed",
        "$.positions[0].slots[2].order": "order-needed",
    }
    assert sentence(document, "$.positions[0].slots[0].order") == (
        "is missing: $.positions[0].slots[1] has no x, y and z, so order decides; "
        "give every slot in the position an order"
    )


def test_a_bearing_alone_does_not_place_a_slot_in_a_row():
    document = a_house(booth(at("1", 190.0), slot("2", 2.0)))
    assert found(document) == {
        "$.positions[0].slots[0].order": "order-needed",
        "$.positions[0].slots[1].order": "order-needed",
    }


def test_another_position_needs_no_order_for_it():
    document = a_house(booth(slot("1", -2.0), slot("2", 2.0)), booth(ordered("1", 1), name="Rail"))
    assert read(document).warnings == ()


@pytest.mark.parametrize("zone", ["front", "rear", "overhead"])
def test_an_order_against_x_is_a_warning(zone):
    document = a_house(booth(slot("1", -2.0, order=2), slot("2", 2.0, order=1), zone=zone))
    assert warned(document) == {"$.positions[0].slots[0].order": "order-against-x"}


def test_the_warning_says_how_order_and_x_run():
    (warning,) = read(a_house(booth(slot("1", -2.0, order=2), slot("2", 2.0, order=1)))).warnings
    assert str(warning) == (
        "$.positions[0].slots[0].order: order 2 goes against x_m: "
        "order rises from house left, and so does x_m; check both"
    )


def test_order_along_x_is_no_warning_whatever_numbers_it_uses():
    assert warned(a_house(booth(slot("1", -2.0, order=10), slot("2", 0.0, order=20), slot("3", 2.0, order=25)))) == {}


def test_lenses_nearer_than_30_centimeters_have_no_order_of_their_own():
    near = a_house(booth(slot("1", 0.0, order=2), slot("2", 0.29, order=1)))
    apart = a_house(booth(slot("1", 0.0, order=2), slot("2", 0.3, order=1)))
    assert warned(near) == {}
    assert warned(apart) == {"$.positions[0].slots[0].order": "order-against-x"}


def test_many_small_steps_back_are_seen_together():
    document = a_house(booth(slot("1", 0.0, order=3), slot("2", 0.2, order=2), slot("3", 0.4, order=1)))
    assert warned(document) == {"$.positions[0].slots[0].order": "order-against-x"}


def test_a_side_position_has_no_left_and_right_to_go_against():
    document = a_house(booth(slot("1", -2.0, order=2), slot("2", 2.0, order=1), zone="side"))
    assert warned(document) == {}


# -- bowls ---------------------------------------------------------------------------------------------


def test_a_ring_may_be_known_by_bearings_alone_given_or_computed():
    document = a_house(ring(at("1", 0.0), at("2", 90.0)), ring(slot("3"), name="Booth"))
    assert read(document).warnings == ()


def test_equal_orders_are_refused_round_the_whole_ring():
    document = a_house(ring(ordered("1", 1), ordered("2", 2)), ring(ordered("3", 2), name="Ring north"))
    assert found(document) == {"$.positions[1].slots[0].order": "equal-orders"}
    assert "in the bowl each order stands once" in sentence(document, "$.positions[1].slots[0].order")


def test_if_one_slot_of_the_ring_has_no_bearing_every_slot_of_the_ring_needs_an_order():
    document = a_house(
        ring(at("1", 0.0), at("2", 90.0, order=2)),
        ring(ordered("3", 3), slot("4"), name="Ring north"),
        booth(slot("5")),
    )
    assert found(document) == {
        "$.positions[0].slots[0].order": "order-needed",
        "$.positions[1].slots[1].order": "order-needed",
    }
    assert "$.positions[1].slots[0] has no bearing" in sentence(document, "$.positions[0].slots[0].order")


def test_a_position_without_zone_in_a_bowl_is_of_the_ring():
    document = a_house(
        {"name": "North", "slots": [ordered("1", 1)]},
        {"name": "South", "slots": [ordered("2", 1)]},
        house={"layout": "bowl"},
    )
    assert found(document) == {"$.positions[1].slots[0].order": "equal-orders"}


def test_the_zones_of_the_usual_setup_decide_what_is_a_ring():
    positions = (ring(ordered("1", 1)), ring(ordered("2", 1), name="Ring north"))
    zones = {"Ring": "front", "RING NORTH": "rear"}
    assert found(a_house(*positions)) == {"$.positions[1].slots[0].order": "equal-orders"}
    assert read(a_house(*positions, house={"zones": zones})).warnings == ()


def test_an_order_against_the_bearing_is_a_warning():
    document = a_house(ring(at("1", 10.0, order=1), at("2", 200.0, order=2), at("3", 100.0, order=3)))
    assert warned(document) == {"$.positions[0].slots[2].order": "order-against-bearing"}


def test_a_ring_counted_from_elsewhere_is_a_warning_since_order_starts_at_the_stage_end():
    document = a_house(ring(at("1", 200.0, order=1), at("2", 300.0, order=2), at("3", 20.0, order=3)))
    assert warned(document) == {"$.positions[0].slots[2].order": "order-against-bearing"}


def test_a_lens_up_to_2_degrees_before_the_stage_end_counts_as_at_it():
    assert warned(a_house(ring(at("1", 358.5, order=1), at("2", 90.0, order=2)))) == {}
    assert warned(a_house(ring(at("1", 357.5, order=1), at("2", 90.0, order=2)))) != {}


def test_a_computed_bearing_is_held_against_the_order_too():
    document = a_house(ring(slot("1", 0.0, order=1), slot("2", 30.0, order=2)))  # 180 and about 142 degrees
    assert warned(document) == {"$.positions[0].slots[1].order": "order-against-bearing"}


def test_nothing_is_odd_in_the_sample_bowl():
    assert read_house_file(sample("tarn_bowl.json")).warnings == ()


# -- throws --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("y_m", "is_odd"), [(-1.4, True), (-1.5, False), (-305.0, False), (-306.0, True)])
def test_a_throw_that_no_follow_spot_has_is_a_warning(y_m, is_odd):
    lens = {"label": "1", "x_m": 0, "y_m": y_m, "z_m": 1.5}
    assert warned(a_house(booth(lens))) == ({"$.positions[0].slots[0]": "odd-throw"} if is_odd else {})
