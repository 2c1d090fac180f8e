"""The pages of what a show asks: what is said, what nobody said, what hands changed, which colors are explained."""

from collections.abc import Iterator
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows.actions import add_color, change_show_asks, change_spot_asks, end_engagement
from shows.models import Engagement, ShowSpot
from tests.factories import ACTOR, NOON, Cast, make_show, the_cast
from tests.shows.stocked import accept, listed, stock
from tests.venue.pages import as_user, errors_of, send, words
from venue.actions import add_filter, change
from venue.models import Unit

pytestmark = pytest.mark.django_db

FRAMES = {"Frame 1": ["C-1", "C-1"], "Frame 2": ["C-1 + D-2", ""]}


@pytest.fixture
def cast() -> Iterator[Cast]:
    """A show of two numbers on two places; number 1 has two frames."""
    with time_machine.travel(NOON, tick=False):
        cast = the_cast()
        stock(cast.house, 2)
        accept(cast.engagement, listed(2, **FRAMES))
        yield cast


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


@pytest.fixture
def show(cast: Cast) -> Engagement:
    return cast.engagement


def at(name: str, show: Engagement, *more: Any) -> str:
    return reverse(f"shows:{name}", args=(show.ref, *more))


def spot_of(show: Engagement, number: str = "1") -> ShowSpot:
    return show.spots.standing().get(number=number)


def asks_at(show: Engagement, number: str = "1") -> str:
    return at("spot_asks", show, spot_of(show, number).ref)


def say(show: Engagement, number: str = "1", **values: Any) -> None:
    spot = spot_of(show, number)
    change_spot_asks(actor=ACTOR, spot=spot, seen=spot.version, values=values)


def card(response: HttpResponse, number: str) -> str:
    """What the page says of one number."""
    return words(response).partition(f"show {number} house")[2].partition(f"Change what show {number} asks")[0]


def fields(response: HttpResponse) -> list[str]:
    return [name for name in response.context["form"].fields if name.startswith("frame_")]  # type: ignore[attr-defined]


# -- every number


def test_what_nobody_said_is_listed_as_not_said_and_never_as_no(head: Client, show: Engagement) -> None:
    said = card(head.get(at("ask_list", show)), "2")
    assert "Not said: least light, sizes, on camera, full blackout, strip cut out," in said
    assert "who brings the color" in said
    assert " no " not in said


def test_everything_that_is_said_stands_on_the_numbers_card(head: Client, show: Engagement) -> None:
    add_color(actor=ACTOR, engagement=show, code="C-1", name="pale amber", transmission_pct=62, shift_mired=131)
    add_filter(actor=ACTOR, house=show.house, code="d-2", transmission_pct=80.5, is_diffusion=True)
    own = {"sizes": ["head", "knees"], "full_blackout": False, "strip_out": True, "home": "center", "gel_by": "house"}
    say(show, least_lux=1614.585, matches="2", frames=["C-1", "C-1 + D-2", "E-9"], **own)
    said = card(head.get(at("ask_list", show)), "1")
    for told in (
        "2 Rear booth",
        "Frame 1 C-1 pale amber, passes 62 %, 131 mired warmer",
        "+ D-2 as the house has it: passes 80.5 %, diffuses",
        "Frame 3 E-9 not explained",
        "Sizes head, knees",
        "Full blackout no",
        "Strip cut out yes",
        "Home pick-up center",
        "Has to match show 2",
        "Who brings the color the house",
    ):
        assert told in said, told
    assert "Not said: on camera, channel, pick-up, notes." in said


@pytest.mark.parametrize(
    ("system", "shown"), [("imperial", "at least 150 fc (1615 lx)"), ("metric", "at least 1615 lx (150 fc)")]
)
def test_least_light_is_told_in_the_houses_units(head: Client, show: Engagement, system: str, shown: str) -> None:
    """150 foot-candles are 1614.6 lux, by 10.7639 lux a foot-candle (UNECE Recommendation 20, P27)."""
    house = show.house
    change(actor=ACTOR, row=house, house=house, seen=house.version, values={"unit_system": system})
    say(show, least_lux=1614.585)
    assert f"Least light {shown}" in card(head.get(at("ask_list", show)), "1")


def test_the_whole_shows_camera_stands_in_and_says_so(head: Client, show: Engagement) -> None:
    change_show_asks(actor=ACTOR, engagement=show, seen=show.version, values={"on_camera": True})
    say(show, "2", on_camera=False)
    page = head.get(at("ask_list", show))
    assert "On camera yes, as the whole show" in card(page, "1")
    assert "On camera no" in card(page, "2")


