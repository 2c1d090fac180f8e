"""Numbers put elsewhere during the arrival check, and what is in the way taken back: signed in and by the link."""

from collections.abc import Iterator
from typing import Any
from uuid import uuid4

import pytest
import time_machine
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows.actions import bind_spots, put_spots, set_place_use
from shows.actions.arrival import Found, mark_items, note_blockage
from shows.actions.arrival_links import end_arrival_link
from shows.actions.arrival_visits import clear_blockage, sign_as
from shows.errors import NumbersChanged
from shows.facts import SpotFacts
from shows.hands import put_by_hand
from shows.models import Engagement, ShowSpot, Source
from shows.renumbering import Standing, standing_of
from shows.tonight import show_instant
from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_unit, the_cast
from tests.shows.test_arrival_pages import found, link, page, places_of, stocked
from tests.venue.pages import as_user, errors_of, words
from venue.actions import add_blockage, place_unit
from venue.errors import AlreadyEnded, StaleVersion
from venue.models import Blockage, Event, Link, Place

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def a_fresh_minute() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def cast() -> Cast:
    """Show 1 at the place painted 2, show 2 at the place painted 1."""
    cast = the_cast()
    stocked(cast.engagement)
    return cast


def standing(show: Engagement) -> Standing:
    row = Engagement.objects.select_related("house", "setup").get(pk=show.pk)
    return standing_of(row, show_instant(row))


def labels(show: Engagement) -> dict[str, list[str]]:
    """The labels of the places in use of each number."""
    now = standing(show)
    return {spot.number: [place.label for place in now.places[spot.pk]] for spot in now.numbers.spots}


def light(show: Engagement, number: str, nth: int = 0) -> str:
    return f"{ShowSpot.objects.standing().get(engagement=show, number=number).ref}.{nth}"


def asked(show: Engagement, number: str, place: Place, nth: int = 0) -> dict[str, str]:
    return {"number": light(show, number, nth), "place": str(place.ref)}


def sent(answer: HttpResponse, **more: str) -> dict[str, Any]:
    """What the page's form sends: what was asked for, and the fingerprint of what it shows."""
    change = answer.context["change"]
    return {"number": change.light.key, "place": str(change.place.ref), "seen": change.fingerprint, **more}


def numbers_page(show: Engagement) -> str:
    return reverse("shows:arrival_numbers", args=[show.ref])


def bare_place(cast: Cast, label: str = "9") -> Place:
    """A place in use without a number."""
    place = make_place(places_of(cast)[0].position, label, x_m=9.0, y_m=-38.0, z_m=12.0)
    place_unit(actor=ACTOR, unit=make_unit(cast.house, frames=6), place=place, starts_at=NOON - hours(9))
    return place


# What it changes is shown first
def test_two_numbers_swap_once_somebody_saw_what_that_changes(cast: Cast) -> None:
    road, (_first, second) = as_user(cast.road), places_of(cast)
    facts = {"place": second, "unit": None, "by": "Ada", "at": NOON}
    mark_items(actor=ACTOR, engagement=cast.engagement, found={"headset": Found("fail", "dead")}, **facts)  # type: ignore[arg-type]
    before = Event.objects.count()
    shown = road.get(numbers_page(cast.engagement), asked(cast.engagement, "1", second))
    said = words(shown)
    for wanted in (
        "Show 1 and show 2 swap places?",
        "show 1 now: Rear booth, place 2 then: Rear booth, place 1",
        "show 2 now: Rear booth, place 1 then: Rear booth, place 2",
        "The numbering then AGREED Nothing to fix, nothing to tell. ",
        "Show numbers are the house labels. Now: ",
        "House labels run the other way: show 1 = house 2.",
        "Not ready: show 1 is stopped. Now: Not ready: show 2 is stopped.",
        "Show 1, stops the show: The arrival check at Rear booth, place 1 failed: headset",
        "Units stay, and so do the marks of this check.",
        "a new revision is needed",
        "Caution: going up",
    ):
        assert wanted in said, wanted
    assert (labels(cast.engagement), Event.objects.count()) == ({"1": ["2"], "2": ["1"]}, before)
    answer = road.post(numbers_page(cast.engagement), sent(shown), follow=True)
    assert "Stored. Show 1: Rear booth, place 1; show 2: Rear booth, place 2." in words(answer)
    assert labels(cast.engagement) == {"1": ["1"], "2": ["2"]}
    bound = cast.engagement.spot_places.standing()
    assert {row.source for row in bound} == {Source.HAND}
    event = Event.objects.latest("pk")
    assert (Event.objects.count(), event.verb, event.actor_name) == (before + 1, "spots.bound", "Road")
    assert set(put_by_hand(cast.engagement, standing(cast.engagement).tonight, standing(cast.engagement).numbers)) == {
        row.spot_id for row in bound
    }


