"""The pages of a show: who may open them, what they say, what a tap does, what is refused in words."""

import re
from collections.abc import Iterator
from datetime import timedelta
from html import unescape
from typing import Any

import pytest
import time_machine
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows.actions import add_tour_position, choose_way, end_engagement
from shows.forms.quick import COUNTS, NEEDS_BEARINGS, OWN_WORDS
from shows.models import Engagement, Paperwork
from tests.factories import ACTOR, NOON, Cast, make_position, make_show, the_cast
from tests.shows.stocked import LEFT_TO_RIGHT, accept, bound, listed, receive, stock
from tests.shows.workbooks_made import Day, workbook
from venue.models import Place, Position

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast() -> Iterator[Cast]:
    with time_machine.travel(NOON, tick=False):
        cast = the_cast()
        stock(cast.house)
        yield cast


@pytest.fixture
def head(client: Client, cast: Cast) -> Client:
    client.force_login(cast.head)
    return client


def at(name: str, show: Engagement, *more: Any) -> str:
    return reverse(f"shows:{name}", args=(show.ref, *more))


def text_of(response: HttpResponse) -> str:
    """The page as a person reads it, on one line."""
    body = response.content.decode().partition("<main")[2]
    return unescape(" ".join(re.sub(r"<[^>]+>", " ", re.sub(r"<title.*?</title>", " ", body)).split()))


def get(client: Client, address: str, **query: Any) -> str:
    response = client.get(address, query)
    assert response.status_code == 200
    return text_of(response)


def post(client: Client, address: str, **data: Any) -> str:
    """The page after the tap."""
    response = client.post(address, data, follow=True)
    assert response.status_code == 200
    return text_of(response)


READ, WRITE = ["engagement_detail", "compare", "place_list"], ["engagement_edit", "assign", "row_bring", "event_new"]


@pytest.mark.parametrize("name", READ + WRITE)
@pytest.mark.parametrize("who", ["head", "road", "reader", "dispatch", "stranger"])
def test_members_look_head_and_road_write_readers_get_403_and_strangers_404(
    client: Client, cast: Cast, who: str, name: str
) -> None:
    client.force_login(getattr(cast, who))
    expected = 404 if who in {"dispatch", "stranger"} else 403 if who == "reader" and name in WRITE else 200
    assert client.get(at(name, cast.engagement)).status_code == expected


def test_road_meets_404_at_every_other_show_of_the_house(client: Client, cast: Cast) -> None:
    client.force_login(cast.road)
    other = make_show(cast.house, "Other")
    assert client.get(at("compare", other)).status_code == 404
    assert client.get(reverse("shows:engagement_list", args=(cast.house.slug,))).status_code == 404


def test_paperwork_of_another_show_is_not_found(head: Client, cast: Cast) -> None:
    foreign = receive(make_show(cast.house, "Other"), listed(2))
    for name in ("paperwork_preview", "paperwork_file"):
        assert head.get(at(name, cast.engagement, foreign.ref)).status_code == 404
    assert head.post(at("paperwork_accept", cast.engagement, foreign.ref)).status_code == 404


@pytest.mark.parametrize("name", ["way_choose", "statement_apply", "reading_apply", "numbers_obey"])
def test_a_reader_changes_nothing_by_any_tap(client: Client, cast: Cast, name: str) -> None:
    client.force_login(cast.reader)
    assert client.post(at(name, cast.engagement)).status_code == 403
    assert client.get(at(name, cast.engagement)).status_code == 405


def test_the_landing_page_asks_one_question_and_has_one_button(head: Client, cast: Cast) -> None:
    said = get(head, at("engagement_detail", cast.engagement))
    assert "Do the numbers run the house's way?" in said
    assert "no paperwork has been accepted" in said
    response = head.get(at("engagement_detail", cast.engagement)).content.decode()
    assert response.count('class="button"') == 1
    assert at("paperwork_receive", cast.engagement) in response


