"""A show's spots are taken in by number and bound to places; nothing that was on file is deleted."""

from typing import Any

import pytest
from django.core.exceptions import ValidationError

from shows.actions import add_tour_place, add_tour_position, bind_spot, bind_spots, end_engagement, put_spots
from shows.facts import SpotFacts
from shows.models import Engagement, ShowSpot, SpotPlace
from tests.factories import ACTOR, NOON, make_place, make_position, make_show
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, StaleVersion, WrongHouse
from venue.models import Place
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def show(db: None) -> Engagement:
    return make_show()


@pytest.fixture
def places(show: Engagement) -> list[Place]:
    booth = make_position(show.house, name="Booth")
    return [make_place(booth, label=str(number)) for number in range(1, 5)]


def put(show: Engagement, *numbers: str, **facts: Any) -> list[ShowSpot]:
    return put_spots(actor=ACTOR, engagement=show, spots=[SpotFacts(number, **facts) for number in numbers], at=NOON)


def bind(show: Engagement, spots: list[ShowSpot], places: list[Place]) -> None:
    pairs = {spot: [place] for spot, place in zip(spots, places, strict=True)}
    bind_spots(actor=ACTOR, engagement=show, places=pairs, at=NOON)


def bound(show: Engagement) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for row in show.spot_places.standing().order_by("spot__sort_key", "team_order"):
        found.setdefault(row.spot.number, []).append(row.place.label)
    return found


def test_spots_come_in_the_natural_order_of_their_numbers(show: Engagement) -> None:
    put(show, "10", "A", "2", "1")
    assert [spot.number for spot in show.spots.all()] == ["1", "2", "10", "A"]


def test_everything_that_the_paperwork_says_is_kept(show: Engagement) -> None:
    facts = SpotFacts("1", "3", "booth", "HL", "2nd", "house", ("R02", "", "frost"), "B", "lead", 1200.5, "late")
    put_spots(actor=ACTOR, engagement=show, spots=[facts], at=NOON)
    stored = show.spots.get()
    assert {name: getattr(stored, name) for name in vars(facts)} == {**vars(facts), "frames": ["R02", "", "frost"]}


def test_a_second_paperwork_changes_adds_and_ends_by_number(show: Engagement) -> None:
    first = put(show, "1", "2", "3")
    second = put_spots(
        actor=ACTOR, engagement=show, spots=[SpotFacts("02", channel="B"), SpotFacts("3"), SpotFacts("4")], at=NOON
    )
    assert [spot.pk for spot in second[:2]] == [first[1].pk, first[2].pk]
    assert [(spot.number, spot.version) for spot in show.spots.standing()] == [("02", 2), ("3", 1), ("4", 1)]
    gone = show.spots.get(number="1")
    assert (gone.ended_at, gone.ended_reason) == (NOON, "not in the paperwork any more")
    line = show.house.history.last()
    assert line is not None
    assert (line.data["added"], line.data["changed"], line.data["ended"]) == (["4"], ["02"], ["1"])
    assert event_sentence(line) == "took in the spots of Nine Paper Boats"


def test_a_number_that_left_may_come_back_as_another_spot(show: Engagement) -> None:
    (before,) = put(show, "1")
    put(show)
    (after,) = put(show, "1")
    assert before.pk != after.pk


def test_a_spot_that_leaves_frees_its_place(show: Engagement, places: list[Place]) -> None:
    bind(show, put(show, "1", "2"), places[:2])
    put(show, "2")
    assert bound(show) == {"2": ["2"]}


@pytest.mark.parametrize(
    ("facts", "error", "told"),
    [
        ([SpotFacts("1"), SpotFacts("#01")], AlreadyExists, "#01 is given twice"),
        ([SpotFacts("1"), SpotFacts(" ")], Invalid, "number"),
        ([SpotFacts("1"), SpotFacts("2", least_lux=-1)], Invalid, "least_lux"),
        ([SpotFacts("1"), SpotFacts("2", least_lux=float("nan"))], Invalid, "least_lux"),
        ([SpotFacts("1"), SpotFacts("2", notes="a\0b")], Invalid, "notes"),
        ([SpotFacts("1"), SpotFacts("2", frames=("a\0",))], Invalid, "frames"),
        ([SpotFacts("1"), SpotFacts("2", channel="x" * 81)], Invalid, "channel"),
    ],
)
def test_a_bad_line_is_named_and_nothing_is_stored(
    show: Engagement, facts: list[SpotFacts], error: type[Exception], told: str
) -> None:
    with pytest.raises(error, match=told):
        put_spots(actor=ACTOR, engagement=show, spots=facts, at=NOON)
    assert not show.spots.exists()