def test_a_number_goes_to_a_free_place_and_one_without_a_place_pushes_another_out(cast: Cast) -> None:
    head, (first, _second), free = as_user(cast.head), places_of(cast), bare_place(cast)
    shown = head.get(numbers_page(cast.engagement), asked(cast.engagement, "1", free))
    assert "Show 1 goes to Rear booth, place 9?" in words(shown)
    head.post(numbers_page(cast.engagement), sent(shown))
    assert labels(cast.engagement) == {"1": ["9"], "2": ["1"]}
    told = [SpotFacts(number, channel="B", frames=("C-1",)) for number in ("1", "2", "7")]
    put_spots(actor=ACTOR, engagement=cast.engagement, spots=told, at=NOON)
    shown = head.get(numbers_page(cast.engagement), asked(cast.engagement, "7", free))
    said = words(shown)
    assert "Show 7 goes to Rear booth, place 9, and show 1 then has no place?" in said
    assert "show 1 now: Rear booth, place 9 then: no place" in said
    head.post(numbers_page(cast.engagement), sent(shown))
    assert labels(cast.engagement) == {"1": [], "2": ["1"], "7": ["9"]}
    assert first not in {row.place for row in cast.engagement.spot_places.standing()}


def test_one_light_of_a_team_moves_and_what_the_team_has_out_of_use_stays(cast: Cast) -> None:
    head, (first, second), free, idle = as_user(cast.head), places_of(cast), bare_place(cast), bare_place(cast, "8")
    spot = ShowSpot.objects.get(engagement=cast.engagement, number="1")
    places = {spot: [first, free, idle]}
    bind_spots(actor=ACTOR, engagement=cast.engagement, places=places, at=NOON)
    set_place_use(actor=ACTOR, engagement=cast.engagement, place=idle, in_use=False, at=NOON, seen=0)
    shown = head.get(numbers_page(cast.engagement), asked(cast.engagement, "1", second, nth=1))
    assert "Show 1, light 2 and show 2 swap places?" in words(shown)
    head.post(numbers_page(cast.engagement), sent(shown))
    assert labels(cast.engagement) == {"1": ["2", "1"], "2": ["9"]}
    team = spot.spot_places.standing().order_by("team_order").values_list("place", flat=True)
    assert list(team) == [first.pk, second.pk, idle.pk]


# Two people at once
def test_what_changes_something_else_by_now_is_refused_and_shown_anew(cast: Cast) -> None:
    road, head, (_first, second), free = as_user(cast.road), as_user(cast.head), places_of(cast), bare_place(cast)
    shown = road.get(numbers_page(cast.engagement), asked(cast.engagement, "1", second))
    moves = head.get(numbers_page(cast.engagement), asked(cast.engagement, "2", free))
    head.post(numbers_page(cast.engagement), sent(moves))
    refused = road.post(numbers_page(cast.engagement), sent(shown))
    assert errors_of(refused)["__all__"] == [str(NumbersChanged())]
    assert "Show 1 goes to Rear booth, place 1?" in words(refused)
    assert labels(cast.engagement) == {"1": ["2"], "2": ["9"]}
    assert road.post(numbers_page(cast.engagement), sent(refused)).status_code == 302
    assert labels(cast.engagement) == {"1": ["1"], "2": ["9"]}
    again = road.post(numbers_page(cast.engagement), sent(refused))  # sent twice by one tap too many
    assert "That number stands there already. Choose another place." in words(again)