@pytest.mark.parametrize(
    ("text", "button"),
    [
        (listed(4), "Choose what to do"),
        (listed(4, "Numbering: left to right\n"), "See the question"),
        (listed(4, LEFT_TO_RIGHT, Label=["1", "2", "3", "4"]), "See what is wrong"),
        (listed(4, "Numbering: house right to house left\n"), "See the numbers"),
        (listed(1, LEFT_TO_RIGHT, Label=["9"]), "Put numbers on places"),
    ],
)
def test_the_button_follows_the_verdict(head: Client, cast: Cast, text: str, button: str) -> None:
    accept(cast.engagement, text)
    response = head.get(at("engagement_detail", cast.engagement)).content.decode()
    assert re.findall(r'class="button" [^>]*>([^<]+)<', response) == [button]


def test_a_show_is_booked_and_its_times_follow_the_houses_clocks(head: Client, cast: Cast) -> None:
    address = reverse("shows:engagement_new", args=(cast.house.slug,))
    setup = cast.house.setups.get().pk
    facts = {"name": "Tin Comet", "starts_on": "2026-03-07", "ends_on": "2026-03-09", "setup": setup}
    assert "Tin Comet is on file" in post(head, address, **facts)
    assert "has this show from that day already" in post(head, address, **facts)
    assert "last day is before the first" in post(head, address, **{**facts, "ends_on": "2026-03-01", "name": "B"})
    show = Engagement.objects.get(name="Tin Comet")
    event = {"kind": "show", "day": "2026-03-07", "starts": "20:00", "ends": "22:30"}
    assert "Added." in post(head, at("event_new", show), **event)
    row = show.events.get()
    assert (str(row.starts_at), row.zone) == ("2026-03-08 01:00:00+00:00", "America/New_York")
    change = {**event, "starts": "19:30", "version": 1}
    assert "Stored." in post(head, at("event_edit", show, row.ref), **change)
    stale = post(head, at("event_edit", show, row.ref), **{**change, "starts": "18:00"})
    assert "Somebody else changed this" in stale
    assert "Called off" in post(head, at("event_end", show, row.ref), version=2, reason="strike")
    assert not show.events.standing().exists()


def test_a_time_that_comes_twice_is_asked_and_one_that_is_jumped_over_refused(head: Client, cast: Cast) -> None:
    address = at("event_new", cast.engagement)
    jumped = {"kind": "load-out", "day": "2026-03-08", "starts": "02:30"}
    assert "does not exist in America/New_York" in post(head, address, **jumped)
    twice = {"kind": "load-out", "day": "2026-11-01", "starts": "01:30"}
    asked = post(head, address, **twice)
    assert "happens twice" in asked and "The clocks show the start twice. Which one?" in asked
    assert not cast.engagement.events.exists()
    post(head, address, **twice, starts_fold="1")
    assert str(cast.engagement.events.get().starts_at) == "2026-11-01 06:30:00+00:00"


def test_an_end_without_a_time_or_before_the_start_is_refused(head: Client, cast: Cast) -> None:
    event = {"kind": "show", "day": "2026-03-04", "starts": "20:00"}
    address = at("event_new", cast.engagement)
    assert "Write the time of the end too" in post(head, address, **event, ends_day="2026-03-05")
    assert "It ends before it starts" in post(head, address, **event, ends="19:00")
    assert not cast.engagement.events.exists()


def test_a_show_is_changed_against_its_version_and_both_are_shown(head: Client, cast: Cast) -> None:
    show = cast.engagement
    facts = {"name": "New Name", "starts_on": "2026-03-02", "ends_on": "2026-03-08", "setup": show.setup.pk}
    assert "Stored." in post(head, at("engagement_edit", show), **facts, version=1)
    both = post(head, at("engagement_edit", show), **{**facts, "name": "Third Name"}, version=1)
    assert "New Name" in both and "Third Name" in both and "Stored now" in both
    assert "Stored." in post(head, at("engagement_edit", show), **{**facts, "name": "Third Name"}, version=2)
    assert "Its record stays" in post(head, at("engagement_end", show), version=3, reason="over")
    assert "This show has ended: over." in get(head, at("engagement_detail", show))


def upload(client: Client, show: Engagement, **data: Any) -> str:
    return post(client, at("paperwork_receive", show), **data)


