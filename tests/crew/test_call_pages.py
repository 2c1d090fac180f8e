"""The pages of calls: who may open which, making, filling, issuing, and what a stale or bad form shows."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import add_person, call_off, end_person, issue_call_sheet, make_call, put_at_spot_talk, put_on_number
from crew.models import Call, IssuedSheet
from crew.sheet_content import state_of
from shows.actions import add_show_event, bind_spots
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, add_lights, call_facts
from tests.factories import ACTOR, NOON
from venue.actions import revoke_membership

pytestmark = pytest.mark.django_db
TALK_OPEN = {"talk-1": "not-wanted"}


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(3)


@pytest.fixture(autouse=True)
def at_noon() -> Any:
    with time_machine.travel(NOON, tick=False):
        yield


def as_user(client: Client, stage: Stage, who: str) -> Client:
    client.force_login(getattr(stage.cast, who))
    return client


def page(client: Client, name: str, *args: object) -> str:
    response = client.get(reverse(f"crew:{name}", args=args))
    assert response.status_code == 200
    return " ".join(response.content.decode().split())


def an_event(stage: Stage, days: int = 1) -> Any:
    starts = SHOW_STARTS + timedelta(days=days)
    return add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=starts)


def call_data(**changed: str) -> dict[str, str]:
    usual = {
        "call_date": "2026-03-04",
        "call_time": "18:30",
        "place": "dock",
        "talk_time": "19:15",
        "at_spot_talk": "0",
    }
    return {**usual, **changed}


ROLES = ("head", "dispatch", "road", "reader", "stranger")
Address = Callable[[Stage], str]


def of_call(name: str, *more: object) -> Address:
    return lambda stage: reverse(f"crew:{name}", args=[stage.call.ref, *more])


def of_event(stage: Stage) -> str:
    return reverse("crew:call_new", args=[stage.event.ref])


@pytest.mark.parametrize(
    ("address", "method", "expected"),
    [
        (of_call("call"), "get", (200, 200, 403, 403, 404)),
        (of_call("call_edit"), "get", (200, 200, 403, 403, 404)),
        (of_call("call_edit"), "post", (200, 200, 403, 403, 404)),
        (of_call("call_end"), "get", (200, 200, 403, 403, 404)),
        (of_call("call_end"), "post", (200, 200, 403, 403, 404)),
        (of_call("call_fill"), "post", (403, 200, 403, 403, 404)),
        (of_call("call_fill"), "get", (405, 405, 405, 405, 405)),
        (of_call("sheet_issue"), "post", (302, 302, 403, 403, 404)),
        (of_call("draft_pdf", "letter"), "get", (200, 200, 403, 403, 404)),
        (of_call("draft_pdf", "tabloid"), "get", (404, 404, 403, 403, 404)),
        (of_call("sheet", 1), "get", (200, 200, 200, 200, 404)),
        (of_call("sheet", 2), "get", (404, 404, 404, 404, 404)),
        (of_call("sheet_pdf", 1, "a4"), "get", (200, 200, 200, 200, 404)),
        (of_call("sheet_pdf", 1, "tabloid"), "get", (404, 404, 404, 404, 404)),
        (of_event, "get", (200, 200, 403, 403, 404)),
        (of_event, "post", (200, 200, 403, 403, 404)),
        (lambda stage: reverse("crew:calls"), "get", (200, 200, 200, 200, 200)),
    ],
)
def test_each_role_meets_its_status(
    client: Client, stage: Stage, address: Address, method: str, expected: tuple[int, ...]
) -> None:
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    found = tuple(getattr(as_user(client, stage, who), method)(address(stage)).status_code for who in ROLES)
    assert found == expected


def test_a_road_crew_whose_time_is_over_is_a_stranger(client: Client, stage: Stage) -> None:
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    with time_machine.travel(stage.cast.road_until, tick=False):
        assert as_user(client, stage, "road").get(of_call("sheet", 1)(stage)).status_code == 404


def test_a_head_who_is_none_any_more_is_a_stranger(client: Client, stage: Stage) -> None:
    revoke_membership(actor=ACTOR, house=stage.cast.house, user=stage.cast.head, at=NOON, reason="left")
    assert as_user(client, stage, "head").get(of_call("call")(stage)).status_code == 404


def test_a_call_is_made_with_the_usual_times_offered(client: Client, stage: Stage) -> None:
    event = an_event(stage)
    as_user(client, stage, "head")
    form = page(client, "call_new", event.ref)
    assert 'value="18:30"' in form
    assert 'value="19:15"' in form
    response = client.post(
        reverse("crew:call_new", args=[event.ref]), call_data(roster=str(stage.cast.roster.pk), at_spot_talk="2")
    )
    call = Call.objects.get(event=event)
    assert response["Location"] == reverse("crew:call", args=[call.ref])
    assert (call.place, call.lines.count()) == ("dock", 2)


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"call_date": ""}, "This field is required"),
        ({"call_time": "half past"}, "Enter a valid time"),
        ({"place": "x" * 121}, "at most 120 characters"),
        ({"place": "half a \ud800 letter".encode("utf-8", "replace").decode() + "\0"}, "Null characters"),
        ({"at_spot_talk": "61"}, "less than or equal to 60"),
        ({"call_date": "2026-03-08", "call_time": "02:30"}, "clocks go forward then"),
    ],
)
def test_a_bad_call_is_refused_at_its_field_and_nothing_typed_is_lost(
    client: Client, stage: Stage, changed: dict[str, str], message: str
) -> None:
    event = an_event(stage)
    data = call_data(roster=str(stage.cast.roster.pk), notes="bring gloves", **changed)
    response = as_user(client, stage, "dispatch").post(reverse("crew:call_new", args=[event.ref]), data)
    text = response.content.decode()
    assert response.status_code == 200
    assert message in text
    assert "bring gloves" in text
    assert not Call.objects.filter(event=event).exists()


def test_a_time_that_happens_twice_is_asked_and_then_stored(client: Client, stage: Stage) -> None:
    event = an_event(stage, days=243)
    data = call_data(call_date="2026-11-01", call_time="01:30", talk_time="", roster=str(stage.cast.roster.pk))
    as_user(client, stage, "dispatch")
    asked = client.post(reverse("crew:call_new", args=[event.ref]), data).content.decode()
    assert "happens twice" in asked
    assert "the second</option>" in asked
    client.post(reverse("crew:call_new", args=[event.ref]), {**data, "fold": "1"})
    assert Call.objects.get(event=event).call_at.hour == 6


def test_a_spot_talk_past_midnight_is_the_day_after(client: Client, stage: Stage) -> None:
    event = an_event(stage)
    data = call_data(call_time="23:30", talk_time="00:15", roster=str(stage.cast.roster.pk))
    as_user(client, stage, "dispatch").post(reverse("crew:call_new", args=[event.ref]), data)
    call = Call.objects.get(event=event)
    assert f"{call.talk_wall}" == "2026-03-05 00:15:00"


def test_a_stale_change_shows_both_and_is_stored_when_sent_again(client: Client, stage: Stage) -> None:
    as_user(client, stage, "dispatch")
    address = of_call("call_edit")(stage)
    old = call_data(version=str(stage.call.version), place="lobby", call_date="2026-03-03")
    client.post(address, {**old, "place": "loading dock"})
    response = client.post(address, old)
    text = response.content.decode()
    assert response.status_code == 200
    assert "Somebody else changed this" in text
    assert "loading dock" in text
    assert 'value="lobby"' in text
    assert Call.objects.get().place == "loading dock"
    client.post(address, {**old, "version": str(Call.objects.get().version)})
    assert Call.objects.get().place == "lobby"


def fill_data(stage: Stage, *on_numbers: int | None, **more: str) -> dict[str, str]:
    chosen = {
        f"on-{number}-1": "" if index is None else str(stage.people[index].ref)
        for number, index in enumerate(on_numbers, start=1)
    }
    return {"version": str(Call.objects.get(pk=stage.call.pk).version), **TALK_OPEN, **chosen, **more}


def fill(client: Client, stage: Stage, data: dict[str, str]) -> HttpResponse:
    return client.post(of_call("call_fill")(stage), data)  # type: ignore[return-value]


def names_on(stage: Stage) -> dict[str, str]:
    lines = stage.call.lines.standing().select_related("person")
    return {line.number: line.person.name if line.person else "" for line in lines}


def test_people_are_put_on_numbers_and_at_the_spot_talk_in_one_form(client: Client, stage: Stage) -> None:
    as_user(client, stage, "dispatch")
    response = fill(client, stage, fill_data(stage, 0, None, 1, **{"talk-1": str(stage.people[3].ref)}))
    assert response.status_code == 302
    assert names_on(stage) == {"": "Dov Halloran", "1": "Ada Quillfeather", "3": "Мира Лисовская"}
    text = page(client, "call", stage.call.ref)
    assert "all 3 filled" in text
    assert 'name="talk-2"' in text


def test_unfilled_lines_stand_out_and_are_counted(client: Client, stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[0])
    for who in ("dispatch", "head"):
        text = page(as_user(client, stage, who), "call", stage.call.ref)
        assert "1 of 3, 2 to fill" in text
        assert text.count("TO FILL") == 2
        assert text.count("spot-open") == 2


def test_somebody_chosen_twice_is_refused_at_the_second_and_the_choices_stay(client: Client, stage: Stage) -> None:
    as_user(client, stage, "dispatch")
    response = fill(client, stage, fill_data(stage, 0, 0, None))
    text = " ".join(response.content.decode().split())
    assert response.status_code == 200
    assert "Ada Quillfeather is on this call already: show 1 / house 3, Rear booth." in text
    assert text.count(f'value="{stage.people[0].ref}" selected') == 2
    assert names_on(stage) == {}


def test_a_person_who_is_nobody_on_the_roster_is_refused(client: Client, stage: Stage) -> None:
    as_user(client, stage, "dispatch")
    response = fill(client, stage, {**fill_data(stage), "on-1-1": "00000000-0000-0000-0000-000000000000"})
    assert "is not one of the available choices" in response.content.decode()
    assert names_on(stage) == {}


def test_a_stale_filling_shows_who_is_stored_and_keeps_what_was_chosen(client: Client, stage: Stage) -> None:
    as_user(client, stage, "dispatch")
    data = fill_data(stage, 0, None, None)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[2])
    response = fill(client, stage, data)
    text = " ".join(response.content.decode().split())
    assert "Somebody else changed this" in text
    assert "show 1: Zofia Wiśniak" in text
    assert f'value="{stage.people[0].ref}" selected' in text
    assert names_on(stage) == {"1": "Zofia Wiśniak"}
    fill(client, stage, {**data, "version": str(Call.objects.get(pk=stage.call.pk).version)})
    assert names_on(stage) == {"1": "Ada Quillfeather"}


def test_a_filling_without_a_version_is_refused(client: Client, stage: Stage) -> None:
    data = {**fill_data(stage, 0), "version": ""}
    assert fill(as_user(client, stage, "dispatch"), stage, data).status_code == 200
    assert names_on(stage) == {}


def test_who_left_the_roster_stays_on_the_call_until_dispatch_says_otherwise(client: Client, stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    end_person(actor=ACTOR, person=stage.people[0], at=NOON + timedelta(9), reason="moved away")
    as_user(client, stage, "dispatch")
    assert fill(client, stage, fill_data(stage, 0, 1, None)).status_code == 302
    assert names_on(stage) == {"1": "Ada Quillfeather", "2": "Мира Лисовская"}


def test_an_empty_roster_says_what_to_do_first(client: Client, stage: Stage) -> None:
    for person in stage.people:
        end_person(actor=ACTOR, person=person, at=NOON, reason="moved away")
    text = page(as_user(client, stage, "dispatch"), "call", stage.call.ref)
    assert "Nobody is on the roster yet." in text
    assert reverse("crew:roster", args=[stage.cast.roster.ref]) in text


def test_issuing_leads_to_the_sheet_and_issuing_again_says_that_nothing_changed(client: Client, stage: Stage) -> None:
    as_user(client, stage, "head")
    first = client.post(of_call("sheet_issue")(stage), follow=True).content.decode()
    assert "Revision 1 is issued." in first
    again = client.post(of_call("sheet_issue")(stage), follow=True).content.decode()
    assert "Nothing has changed: revision 1 stays in force." in again
    assert IssuedSheet.objects.count() == 1


def test_issuing_what_was_not_shown_is_refused_with_words(client: Client, stage: Stage) -> None:
    as_user(client, stage, "head")
    response = client.post(of_call("sheet_issue")(stage), {"seen": "another content"}, follow=True)
    assert "while you were looking" in response.content.decode()
    assert not IssuedSheet.objects.exists()
    seen = state_of(Call.objects.get()).draft.sha256
    assert f'name="seen" value="{seen}"' in page(client, "call", stage.call.ref)


def test_the_call_says_line_by_line_what_changed_since_the_last_sheet(client: Client, stage: Stage) -> None:
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    as_user(client, stage, "dispatch")
    assert "Revision 1 is current:" in page(client, "call", stage.call.ref)
    put_on_number(actor=ACTOR, call=Call.objects.get(), number="2", person=stage.people[0])
    text = page(client, "call", stage.call.ref)
    assert "Changed since revision 1, not issued:" in text
    assert "Show 2, operator: Ada Quillfeather (was: nobody yet)" in text
    assert "Issue the next revision" in text


def bind_by_number(stage: Stage) -> None:
    rows = {spot: [stage.places[index]] for index, spot in enumerate(stage.cast.engagement.spots.standing())}
    bind_spots(actor=ACTOR, engagement=stage.cast.engagement, places=rows, at=NOON)


def test_wrong_lights_stop_issuing_and_lead_to_the_compare_page(client: Client, stage: Stage) -> None:
    bind_by_number(stage)
    as_user(client, stage, "head")
    text = page(client, "call", stage.call.ref)
    assert "FIX: wrong lights." in text
    assert reverse("shows:compare", args=[stage.cast.engagement.ref]) in text
    assert "Issue the call sheet" not in text
    response = client.post(of_call("sheet_issue")(stage), follow=True).content.decode()
    assert "Backward against the tour" in response
    assert not IssuedSheet.objects.exists()


@pytest.mark.parametrize(("who", "is_linked"), [("head", True), ("dispatch", False)])
def test_only_who_may_open_the_show_is_sent_to_its_comparison(
    client: Client, stage: Stage, who: str, is_linked: bool
) -> None:
    text = page(as_user(client, stage, who), "call", stage.call.ref)
    assert "House labels run the other way" in text
    assert (reverse("shows:compare", args=[stage.cast.engagement.ref]) in text) is is_linked


def test_the_sheets_page_has_all_that_the_paper_has(client: Client, stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[1])
    put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[3])
    sheet = issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON).sheet
    text = page(as_user(client, stage, "reader"), "sheet", stage.call.ref, 1)
    for wanted in (
        "Мира Лисовская",
        "Dov Halloran",
        "Rear booth, place 3",
        "Frames: 1 pale pink · 3 amber",
        "Channel B",
        "6:30 PM",
        "House labels run the other way: show 1 = house 3.",
        "Current: this is revision 1",
        reverse("crew:code", args=[sheet.code.code]),
    ):
        assert wanted in text, wanted
    assert text.count('<span class="mark-word">show</span>') == 3
    assert text.count('<span class="mark-word">house</span>') == 3


def test_an_old_sheet_says_that_it_is_replaced_and_leads_to_the_new_one(client: Client, stage: Stage) -> None:
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[1])
    as_user(client, stage, "reader")
    assert "Changed since revision 1, not issued" in page(client, "sheet", stage.call.ref, 1)
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON + timedelta(hours=2))
    text = page(client, "sheet", stage.call.ref, 1)
    assert "Replaced: this is revision 1; revision 2 was issued Mar 2, 2026, 9:00 AM." in text
    assert reverse("crew:sheet", args=[stage.call.ref, 2]) in text


def test_a_pdf_is_a_pdf_and_is_kept_by_no_cache(client: Client, stage: Stage) -> None:
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    response = as_user(client, stage, "reader").get(of_call("sheet_pdf", 1, "letter")(stage))
    assert response["Content-Type"] == "application/pdf"
    assert response.content.startswith(b"%PDF-")
    assert "no-store" in response["Cache-Control"]
    assert response["Content-Disposition"] == 'inline; filename="nine-paper-boats-1.pdf"'


def test_a_call_that_is_off_says_why_and_takes_nobody(client: Client, stage: Stage) -> None:
    as_user(client, stage, "dispatch")
    assert "This field is required" in client.post(of_call("call_end")(stage), {"reason": ""}).content.decode()
    client.post(of_call("call_end")(stage), {"reason": "storm"})
    text = page(client, "call", stage.call.ref)
    assert "CALLED OFF" in text
    assert "storm" in text
    assert "<select" not in text


def test_the_list_has_calls_for_those_who_run_them_and_sheets_for_the_others(client: Client, stage: Stage) -> None:
    event = an_event(stage)
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    for who in ("head", "dispatch"):
        text = page(as_user(client, stage, who), "calls")
        assert of_call("call")(stage) in text
        assert "revision 1 issued" in text
        assert reverse("crew:call_new", args=[event.ref]) in text
    for who in ("reader", "road"):
        text = page(as_user(client, stage, who), "calls")
        assert of_call("sheet", 1)(stage) in text
        assert of_call("call")(stage) + '"' not in text
    assert "There is nothing here yet." in page(as_user(client, stage, "stranger"), "calls")


def test_a_call_that_is_off_leaves_its_event_to_be_called_anew(client: Client, stage: Stage) -> None:
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="storm")
    text = page(as_user(client, stage, "dispatch"), "calls")
    assert "called off" in text
    assert of_event(stage) in text


def queries(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as captured:
        assert client.get(address).status_code == 200
    return len(captured)


def test_pages_ask_as_much_of_the_database_for_sixty_lights_as_for_two(client: Client) -> None:
    stage = a_stage(2)
    as_user(client, stage, "dispatch")
    counts: list[list[int]] = []
    for number in (2, 60):
        if number > 2:
            add_lights(stage, number)
        issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON)
        n = IssuedSheet.objects.count()
        addresses = [
            of_call("call"),
            of_call("sheet", n),
            of_call("sheet_pdf", n, "a4"),
            lambda _: reverse("crew:calls"),
        ]
        counts.append([queries(client, address(stage)) for address in addresses])
    assert counts[0] == counts[1]
    assert max(counts[0]) <= 55


def test_the_list_asks_as_much_for_twelve_calls_as_for_one(client: Client, stage: Stage) -> None:
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    an_event(stage, 13)
    as_user(client, stage, "head")
    first = queries(client, reverse("crew:calls"))
    for day in range(1, 12):
        event = an_event(stage, day)
        facts = call_facts(call=event.starts_wall - timedelta(hours=1), talk=None)
        call = make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts)
        issue_call_sheet(actor=ACTOR, call=call, now=NOON)
        add_person(actor=ACTOR, roster=stage.cast.roster, name=f"Person {day}")
    assert queries(client, reverse("crew:calls")) == first


def test_the_page_of_a_call_that_is_over_leads_to_its_day_and_hours_and_proposes_nobody(
    client: Client, stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crew.views.call_pages.fit_sentence", lambda _found: "Show 1: not all can be done.")
    asks, leads = ("Propose people", "NOT READY", "Who can come"), "This call is over."
    for late, is_over in ((timedelta(0), True), (timedelta(seconds=1), False)):
        with time_machine.travel(stage.call.ends_at - late, tick=False):
            text = page(as_user(client, stage, "dispatch"), "call", stage.call.ref)
        assert [words in text for words in (*asks, leads)] == [not is_over] * 3 + [is_over]
        assert text.count(reverse("crew:call_day", args=[stage.call.ref])) == 1
        hours = text.index(reverse("crew:call_hours", args=[stage.call.ref]))
        assert (hours < text.index("<dl")) is is_over
