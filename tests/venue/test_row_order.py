"""The order of places in a position, and which of them may be at the end asked for."""

import pytest

from venue.core.rows import Standing, row_of


def labels(places: list[Standing], zone: str, target: tuple[float, float] = (0.0, 0.0)) -> tuple[str, str, str]:
    """The labels in order, those at the end, and the basis."""
    row = row_of(places, zone, target)
    ends = "".join(sorted(places[index].label for index in row.ends))
    return "".join(places[index].label for index in row.places), ends, row.basis


BY_X = [Standing("1", 4.5, -38.0), Standing("2", -4.5, -38.0), Standing("3", 0.0, -38.0)]
BY_ORDER = [Standing("1", order=3), Standing("2", order=1), Standing("3", order=2)]


@pytest.mark.parametrize("zone", ["front", "overhead"])
def test_a_row_goes_from_house_left_by_x_and_its_left_end_is_house_left(zone: str) -> None:
    assert labels(BY_X, zone) == ("231", "2", "measured")
    assert labels(BY_ORDER, zone) == ("231", "2", "order")


def test_behind_the_stage_the_left_hand_is_at_house_right() -> None:
    assert labels(BY_X, "rear") == ("231", "1", "measured")
    assert labels(BY_ORDER, "rear") == ("231", "1", "order")


def test_a_side_position_goes_from_the_audience_upstage() -> None:
    assert labels([Standing("A", -9.0, 2.0), Standing("B", -9.0, -3.0)], "side") == ("BA", "B", "measured")


def test_one_place_without_coordinates_makes_the_order_decide_for_all() -> None:
    mixed = [Standing("1", -4.0, 0.0, order=2), Standing("2", order=1)]
    assert labels(mixed, "front") == ("21", "2", "order")


@pytest.mark.parametrize("places", [[Standing("10"), Standing("2")], [Standing("10", order=1), Standing("2", order=1)]])
def test_without_an_order_labels_are_listed_and_nobody_knows_the_end(places: list[Standing]) -> None:
    assert labels(places, "front") == ("210", "", "label")


def test_places_too_close_to_tell_are_both_at_the_end() -> None:
    close = [Standing("1", 0.0, 0.0), Standing("2", 0.29, 0.0), Standing("3", 3.0, 0.0)]
    assert labels(close, "front")[1] == "12"
    assert labels([Standing("1", 0.0, 0.0), Standing("2", 0.3, 0.0)], "front")[1] == "1"


def test_a_bowl_goes_clockwise_from_the_stage_end_about_its_target() -> None:
    ring = [
        Standing("N", 0.0, 10.0),
        Standing("W", -40.0, -30.0),
        Standing("E", 40.0, -30.0),
        Standing("S", 0.0, -70.0),
    ]
    assert labels(ring, "bowl", (0.0, -30.0)) == ("NESW", "N", "measured")


def test_a_light_just_before_the_stage_end_counts_as_at_it() -> None:
    assert labels([Standing("1", bearing_deg=358.0), Standing("2", bearing_deg=30.0)], "bowl")[1] == "1"
    assert labels([Standing("1", bearing_deg=357.9), Standing("2", bearing_deg=30.0)], "bowl")[1] == "2"


def test_a_position_without_places_has_no_order() -> None:
    assert row_of([], "front").places == ()