def test_what_was_changed_by_hand_is_told_until_it_is_changed_back(head: Client, show: Engagement) -> None:
    say(show, frames=["D-9"], channel="B", home="center")
    told = "Changed by hand since the paperwork: frames, headset channel. Newer paperwork overwrites it."
    assert told in card(head.get(at("ask_list", show)), "1")
    say(show, frames=["C-1", "C-1 + D-2"], channel="")
    assert "Changed by hand" not in words(head.get(at("ask_list", show)))


def test_a_show_without_numbers_asks_for_its_paperwork(head: Client, cast: Cast) -> None:
    assert "The show has no numbers yet" in words(head.get(at("ask_list", make_show(cast.house, "Tin Comet"))))


def test_readers_see_asks_and_no_way_to_change_them(cast: Cast, show: Engagement) -> None:
    reader = as_user(cast.reader)
    for name in ("ask_list", "color_list"):
        page = reader.get(at(name, show)).content.decode()
        assert "/edit/" not in page
        assert "colors/new/" not in page
        assert "/spots/" not in page


def test_every_page_has_the_shows_ways_about_with_the_one_it_is_on(head: Client, show: Engagement) -> None:
    for name in ("ask_list", "color_list", "show_asks", "color_new"):
        page = head.get(at(name, show)).content.decode()
        assert f'<a href="{at("ask_list", show)}" aria-current="page">Asks</a>' in page, name
        assert f'<a href="{at("compare", show)}">Numbering</a>' in page, name


def test_the_shows_first_page_leads_to_what_it_asks(head: Client, show: Engagement) -> None:
    page = head.get(at("engagement_detail", show)).content.decode()
    assert f'<a href="{at("engagement_detail", show)}" aria-current="page">Show</a>' in page
    assert f'<a href="{at("ask_list", show)}">Asks</a>' in page


@pytest.mark.parametrize("name", ["ask_list", "color_list"])
def test_a_page_asks_as_much_of_the_database_for_20_numbers_as_for_2(head: Client, cast: Cast, name: str) -> None:
    counts = []
    for count in (2, 20):
        show = make_show(cast.house, f"Show of {count}")
        stock(cast.house, count, f"Booth of {count}")
        accept(show, listed(count, **{"Frame 1": [f"C-{number} + D-1" for number in range(count)]}))
        for spot in show.spots.standing():
            say(show, spot.number, channel="B")
        for number in range(count):
            add_color(actor=ACTOR, engagement=show, code=f"C-{number}")
        head.get(at(name, show))
        with CaptureQueriesContext(connection) as captured:
            assert head.get(at(name, show)).status_code == 200
        counts.append(len(captured))
    assert counts[0] == counts[1] <= 14


# -- one number by hand


def test_there_is_a_field_for_each_frame_of_the_unit_and_one_more(head: Client, show: Engagement) -> None:
    assert len(fields(head.get(asks_at(show)))) == 3  # two asked for; nobody recorded the unit's
    Unit.objects.filter(house=show.house).update(frames=6)
    assert len(fields(head.get(asks_at(show)))) == 7
    say(show, frames=[f"C-{number}" for number in range(1, 8)])
    assert len(fields(head.get(asks_at(show)))) == 8


def test_a_frame_that_was_filled_in_is_not_lost_when_the_unit_has_left(head: Client, show: Engagement) -> None:
    send(head, asks_at(show), frame_9="E-9")
    assert spot_of(show).frames == ["C-1", "C-1 + D-2", *[""] * 6, "E-9"]


def test_saving_without_a_change_stores_nothing(head: Client, show: Engagement) -> None:
    say(show, least_lux=1234.5678, frames=["C-1", "", "D-2", ""], sizes=["head"], on_camera=False, matches="#2")
    before = spot_of(show)
    show.house.refresh_from_db()
    assert send(head, asks_at(show), partner="2").status_code == 302
    after = spot_of(show)
    assert (after.least_lux, after.frames, after.on_camera) == (before.least_lux, before.frames, False)


