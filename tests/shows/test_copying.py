"""A show's next visit: what goes along to the same house, what to another one, and what never does."""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shows.actions import (
    add_color,
    add_show_event,
    add_tour_place,
    apply_statement,
    bind_spot,
    choose_way,
    put_spots,
)
from shows.actions.arrival import Found, mark_items
from shows.actions.copying import Copied, copy_show
from shows.facts import SpotFacts
from shows.models import Engagement, ShowSpot, SpotPlace
from tests.factories import ACTOR, NOON, Cast, make_a_house, make_show, the_cast
from tests.shows.stocked import stock
from tests.venue.pages import as_user, errors_of, send
from venue.actions import add_setup, end_place, grant_membership
from venue.models import Event, House

pytestmark = pytest.mark.django_db
NEXT = {"starts_on": date(2026, 3, 30), "ends_on": date(2026, 4, 5)}
"""Four weeks after the first visit; clocks in central Europe go forward the night before."""


def a_show(count: int = 3, **facts: Any) -> Engagement:
    """Numbers 1, 2, … that ask for something, the first bound by hand to the first place, in a stocked house."""
    show = make_show(**facts)
    stock(show.house, count + 1)
    spots = [SpotFacts(str(n), house_label=f"{n}", frames=("C-1", ""), least_lux=900.0) for n in range(1, count + 1)]
    put_spots(actor=ACTOR, engagement=show, spots=spots, at=NOON)
    ShowSpot.objects.filter(engagement=show).update(on_camera=True, sizes=["waist"], matches="2")
    add_color(actor=ACTOR, engagement=show, code="C-1", transmission_pct=62)
    return Engagement.objects.get(pk=show.pk)


def by_hand(show: Engagement, number: str, *labels: str) -> None:
    spot = show.spots.standing().get(number=number)
    places = [show.house.positions.get().places.get(label=label) for label in labels]
    bind_spot(actor=ACTOR, spot=spot, places=places, at=NOON, seen=spot.version)


def copied(show: Engagement, house: House | None = None, **more: Any) -> Copied:
    return copy_show(actor=ACTOR, engagement=show, house=house or show.house, **{**NEXT, **more})


def places_of(show: Engagement) -> dict[str, list[tuple[str, str]]]:
    """The labels that each number stands at, in the team's order, with what put it there."""
    found: dict[str, list[tuple[str, str]]] = {}
    rows = SpotPlace.objects.standing().filter(engagement=show).select_related("spot", "place")
    for row in rows.order_by("spot__sort_key", "team_order"):
        found.setdefault(row.spot.number, []).append((row.place.label, row.source))
    return found


def test_in_the_same_house_the_set_up_the_asks_the_colors_and_hands_go_along() -> None:
    show = a_show()
    Engagement.objects.filter(pk=show.pk).update(
        setup=add_setup(actor=ACTOR, house=show.house, name="End stage"), caller="from the desk", on_camera=True
    )
    by_hand(show, "1", "4", "3")
    made = copied(show).engagement
    assert (made.earlier, made.setup.name, made.caller, made.on_camera) == (show, "End stage", "from the desk", True)
    [color] = made.colors.all()
    assert (color.code, color.transmission_pct, color.engagement) == ("C-1", 62, made)
    spots = made.spots.all()
    assert {(spot.frames[0], spot.least_lux, spot.on_camera, spot.matches) for spot in spots} == {
        ("C-1", 900.0, True, "2")
    }
    assert places_of(made) == {"1": [("4", "hand"), ("3", "hand")], "2": [("2", "label")]}
    assert list(show.later.all()) == [made]


def test_a_hand_stays_only_where_its_place_still_stands_and_is_open_to_the_next_visit() -> None:
    show = a_show()
    by_hand(show, "1", "1", "4")
    position = show.house.positions.get()
    spot = show.spots.get(number="2")
    own = add_tour_place(actor=ACTOR, engagement=show, position=position, label="77")
    bind_spot(actor=ACTOR, spot=spot, places=[own], at=NOON, seen=spot.version)
    ended = position.places.get(label="1")
    ended.placements.update(ends_at=NOON)
    end_place(actor=ACTOR, place=ended, at=NOON, reason="rebuilt")
    made = copied(show)
    assert places_of(made.engagement)["1"] == [("4", "hand")]
    assert made.freed == 1
    assert places_of(made.engagement)["2"] == [("2", "label")]


def test_another_house_is_numbered_anew_without_labels_and_places_of_this_one() -> None:
    show = a_show()
    by_hand(show, "1", "4")
    apply_statement(
        actor=ACTOR,
        engagement=show,
        statement="house left to house right",
        at=NOON,
        seen=Engagement.objects.get(pk=show.pk).version,
    )
    other = make_a_house()
    stock(other, 3)
    made = copied(show, other).engagement
    assert (made.house, made.setup, made.statement) == (other, other.setups.get(), "house left to house right")
    assert {spot.house_label for spot in made.spots.all()} == {""}
    assert {spot.least_lux for spot in made.spots.all()} == {900.0}
    assert places_of(made) == {str(n): [(str(4 - n), "statement")] for n in (1, 2, 3)}
    assert not SpotPlace.objects.filter(engagement=made).exclude(place__position__house=other).exists()