def test_pasted_paperwork_is_shown_as_read_before_anything_counts(head: Client, cast: Cast) -> None:
    said = upload(head, cast.engagement, text=listed(4, Channel=["A", "A", "B", "B"]))
    assert "Nothing of it counts until it is accepted" in said
    assert "The paperwork says: house left to house right" in said
    assert "from house left · stage right to house right · stage left" in said
    assert "In this house: House labels run the other way: show 1 = house 4." in said
    assert "show 3 channel B line 5: 3,B" in said
    assert "Accept 4 spots as read" in said
    assert not cast.engagement.spots.exists()
    paperwork = Paperwork.objects.get()
    accepted = post(head, at("paperwork_accept", cast.engagement, paperwork.ref), version=paperwork.version)
    assert "Accepted. Here is what it means" in accepted
    assert bound(cast.engagement)["1"] == ("4", "statement")
    again = head.post(at("paperwork_accept", cast.engagement, paperwork.ref), {"version": 2})
    assert "has ended already" in text_of(again)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        ({"text": ""}, "Choose a file, or paste the lines below"),
        ({"text": " \n"}, "Choose a file, or paste the lines below"),
        ({"text": "%PDF-1.4 nothing"}, "this is not text (pdf)"),
        ({"text": "hello\nworld"}, "no line could be a spot"),
    ],
)
def test_what_nobody_could_read_is_refused_and_not_kept(
    head: Client, cast: Cast, data: dict[str, str], told: str
) -> None:
    assert told in upload(head, cast.engagement, **data)
    assert not Paperwork.objects.exists()


def named(content: bytes, name: str) -> Any:
    return SimpleUploadedFile(name, content)


def test_a_file_and_a_text_together_are_refused_and_the_text_is_not_lost(head: Client, cast: Cast) -> None:
    said = upload(head, cast.engagement, file=named(b"Spot\n1\n", "a.csv"), text="Spot\n7\n")
    assert "There is a file and a pasted text" in said and "7" in said


def test_a_workbook_comes_in_asks_about_its_date_and_goes_out_as_it_came(head: Client, cast: Cast) -> None:
    rows = [["Numbering: house left to house right"], ["Spot", "Channel"], [1.0, "A"], [Day(46024), "A"], [3.0, "B"]]
    data = workbook({"Spots": rows}, {"xl/vbaProject.bin": b"x"})
    said = upload(head, cast.engagement, file=named(data, "../../tour list.xlsx"))
    assert "looks like a date made by a spreadsheet" in said
    assert "holds macros; they are left out and never run" in said.lower()
    assert "Show number on line 4" in said
    paperwork = Paperwork.objects.get()
    assert (paperwork.file_name, paperwork.media) == ("tour list.xlsx", "xlsx")
    mended = get(head, at("paperwork_preview", cast.engagement, paperwork.ref), **{"number-4": "1-2"})
    assert "looks like a date" not in mended and "Accept 3 spots as read" in mended
    post(head, at("paperwork_accept", cast.engagement, paperwork.ref), version=1, **{"number-4": "2"})
    assert [spot.number for spot in cast.engagement.spots.standing()] == ["1", "2", "3"]
    file = head.get(at("paperwork_file", cast.engagement, paperwork.ref))
    assert file.content == data
    assert file["Content-Disposition"] == 'attachment; filename="tour list.xlsx"'


def test_a_broken_workbook_is_refused_in_words(head: Client, cast: Cast) -> None:
    assert "damaged or cut off" in upload(head, cast.engagement, file=named(b"PK\x03\x04", "a.xlsx"))