def test_what_is_said_by_hand_is_stored_with_the_warning_about_newer_paperwork(head: Client, show: Engagement) -> None:
    sent = {"frame_3": "E-9", "sizes": ["head", "waist"], "strip_out": "yes", "on_camera": "no", "least_light": "100"}
    response = send(head, asks_at(show), **sent)
    assert response.status_code == 302
    said = words(head.get(response["Location"]))
    assert "Newer paperwork overwrites this: frames, least light." in said
    spot = spot_of(show)
    assert (spot.frames, spot.sizes) == (["C-1", "C-1 + D-2", "E-9"], ["head", "waist"])
    assert (spot.strip_out, spot.on_camera, spot.full_blackout) == (True, False, None)
    assert spot.least_lux == pytest.approx(1076.39, abs=0.01)  # 100 foot-candles


def test_no_frame_at_all_can_be_said_too(head: Client, show: Engagement) -> None:
    send(head, asks_at(show), frame_1="", frame_2="")
    assert spot_of(show).frames == []


def test_two_people_at_one_number_are_shown_both(head: Client, show: Engagement) -> None:
    page = head.get(asks_at(show))
    say(show, frames=["D-9"], sizes=["head"], strip_out=False)
    sent = {"version": page.context["form"]["version"].value(), "frame_1": "C-1", "strip_out": "yes"}
    response = head.post(asks_at(show), sent)
    said = words(response)
    for told in (
        "Somebody else changed this",
        "frames 1: D-9 1: C-1",
        "sizes head not said",
        "needs a strip cut out by the shutters no yes",
    ):
        assert told in said, told
    assert spot_of(show).frames == ["D-9"]
    again = {**sent, "version": response.context["form"]["version"].value()}
    assert head.post(asks_at(show), again).status_code == 302
    assert spot_of(show).frames == ["C-1"]


def test_matching_offers_the_other_numbers_and_refuses_a_circle_in_words(head: Client, show: Engagement) -> None:
    offered = [value for value, _words in head.get(asks_at(show)).context["form"].fields["partner"].choices]
    assert offered == ["", "2"]
    say(show, "2", matches="1")
    (told,) = errors_of(send(head, asks_at(show), partner="2"))["partner"]
    assert told.startswith("That runs in a circle: 1 matches 2, 2 matches 1.")
    assert errors_of(send(head, asks_at(show), partner="1"))["partner"]
    assert spot_of(show).matches == ""


ODD: list[tuple[str, Any]] = [
    ("least_light", "nan"), ("least_light", "-1"), ("least_light", "1e300"), ("frame_1", "x" * 81), ("frame_1", "a\0"),
    ("sizes", ["huge"]), ("on_camera", "maybe"), ("partner", "99"), ("gel_by", "nobody"), ("home", "x" * 201),
    ("version", "0"),
]  # fmt: skip


def test_what_cannot_be_said_is_refused_at_its_field(head: Client, show: Engagement) -> None:
    before = spot_of(show).version
    for field, value in ODD:
        assert list(errors_of(send(head, asks_at(show), **{field: value}))) == [field], (field, value)
    assert spot_of(show).version == before


def test_odd_names_of_frames_are_let_alone(head: Client, show: Engagement) -> None:
    odd = {"frame_0": "x", "frame_999": "x", "frame_": "x", "frame_٣": "x", "frame_99999999999": "x"}
    assert send(head, asks_at(show), **odd).status_code == 302
    assert spot_of(show).frames == ["C-1", "C-1 + D-2"]


def test_a_number_that_left_the_paperwork_keeps_what_was_typed_and_says_why(head: Client, show: Engagement) -> None:
    address = asks_at(show, "2")
    accept(show, listed(1))
    assert "not in the paperwork any more" in words(head.get(address))
    response = send(head, address, home="center")
    assert response.status_code == 200
    assert response.context["form"]["home"].value() == "center"


# -- the whole show


def test_the_show_says_what_holds_for_all_its_numbers(head: Client, show: Engagement) -> None:
    response = send(head, at("show_asks", show), on_camera="yes", frame_1_end="lamp", caller="Ada Quill, stage left")
    said = words(head.get(response["Location"]))
    assert "On camera yes Frame 1 at lamp end" in said
    assert "Ada Quill, stage left" in said
    assert "frame_1_end" in errors_of(send(head, at("show_asks", show), frame_1_end="top"))


def test_a_show_that_ended_is_looked_at_and_not_changed(head: Client, show: Engagement) -> None:
    end_engagement(actor=ACTOR, engagement=show, at=NOON, reason="off")
    assert "Change what show" not in words(head.get(at("ask_list", show)))
    for address, sent in ((at("show_asks", show), {"caller": "x"}), (at("color_new", show), {"code": "C-9"})):
        assert send(head, address, **sent).status_code == 200
    assert not show.colors.exists()


