"""The arrival check by its pages: one place at a time, by whoever signed in or was given the link."""

import hashlib
import json
import re
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest
import time_machine
from django.contrib.sessions.models import Session
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows.actions import bind_spots, end_engagement, put_spots
from shows.actions.arrival import Found, mark_items
from shows.actions.arrival_links import end_arrival_link, renew_arrival_link
from shows.arrival import Arrival, arrival_of, check_instant
from shows.core.checked_content import canonical, digest
from shows.core.checking import ITEMS, ONE_BY_ONE, Mark, place_state
from shows.errors import CheckChanged, NoShowLink
from shows.facts import SpotFacts
from shows.models import CheckMark, CheckSignature, Engagement
from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, errors_of, words
from venue.actions import place_unit
from venue.models import Blockage, Event, Fault, Link, Place
from venue.views.asking import ASKED_A_MINUTE

pytestmark = pytest.mark.django_db
ALL_PASS = {**dict.fromkeys(ONE_BY_ONE, "pass"), "rest": "on"}


@pytest.fixture(autouse=True)
def a_fresh_minute() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def cast() -> Cast:
    cast = the_cast()
    stocked(cast.engagement)
    return cast


def stocked(show: Engagement, count: int = 2, name: str = "Rear booth") -> list[Place]:
    """Places in a row, painted from house right, each with its show number from house left and a six-frame unit."""
    position = make_position(show.house, name, fall_protection="harness", rescue_plan="Lower by the winch.")
    told = [SpotFacts(f"{n}", channel="B", frames=("C-1", "C-2 + D-1")) for n in range(1, count + 1)]
    spots = put_spots(actor=ACTOR, engagement=show, spots=told, at=NOON - hours(5))
    places = []
    for index, spot in enumerate(spots):
        place = make_place(position, f"{count - index}", x_m=float(index), y_m=-38.0, z_m=12.0)
        unit = make_unit(show.house, frames=6, frame_1_end="lens")
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON - timedelta(days=9))
        bind_spots(actor=ACTOR, engagement=show, places={spot: [place]}, at=NOON - hours(5))
        places.append(place)
    return places


def places_of(cast: Cast) -> list[Place]:
    return list(Place.objects.filter(position__house=cast.house).order_by("x_m"))


def page(show: Engagement, place: Place | None = None, tail: str = "") -> str:
    if place is not None:
        return reverse("shows:arrival_place", args=[show.ref, place.ref])
    return reverse("shows:arrival", args=[show.ref]) + tail


def link(cast: Cast, **facts: Any) -> str:
    until = NOON + hours(6)
    made = renew_arrival_link(actor=ACTOR, engagement=cast.engagement, now=NOON, until=until, **facts)
    return reverse("shows:arrive", args=[made.link.ref, made.secret])


def found(show: Engagement, now: datetime = NOON) -> Arrival:
    row = Engagement.objects.select_related("house", "setup").get(pk=show.pk)
    return arrival_of(row, check_instant(row, now))


def look(client: Client, address: str, by: str = "Ada", **sent: str) -> HttpResponse:
    return client.post(address, {"by": by, **sent}, follow=True)


# One place
def test_i_do_an_afternoon_check_and_a_dead_headset_keeps_the_place_not_ready_and_on_the_issue_list(
    cast: Cast,
) -> None:
    """The trade's story of the afternoon check, by its own words (common practice, no source)."""
    road, (first, second) = as_user(cast.road), places_of(cast)
    assert "0 of 2 places checked. Next: Rear booth, place 2" in words(road.get(page(cast.engagement)))
    answer = look(road, page(cast.engagement, first), **{**ALL_PASS, "headset": "fail", "headset_note": "dead on B"})
    assert answer.redirect_chain == [(page(cast.engagement, second), 302)]
    assert "Stored for Rear booth, place 2. Fails: headset; passes: label, strike, douser, frames" in words(answer)
    assert answer.context["form"]["by"].value() == "Ada"
    overview = words(road.get(page(cast.engagement)))
    assert "1 of 2 places checked, 1 fails. Next: Rear booth, place 1" in overview
    assert "Fails: headset (dead on B)" in overview
    issues = words(road.get(reverse("shows:fit", args=[cast.engagement.ref])))
    assert "Not ready: show 1 is stopped." in issues
    assert "The arrival check at Rear booth, place 2 failed: headset, both ways, on its channel (dead on B)." in issues
    mark = CheckMark.objects.get(item="headset")
    assert (mark.by, mark.at, mark.fault) == ("Ada", NOON, None)
    look(road, page(cast.engagement, first), headset="pass")
    assert "Ready: nothing that stops the show" in words(road.get(reverse("shows:fit", args=[cast.engagement.ref])))