def test_a_column_read_wrongly_is_put_right_by_a_select(head: Client, cast: Cast) -> None:
    receive(cast.engagement, "Spot,Extra,Notes\n1,A,x\n2,B,y\n")
    address = at("paperwork_preview", cast.engagement, Paperwork.objects.get().ref)
    assert "channel" not in get(head, address).partition("Columns read wrongly?")[0]
    said = get(head, address, **{"column-0": "number", "column-1": "channel", "column-2": ""})
    before = said.partition("Columns read wrongly?")[0]
    assert "channel A" in before and "notes" not in before
    page = head.get(address, {"column-0": "number", "column-1": "channel", "column-2": ""}).content.decode()
    hidden = dict(re.findall(r'<input type="hidden" name="(map-[^"]+)" value="([^"]*)">', page))
    assert hidden == {"map-channel": "B", "map-notes": ""}
    post(head, at("paperwork_accept", cast.engagement, Paperwork.objects.get().ref), version=1, **hidden)
    spot = cast.engagement.spots.get(number="2")
    assert (spot.channel, spot.notes) == ("B", "")
    assert Paperwork.objects.get().columns == {"channel": "B", "notes": ""}
    assert "channel B" in get(head, address)


def test_which_of_two_columns_holds_the_numbers_is_asked(head: Client, cast: Cast) -> None:
    said = upload(head, cast.engagement, text="Spot,Show number,Channel\n9,1,A\n8,2,B\n")
    assert "Which column holds the show number?" in said
    address = at("paperwork_preview", cast.engagement, Paperwork.objects.get().ref)
    assert "show 1" in get(head, address, **{"map-number": "B"})


@pytest.mark.parametrize(
    "query",
    [
        {"map-number": "nowhere"},
        {"map-nonsense": "A"},
        {"column-99": "number", "column-x": "notes", "column-²": "a"},
        {"number-2": "x" * 500},
        {"statement": "clockwise " * 200},
        {"map-number": "A", "map-label": "A"},
        {"number-2": "a\0b"},
    ],
)
def test_nonsense_in_the_address_is_answered_in_words(head: Client, cast: Cast, query: dict[str, str]) -> None:
    receive(cast.engagement, listed(2, Label=["1", "2"]))
    address = at("paperwork_preview", cast.engagement, Paperwork.objects.get().ref)
    assert head.get(address, query).status_code == 200
    assert head.post(at("paperwork_accept", cast.engagement, Paperwork.objects.get().ref), query).status_code in {
        200,
        302,
    }


def test_a_second_upload_is_held_against_the_first_and_names_what_hands_did(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4, Channel=["A", "A", "B", "B"]))
    spots = list(cast.engagement.spots.standing())
    places = {label: str(place.ref) for label, place in _places(cast).items()}
    data = {f"place-{spot.ref}-0": places[str(5 - n)] for n, spot in enumerate(spots, start=1)}
    data |= {f"version-{spot.ref}": spot.version for spot in spots}
    first, last = spots[0], spots[3]
    data[f"place-{first.ref}-0"], data[f"place-{last.ref}-0"] = places["1"], places["4"]
    assert "What was put by hand stays" in post(head, at("assign", cast.engagement), **data)
    assert bound(cast.engagement)["4"] == ("4", "hand") and bound(cast.engagement)["2"] == ("3", "statement")
    said = upload(head, cast.engagement, text=listed(3, Channel=["A", "C", "B"]) + "\n5,D")
    assert "Added: show 5." in said
    assert "Show 2 changes: channel." in said
    assert "Gone: show 4." in said
    assert "Show 4 was put on its place by hand. The number is gone" in said


def _places(cast: Cast) -> dict[str, Any]:
    return {place.label: place for place in cast.house.positions.get(name="Rear booth").places.all()}


def test_the_same_place_for_two_numbers_is_refused_and_nothing_typed_is_lost(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(2))
    spots = list(cast.engagement.spots.standing())
    one = str(_places(cast)["1"].ref)
    data = {f"place-{spot.ref}-0": one for spot in spots} | {f"version-{spot.ref}": spot.version for spot in spots}
    response = head.post(at("assign", cast.engagement), data)
    assert "Show 1 stands there already" in text_of(response)
    assert response.content.decode().count(f'value="{one}" selected') == 2
    stale = {**data, f"place-{spots[1].ref}-0": "none", f"version-{spots[0].ref}": 1, f"version-{spots[1].ref}": 1}
    assert "Somebody else changed this" in text_of(head.post(at("assign", cast.engagement), stale))