def test_frames_are_a_list_of_texts(show: Engagement) -> None:
    with pytest.raises(ValidationError, match="as a list of texts"):
        ShowSpot(engagement=show, number="1", frames={"1": "R02"}).full_clean()


@pytest.mark.parametrize("number", [2, 200])
def test_taking_in_paperwork_takes_few_queries_however_long(
    show: Engagement, number: int, django_assert_max_num_queries: Any
) -> None:
    """SQLite takes new rows some fifty at a time."""
    with django_assert_max_num_queries(12):
        put(show, *map(str, range(number)))


def test_spots_are_bound_and_can_swap(show: Engagement, places: list[Place]) -> None:
    spots = put(show, "1", "2")
    bind(show, spots, places[:2])
    bind(show, spots, places[1::-1])
    assert bound(show) == {"1": ["2"], "2": ["1"]}
    assert SpotPlace.objects.filter(engagement=show).count() == 4


def test_a_team_has_several_places_and_its_first_stands_for_it(show: Engagement, places: list[Place]) -> None:
    (team,) = put(show, "2")
    bind_spots(actor=ACTOR, engagement=show, places={team: [places[2], places[0]]}, at=NOON)
    assert bound(show) == {"2": ["3", "1"]}


def test_a_place_has_one_number_in_an_engagement(show: Engagement, places: list[Place]) -> None:
    spots = put(show, "1", "2")
    bind(show, spots[:1], places[:1])
    with pytest.raises(AlreadyExists, match="Another show number is at this place"):
        bind(show, spots[1:], places[:1])
    assert bound(show) == {"1": ["1"]}
    other = make_show(show.house, name="Other")
    bind(other, put(other, "7"), places[:1])
    assert bound(other) == {"7": ["1"]}


def test_binding_to_nothing_frees_the_spot(show: Engagement, places: list[Place]) -> None:
    spots = put(show, "1")
    bind(show, spots, places[:1])
    bind_spots(actor=ACTOR, engagement=show, places={spots[0]: []}, at=NOON)
    assert bound(show) == {}


def test_one_spot_is_bound_against_the_version_that_was_shown(show: Engagement, places: list[Place]) -> None:
    (spot,) = put(show, "1")
    bind_spot(actor=ACTOR, spot=spot, places=places[:1], at=NOON, seen=1)
    with pytest.raises(StaleVersion):
        bind_spot(actor=ACTOR, spot=spot, places=places[1:2], at=NOON, seen=1)
    assert bound(show) == {"1": ["1"]}
    bind_spot(actor=ACTOR, spot=spot, places=places[1:2], at=NOON, seen=2)
    assert bound(show) == {"1": ["2"]}


def test_a_spot_of_another_show_is_refused(show: Engagement, places: list[Place]) -> None:
    foreign = put(make_show(show.house, name="Other"), "1")
    with pytest.raises(WrongHouse):
        bind(show, foreign, places[:1])


def test_a_place_of_another_house_or_another_show_is_refused(show: Engagement) -> None:
    other = make_show(show.house, name="Other")
    truss = add_tour_position(actor=ACTOR, engagement=other, name="Truss")
    on_truss = add_tour_place(actor=ACTOR, engagement=other, position=truss, label="1")
    spots = put(show, "1")
    for place in (make_place(), on_truss):
        with pytest.raises(Invalid, match="a place of this house or of this show"):
            bind(show, spots, [place])


def test_a_spot_and_its_row_are_of_one_engagement(show: Engagement, places: list[Place]) -> None:
    (spot,) = put(show, "1")
    row = SpotPlace(engagement=make_show(show.house, name="Other"), spot=spot, place=places[0])
    with pytest.raises(ValidationError, match="a spot of this show"):
        row.full_clean()


def test_an_engagement_that_ended_takes_in_nothing_more(show: Engagement) -> None:
    spots = put(show, "1")
    end_engagement(actor=ACTOR, engagement=show, at=NOON, reason="called off")
    with pytest.raises(AlreadyEnded):
        put(show, "1", "2")
    with pytest.raises(AlreadyEnded):
        bind(show, spots, [make_place(make_position(show.house))])
