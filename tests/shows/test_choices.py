"""Places in use are where units stand unless somebody says otherwise; one way out is chosen at a time."""

import pytest

from shows.actions import bring_row, choose_way, keep_show, set_place_use
from shows.models import Choice, Engagement
from shows.place_uses import positions_with_uses
from shows.tonight import places_tonight, show_instant
from tests.factories import ACTOR, NOON, make_place, make_position, make_show
from tests.shows.stocked import accept, bound, listed, stock
from venue.errors import Invalid, StaleVersion
from venue.models import Place

pytestmark = pytest.mark.django_db


@pytest.fixture
def show() -> Engagement:
    return make_show()


@pytest.fixture
def places(show: Engagement) -> list[Place]:
    return stock(show.house)


def in_use(show: Engagement) -> list[str]:
    return [str(place) for place in places_tonight(show, show_instant(show)).places]


def say(show: Engagement, place: Place, in_use: bool, seen: int = 0) -> None:
    set_place_use(actor=ACTOR, engagement=show, place=place, in_use=in_use, at=NOON, seen=seen)


def test_a_person_takes_a_place_out_of_use_and_the_numbers_move_on(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(3))
    assert {number: label for number, (label, _) in bound(show).items()} == {"1": "4", "2": "3", "3": "2"}
    say(show, places[2], False)
    assert in_use(show) == ["Rear booth, place 1", "Rear booth, place 2", "Rear booth, place 4"]
    assert {number: label for number, (label, _) in bound(show).items()} == {"1": "4", "2": "2", "3": "1"}


def test_a_place_without_a_unit_may_be_in_use(show: Engagement, places: list[Place]) -> None:
    empty = make_place(places[0].position, "9", x_m=9.0, y_m=-38.0, z_m=14.0)
    assert len(in_use(show)) == 4
    say(show, empty, True)
    assert len(in_use(show)) == 5


def test_a_correction_is_made_against_what_was_shown(show: Engagement, places: list[Place]) -> None:
    say(show, places[0], False)
    with pytest.raises(StaleVersion):
        say(show, places[0], False)
    say(show, places[0], True, seen=1)
    assert len(in_use(show)) == 4


def test_a_correction_holds_for_one_show_only(show: Engagement, places: list[Place]) -> None:
    say(show, places[0], False)
    assert len(in_use(make_show(show.house, "Other"))) == 4


def test_what_a_show_brings_is_in_use_for_it_and_unknown_to_others(show: Engagement, places: list[Place]) -> None:
    bring_row(actor=ACTOR, engagement=show, name="Truss 1", zone="overhead", labels=["T1", "T2"], at=NOON, kind="truss")
    assert in_use(show)[-2:] == ["Truss 1, place T1", "Truss 1, place T2"]
    assert [each.is_brought for each in positions_with_uses(show, NOON)] == [False, True]
    other = make_show(show.house, "Other")
    assert len(positions_with_uses(other, NOON)) == 1


def test_the_list_says_who_stands_there_which_number_and_who_said_so(show: Engagement, places: list[Place]) -> None:
    accept(show, listed(3))
    say(show, places[0], False)
    (booth,) = positions_with_uses(show, NOON)
    first, last = booth.places[0], booth.places[3]
    assert (first.in_use, first.number, first.is_corrected, first.version) == (False, "", True, 1)
    assert (last.in_use, last.number, last.is_corrected) == (True, "1", False)
    assert last.unit.startswith("FS-")


def test_a_choice_ends_when_another_is_made_and_stays_on_record(show: Engagement) -> None:
    first = choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON)
    assert choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON) == first
    choose_way(actor=ACTOR, engagement=show, way="move", at=NOON)
    first.refresh_from_db()
    assert (first.ended_at, first.ended_reason) == (NOON, "another way was chosen")
    assert [choice.way for choice in Choice.objects.standing()] == ["move"]


def test_a_way_that_does_not_exist_is_refused(show: Engagement) -> None:
    with pytest.raises(Invalid):
        choose_way(actor=ACTOR, engagement=show, way="swap", at=NOON)


def test_a_row_and_a_show_are_kept_in_one_go(show: Engagement, places: list[Place]) -> None:
    row = {"name": "Side rail", "zone": "front", "labels_from_house_left": ["A", "B", "C"]}
    kept = keep_show(
        actor=ACTOR,
        house=show.house,
        name="Kept",
        starts_on=show.starts_on,
        ends_on=show.ends_on,
        numbers=["1", "2", "3"],
        statement="house right to house left",
        at=NOON,
        row=row,
    )
    assert in_use(kept) == [f"Side rail, place {label}" for label in "ABC"]
    assert {number: label for number, (label, _) in bound(kept).items()} == {"1": "C", "2": "B", "3": "A"}


def test_a_show_is_kept_on_positions_on_file(show: Engagement, places: list[Place]) -> None:
    other = make_position(show.house, name="Unused")
    make_place(other, "7")
    kept = keep_show(
        actor=ACTOR,
        house=show.house,
        name="Kept",
        starts_on=show.starts_on,
        ends_on=show.ends_on,
        numbers=["1", "2"],
        statement="house left to house right",
        at=NOON,
        positions=[places[0].position],
    )
    assert len(in_use(kept)) == 4
    assert bound(kept)["1"] == ("4", "statement")
