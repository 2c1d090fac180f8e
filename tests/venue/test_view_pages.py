"""What lights see and what is in their way: areas of a set-up, blockages and limits of a position, on pages."""

from datetime import date
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests.factories import Cast, make_place, make_position, the_cast
from tests.venue.pages import as_user, errors_of, send, words
from tests.venue.recorded import SQUARE, a_blockage, an_area
from venue.models import Area, Blockage, Event, Position
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db
TOP = "/houses/quillmark-hall/"
CORNERS = "6' house left, 3' downstage\n6' stage left, 3' downstage\ncenter, 9' downstage"


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


@pytest.fixture
def position(cast: Cast) -> Position:
    return make_position(cast.house, name="Rear booth")


@pytest.fixture
def areas(cast: Cast) -> str:
    return f"{TOP}setups/{cast.house.setups.get().ref}/areas/"


def test_an_area_is_typed_as_its_corners_and_keeps_them_as_typed(cast: Cast, head: Client, areas: str) -> None:
    assert "its name and three corners or more" in words(head.get(areas))
    assert send(head, f"{areas}new/", name="Pit", kind="pit", corners=CORNERS).status_code == 302
    area = Area.objects.get()
    assert area.corners == [pytest.approx(each) for each in ([-1.8288, -0.9144], [1.8288, -0.9144], [0.0, -2.7432])]
    page = words(as_user(cast.reader).get(areas))
    assert "Pit pit 6' house left, 3' downstage; 6' house right, 3' downstage; center, 9' downstage" in page
    edit = f"{TOP}areas/{area.ref}/edit/"
    assert head.get(edit).context["form"]["corners"].value() == CORNERS
    assert send(head, edit, corners=CORNERS.replace("\n", "\r\n")).status_code == 302
    assert Area.objects.get().version == 1
    assert send(head, edit, corners=f"{CORNERS}\n4' house left, 6' downstage").status_code == 302
    line = Event.objects.get(verb="area.changed")
    assert line.data["changed"]["corners"][1][3] == pytest.approx([-1.2192, -1.8288])
    assert send(head, f"{TOP}areas/{area.ref}/end/", reason="covered").status_code == 302
    assert event_sentence(Event.objects.latest("pk")) == "ended the area Pit of the set-up Usual: covered"


def test_every_bad_line_is_told_at_once_and_nothing_typed_is_lost(head: Client, areas: str) -> None:
    typed = "6' left, 3' upstage\ncenter, 0\n6', 3' upstage\nnonsense"
    answer = send(head, f"{areas}new/", name="Pit", corners=typed)
    said = errors_of(answer)["corners"]
    assert [message.split(",")[0] for message in said] == ["Line 1", "Line 3", "Line 4"]
    assert "Write house left, house right, stage left or stage right." in said[0]
    assert answer.context["form"]["corners"].value() == typed  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        ("", "This field is required."),
        ("center, 0\ncenter, 1 m upstage", "three corners or more"),
        ("center, 0\ncenter, 1 m upstage\ncenter, 2 m upstage", "they enclose nothing"),
        ("center, 0\n1 m sl, 1 m us\n3 m sl, 0\ncenter, 1.2 m us", "The edge crosses itself."),
        ("center, 0\n" * 41, "at most 40 corners"),
        ("center, 0\n" * 500, "at most 4000 characters"),
        ("\0", "Null characters"),
    ],
)
def test_corners_that_are_no_area_are_refused_with_one_message(
    head: Client, areas: str, corners: str, said: str
) -> None:
    messages = errors_of(send(head, f"{areas}new/", name="Pit", corners=corners))
    assert list(messages) == ["corners"] and len(messages["corners"]) == 1
    assert said in messages["corners"][0]
    assert not Area.objects.exists()


def test_a_stale_area_shows_both_with_corners_in_words(cast: Cast, head: Client) -> None:
    area = an_area(cast.house.setups.get())
    edit = f"{TOP}areas/{area.ref}/edit/"
    assert send(head, edit, name="Deep pit").status_code == 302
    page = words(send(head, edit, version="1", corners=CORNERS))
    assert "corners 6' 7\" house left, 3' 3\" downstage;" in page and "center, 9' downstage" in page