def test_wrong_lights_are_to_fix_above_the_plan_and_one_tap_obeys_the_tours_rule(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4, LEFT_TO_RIGHT, Label=["1", "2", "3", "4"]))
    page = head.get(at("compare", cast.engagement)).content.decode()
    said = text_of(head.get(at("compare", cast.engagement)))
    assert "FIX Wrong lights: this breaks the tour's own numbering." in said
    assert page.index("verdict-fix") < page.index('<svg class="plan"')
    assert "TELL" not in said
    assert page.count('class="button"') == 1
    after = post(head, at("numbers_obey", cast.engagement))
    assert "FIX" not in after and "TELL Right lights, different paint." in after


def test_different_paint_is_told_below_the_plan_with_choices_and_prices(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4))
    page = head.get(at("compare", cast.engagement)).content.decode()
    said = text_of(head.get(at("compare", cast.engagement)))
    assert page.index('<svg class="plan"') < page.index('class="tell"')
    assert "House labels run the other way: show 1 = house 4." in said
    assert "House order not walked: Rear booth." in said
    for price in ("Price: 4 tapes", "Price: 4 operators stand elsewhere", "Price: 4 numbers, and the caller's yes"):
        assert price in said
    assert "Kendall's tau -1.000" in said and "Cycles: 1 → 4 → 1; 2 → 3 → 2" in said
    chosen = post(head, at("way_choose", cast.engagement), way="tape")
    assert "Chosen: tape the lamps." in chosen and "Tape the lamps: 4 tapes. Chosen by Head" in chosen
    assert "house 1: tape “4”" in chosen
    assert "not offered any more" in post(head, at("way_choose", cast.engagement), way="swap")


def test_the_stage_view_is_the_plan_turned(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4))
    from_stage = head.get(at("compare", cast.engagement), {"view": "stage"}).content.decode()
    edges = re.findall(r'class="plan-edge-house"[^>]*>([^<]+)<', from_stage)
    assert edges == ["HOUSE RIGHT ·", "HOUSE LEFT ·"]
    assert "YOU, on stage, facing the house" in from_stage
    svg = from_stage.partition('<svg class="plan"')[2].partition("</svg>")[0]
    assert "style=" not in svg


def test_an_open_question_is_worded_for_the_tour_and_answered_by_a_tap(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4, "Numbering: left to right\n"))
    page = head.get(at("compare", cast.engagement)).content.decode()
    said = unescape(page)
    assert "follow spots: Left and right as seen from the house, or from the stage?</textarea>" in said
    assert page.count('<svg class="plan"') == 2
    assert 'id="reading-0-title"' in page and 'id="reading-1-title"' in page
    version = cast.engagement.version
    answer = {"reading": "stage", "statement": "left to right, as seen from the stage", "version": version}
    assert "AGREED" in post(head, at("reading_apply", cast.engagement), **answer)
    assert "Somebody else changed this" in post(head, at("reading_apply", cast.engagement), **answer)
    assert "tap again" in post(head, at("reading_apply", cast.engagement), reading="stage")


def test_a_missing_convention_offers_what_it_could_be(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4, ""))
    said = get(head, at("compare", cast.engagement))
    assert "How does the show count: from which side, and whose left?" in said
    assert "It could be house left to house right house right to house left" in said
    own = post(head, at("statement_apply", cast.engagement), statement="HR to HL", version=cast.engagement.version)
    assert "Show numbers are the house labels." in own
    long = post(head, at("statement_apply", cast.engagement), statement="x" * 601, version=3)
    assert "at most 600 characters" in long


def test_the_table_to_send_back_is_a_file_that_no_spreadsheet_computes(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4))
    file = head.get(at("renumbered", cast.engagement))
    assert file.content.decode().splitlines()[:2] == ["show number,becomes", "1,4"]
    accept(cast.engagement, listed(4, "Numbering: house right to house left\n"))
    assert head.get(at("renumbered", cast.engagement)).status_code == 404