def test_nothing_is_set_at_first_and_only_what_is_chosen_is_stored(cast: Cast) -> None:
    road, (first, _second) = as_user(cast.road), places_of(cast)
    form = road.get(page(cast.engagement, first)).context["form"]
    assert not any(form[item].value() for item in (*ITEMS, "rest"))
    look(road, page(cast.engagement, first), douser="pass", label="open")
    assert list(CheckMark.objects.values_list("item", "result")) == [("douser", "pass")]
    look(road, page(cast.engagement, first), douser="open")
    assert found(cast.engagement).places[0].state.open_items == ITEMS


def test_one_tap_passes_the_rest_but_nothing_that_fails(cast: Cast) -> None:
    road, (first, _second) = as_user(cast.road), places_of(cast)
    look(road, page(cast.engagement, first), iris="fail", iris_note="stuck")
    look(road, page(cast.engagement, first), rest="on", sight="fail", sight_note="loose")
    failed = found(cast.engagement).places[0].state.failed
    assert [mark.item for mark in failed] == ["iris", "sight"]
    assert found(cast.engagement).places[0].state.open_items == ONE_BY_ONE


def test_what_belongs_at_a_place_is_told_before_anything_is_struck(cast: Cast) -> None:
    first, _second = places_of(cast)
    cast.engagement.frame_1_end = "lamp"
    cast.engagement.save()
    said = words(as_user(cast.road).get(page(cast.engagement, first)))
    for wanted in (
        "1 of 2, counted from house left · stage right. The book has label 2 at that end and 1 at the other.",
        "Stand at Rear booth and face the stage. The left hand then points to house left · stage right.",
        "Nobody walked this row in this set-up yet",
        "on the unit: lens end; as the show counts: lamp end. The two count opposite ways.",
        "Frame 2 C-2 not explained + D-1 not explained",
        "Frame 6 nothing said",
        "Lower by the winch.",
        "Caution: going up",
    ):
        assert wanted in said, wanted


def test_what_fails_opens_a_fault_and_a_pass_does_not_close_it(cast: Cast) -> None:
    road, (first, _second) = as_user(cast.road), places_of(cast)
    answer = look(road, page(cast.engagement, first), frames="fail", frames_note="4 jams", frames_out="4")
    fault = Fault.objects.get()
    assert f"A fault is open on {fault.unit.tag} now: frames." in words(answer)
    assert (fault.frames_out, fault.opened_by) == ("4", "Road")
    look(road, page(cast.engagement, first), frames="fail", frames_note="2 as well", frames_out="2")
    assert CheckMark.objects.latest("pk").note == "2 as well (frames 2)"
    said = words(look(road, page(cast.engagement, first), frames="pass"))
    assert f"Frames: The fault on {fault.unit.tag} is open. A pass does not close it" in said
    fault.refresh_from_db()
    assert fault.closed_at is None


WRONG: tuple[tuple[dict[str, str], str, str], ...] = (
    ({"by": " ", "label": "pass"}, "by", "This field is required."),
    ({}, "__all__", "Nothing is marked yet. Mark at least one item."),
    ({"douser": "fail"}, "douser_note", "Write what fails."),
    ({"douser_note": "leaks"}, "douser", "There is a note. Choose whether it passes or fails."),
    ({"frames_out": "4"}, "frames", "Frames are listed as out. Choose whether this passes or fails."),
    ({"frames": "fail", "frames_note": "x", "frames_out": "9"}, "frames_out", "There is no frame 9: "),
    ({"by": "A\0da", "label": "pass"}, "by", "Null characters are not allowed."),
    ({"by": "A" * 81, "label": "pass"}, "by", "Ensure this value has at most 80 characters"),
    ({"label": "maybe"}, "label", "Select a valid choice."),
)


