"""The advance: what is open and what the book finds open, the house's answer by a link, its confirmation."""

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
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

from shows.actions import bind_spots, change_show_asks, decide, end_engagement, put_spots, set_place_use
from shows.actions.advance import add_point, answer_point, end_point, note_point, reopen_point
from shows.actions.arrival_links import end_advance_link, renew_advance_link, renew_arrival_link
from shows.advance import Advance, advance_of
from shows.advance_answer import told_outside
from shows.core.advance import Numbering, OpenPoint, Told, changed_parts, digests, open_points
from shows.core.fit.records import Finding
from shows.core.numbering.records import Comparison, Flag, House
from shows.errors import AnswerChanged, NoShowLink, PointAnswered, PointNoted
from shows.facts import SpotFacts
from shows.models import AdvanceItem, Engagement
from shows.wording.advance import finding_outside, noted_as
from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, errors_of, send, words
from venue.actions import place_unit, send_away
from venue.errors import AlreadyEnded, Invalid, StaleVersion
from venue.models import Event, Link
from venue.views.asking import ASKED_A_MINUTE


@pytest.fixture(autouse=True)
def a_fresh_minute() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def cast(db: None) -> Cast:
    cast = the_cast()
    stocked(cast.engagement)
    return cast


def stocked(show: Engagement, count: int = 2, name: str = "Rear booth") -> None:
    """Numbers at places in a row that are painted the same, each unit with four frames; number 1 asks for five."""
    position = make_position(show.house, name)
    told = [SpotFacts(f"{n}", frames=("C-1", "", "", "", "C-9") if n == 1 else ()) for n in range(1, count + 1)]
    spots = put_spots(actor=ACTOR, engagement=show, spots=told, at=NOON - hours(5))
    for index, spot in enumerate(spots, start=1):
        place = make_place(position, f"{index}", x_m=float(index), y_m=-38.0, z_m=12.0)
        unit = make_unit(show.house, f"{name[0]}-{index}", frames=4, frame_1_end="lens")
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON - timedelta(days=9))
        bind_spots(actor=ACTOR, engagement=show, places={spot: [place]}, at=NOON - hours(5))


def page(show: Engagement, tail: str = "") -> str:
    return reverse("shows:advance", args=[show.ref]) + tail


def link(cast: Cast) -> str:
    until = NOON + hours(6)
    made = renew_advance_link(actor=ACTOR, engagement=cast.engagement, now=NOON, until=until)
    return reverse("shows:advance_read", args=[made.link.ref, made.secret])


def found(show: Engagement) -> Advance:
    return advance_of(Engagement.objects.select_related("house", "setup").get(pk=show.pk), NOON)


def asked(show: Engagement, what: str = "Gels sent ahead?", owed_by: str = "tour", **facts: Any) -> AdvanceItem:
    return add_point(actor=ACTOR, engagement=show, what=what, owed_by=owed_by, **facts)


def in_order(said: str, *wanted: str) -> bool:
    at = [said.find(each) for each in wanted]
    return -1 not in at and at == sorted(at)


# What the book finds open, without rows
CLEAR = Numbering(kind="agree", is_asked=False, is_stated=True, way_is_open=False)
ALL_TOLD = Told("1", True, True, True, True, True)


def points(*told: Told, numbering: Numbering = CLEAR, **facts: Any) -> list[tuple[str, str, Sequence[str]]]:
    said: dict[str, Any] = {"says_frame_1_end": True, "unexplained": (), "undecided": (), **facts}
    return [(point.code, point.owed_by, point.names) for point in open_points(told or [ALL_TOLD], numbering, **said)]


def test_a_show_that_said_everything_has_nothing_open_and_one_without_numbers_its_paperwork() -> None:
    assert points() == []
    assert open_points([], CLEAR, says_frame_1_end=False, unexplained=(), undecided=()) == (
        OpenPoint("no-numbers", "tour"),
    )