# -- colors


def test_codes_are_told_apart_by_who_explains_them(head: Client, show: Engagement) -> None:
    add_color(actor=ACTOR, engagement=show, code="F-7", shift_mired=-60)
    add_filter(actor=ACTOR, house=show.house, code="D-2", name="light frost", transmission_pct=80)
    page = head.get(at("color_list", show))
    said = words(page)
    assert "Not explained C-1 in a frame of shows 1, 2 Explain C-1" in said
    assert "F-7 what passes is not recorded, 60 mired cooler in no frame" in said
    assert "D-2 as the house has it: light frost, passes 80 % in a frame of show 1" in said
    assert f"{at('color_new', show)}?code=C-1" in page.content.decode()


def test_a_code_comes_along_from_the_list_and_is_explained(head: Client, show: Engagement) -> None:
    address = f"{at('color_new', show)}?code=C-1"
    assert head.get(address).context["form"]["code"].value() == "C-1"
    response = send(head, address, name="pale amber", transmission_pct="62")
    said = words(head.get(response["Location"]))
    assert "C-1 is explained." in said
    assert "Not explained D-2" in said
    assert show.colors.get().transmission_pct == 62


def test_an_odd_code_in_the_address_is_only_a_text_in_the_field(head: Client, show: Engagement) -> None:
    for code in ("a\0b", "x" * 5000, "<script>", "%00", "\u202e", " ", "R+2 & ?"):
        response = head.get(at("color_new", show), {"code": code})
        assert response.status_code == 200, code
        assert len(response.context["form"]["code"].value()) <= 40
        assert b"<script>" not in response.content


def test_a_frame_with_odd_text_leads_to_its_explanation_or_says_why_not(head: Client, show: Engagement) -> None:
    say(show, frames=["50% & more?/#", "y" * 41])
    page = head.get(at("color_list", show))
    assert "?code=50%25%20%26%20more%3F%2F%23" in page.content.decode()
    assert "Too long for a code: write a shorter one into the frame." in words(page)


IMPOSSIBLE = [
    ({"code": ""}, "code"), ({"code": "C-1 + D-2"}, "code"), ({"code": "x" * 41}, "code"),
    ({"code": "C-5", "transmission_pct": "101"}, "transmission_pct"),
    ({"code": "C-5", "transmission_pct": "nan"}, "transmission_pct"),
    ({"code": "C-5", "shift_mired": "1e9"}, "shift_mired"), ({"code": "f-7"}, "__all__"),
]  # fmt: skip


def test_a_color_that_can_not_be_is_refused_at_its_field(head: Client, show: Engagement) -> None:
    add_color(actor=ACTOR, engagement=show, code="F-7")
    for sent, field in IMPOSSIBLE:
        assert list(errors_of(send(head, at("color_new", show), **sent))) == [field], sent
    assert show.colors.count() == 1


def test_a_color_is_changed_and_taken_off_while_frames_keep_its_code(head: Client, show: Engagement) -> None:
    color = add_color(actor=ACTOR, engagement=show, code="C-1", transmission_pct=62)
    assert send(head, at("color_edit", show, color.ref), transmission_pct="60").status_code == 302
    assert errors_of(send(head, at("color_end", show, color.ref), reason=""))["reason"]
    response = send(head, at("color_end", show, color.ref), reason="faded")
    assert "Not explained C-1" in words(head.get(response["Location"]))
    assert head.get(at("color_edit", show, color.ref)).status_code == 404
    assert spot_of(show).frames == ["C-1", "C-1 + D-2"]


def test_two_people_at_one_color_are_shown_both(head: Client, show: Engagement) -> None:
    color = add_color(actor=ACTOR, engagement=show, code="C-1", transmission_pct=62)
    first = {"version": 1, "code": "C-1", "transmission_pct": "60"}
    assert head.post(at("color_edit", show, color.ref), first).status_code == 302
    response = head.post(at("color_edit", show, color.ref), {**first, "transmission_pct": "58"})
    assert "60.0 58.0" in words(response)


def test_rows_of_another_show_are_not_found(head: Client, cast: Cast, show: Engagement) -> None:
    other = make_show(cast.house, "Other")
    color = add_color(actor=ACTOR, engagement=show, code="C-1")
    assert head.get(at("spot_asks", other, spot_of(show).ref)).status_code == 404
    assert head.get(at("color_edit", other, color.ref)).status_code == 404
    assert head.post(at("color_end", other, color.ref)).status_code == 404
