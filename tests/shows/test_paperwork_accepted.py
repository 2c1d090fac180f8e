"""Paperwork is kept as it came; acceptance puts every number where it unambiguously belongs."""

import pytest
from django.db import IntegrityError, transaction

from shows.actions import accept_paperwork, apply_reading, apply_statement, assign_spots, obey_statement
from shows.facts import SpotFacts
from shows.models import Engagement, Paperwork
from tests.factories import ACTOR, NOON, make_show
from tests.shows.stocked import LEFT_TO_RIGHT, accept, bound, listed, receive, stock
from venue.errors import AlreadyEnded, Invalid, StaleVersion
from venue.models import Place
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def show() -> Engagement:
    return make_show()


@pytest.fixture
def places(show: Engagement) -> list[Place]:
    return stock(show.house)


def by_hand(show: Engagement, **places: Place) -> None:
    spots = {spot.number: spot for spot in show.spots.standing()}
    wanted = {spots[number.removeprefix("n")]: [place] for number, place in places.items()}
    seen = {spot: spot.version for spot in wanted}
    assign_spots(actor=ACTOR, engagement=show, places=wanted, seen=seen, at=NOON)


def test_what_comes_is_kept_byte_for_byte_and_nothing_else_is_stored(show: Engagement) -> None:
    paperwork = receive(show, "Spot\n1\n", file_name="spots.csv", media="csv")
    stored = Paperwork.objects.get()
    assert bytes(stored.content) == b"Spot\n1\n"
    assert (stored.file_name, stored.received_by, stored.accepted_at) == ("spots.csv", ACTOR.name, None)
    assert len(stored.sha256) == 64
    assert not show.spots.exists()
    line = show.house.history.last()
    assert line is not None
    assert event_sentence(line) == "received paperwork of Nine Paper Boats: spots.csv"
    assert receive(show, "Spot\n1\n", media="csv") == paperwork


def test_the_bytes_can_not_be_changed_by_anybody(show: Engagement) -> None:
    receive(show, "Spot\n1\n")
    with pytest.raises(IntegrityError), transaction.atomic():
        Paperwork.objects.update(content=b"other")


@pytest.mark.parametrize(("content", "told"), [(b"", "is empty"), (b"x" * 5_000_001, "too large")])
def test_an_empty_or_huge_paperwork_is_refused(show: Engagement, content: bytes, told: str) -> None:
    with pytest.raises(Invalid, match=told):
        receive(show, "", content=content)
    assert not Paperwork.objects.exists()


def test_acceptance_takes_spots_and_statement_and_puts_each_number_on_its_place(
    show: Engagement, places: list[Place]
) -> None:
    paperwork = accept(show, listed(4))
    assert show.statement == "house left to house right"
    assert bound(show) == {str(n): (str(5 - n), "statement") for n in range(1, 5)}
    paperwork.refresh_from_db()
    assert (paperwork.accepted_by, paperwork.is_in_force) == (ACTOR.name, True)
    verbs = list(show.house.history.order_by("pk").values_list("verb", flat=True))
    assert verbs[-4:] == ["spots.put", "engagement.changed", "spots.bound", "paperwork.accepted"]


def test_labels_in_the_paperwork_say_where_a_number_stands(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(2, "", **{"House label": ["2", "4"]}))
    assert bound(show) == {"1": ("2", "label"), "2": ("4", "label")}


def test_what_is_ambiguous_is_bound_nowhere(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(4, "Numbering: left to right\n"))
    assert bound(show) == {}


def test_accepting_twice_is_refused(show: Engagement, places: list[Place]) -> None:
    paperwork = accept(show, listed(4))
    with pytest.raises(AlreadyEnded):
        accept_paperwork(actor=ACTOR, paperwork=paperwork, spots=[], statement_read="", at=NOON, seen=2)


def test_a_stale_acceptance_stores_nothing(show: Engagement, places: list[Place]) -> None:
    paperwork = receive(show, listed(4))
    with pytest.raises(StaleVersion):
        accept_paperwork(actor=ACTOR, paperwork=paperwork, spots=[SpotFacts("1")], statement_read="", at=NOON, seen=7)
    assert not show.spots.exists()


def test_a_second_paperwork_replaces_the_first_and_leaves_alone_what_was_put_by_hand(
    show: Engagement, places: list[Place]
) -> None:
    first = accept(show, listed(4))
    by_hand(show, n1=places[0], n4=places[3])
    assert bound(show)["1"] == ("1", "hand")
    second = accept(show, listed(3))
    first.refresh_from_db()
    second.refresh_from_db()
    assert (first.is_in_force, first.superseded_at, second.is_in_force) == (False, NOON, True)
    assert bound(show) == {"1": ("1", "hand"), "2": ("4", "statement"), "3": ("3", "statement")}


def test_a_hand_works_against_the_version_that_was_shown(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(4))
    (spot, *_others) = show.spots.standing()
    with pytest.raises(StaleVersion):
        assign_spots(actor=ACTOR, engagement=show, places={spot: [places[0]]}, seen={spot: spot.version - 1}, at=NOON)
    assert bound(show)["1"] == ("4", "statement")


def test_another_statement_moves_the_numbers_but_not_those_put_by_hand(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(4))
    by_hand(show, n1=places[0], n4=places[3])
    apply_statement(actor=ACTOR, engagement=show, statement="house right to house left", at=NOON, seen=show.version)
    assert {number: label for number, (label, _) in bound(show).items()} == {str(n): str(n) for n in range(1, 5)}


def test_a_stale_statement_is_refused(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(4))
    with pytest.raises(StaleVersion):
        apply_statement(actor=ACTOR, engagement=show, statement="", at=NOON, seen=show.version + 1)


def test_the_shows_own_rule_overrules_labels_and_hands(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(4, LEFT_TO_RIGHT, Label=["1", "2", "3", "4"]))
    assert bound(show)["1"] == ("1", "label")
    obey_statement(actor=ACTOR, engagement=show, at=NOON)
    assert bound(show) == {str(n): (str(5 - n), "statement") for n in range(1, 5)}


def test_one_reading_of_bare_sides_is_taken_for_lines_that_do_not_say_whose(
    show: Engagement, places: list[Place]
) -> None:
    accept(show, listed(2, "", Side=["left", "right"], Nth=["1", "1"]))
    assert bound(show) == {}
    apply_reading(actor=ACTOR, engagement=show, reading="stage", statement="", at=NOON, seen=show.version)
    assert {number: label for number, (label, _) in bound(show).items()} == {"1": "1", "2": "4"}