def test_what_is_not_told_right_is_named_and_nothing_is_stored(cast: Cast) -> None:
    road, (first, _second) = as_user(cast.road), places_of(cast)
    for sent, field, message in WRONG:
        found_errors = errors_of(road.post(page(cast.engagement, first), {"by": "Ada", **sent}))
        assert found_errors[field][0].startswith(message), (sent, found_errors)
    assert not CheckMark.objects.exists()


def test_what_is_in_the_way_tonight_is_noted_once_and_for_this_show(cast: Cast) -> None:
    road, (first, _second) = as_user(cast.road), places_of(cast)
    for _tap in range(2):
        look(road, page(cast.engagement, first), in_the_way="speaker  array")
    row = Blockage.objects.get()
    assert (row.name, row.place, row.only_for, row.noted_on) == (
        "speaker array", first, cast.engagement.ref, NOON.date(),
    )  # fmt: skip
    assert not CheckMark.objects.exists()
    assert "speaker array Rear booth, place 2, for this show, noted on Mar 2, 2026" in words(
        road.get(page(cast.engagement))
    )


# Two people at once
def test_two_people_at_one_place_mark_different_items_and_the_same_one_and_nothing_is_lost(cast: Cast) -> None:
    address = link(cast)
    (first, _second), ada, dov = places_of(cast), Client(), Client()
    place = f"{address}places/{first.ref}/"
    assert ada.get(place).status_code == dov.get(place).status_code == 200  # both pages are open
    look(ada, place, "Ada", label="pass", douser="fail", douser_note="leaks")
    with time_machine.travel(NOON + timedelta(minutes=8), tick=False):
        answer = words(look(dov, place, "Dov", strike="pass", douser="pass"))
        assert "Ada found before of the douser: fails. Both stay in sight." in answer
        said = words(ada.get(place))
    assert "Ada: fails at 7:00 AM (leaks); Dov: passes at 7:08 AM" in said
    state = found(cast.engagement).places[0].state
    passed = [item.item for item in state.items if item.result == "pass"]
    assert passed == ["label", "strike", "douser"]
    assert CheckMark.objects.count() == 4


# The link
def test_the_link_is_shown_once_and_opens_the_check_without_an_account(cast: Cast) -> None:
    road = as_user(cast.road)
    form = road.get(page(cast.engagement)).context["form"]
    assert str(form["until"].value()) == "2026-03-09 05:00:00"  # the house's day turns at 5
    answer = road.post(page(cast.engagement, tail="link/"), {"until": "2026-03-02T22:00"}, follow=True)
    (address,) = re.findall(r'readonly value="http://testserver([^"]+)"', answer.content.decode())
    assert "readonly" not in road.get(page(cast.engagement)).content.decode()
    shown = Client().get(address)
    assert "0 of 2 places checked" in words(shown)
    assert "works until Mar 2, 2026, 10:00 PM" in words(shown)
    assert (shown["X-Robots-Tag"], shown["Cache-Control"]) == ("noindex, nofollow", "no-store")
    assert shown["Referrer-Policy"] in {"no-referrer", "same-origin"}
    assert page(cast.engagement) not in shown.content.decode()
    assert not Link.objects.filter(secret_hash__in=address.split("/")).exists()


def test_looking_by_the_link_changes_nothing_and_marking_names_who_did_it(cast: Cast) -> None:
    address, (first, _second), browser = link(cast), places_of(cast), Client()
    before = Event.objects.count(), Session.objects.count()
    for tail in ("", f"places/{first.ref}/", "sign/"):
        assert browser.get(address + tail).status_code == 200
    assert (Event.objects.count(), Session.objects.count()) == before
    assert Link.objects.get().last_used_at is None
    answer = look(browser, f"{address}places/{first.ref}/", strike="fail", strike_note="no arc")
    assert answer.redirect_chain[0][0].startswith(address)
    event = Event.objects.get(verb="check.marked")
    assert (event.actor_kind, event.actor_name) == ("link", "Ada, by the arrival link")
    assert Fault.objects.get().opened_by == "Ada, by the arrival link"
    assert Link.objects.get().last_used_at == NOON


