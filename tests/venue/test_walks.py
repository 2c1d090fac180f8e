"""Walking: what was seen is written down, held against the book, and never lost."""

from typing import Any

import pytest

from tests.factories import ACTOR, NOON, hours, make_a_house, make_place, make_position
from venue.actions import add_row, change, confirm_walk, end_place, set_zone, turn_row
from venue.book import book_of_positions
from venue.errors import AlreadyEnded, Invalid, NothingToTurn, StaleVersion, WrongHouse
from venue.models import OrderWalk, Place, Position, Setup
from venue.walks import contradicted_positions, is_walked, walked_positions

pytestmark = pytest.mark.django_db


def row(labels: str, zone: str = "front") -> tuple[Setup, Position, dict[str, Place]]:
    """A position known by order, with its set-up and its places by label."""
    position = add_row(actor=ACTOR, house=make_a_house(), name="Rear booth", zone=zone, labels_from_house_left=labels)
    places = {place.label: place for place in position.places.all()}
    return position.house.setups.get(), position, places


def walk(setup: Setup, left_end: Place, **facts: Any) -> OrderWalk:
    facts = {"walked_by": "Hollis Varga", "walked_at": NOON, **facts}
    return confirm_walk(actor=ACTOR, setup=setup, position=left_end.position, left_end=left_end, **facts)


def order(position: Position) -> str:
    entry = book_of_positions(position.house.setups.get(), [position])[0]
    return "".join(place.label for place in entry.places)


def test_a_position_is_walked_when_the_label_seen_is_the_one_on_file() -> None:
    setup, position, places = row("4321")
    assert (is_walked(setup, position), walked_positions(setup)) == (False, {})
    confirmed = walk(setup, places["4"])
    assert is_walked(setup, position)
    assert walked_positions(setup) == {position.pk: confirmed}
    assert contradicted_positions(setup) == frozenset()


def test_a_walk_that_contradicts_the_book_is_kept_and_counts_as_not_walked() -> None:
    setup, position, places = row("4321")
    walk(setup, places["2"])
    assert not is_walked(setup, position)
    assert contradicted_positions(setup) == {position.pk}
    assert position.house.history.filter(verb="walk.confirmed").get().data["fits"] is False


def test_the_next_walk_ends_the_one_before_and_keeps_it() -> None:
    setup, position, places = row("12")
    first = walk(setup, places["2"])
    second = walk(setup, places["1"], walked_at=NOON + hours(1))
    first.refresh_from_db()
    assert (first.ended_at, first.ended_reason) == (NOON + hours(1), "walked again")
    assert walked_positions(setup) == {position.pk: second}


def test_a_walk_holds_for_its_own_set_up_only() -> None:
    setup, position, places = row("12")
    other = Setup.objects.create(house=position.house, name="In the round")
    walk(setup, places["1"])
    assert not is_walked(other, position)


def test_behind_the_stage_the_other_end_is_at_the_left() -> None:
    setup, position, places = row("123", zone="rear")
    walk(setup, places["3"])
    assert is_walked(setup, position)


def test_the_zone_of_the_set_up_decides_which_end_is_asked_for() -> None:
    setup, position, places = row("123")
    walk(setup, places["1"])
    set_zone(actor=ACTOR, setup=setup, position=position, zone="rear")
    assert contradicted_positions(setup) == {position.pk}


def test_a_place_labelled_anew_has_to_be_walked_anew() -> None:
    setup, position, places = row("12")
    walk(setup, places["1"])
    change(actor=ACTOR, row=places["1"], house=position.house, seen=1, values={"label": "9"})
    assert contradicted_positions(setup) == {position.pk}


def test_a_place_that_ended_was_walked_in_vain() -> None:
    setup, position, places = row("12")
    walk(setup, places["1"])
    end_place(actor=ACTOR, place=places["1"], at=NOON, reason="rail taken out")
    assert contradicted_positions(setup) == {position.pk}