def test_what_is_not_told_is_one_point_a_kind_with_its_numbers() -> None:
    nothing = [Told(number, False, False, False, False, False) for number in ("1", "2")]
    numbers = ("1", "2")
    assert points(ALL_TOLD, *nothing, says_frame_1_end=False, unexplained=("C-9",)) == [
        ("no-place", "house", numbers),
        ("no-frames", "tour", numbers),
        ("no-gel-by", "tour", numbers),
        ("no-on-camera", "tour", numbers),
        ("no-frame-1-end", "tour", ()),
        ("colors", "tour", ("C-9",)),
    ]


NO_RULE = (Flag("convention-missing", {"numbers": ("1",)}),)
TWO_WORDS = (Flag("unclear", {"open": ("whose", "rows")}),)
TWICE = (Flag("duplicate", {"numbers": ("1",)}), Flag("spare", {}))
NUMBERINGS: tuple[tuple[str, Numbering, list[str]], ...] = (
    ("against its own rule", Numbering("fix", False, True, False), ["against-rule"]),
    ("nobody chose a way", Numbering("tell", False, True, True), ["way"]),
    ("a statement read in two ways", Numbering("ask", True, True, False, TWO_WORDS), ["unclear", "unclear"]),
    ("no statement, and it is needed", Numbering("ask", True, False, False, NO_RULE), ["how-it-counts"]),
    ("no statement, all placed by hand", Numbering("tell", False, False, False, NO_RULE), ["no-statement"]),
    ("a label twice, and spare places", Numbering("agree", False, True, False, TWICE), ["duplicate"]),
)


@pytest.mark.parametrize(("story", "numbering", "expected"), NUMBERINGS, ids=lambda each: str(each)[:40])
def test_the_numbering_leaves_open_what_the_tour_has_to_say(
    story: str, numbering: Numbering, expected: list[str]
) -> None:
    by_hand = Told("1", True, False, True, True, True)
    assert [code for code, _side, _names in points(by_hand, numbering=numbering)] == expected, story


def test_only_findings_that_the_road_side_may_decide_are_open_with_the_tour() -> None:
    short = Finding("frame-short", "stops", "1", "5", decider="road")
    others = [
        Finding("circuit-over", "stops", "1", decider="electrician"),
        Finding("check-failed", "stops", "1", decider="road", may_be_decided=False),
    ]
    assert points(undecided=[short, *others]) == [("undecided", "tour", ("1",))]


def test_the_hash_of_the_whole_follows_every_part_and_the_parts_tell_which() -> None:
    parts: dict[str, Any] = {"show": ["Nine", date(2026, 3, 2)], "numbers": [], "findings": [], "points": []}
    before, now = digests(parts), digests({**parts, "numbers": [["1"]]})
    assert before == digests(dict(reversed(parts.items())))
    assert before["whole"] != now["whole"]
    assert changed_parts(before, now) == ("numbers",)
    assert changed_parts({}, now) == ("show", "numbers", "findings", "points")


def test_findings_of_one_kind_are_one_point_in_words_that_name_every_number() -> None:
    unit: dict[str, object] = {"holds": "C", "unit": "R", "frames": 4}
    short = [
        Finding("frame-short", "stops", number, frame, decider="road", facts=unit | {"frame": frame})
        for number, frame in (("1", "5"), ("1", "6"), ("2", "5"))
    ]
    told: dict[str, Any] = {"says_frame_1_end": True, "unexplained": ()}
    nothing = Comparison(House(()), (), None, None, (), (), ())
    (one,) = open_points([ALL_TOLD], CLEAR, undecided=short[:2], **told)
    (both,) = open_points([ALL_TOLD], CLEAR, undecided=short, **told)
    assert noted_as(one, nothing, "metric") == (
        "To be decided for show 1: Frame 5 (C): R has 4 frames; Frame 6 (C): R has 4 frames."
    )
    assert noted_as(both, nothing, "metric") == (
        "To be decided for show 1, 2. Show 1, for instance: Frame 5 (C): R has 4 frames."
    )