def test_a_link_that_is_wrong_over_renewed_or_switched_off_opens_one_and_the_same_page(cast: Cast) -> None:
    (first, _second), old = places_of(cast), link(cast)
    new = link(cast)
    ref = new.split("/")[2]
    assert Client().get(new).status_code == 200
    refused = [old, f"/arrive/{ref}/wrong/", f"/arrive/{uuid4()}/{new.split('/')[3]}/", f"{old}sign/"]
    pages = [Client().get(address) for address in refused]
    with time_machine.travel(NOON + hours(7), tick=False):
        pages.append(Client().post(f"{new}places/{first.ref}/", {"by": "Ada", "label": "pass"}))
    end_arrival_link(actor=ACTOR, engagement=cast.engagement, now=NOON)
    pages.append(Client().get(new))
    assert {(answer.status_code, words(answer)) for answer in pages} == {(404, words(pages[0]))}
    assert not CheckMark.objects.exists()
    with pytest.raises(NoShowLink):
        end_arrival_link(actor=ACTOR, engagement=cast.engagement, now=NOON)


def test_a_show_that_ended_is_looked_at_but_not_checked_and_its_link_is_over(cast: Cast) -> None:
    address, (first, _second) = link(cast), places_of(cast)
    end_engagement(actor=ACTOR, engagement=cast.engagement, at=NOON, reason="called off")
    assert Client().get(address).status_code == 404
    road = as_user(cast.road)
    assert "This show has ended: called off." in words(road.get(page(cast.engagement, first)))
    answer = road.post(page(cast.engagement, first), {"by": "Ada", "label": "pass"})
    assert "has ended already" in errors_of(answer)["__all__"][0]


def test_trying_links_is_limited_and_a_crew_that_works_is_not(cast: Cast) -> None:
    address = link(cast)
    for _try in range(ASKED_A_MINUTE):
        assert Client().get(f"/arrive/{uuid4()}/wrong/").status_code == 404
    assert Client().get(f"/arrive/{uuid4()}/wrong/").status_code == 429
    assert Client().get(address).status_code == 200


def test_a_link_ends_at_a_time_that_comes(cast: Cast) -> None:
    head = as_user(cast.head)
    for until, message in (
        ("2026-03-02T06:59", "That is over already. Write a later time."),
        ("2028-03-02T06:59", "A link works for a year at most. Write an earlier time."),
        ("2026-03-08T02:30", "2026-03-08 02:30"),  # the clocks skip it
        ("9999-12-31T23:59", "Check the year of this time."),
        ("soon", "Enter a valid date/time."),
        ("", "This field is required."),
    ):
        answer = head.post(page(cast.engagement, tail="link/"), {"until": until})
        assert message in errors_of(answer)["until"][0], until
    assert not Link.objects.exists()


# Signatures
def test_both_sides_sign_and_later_marks_are_told_of(cast: Cast) -> None:
    address, (first, _second), browser, head = link(cast), places_of(cast), Client(), as_user(cast.head)
    assert "nothing to sign for" in words(browser.get(f"{address}sign/"))
    look(browser, f"{address}places/{first.ref}/", **ALL_PASS)
    sha256 = found(cast.engagement).sha256
    assert sha256 in words(browser.get(f"{address}sign/"))
    sent = {"side": "road", "name": "Ada", "sha256": sha256}
    refused = browser.post(f"{address}sign/", {**sent, "side": "house"})
    assert "side" in errors_of(refused)  # only its head signs for the house
    assert browser.post(f"{address}sign/", sent).status_code == 302
    head.post(page(cast.engagement, tail="sign/"), {**sent, "side": "house", "name": "Hollis Varga"})
    said = words(head.get(page(cast.engagement)))
    assert "Ada, for the road crew 7:00 AM · for the check as it stands" in said
    assert "Hollis Varga, for the house 7:00 AM · for the check as it stands" in said
    with time_machine.travel(NOON + hours(1), tick=False):
        look(browser, f"{address}places/{first.ref}/", douser="fail", douser_note="leaks")
        assert words(head.get(page(cast.engagement))).count("signed before later marks") == 2
        stale = head.post(page(cast.engagement, tail="sign/"), {**sent, "side": "house"})
    assert errors_of(stale)["__all__"] == [str(CheckChanged())]
    assert f'name="sha256" value="{found(cast.engagement).sha256}"' in stale.content.decode()
    assert CheckSignature.objects.count() == 2