def test_places_in_use_are_corrected_by_a_tap(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(3))
    said = get(head, at("place_list", cast.engagement))
    assert "Place 4: in use" in said and "Take 4 out of use" in said and "; show 1" in said
    place = _places(cast)["4"]
    address = at("place_use", cast.engagement, place.ref)
    assert "Rear booth, place 4 is not in use." in post(head, address, in_use="no", version=0)
    assert bound(cast.engagement)["1"] == ("3", "statement")
    assert "Somebody else changed this" in post(head, address, in_use="yes", version=0)
    assert "tap again" in post(head, address, in_use="maybe")
    foreign = stock(make_show().house)[0]
    assert head.post(at("place_use", cast.engagement, foreign.ref)).status_code == 404


def test_a_show_brings_a_truss_for_itself_alone(head: Client, cast: Cast) -> None:
    row = {"name": "Tour truss", "zone": "overhead", "kind": "truss", "how_many": 2, "labels": "T1 T2"}
    said = post(head, at("row_bring", cast.engagement), **row)
    assert "Added for this show only" in said and "Tour truss of this show only Place T1: in use" in said
    assert "has a position of this name already" in post(head, at("row_bring", cast.engagement), **row)
    assert "Tour truss" not in get(head, at("place_list", make_show(cast.house, "Other")))


def stand_at(show: Engagement, booth: Position, client: Client, **data: Any) -> str:
    return post(client, at("place_bring", show, booth.ref), **{"label": "Stand", "way": "measured", **data})


BESIDE = {"from_center": "6 m", "side": "house left", "height": "14 m", "from_plaster": "38 m", "direction": "house"}
"""Farther house left than every place that is stocked."""


@pytest.mark.parametrize("who", ["head", "road"])
def test_head_and_road_bring_a_single_place_into_a_position_and_it_takes_its_number(
    client: Client, cast: Cast, who: str
) -> None:
    client.force_login(getattr(cast, who))
    accept(cast.engagement, listed(5))
    said = stand_at(cast.engagement, cast.house.positions.get(), client, **BESIDE)
    assert "The place was added for this show only. It is in use." in said
    assert "Place Stand of this show only: in use" in said
    assert bound(cast.engagement)["1"][0] == "Stand"
    other = make_show(cast.house, "Other")
    client.force_login(cast.head)
    assert "Stand" not in get(client, at("place_list", other))


@pytest.mark.parametrize(("who", "status"), [("reader", 403), ("dispatch", 404), ("stranger", 404)])
def test_nobody_else_brings_a_place(client: Client, cast: Cast, who: str, status: int) -> None:
    client.force_login(getattr(cast, who))
    address = at("place_bring", cast.engagement, cast.house.positions.get().ref)
    assert client.get(address).status_code == status
    assert client.post(address, {"label": "Stand", "way": "measured", **BESIDE}).status_code == status
    assert not Place.objects.filter(label="Stand").exists()


def test_a_brought_place_needs_a_free_label_and_says_where_it_stands(head: Client, cast: Cast) -> None:
    booth = cast.house.positions.get()
    assert "The house has a place of this label there already" in stand_at(
        cast.engagement, booth, head, label="1", **BESIDE
    )
    said = stand_at(cast.engagement, booth, head)
    assert "Write the distance from the center line" in said and "Write the height of the lens" in said
    assert not cast.engagement.own_places.exists()


def test_a_place_is_brought_into_no_position_of_another_show_or_house(head: Client, cast: Cast) -> None:
    other = make_show(cast.house, "Other")
    tower = add_tour_position(actor=ACTOR, engagement=other, name="Tower")
    foreign = make_position(make_show().house, name="Elsewhere")
    for position in (tower, foreign):
        assert head.get(at("place_bring", cast.engagement, position.ref)).status_code == 404


def test_a_show_that_ended_takes_nothing_more_and_says_so(head: Client, cast: Cast) -> None:
    accept(cast.engagement, listed(4))
    end_engagement(actor=ACTOR, engagement=cast.engagement, at=NOON, reason="called off")
    assert "has ended already" in post(head, at("way_choose", cast.engagement), way="tape")
    assert "has ended already" in upload(head, cast.engagement, text=listed(2))