# The list
def test_points_come_by_date_the_overdue_said_in_words_and_are_answered_with_a_name(cast: Cast) -> None:
    head, show = as_user(cast.head), cast.engagement
    asked(show, "No date")
    asked(show, "Later", due_on=date(2026, 3, 9))
    send(head, page(show, "new/"), what="Late", owed_by="house", due_on="2026-03-01")
    said = words(head.get(page(show)))
    assert "3 points are open with the tour, 1 overdue." in said
    late, later = "Late Owed by the house · overdue: was due on Mar 1, 2026", "Later Owed by the tour · by Mar 9"
    assert in_order(said, late, later, "No date Owed by the tour · no date set")
    point = AdvanceItem.objects.get(what="Late")
    send(head, f"{page(show)}{point.ref}/done/", answer="Six sent", by="Hollis Varga")
    point.refresh_from_db()
    assert (point.answer, point.done_by, point.done_at) == ("Six sent", "Hollis Varga", NOON)
    said = words(head.get(page(show)))
    assert in_order(said, "No date Owed", "Answered", "Late Six sent Hollis Varga, Mar 2, 2026, 7:00 AM")


def test_a_point_is_changed_opened_again_and_ended_and_nothing_of_it_is_lost(cast: Cast) -> None:
    road, point = as_user(cast.road), asked(cast.engagement)
    own = f"{page(cast.engagement)}{point.ref}/"
    assert send(road, f"{own}edit/", what="Gels sent?", owed_by="house", due_on="2026-03-04").status_code == 302
    send(road, f"{own}done/", answer="On the truck", by="Rowan Sedge")
    point.refresh_from_db()
    road.post(f"{own}again/", {"version": point.version})
    said = words(road.get(page(cast.engagement)))
    assert "Gels sent? Owed by the house · by Mar 4, 2026 Said before: On the truck" in said
    assert errors_of(send(road, f"{own}end/", reason=" "))["reason"] == ["This field is required."]
    send(road, f"{own}end/", reason="they tour without color")
    assert "Gels sent?" not in words(road.get(page(cast.engagement)))
    assert road.get(f"{own}edit/").status_code == 404
    lines = Event.objects.about("advanceitem", point.ref)
    assert list(lines.values_list("verb", flat=True)) == [
        *("advance.added", "advanceitem.changed", "advance.answered", "advance.reopened", "advance.ended"),
    ]


WRONG: tuple[tuple[dict[str, str], str, str], ...] = (
    ({"what": ""}, "what", "This field is required."),
    ({"what": "x" * 201}, "what", "Ensure this value has at most 200"),
    ({"what": "a\0b"}, "what", "Null characters are not allowed."),
    ({"owed_by": "nobody"}, "owed_by", "Select a valid choice."),
    ({"due_on": "soon"}, "due_on", "Enter a valid date."),
    ({"due_on": "99999-01-01"}, "due_on", "Enter a valid date."),
)


def test_what_is_not_told_right_is_named_and_nothing_is_stored(cast: Cast) -> None:
    head = as_user(cast.head)
    for sent, field, message in WRONG:
        answer = head.post(page(cast.engagement, "new/"), {"what": "Gels?", "owed_by": "tour", **sent})
        assert errors_of(answer)[field][0].startswith(message), (sent, errors_of(answer))
    for sent in ({"version": "NaN"}, {"version": "-1"}, {}):
        point = asked(cast.engagement)
        answer = head.post(f"{page(cast.engagement)}{point.ref}/again/", sent, follow=True)
        assert "Load the page anew" in words(answer)
    assert not AdvanceItem.objects.exclude(what="Gels sent ahead?").exists()