def test_what_is_in_the_way_is_noted_corrected_and_cleared_away(cast: Cast, head: Client, position: Position) -> None:
    place = make_place(position, label="1")
    page = f"{TOP}positions/{position.ref}/"
    assert "Nothing is noted as in the way. That does not say that nothing is." in words(head.get(page))
    facts = {"name": "speaker array", "place": place.pk, "noted_on": "2026-03-01"}
    pans = {"pan_from": "20", "pan_from_side": "stage right", "pan_to": "5.5", "pan_to_side": "stage left"}
    assert send(head, f"{page}blockages/new/", **facts, **pans, corners=CORNERS).status_code == 302
    row = Blockage.objects.get()
    assert (row.pan_from_deg, row.pan_to_deg, row.noted_on) == (-20.0, 5.5, date(2026, 3, 1))
    shown = words(as_user(cast.reader).get(page))
    assert "speaker array for place 1 alone, noted on March 1, 2026" in shown
    assert "Pans from 20° toward stage right to 5.5° toward stage left, clockwise seen from above" in shown
    assert "It hides the part of the plan between 6' house left, 3' downstage;" in shown
    edit = f"{TOP}blockages/{row.ref}/edit/"
    assert send(head, edit).status_code == 302
    assert send(head, edit, place="", corners="", pan_from="", pan_from_side="upstage").status_code == 302
    row.refresh_from_db()
    assert (row.place, row.corners, row.pan_from_deg, row.version) == (None, [], 0.0, 2)
    assert send(head, f"{TOP}blockages/{row.ref}/end/", reason="flown out").status_code == 302
    assert "speaker array" not in words(head.get(page))
    told = event_sentence(Event.objects.latest("pk"))
    assert told == "noted that it is in the way of Rear booth no more: speaker array; flown out"


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"name": ""}, "name"),
        ({"pan_from": "20", "pan_from_side": "stage left"}, "pan_to"),
        ({"pan_from": "20", "pan_to": "30", "pan_to_side": "stage left"}, "pan_from_side"),
        ({"pan_from_side": "stage left"}, "pan_from"),
        ({"pan_from": "20", "pan_from_side": "upstage"}, "pan_from"),
        ({"pan_to": "-20", "pan_to_side": "stage left"}, "pan_to"),
        ({"pan_to": "inf", "pan_to_side": "stage left"}, "pan_to"),
        ({"noted_on": "2999-01-01"}, "noted_on"),
        ({"corners": "center, 0"}, "corners"),
        ({"place": "0"}, "place"),
    ],
)
def test_what_is_told_of_a_blockage_is_refused_at_its_field(
    head: Client, position: Position, changes: dict[str, Any], field: str
) -> None:
    answer = send(head, f"{TOP}positions/{position.ref}/blockages/new/", **{"name": "rail", **changes})
    assert list(errors_of(answer)) == [field]
    assert not Blockage.objects.exists()


def test_what_a_tour_brings_into_the_way_is_not_the_houses_to_edit(head: Client, position: Position) -> None:
    row = a_blockage(position, "tour wall", only_for=uuid4())
    assert "tour wall" not in words(head.get(f"{TOP}positions/{position.ref}/"))
    assert head.get(f"{TOP}blockages/{row.ref}/edit/").status_code == 404


VIEW = {
    "glass": "fixed",
    "glass_loss_pct": "12",
    "other_load_kg": "40",
    "seats_lost": "6",
    "needs": "a platform 2 ft high",
    "farthest_upstage": "28' 6\"",
    "farthest_upstage_direction": "upstage",
    "farthest_downstage": "4'",
    "farthest_downstage_direction": "house",
    "pan_from": "40",
    "pan_from_side": "stage right",
    "pan_to": "40",
    "pan_to_side": "stage left",
}


def test_what_a_position_takes_and_sees_is_kept_and_shown_in_words(head: Client, position: Position) -> None:
    page = f"{TOP}positions/{position.ref}/"
    assert send(head, f"{page}edit/", **VIEW).status_code == 302
    shown = words(head.get(page))
    for sentence in (
        "lost in the glass 12 % of the light, measured",
        "what else stands or hangs there 40 kg",
        "seats lost to it 6",
        "a platform 2 ft high",
        "sees upstage as far as 28' 6\" upstage of the plaster line",
        "sees downstage as far as 4' downstage of the plaster line",
        "from 40° toward stage right to 40° toward stage left, clockwise seen from above",
    ):
        assert sentence in shown
    row = Position.objects.get()
    assert (row.farthest_upstage_m, row.farthest_downstage_m) == pytest.approx((8.6868, -1.2192))
    assert (row.farthest_downstage_text, row.pan_from_deg, row.pan_to_deg) == ("4'", -40.0, 40.0)
    assert send(head, f"{page}edit/").status_code == 302
    assert Position.objects.get().version == 2
    assert send(head, f"{page}edit/", farthest_downstage_direction="upstage", pan_to="30").status_code == 302
    stale = words(send(head, f"{page}edit/", version="2", pan_to="20"))
    assert "pans to 30° toward stage left 20° toward stage left" in stale


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"glass": "open", "glass_loss_pct": "5"}, "glass_loss_pct"),
        ({"glass_loss_pct": "5"}, "glass"),
        ({"glass": "fixed", "glass_loss_pct": "70"}, "glass_loss_pct"),
        ({"other_load_kg": "-1"}, "other_load_kg"),
        ({"seats_lost": "1.5"}, "seats_lost"),
        ({"farthest_upstage": "9 m"}, "farthest_upstage_direction"),
        ({"farthest_upstage_direction": "house"}, "farthest_upstage"),
        ({"farthest_upstage": "2000 m", "farthest_upstage_direction": "upstage"}, "farthest_upstage"),
        ({**VIEW, "farthest_downstage": "30'", "farthest_downstage_direction": "upstage"}, "farthest_downstage"),
        ({"pan_to": "400", "pan_to_side": "stage left"}, "pan_to"),
    ],
)
def test_what_a_position_can_not_take_or_see_is_refused_at_its_field(
    head: Client, position: Position, changes: dict[str, str], field: str
) -> None:
    assert list(errors_of(send(head, f"{TOP}positions/{position.ref}/edit/", **changes))) == [field]
    assert Position.objects.get().version == 1


def test_the_pages_ask_the_database_as_often_for_two_rows_as_for_twenty(
    cast: Cast, head: Client, position: Position, areas: str
) -> None:
    place = make_place(position, label="1")
    counts = []
    for numbers in (range(2), range(2, 20)):
        for number in numbers:
            an_area(cast.house.setups.get(), f"Area {number}", corners=SQUARE)
            a_blockage(position, f"thing {number}", place=place, corners=SQUARE)
        counts.append([_queries(head, address) for address in (areas, f"{TOP}positions/{position.ref}/")])
    assert counts[0] == counts[1]


def _queries(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)