def test_what_is_signed_is_one_text_for_one_content() -> None:
    """The text is written out by hand, its hash taken by the standard library."""
    state = place_state([Mark("label", "pass", "Ada", NOON), Mark("douser", "fail", "Ünal", NOON, "leaks")])
    expected = (
        '{"format":"throwbook-arrival-check","places":{"p1":{'
        '"douser":{"at":"2026-03-02T12:00:00+00:00","by":"Ünal","note":"leaks","result":"fail"},'
        '"label":{"at":"2026-03-02T12:00:00+00:00","by":"Ada","note":"","result":"pass"}}},"version":1}'
    )
    assert canonical({"p1": state, "p2": place_state([])}) == expected
    assert json.loads(expected)["version"] == 1
    assert digest(expected) == hashlib.sha256(expected.encode()).hexdigest()


# Walking order, readers, costs
def test_the_walk_goes_along_each_row_and_leaves_out_what_has_no_number(cast: Cast) -> None:
    position = make_position(cast.house, "Balcony rail")
    spare = make_place(position, "R1")
    place_unit(actor=ACTOR, unit=make_unit(cast.house), place=spare, starts_at=NOON - hours(9))
    check = found(cast.engagement)
    assert [(each.number, each.place.label) for each in check.places] == [("1", "2"), ("2", "1")]
    assert [each.place for each in check.spare] == [spare]
    assert check.next(after=check.places[1].place) == check.places[0]
    road = as_user(cast.road)
    assert look(road, page(cast.engagement, spare), label="pass").status_code == 200
    assert found(cast.engagement).spare[0].state.state == "begun"
    assert road.get(reverse("shows:arrival_place", args=[cast.engagement.ref, uuid4()])).status_code == 404


def test_readers_look_and_can_not_mark(cast: Cast) -> None:
    reader, (first, _second) = as_user(cast.reader), places_of(cast)
    facts = {"place": first, "unit": None, "by": "Ada", "at": NOON}
    mark_items(actor=ACTOR, engagement=cast.engagement, found={"label": Found("pass")}, **facts)  # type: ignore[arg-type]
    for address in (page(cast.engagement), page(cast.engagement, first), page(cast.engagement, tail="sign/")):
        answer = reader.get(address)
        assert answer.status_code == 200
        assert '<button class="button"' not in answer.content.decode()
    assert "Ada: passes at 7:00 AM" in words(reader.get(page(cast.engagement, first)))
    assert reader.post(page(cast.engagement, first), {"by": "Ada", "label": "pass"}).status_code == 403


def test_the_pages_cost_as_many_queries_with_twenty_places_as_with_two() -> None:
    cast = the_cast()
    costs = [_costs(cast, stocked(cast.engagement, 2)), _costs(cast, stocked(cast.engagement, 20, "Front rail"))]
    assert costs[0] == costs[1]


def _costs(cast: Cast, places: list[Place]) -> list[int]:
    """The queries of overview and place, with a failing mark at every place."""
    for place in places:
        unit = place.placements.get().unit
        facts = {"place": place, "unit": unit, "by": "Ada", "at": NOON}
        found = {"strike": Found("fail", "no arc"), "label": Found("pass")}
        mark_items(actor=ACTOR, engagement=cast.engagement, found=found, **facts)  # type: ignore[arg-type]
    head, costs = as_user(cast.head), []
    for address in (page(cast.engagement), page(cast.engagement, places[0])):
        head.get(address)
        with CaptureQueriesContext(connection) as queries:
            assert head.get(address).status_code == 200
        costs.append(len(queries))
    return costs