def test_two_people_at_one_point_do_not_write_over_each_other(cast: Cast) -> None:
    point = asked(cast.engagement)
    stale = AdvanceItem.objects.select_related("engagement__house").get(pk=point.pk)
    facts: dict[str, Any] = {"actor": ACTOR, "answer": "Yes", "at": NOON}
    with pytest.raises(Invalid):
        answer_point(point=point, by=" ", seen=1, **facts)
    answer_point(point=point, by="Ada", seen=1, **facts)
    with pytest.raises(PointAnswered, match="Ada"):
        answer_point(point=stale, by="Dov", seen=1, **facts)
    with pytest.raises(StaleVersion):
        reopen_point(actor=ACTOR, point=point, seen=1)
    point.refresh_from_db()
    end_point(actor=ACTOR, point=point, at=NOON, reason="agreed")
    with pytest.raises(AlreadyEnded):
        end_point(actor=ACTOR, point=point, at=NOON, reason="agreed")


# What the book finds open
def test_one_tap_notes_what_the_book_finds_open_and_a_new_number_is_told_anew(cast: Cast) -> None:
    head, show = as_user(cast.head), cast.engagement
    said = words(head.get(page(show)))
    for wanted in (
        "How does the show count? Its paperwork does not say.",
        "What goes into the frames? Not told: show 2.",
        "Who brings the color? Not told: show 1, 2.",
        "At which end is the show's frame 1? Not told.",
        "Is it on camera? Not told: show 1, 2.",
        "Which colors are these? Nobody explained: C-1, C-9.",
        "To be decided for show 1: Frame 5 (C-9): R-1 has 4 frames.",
    ):
        assert wanted in said, wanted
    assert not AdvanceItem.objects.exists()
    head.post(page(show, "note/"), {"point": "no-gel-by:"})
    item = AdvanceItem.objects.get()
    assert (item.what, item.owed_by) == ("Who brings the color? Not told: show 1, 2.", "tour")
    assert "This is noted already" in words(head.post(page(show, "note/"), {"point": "no-gel-by:"}, follow=True))
    assert "does not find this open any more" in words(head.post(page(show, "note/"), {"point": "x"}, follow=True))
    assert AdvanceItem.objects.count() == 1
    answer_point(actor=ACTOR, point=item, answer="We do", by="Ada", at=NOON, seen=1)
    assert "Answered by Ada, not in the book yet." in words(head.get(page(show)))
    told = [SpotFacts(f"{n}", frames=("C-1",)) for n in (1, 2, 3)]
    put_spots(actor=ACTOR, engagement=show, spots=told, at=NOON)
    assert "Who brings the color? Not told: show 1–3." in [
        noted_as(each.point, found(show).comparison, "metric") for each in found(show).to_note
    ]


def test_what_was_said_is_open_no_more_and_a_point_is_noted_once(cast: Cast) -> None:
    show = cast.engagement
    point = found(show).to_note_as("no-frame-1-end:")
    assert point is not None
    note_point(actor=ACTOR, engagement=show, point=point, what="x" * 200)
    with pytest.raises(PointNoted):
        note_point(actor=ACTOR, engagement=show, point=point, what="once more")
    change_show_asks(actor=ACTOR, engagement=show, seen=show.version, values={"frame_1_end": "lens", "on_camera": True})
    keys = {each.point.key for each in found(show).found}
    assert not keys & {"no-frame-1-end:", "no-on-camera:"}


# The link
def test_the_link_is_shown_once_and_opens_the_answer_without_an_account(cast: Cast) -> None:
    road = as_user(cast.road)
    form = road.get(page(cast.engagement)).context["form"]
    assert str(form["until"].value()) == "2026-03-03 05:00:00"  # the end of the first day, where days turn at 5
    answer = road.post(page(cast.engagement, "link/"), {"until": "2026-03-02T22:00"}, follow=True)
    (address,) = re.findall(r'readonly value="http://testserver([^"]+)"', answer.content.decode())
    assert "readonly" not in road.get(page(cast.engagement)).content.decode()
    before = Event.objects.count(), Session.objects.count()
    shown = Client().get(address)
    said = words(shown)
    assert "Nine Paper Boats, Quillmark Hall, Mar 2 – Mar 8, 2026" in said
    assert "Rear booth" in said
    assert "R-1, 4 frames, frame 1 at the lens end" in said
    assert "Stops the show: Frame 5 (C-9): R-1 has 4 frames. Nothing decided yet." in said
    assert (shown["X-Robots-Tag"], shown["Cache-Control"]) == ("noindex, nofollow", "no-store")
    assert page(cast.engagement) not in shown.content.decode()
    assert (Event.objects.count(), Session.objects.count()) == before
    assert Link.objects.get().last_used_at is None


