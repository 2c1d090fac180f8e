"""The walk's page: where to stand, one tap a label, and what the answer means."""

import pytest
from django.http import HttpResponse
from django.test import Client

from tests.factories import ACTOR, Cast, the_cast
from tests.venue.pages import as_user, errors_of, words
from venue.actions import add_row, end_place
from venue.models import OrderWalk, Position

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast() -> Cast:
    return the_cast()


def row(cast: Cast, labels: str = "123", zone: str = "front") -> Position:
    return add_row(actor=ACTOR, house=cast.house, name="Rear booth", zone=zone, labels_from_house_left=labels)


def address(position: Position, verb: str = "walk") -> str:
    return f"/houses/quillmark-hall/setups/{position.house.setups.get().ref}/{verb}/{position.ref}/"


def tap(client: Client, position: Position, label: str, who: str = "Hollis Varga") -> HttpResponse:
    return client.post(address(position), {"walked_by": who, "label": label}, follow=True)


@pytest.mark.parametrize(
    ("zone", "sentences"),
    [
        (
            "front",
            [
                "Stand at Rear booth and face the stage.",
                "at the left end?",
                "left hand then points to house left · stage right (river side)",
            ],
        ),
        (
            "rear",
            [
                "behind the stage, and face the stage",
                "at the left end?",
                "points to house right · stage left (street side)",
            ],
        ),
        ("overhead", ["look up at Rear booth", "at the left end?", "points to house left · stage right (river side)"]),
        ("side", ["at the end nearest the audience?"]),
        (
            "bowl",
            [
                "Stand at the stage end (north gate) with the back to it",
                "Go round to the left hand: which label of Rear booth comes first?",
                "points to house right · stage left (street side)",
                "clockwise",
            ],
        ),
    ],
)
def test_the_question_can_be_answered_by_somebody_who_stands_there(cast: Cast, zone: str, sentences: list[str]) -> None:
    sides = {
        "house_left_landmark": "river side",
        "house_right_landmark": "street side",
        "stage_end_landmark": "north gate",
    }
    cast.house.setups.update(**sides)
    page = words(as_user(cast.head).get(address(row(cast, zone=zone))))
    for sentence in sentences:
        assert sentence in page


def test_one_tap_writes_down_who_saw_what(cast: Cast) -> None:
    position = row(cast)
    page = words(tap(as_user(cast.head), position, "1"))
    walk = OrderWalk.objects.get()
    assert (walk.left_end.label, walk.walked_by, walk.actor_name) == ("1", "Hollis Varga", "Head")
    assert "Hollis Varga found 1 there" in page and "the order fits the book" in page


def test_an_answer_that_does_not_fit_says_so_and_offers_what_to_do(cast: Cast) -> None:
    position, client = row(cast), as_user(cast.head)
    page = words(tap(client, position, "2"))
    assert "Hollis Varga found label 2 there; the book has 1 there." in page
    assert "Change place 2" in page and "walk it again below" in page
    assert "Turn the whole row round" not in page
    assert "The walk does not fit the book." in words(client.get("/houses/quillmark-hall/"))


def test_a_row_the_other_way_round_is_turned_by_one_button(cast: Cast) -> None:
    position, client = row(cast), as_user(cast.head)
    assert "Turn the whole row round in the book" in words(tap(client, position, "3"))
    page = words(client.post(address(position, "turn"), {"version": "1"}, follow=True))
    assert "The row was turned round" in page and "the order fits the book" in page
    assert list(position.places.order_by("row_order").values_list("label", flat=True)) == ["3", "2", "1"]
    again = words(client.post(address(position, "turn"), {"version": "1"}, follow=True))
    assert "Nothing was turned." in again


@pytest.mark.parametrize("version", ["", "2", "x"])
def test_a_row_is_not_turned_by_an_old_page(cast: Cast, version: str) -> None:
    position, client = row(cast), as_user(cast.head)
    tap(client, position, "3")
    client.post(address(position, "turn"), {"version": version})
    assert list(position.places.order_by("row_order").values_list("label", flat=True)) == ["1", "2", "3"]


@pytest.mark.parametrize(
    ("label", "who", "field"), [("9", "Hollis", "label"), ("", "Hollis", "label"), ("1", "", "walked_by")]
)
def test_a_walk_without_a_known_label_or_a_name_is_refused(cast: Cast, label: str, who: str, field: str) -> None:
    answer = tap(as_user(cast.head), row(cast), label, who)
    assert list(errors_of(answer)) == [field]
    assert not OrderWalk.objects.exists()
    assert answer.context["form"]["walked_by"].value() == who  # type: ignore[attr-defined]


def test_a_label_that_ended_meanwhile_is_refused_in_words(cast: Cast) -> None:
    position = row(cast)
    end_place(actor=ACTOR, place=position.places.get(label="1"), at=position.house.history.last().at, reason="gone")  # type: ignore[union-attr]
    assert "No place has this label any more" in words(tap(as_user(cast.head), position, "1"))


def test_a_position_without_places_says_what_comes_first(cast: Cast) -> None:
    position = row(cast, "1")
    end_place(actor=ACTOR, place=position.places.get(), at=position.house.history.last().at, reason="gone")  # type: ignore[union-attr]
    assert "This position has no places yet." in words(as_user(cast.head).get(address(position)))