def test_decisions_ways_marks_and_what_ended_stay_with_the_earlier_visit() -> None:
    show = a_show()
    place = show.house.positions.get().places.get(label="1")
    choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON)
    facts = {"place": place, "unit": None, "by": "Hollis Varga", "at": NOON}
    mark_items(actor=ACTOR, engagement=show, found={"label": Found("pass")}, **facts)  # type: ignore[arg-type]
    put_spots(actor=ACTOR, engagement=show, spots=[SpotFacts("1")], at=NOON)
    made = copied(show).engagement
    assert [spot.number for spot in made.spots.all()] == ["1"]
    for name in ("choices", "check_marks", "decisions", "place_uses", "paperwork", "advance_items"):
        assert not getattr(made, name).exists(), name


def test_events_keep_their_clock_times_across_a_change_of_the_clocks() -> None:
    show = a_show(house=make_a_house(time_zone="Europe/Vienna"))
    evening = datetime(2026, 3, 2, 19, 30)
    add_show_event(actor=ACTOR, engagement=show, kind="show", starts=evening, ends=evening.replace(hour=22))
    made = copied(show, with_events=True).engagement
    [event] = made.events.all()
    assert event.starts_wall == datetime(2026, 3, 30, 19, 30) and event.ends_wall == datetime(2026, 3, 30, 22, 30)
    assert event.starts_at == datetime(2026, 3, 30, 17, 30, tzinfo=UTC)
    assert not copied(show, starts_on=date(2026, 6, 1), ends_on=date(2026, 6, 2)).engagement.events.exists()


def test_events_that_the_clocks_jump_over_or_that_lie_after_the_last_day_are_named_and_left_out() -> None:
    show = a_show(house=make_a_house(time_zone="Europe/Vienna"))
    for day, hour in ((2, 2), (3, 19), (8, 19)):
        add_show_event(actor=ACTOR, engagement=show, kind="focus", starts=datetime(2026, 3, day, hour, 30))
    made = copied(show, starts_on=date(2026, 3, 29), ends_on=date(2026, 3, 31), with_events=True)
    assert [f"{event.starts_wall:%d %H:%M}" for event in made.engagement.events.all()] == ["30 19:30"]
    assert [f"{event.starts_wall:%d %H:%M}" for event in made.left_out] == ["02 02:30", "08 19:30"]


def test_both_visits_have_a_line_of_history() -> None:
    show, other = a_show(), make_a_house("Tern Hall")
    made = copied(show, other).engagement
    lines = {line.verb: line for line in Event.objects.filter(verb__startswith="engagement.copied")}
    assert (lines["engagement.copied"].house, lines["engagement.copied"].subject_ref) == (other, made.ref)
    on_old = lines["engagement.copied_on"]
    assert (on_old.house, on_old.subject_ref, on_old.data["target"]) == (show.house, show.ref, "Tern Hall")


def test_twenty_numbers_take_as_many_queries_as_two() -> None:
    counts = []
    for count in (2, 20):
        show = a_show(count)
        by_hand(show, "1", str(count + 1), "1")
        with CaptureQueriesContext(connection) as queries:
            copied(show, with_events=True)
        counts.append(len(queries))
    assert counts[0] == counts[1]


# -- the page --------------------------------------------------------------------------------------


@pytest.fixture
def cast() -> Iterator[Cast]:
    with time_machine.travel(NOON, tick=False):
        cast = the_cast()
        stock(cast.house)
        yield cast


def page_of(cast: Cast) -> str:
    return f"/shows/{cast.engagement.ref}/copy/"


DAYS = {"starts_on": "2026-05-01", "ends_on": "2026-05-03"}


def test_the_head_copies_to_the_same_house_and_comes_to_the_show(cast: Cast) -> None:
    response = send(as_user(cast.head), page_of(cast), **DAYS)
    made = cast.engagement.later.get()
    assert (response["Location"], made.starts_on) == (f"/shows/{made.ref}/", date(2026, 5, 1))


def test_whoever_heads_another_house_too_comes_to_the_comparison_there(cast: Cast) -> None:
    other = make_a_house("Tern Hall", slug="tern-hall")
    grant_membership(actor=ACTOR, house=other, user=cast.head, role="head")
    response = send(as_user(cast.head), page_of(cast), **DAYS, house="tern-hall")
    made = cast.engagement.later.get()
    assert (made.house, response["Location"]) == (other, f"/shows/{made.ref}/compare/")


def test_the_same_show_from_the_same_day_is_refused_at_that_day(cast: Cast) -> None:
    head = as_user(cast.head)
    refused = send(head, page_of(cast), starts_on="2026-03-02", ends_on="2026-03-05")
    assert errors_of(refused) == {"starts_on": ["The house has this show from that day already."]}
    back = send(head, page_of(cast), starts_on="2026-05-05", ends_on="2026-05-01", house="nowhere")
    assert set(errors_of(back)) == {"ends_on", "house"}


def test_only_who_may_write_the_show_and_heads_the_house_it_comes_to_may_copy(cast: Cast) -> None:
    statuses = {name: as_user(getattr(cast, name)).get(page_of(cast)).status_code for name in ("road", "reader")}
    assert statuses == {"road": 403, "reader": 403}
    assert as_user(cast.stranger).get(page_of(cast)).status_code == 404
    other = make_a_house("Tern Hall", slug="tern-hall")
    grant_membership(actor=ACTOR, house=other, user=cast.road, role="head")
    refused = send(as_user(cast.road), page_of(cast), **DAYS, house=cast.house.slug)
    assert set(errors_of(refused)) == {"house"}
    assert send(as_user(cast.road), page_of(cast), **DAYS).status_code == 302
    assert cast.engagement.later.get().house == other