def test_a_verdict_comes_without_any_file_and_nothing_is_stored(head: Client, cast: Cast) -> None:
    query = {"zone": "front", "how_many": 4, "labels": "4 3 2 1", "how_many_spots": 4}
    said = get(head, reverse("shows:quick"), **query, counts="house left to house right")
    assert "House labels run the other way: show 1 = house 4." in said
    assert "Tape the lamps: 4 tapes" in said
    assert f"take it into a house: {cast.house.name}" in said
    assert Engagement.objects.count() == 1
    bowl = {**query, "zone": "bowl", "labels": "", "counts": "own words", "own_words": "clockwise from house label 2"}
    assert "Same way round; show 1 = house 2." in get(head, reverse("shows:quick"), **bowl)
    turned = {**bowl, "counts": "counterclockwise from house label", "own_words": "4"}
    assert "Other way round; show 1 = house 4." in get(head, reverse("shows:quick"), **turned)


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ({"how_many": 4}, "This field is required"),
        ({"how_many": 4, "labels": "1 2", "how_many_spots": 2}, "There are 2 labels here for 4 places"),
        ({"how_many": 4, "how_many_spots": 2, "counts": "own words"}, "Write how the show counts"),
        ({"how_many": 4, "how_many_spots": 99, "counts": "own words"}, "less than or equal to 60"),
    ],
)
def test_the_quick_door_names_what_is_missing(head: Client, cast: Cast, query: dict[str, Any], told: str) -> None:
    assert told in get(head, reverse("shows:quick"), **query)


def test_the_quick_door_takes_positions_on_file_and_keeps_them_for_a_head(head: Client, cast: Cast) -> None:
    position = str(cast.house.positions.get().ref)
    query = {"positions": position, "zone": "front", "how_many_spots": 4, "counts": "house left to house right"}
    address = reverse("shows:quick_in_house", args=(cast.house.slug,))
    assert "show 1 = house 4" in get(head, address, **query)
    keep = reverse("shows:quick_keep", args=(cast.house.slug,))
    days = {"show": "Quick One", "starts_on": "2026-03-10", "ends_on": "2026-03-10"}
    assert "Kept." in post(head, keep, **query, **days)
    row = {**query, "positions": [], "how_many": 2, "labels": "X Y", "how_many_spots": 2}
    assert "Name the row" in post(head, keep, **row, **{**days, "show": "Two"})
    assert "Kept." in post(head, keep, **row, **{**days, "show": "Two"}, row_name="New rail")
    assert {label for label, _ in bound(Engagement.objects.get(name="Two")).values()} == {"X", "Y"}


def test_keeping_is_for_the_head_alone(client: Client, cast: Cast) -> None:
    for who, status in ((cast.reader, 403), (cast.road, 404), (cast.stranger, 404)):
        client.force_login(who)
        assert client.get(reverse("shows:quick_keep", args=(cast.house.slug,))).status_code == status
        assert client.get(reverse("shows:quick")).status_code == 200


@pytest.mark.parametrize("name", ["engagement_detail", "compare", "place_list", "assign"])
def test_a_page_asks_as_much_of_the_database_for_60_places_as_for_2(
    client: Client, django_user_model: Any, name: str
) -> None:
    counts = []
    with time_machine.travel(NOON + timedelta(hours=1), tick=False):
        cast = the_cast()
        client.force_login(cast.head)
        for count in (2, 60):
            show = make_show(cast.house, f"Show of {count}")
            for position in cast.house.positions.all():
                for place in position.places.all():
                    show.place_uses.create(place=place, in_use=False)
            stock(cast.house, count, f"Booth of {count}")
            accept(show, listed(count))
            choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON)
            client.get(at(name, show))
            with CaptureQueriesContext(connection) as captured:
                client.get(at(name, show))
            counts.append(len(captured))
    assert counts[0] == counts[1] <= 32


def test_every_way_of_counting_that_is_offered_gives_a_verdict(head: Client, cast: Cast) -> None:
    for value, _label in COUNTS:
        zone = "bowl" if "clockwise" in value else "front"
        query = {"zone": zone, "how_many": 6, "how_many_spots": 6, "counts": value, "own_words": "2"}
        if value not in {OWN_WORDS, NEEDS_BEARINGS}:
            assert "ASK" not in get(head, reverse("shows:quick"), **query), value