def test_a_walk_where_the_book_knows_no_order_contradicts_nothing() -> None:
    position = make_position()
    place = make_place(position, label="7")
    make_place(position, label="8")
    setup = position.house.setups.get()
    walk(setup, place)
    assert is_walked(setup, position)


def test_a_walk_names_who_stood_there() -> None:
    setup, _position, places = row("12")
    with pytest.raises(Invalid):
        walk(setup, places["1"], walked_by="")


def test_a_walk_stays_in_one_house_and_one_position() -> None:
    setup, position, _places = row("12")
    foreign = make_place(make_position(position.house), label="5")
    with pytest.raises(Invalid):
        confirm_walk(actor=ACTOR, setup=setup, position=position, left_end=foreign, walked_by="Hollis", walked_at=NOON)
    with pytest.raises(WrongHouse):
        walk(setup, make_place())


def test_a_place_that_has_ended_can_not_be_at_the_end() -> None:
    setup, _position, places = row("12")
    end_place(actor=ACTOR, place=places["2"], at=NOON, reason="rail taken out")
    with pytest.raises(AlreadyEnded):
        walk(setup, places["2"])


def test_a_row_known_by_order_is_turned_round_once() -> None:
    setup, position, places = row("1234")
    wrong = walk(setup, places["4"])
    turn_row(actor=ACTOR, setup=setup, position=position, walk=wrong, seen=1)
    assert (order(position), is_walked(setup, position)) == ("4321", True)
    with pytest.raises(NothingToTurn):
        turn_row(actor=ACTOR, setup=setup, position=position, walk=wrong, seen=1)
    assert order(position) == "4321"


def test_a_measured_row_changes_sides_and_keeps_what_was_typed() -> None:
    position = make_position()
    for label, x in (("1", -4.5), ("2", 0.0), ("3", 4.5)):
        make_place(position, label=label, x_m=x, y_m=-38.0, z_m=14.0, x_text="4.5 m")
    setup = position.house.setups.get()
    wrong = walk(setup, position.places.get(label="3"))
    turn_row(actor=ACTOR, setup=setup, position=position, walk=wrong, seen=1)
    assert (order(position), is_walked(setup, position)) == ("321", True)
    assert list(position.places.values_list("x_m", "x_text")) == [(4.5, "4.5 m"), (0.0, "4.5 m"), (-4.5, "4.5 m")]


@pytest.mark.parametrize(("zone", "seen"), [("front", "2"), ("bowl", "3"), ("side", "3")])
def test_a_row_is_only_turned_if_the_walk_found_its_other_end(zone: str, seen: str) -> None:
    setup, position, places = row("123", zone=zone)
    wrong = walk(setup, places[seen])
    with pytest.raises(NothingToTurn):
        turn_row(actor=ACTOR, setup=setup, position=position, walk=wrong, seen=1)
    assert order(position) == "123"


def test_a_row_is_not_turned_by_an_older_walk() -> None:
    setup, position, places = row("123")
    old = walk(setup, places["3"])
    walk(setup, places["3"], walked_at=NOON + hours(1))
    with pytest.raises(StaleVersion):
        turn_row(actor=ACTOR, setup=setup, position=position, walk=old, seen=1)


def test_a_row_comes_with_its_places_in_order() -> None:
    _setup, position, _places = row(["A", "B 2", "c"])  # type: ignore[arg-type]
    assert list(position.places.order_by("row_order").values_list("label", "row_order")) == [
        ("A", 1),
        ("B 2", 2),
        ("c", 3),
    ]
    assert position.house.history.filter(verb="place.added").count() == 3


@pytest.mark.parametrize("labels", [[], ["1", "01"], ["1", "-"], [str(n) for n in range(101)]])
def test_a_row_needs_labels_that_differ_and_not_too_many(labels: list[str]) -> None:
    house = make_a_house()
    with pytest.raises(Invalid) as refused:
        add_row(actor=ACTOR, house=house, name="Rail", zone="front", labels_from_house_left=labels)
    assert list(refused.value.problems) == ["labels"]
    assert not house.positions.exists()