def test_a_link_that_is_wrong_over_off_or_for_something_else_opens_one_and_the_same_page(cast: Cast) -> None:
    show, point = cast.engagement, asked(cast.engagement)
    old, new = link(cast), link(cast)
    check = renew_arrival_link(actor=ACTOR, engagement=show, now=NOON, until=NOON + hours(6))
    ref, secret = new.split("/")[2:4]
    assert Client().get(new).status_code == 200
    refused = [old, f"/advance/{ref}/wrong/", f"/advance/{uuid4()}/{secret}/", f"{old}{point.ref}/"]
    refused += [reverse("shows:advance_read", args=[check.link.ref, check.secret]), f"/arrive/{ref}/{secret}/"]
    pages = [Client().get(address) for address in refused]
    with time_machine.travel(NOON + hours(7), tick=False):
        pages.append(Client().post(new, {"name": "Rowan Sedge", "sha256": "x"}))
    end_advance_link(actor=ACTOR, engagement=show, now=NOON)
    pages.append(Client().get(new))
    assert {(answer.status_code, words(answer)) for answer in pages} == {(404, words(pages[0]))}
    assert Client().get(reverse("shows:arrive", args=[check.link.ref, check.secret])).status_code == 200
    with pytest.raises(NoShowLink):
        end_advance_link(actor=ACTOR, engagement=show, now=NOON)
    last = link(cast)
    end_engagement(actor=ACTOR, engagement=show, at=NOON, reason="called off")
    assert Client().get(last).status_code == 404


def test_trying_links_is_limited_and_a_tour_that_reads_is_not(cast: Cast) -> None:
    address = link(cast)
    tries = [Client().get(f"/advance/{uuid4()}/wrong/").status_code for _try in range(ASKED_A_MINUTE + 1)]
    assert (set(tries[:-1]), tries[-1]) == ({404}, 429)
    assert Client().get(address).status_code == 200


def test_the_tour_answers_what_it_owes_with_a_name_and_nothing_else(cast: Cast) -> None:
    address, browser = link(cast), Client()
    own, houses = asked(cast.engagement), asked(cast.engagement, "A place for spot 2", "house")
    tell = f"{address}{own.ref}/"
    assert browser.get(f"{address}{houses.ref}/").status_code == 404
    assert errors_of(browser.post(tell, {"version": 1, "by": "Ada"}))["answer"] == ["This field is required."]
    answer = browser.post(tell, {"version": 1, "by": "Rowan Sedge", "answer": "On truck 2"}, follow=True)
    assert "Gels sent ahead? On truck 2 Rowan Sedge, Mar 2, 2026, 7:00 AM" in words(answer)
    assert answer.context["form"]["name"].value() == "Rowan Sedge"
    line = Event.objects.get(verb="advance.answered")
    assert (line.actor_kind, line.actor_name) == ("link", "Rowan Sedge, by the advance link")
    assert Link.objects.get().last_used_at == NOON
    assert "Rowan Sedge answered this already" in words(browser.get(tell, follow=True))
    assert errors_of(browser.post(tell, {"version": 2, "by": "Ada", "answer": "x"}))["__all__"]