def test_what_somebody_else_does_elsewhere_is_no_reason_to_refuse(cast: Cast) -> None:
    road, (first, second) = as_user(cast.road), places_of(cast)
    shown = road.get(numbers_page(cast.engagement), asked(cast.engagement, "1", second))
    facts = {"place": first, "unit": None, "by": "Ada", "at": NOON}
    mark_items(actor=ACTOR, engagement=cast.engagement, found={"label": Found("pass")}, **facts)  # type: ignore[arg-type]
    assert road.post(numbers_page(cast.engagement), sent(shown)).status_code == 302
    with time_machine.travel(NOON + hours(1), tick=False):
        sha256 = found(cast.engagement).sha256
        facts = {"side": "road", "name": "Ada", "sha256": sha256, "at": NOON + hours(1)}
        sign_as(actor=ACTOR, engagement=cast.engagement, **facts)  # type: ignore[arg-type]
    with time_machine.travel(NOON + hours(2), tick=False):
        back = road.get(numbers_page(cast.engagement), asked(cast.engagement, "1", first))
        road.post(numbers_page(cast.engagement), sent(back))
    said = words(road.get(page(cast.engagement)))
    assert "for the check as it stands; numbers were put on places after it" in said


# By the link
def test_by_the_link_somebody_who_says_a_name_does_it_and_only_while_it_works(cast: Cast) -> None:
    address, browser, (_first, second) = link(cast) + "numbers/", Client(), places_of(cast)
    shown = browser.get(address, asked(cast.engagement, "1", second))
    assert shown["X-Robots-Tag"] == "noindex, nofollow"
    assert errors_of(browser.post(address, sent(shown)))["by"] == ["This field is required."]
    assert Link.objects.get().last_used_at is None
    answer = browser.post(address, sent(shown, by="Ada"), follow=True)
    assert "Show 1: Rear booth, place 1" in words(answer)
    event = Event.objects.latest("pk")
    assert (event.verb, event.actor_kind, event.actor_name) == ("spots.bound", "link", "Ada, by the arrival link")
    assert Link.objects.get().last_used_at == NOON
    end_arrival_link(actor=ACTOR, engagement=cast.engagement, now=NOON)
    assert browser.post(address, sent(shown, by="Ada")).status_code == 404


def test_odd_questions_are_answered_in_words_and_the_way_in_starts_with_the_place(cast: Cast) -> None:
    road, (first, second) = as_user(cast.road), places_of(cast)
    own = words(road.get(page(cast.engagement, first)))
    assert "Another number belongs here" in own
    begun = road.get(numbers_page(cast.engagement), {"place": str(second.ref)})
    assert begun.context["which"]["place"].value() == str(second.ref)
    assert not begun.context["which"].errors
    for odd in ({"number": "x\0", "place": "y"}, {"number": "9" * 900}, {"number": light(cast.engagement, "1")}):
        answer = road.get(numbers_page(cast.engagement), odd)
        assert answer.status_code == 200
        assert answer.context["change"] is None
    sent_odd = {**asked(cast.engagement, "1", second), "seen": "\0"}
    assert "seen" in errors_of(road.post(numbers_page(cast.engagement), sent_odd))
    assert as_user(cast.reader).get(numbers_page(cast.engagement)).status_code == 403
    ShowSpot.objects.filter(engagement=cast.engagement).update(ended_at=NOON, ended_reason="x")
    assert "The show has no numbers yet." in words(road.get(numbers_page(cast.engagement)))


