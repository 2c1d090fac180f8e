"""A place that goes before others of a row that is known by its order alone."""

import pytest

from shows.models import Engagement
from tests.factories import ACTOR, Cast, the_cast
from tests.venue.pages import as_user, errors_of, send, words
from venue.actions import add_place, add_row
from venue.models import Event, Position

pytestmark = pytest.mark.django_db
STAND = {"label": "Stand", "way": "order", "row_order": "1"}


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


def a_row(cast: Cast) -> Position:
    return add_row(actor=ACTOR, house=cast.house, name="Rear booth", zone="front", labels_from_house_left="123")


def in_order(position: Position) -> list[tuple[str, int]]:
    return list(position.places.standing().order_by("row_order").values_list("label", "row_order"))


def address_in_house(position: Position) -> str:
    return f"/houses/{position.house.slug}/positions/{position.ref}/places/new/"


def address_in_show(show: Engagement, position: Position) -> str:
    return f"/shows/{show.ref}/places/bring/{position.ref}/"


@pytest.mark.parametrize("who", ["house", "show"])
def test_a_place_at_the_house_left_end_is_offered_to_go_before_the_first(cast: Cast, who: str) -> None:
    row, client = a_row(cast), as_user(cast.head)
    address = address_in_house(row) if who == "house" else address_in_show(cast.engagement, row)
    refused = send(client, address, **STAND)
    assert errors_of(refused)["row_order"] == [
        "Place 1 is number 1 already. Choose another number, or say below that this one goes before it."
    ]
    assert "It goes before that one: from there on each counts one higher" in words(refused)
    assert client.post(address, {**STAND, "goes_before": "on"}).status_code == 302
    assert in_order(row) == [("Stand", 1), ("1", 2), ("2", 3), ("3", 4)]
    assert row.places.get(label="Stand").only_for == (None if who == "house" else cast.engagement.ref)
    assert Event.objects.filter(verb="place.changed", house=cast.house).count() == 3


def test_only_those_from_there_on_count_higher_and_a_free_number_moves_nobody(cast: Cast) -> None:
    row = a_row(cast)
    add_place(actor=ACTOR, position=row, label="2A", row_order=3, goes_before=True)
    assert in_order(row) == [("1", 1), ("2", 2), ("2A", 3), ("3", 4)]
    add_place(actor=ACTOR, position=row, label="9", row_order=9, goes_before=True)
    assert in_order(row)[-2:] == [("3", 4), ("9", 9)]


def test_a_place_of_the_house_moves_what_a_show_brought_too(cast: Cast) -> None:
    row, client = a_row(cast), as_user(cast.head)
    client.post(address_in_show(cast.engagement, row), {**STAND, "row_order": "4"})
    client.post(address_in_house(row), {**STAND, "label": "0", "goes_before": "on"})
    assert in_order(row) == [("0", 1), ("1", 2), ("2", 3), ("3", 4), ("Stand", 5)]


def test_a_place_that_is_there_already_is_not_offered_it(cast: Cast) -> None:
    row, client = a_row(cast), as_user(cast.head)
    third = row.places.get(label="3")
    answer = send(client, f"/houses/{cast.house.slug}/places/{third.ref}/edit/", row_order="1", goes_before="on")
    assert "change that place first" in errors_of(answer)["row_order"][0]
    assert in_order(row) == [("1", 1), ("2", 2), ("3", 3)]