# The confirmation
def test_the_tours_head_confirms_what_was_shown_and_both_sides_see_what_changed_since(cast: Cast) -> None:
    address, browser, head, show = link(cast), Client(), as_user(cast.head), cast.engagement
    shown = confirm(browser, address, found(show).answer.sha256["whole"])
    said = "Confirmed by Rowan Sedge, Mar 2, 2026, 7:00 AM"
    assert f"{said}: for the answer as it stands." in words(shown)
    assert f"{said}: for the answer as it stands." in words(head.get(page(show)))
    finding = next(each.finding for each in found(show).answer.numbers[0].findings)
    facts: dict[str, Any] = {"way": "drop", "by": "Hollis Varga", "at": NOON, "reason": "ask ada@example.org first"}
    decide(actor=ACTOR, engagement=show, spot=show.spots.get(number="1"), finding=finding, **facts)
    asked(show)
    changed = words(browser.get(address))
    assert f"{said}. Changed since: what was found or decided, what is open or answered." in changed
    assert "Leave that frame out: ask … first (Hollis Varga, Mar 2, 2026, 7:00 AM)" in changed
    assert "Gels sent ahead?" in changed
    again = browser.post(address, {"name": "Rowan Sedge", "sha256": shown.context["sha256"]})
    assert errors_of(again)["__all__"] == [str(AnswerChanged())]
    confirm(browser, address, found(show).answer.sha256["whole"])
    assert words(head.get(page(show))).count("for the answer as it stands") == 1
    assert Event.objects.filter(verb="advance.confirmed").count() == 2
    assert "name" in errors_of(browser.post(address, {"name": " ", "sha256": "x"}))


def confirm(browser: Client, address: str, sha256: str) -> HttpResponse:
    shown = browser.get(address)
    assert f'name="sha256" value="{sha256}"' in shown.content.decode()
    return browser.post(address, {"name": "Rowan Sedge", "sha256": sha256}, follow=True)


def test_the_answer_tells_nothing_of_where_a_unit_of_the_house_went(cast: Cast) -> None:
    unit = cast.house.units.get(tag="R-2")
    use = {"place": unit.placements.get().place, "in_use": True, "at": NOON - hours(2), "seen": 0}
    set_place_use(actor=ACTOR, engagement=cast.engagement, **use)
    where: dict[str, Any] = {"to": "lent", "words": "Gullwater Playhouse, for Tin Orchard"}
    send_away(actor=ACTOR, unit=unit, at=NOON - hours(1), **where)
    said = words(Client().get(link(cast)))
    assert "No unit stands at Rear booth, place 2." in said
    assert "Gullwater" not in said
    assert "Gullwater" in words(as_user(cast.head).get(reverse("shows:fit", args=[cast.engagement.ref])))


def test_the_answer_names_no_event_of_another_show() -> None:
    own, other = uuid4(), uuid4()
    lamp = {"unit": "R-1", "lamp": "L-1", "event": "Tin Orchard, show"}
    ends = {ref: Finding("lamp-will-not-last", "stops", "1", f"L-1 {ref}", facts=lamp) for ref in (own, other)}
    said = {ref: finding_outside(told_outside(finding, {own}), "metric") for ref, finding in ends.items()}
    assert said[own] == "Lamp L-1 in R-1 passes its stop in: Tin Orchard, show"
    assert said[other] == "Lamp L-1 in R-1 passes its stop before the show is over"
    assert str(other) not in told_outside(ends[other], {own}).about


# Readers, costs
def test_readers_look_and_can_not_write(cast: Cast) -> None:
    reader, point = as_user(cast.reader), asked(cast.engagement)
    for tail in ("", "answer/"):
        answer = reader.get(page(cast.engagement, tail))
        assert answer.status_code == 200
        assert '<button class="button' not in answer.content.decode().split("<footer")[0].split("<main")[1]
    assert reader.get(f"{page(cast.engagement)}{point.ref}/done/").status_code == 403


def test_the_pages_cost_as_many_queries_with_twenty_numbers_and_points_as_with_two(db: None) -> None:
    cast = the_cast()
    costs = []
    for count, name in ((2, "Rear booth"), (20, "Front rail")):
        stocked(cast.engagement, count, name)
        for number in range(count):
            asked(cast.engagement, f"{name} {number}", due_on=NOON.date())
        costs.append([_cost(as_user(cast.head), page(cast.engagement)), _cost(Client(), link(cast))])
    assert costs[0] == costs[1]


def _cost(client: Client, address: str) -> int:
    client.get(address)
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)