# In the way
def test_what_was_in_the_way_is_taken_back_with_a_reason_and_stays_in_the_history(cast: Cast) -> None:
    address, browser, (first, _second) = link(cast), Client(), places_of(cast)
    for words_of_it in ("speaker array", "banner"):
        facts = {"place": first, "words": words_of_it, "noted_on": NOON.date()}
        note_blockage(actor=ACTOR, engagement=cast.engagement, **facts)  # type: ignore[arg-type]
    array, banner = Blockage.objects.order_by("pk")
    add_blockage(actor=ACTOR, position=first.position, name="the house's own rail")
    place = browser.get(f"{address}places/{first.ref}/")
    assert words(place).count("Take it back") == 2
    end = f"{address}blockages/{array.ref}/end/"
    assert end in place.content.decode()
    assert set(errors_of(browser.post(end, {"reason": " "}))) == {"reason", "by"}
    answer = browser.post(end, {"reason": "flown out", "by": "Ada"}, follow=True)
    assert answer.redirect_chain == [(f"{address}places/{first.ref}/", 302)]
    assert "Taken back: “speaker array”. That it was noted stays." in words(answer)
    assert words(answer).count("Take it back") == 1
    event = Event.objects.latest("pk")
    assert (event.verb, event.actor_name, event.data["reason"]) == (
        "check.blockage_ended", "Ada, by the arrival link", "flown out",
    )  # fmt: skip
    again = as_user(cast.road).post(
        reverse("shows:arrival_blockage_end", args=[cast.engagement.ref, array.ref]), {"reason": "gone"}
    )
    assert "has ended already" in errors_of(again)["__all__"][0]
    assert "It was taken back on Mar 2, 7:00 AM: flown out." in words(browser.get(end))
    overview = as_user(cast.head).get(page(cast.engagement))
    assert reverse("shows:arrival_blockage_end", args=[cast.engagement.ref, banner.ref]) in overview.content.decode()
    assert Blockage.objects.get(pk=array.pk).ended_reason == "flown out"


def test_only_what_was_noted_for_the_show_is_taken_back_and_one_of_two_at_once_is_told(cast: Cast) -> None:
    (first, _second), road = places_of(cast), as_user(cast.road)
    own = add_blockage(actor=ACTOR, position=first.position, name="rail")
    for ref in (own.ref, uuid4()):
        address = reverse("shows:arrival_blockage_end", args=[cast.engagement.ref, ref])
        assert road.get(address).status_code == 404
    noted = {"place": first, "words": "banner", "noted_on": NOON.date()}
    row = note_blockage(actor=ACTOR, engagement=cast.engagement, **noted)  # type: ignore[arg-type]
    seen_by_both = [Blockage.objects.get(pk=row.pk) for _person in range(2)]
    facts = {"actor": ACTOR, "engagement": cast.engagement, "at": NOON}
    clear_blockage(blockage=seen_by_both[0], reason="struck", **facts)  # type: ignore[arg-type]
    with pytest.raises((StaleVersion, AlreadyEnded)):
        clear_blockage(blockage=seen_by_both[1], reason="gone", **facts)  # type: ignore[arg-type]
    assert Blockage.objects.get(pk=row.pk).ended_reason == "struck"


# Costs
def test_what_a_change_does_costs_as_many_queries_with_twenty_places_as_with_two() -> None:
    cast = the_cast()
    costs = [_cost(cast, stocked(cast.engagement, 2)), _cost(cast, stocked(cast.engagement, 20, "Front rail"))]
    assert costs[0] == costs[1]


def _cost(cast: Cast, places: list[Place]) -> int:
    head, asked_for = as_user(cast.head), asked(cast.engagement, "1", places[1])
    head.get(numbers_page(cast.engagement), asked_for)
    with CaptureQueriesContext(connection) as queries:
        assert head.get(numbers_page(cast.engagement), asked_for).context["change"] is not None
    return len(queries)
