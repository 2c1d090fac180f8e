"""The lines of a call one by one: replaced, numbered at the spot talk, called at their own time; the board of calls."""

from datetime import datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import (
    add_line,
    fill_call,
    give_number,
    issue_call_sheet,
    make_call,
    put_at_spot_talk,
    put_on_number,
    replace_person,
    set_own_time,
)
from crew.actions.offers import ask
from crew.board import board_of
from crew.core.call_sheet import changes, read_sheet
from crew.errors import NumberTaken
from crew.line_errors import CertificationMissing
from crew.models import Call, CallLine
from crew.sheet_content import draft_of
from crew.wording.changes import change_sentence
from shows.actions import add_show_event
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON
from venue.errors import AlreadyExists, Invalid, StaleVersion
from venue.models import Event
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db
AT_1740 = datetime.fromisoformat("2026-03-03T17:40:00-05:00")


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(4)


@pytest.fixture(autouse=True)
def at_noon() -> Any:
    with time_machine.travel(NOON, tick=False):
        yield


def text_of(client: Client, name: str, *args: object) -> str:
    return " ".join(client.get(reverse(f"crew:{name}", args=args)).content.decode().split())


def on(stage: Stage, number: str, person: int) -> CallLine:
    return put_on_number(actor=ACTOR, call=stage.call, number=number, person=stage.people[person])


def replaced(stage: Stage, line: CallLine, person: int | None, **facts: Any) -> CallLine:
    said = {"at": AT_1740, "reason": "sick", "seen": line.version, **facts}
    return replace_person(actor=ACTOR, line=line, person=None if person is None else stage.people[person], **said)


def test_a_replaced_line_keeps_spot_times_and_history_and_shows_both_names_and_times(
    stage: Stage, client: Client
) -> None:
    """The trade's story of the replacement, by its own words (common practice, no source)."""
    line = on(stage, "3", 0)
    set_own_time(actor=ACTOR, line=line, own=SHOW_STARTS - timedelta(hours=3), seen=line.version)
    new = replaced(stage, line, 1)
    assert (new.number, new.seat, new.role, new.own_at, new.follows) == ("3", 1, "operator", line.own_at, line)
    client.force_login(stage.cast.dispatch)
    for page in ("call", "call_lines"):
        said = text_of(client, page, stage.call.ref)
        assert "Show 3: Ada Quillfeather, replaced by Мира Лисовская at 5:40 PM: sick" in said
        assert "Own call: 5:00 PM" in said
    told = event_sentence(Event.objects.filter(verb="line.replaced").get())
    assert told == "replaced Ada Quillfeather by Мира Лисовская on the call of Nine Paper Boats, show 3: sick"
    with pytest.raises(Invalid):
        replaced(stage, new, 2, reason=" ")
    with pytest.raises(StaleVersion):
        replaced(stage, CallLine.objects.get(pk=new.pk), 2, seen=new.version + 1)


def test_a_line_may_wait_for_a_replacement_and_the_form_then_fills_it_without_losing_who_was_there(
    stage: Stage, client: Client
) -> None:
    waiting = replaced(stage, on(stage, "3", 0), None)
    call = Call.objects.get(pk=stage.call.pk)
    people = {("3", 1): stage.people[2], ("1", 1): stage.people[3]}
    fill_call(actor=ACTOR, call=call, people=people, at_spot_talk=[], at=NOON, seen=call.version)
    waiting.refresh_from_db()
    assert (waiting.person, waiting.has_ended) == (stage.people[2], False)
    client.force_login(stage.cast.head)
    assert "Ada Quillfeather, replaced by Zofia Wiśniak" in text_of(client, "call", call.ref)


def test_a_spare_moves_up_and_who_runs_another_number_does_not(stage: Stage) -> None:
    spare = add_line(actor=ACTOR, call=stage.call, at=NOON, role="spare", person=stage.people[1])
    line, other = on(stage, "3", 0), on(stage, "4", 2)
    with pytest.raises(AlreadyExists):
        replaced(stage, CallLine.objects.get(pk=line.pk), 2)
    assert not CallLine.objects.get(pk=line.pk).has_ended
    replaced(stage, line, 1)
    spare.refresh_from_db()
    assert (spare.ended_reason, spare.starts_at == spare.ends_at) == ("takes show 3", True)
    assert {each.person for each in stage.call.lines.standing()} == {stage.people[1], other.person}


def test_two_taps_give_a_number_at_the_spot_talk_and_a_number_that_is_taken_says_by_whom(
    stage: Stage, client: Client
) -> None:
    line = put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[3])
    on(stage, "1", 0)
    client.force_login(stage.cast.dispatch)
    assert "Dov Halloran" in text_of(client, "spot_talk", stage.call.ref)
    tap = reverse("crew:line_number", args=[stage.call.ref, line.ref])
    page = client.get(tap).content.decode()
    assert 'value="1:2"' in page
    assert 'value="1:1"' not in page
    sent = {"light": "1:2", "version": f"{line.version}"}
    assert client.post(tap, sent, follow=True).content.decode().count("Show 2: Dov Halloran") == 1
    line.refresh_from_db()
    assert (line.number, line.seat) == ("2", 1)
    assert "Everybody on this call has a number." in text_of(client, "spot_talk", stage.call.ref)
    assert "on that number now" in client.post(tap, {"light": "1:1", "version": f"{line.version}"}).content.decode()
    with pytest.raises(NumberTaken, match="Ada Quillfeather is on show 1 already"):
        give_number(actor=ACTOR, line=line, number="1", at=NOON, seen=line.version)


def test_an_own_call_time_books_from_then_stands_on_the_sheet_and_is_told_as_a_change(
    stage: Stage, client: Client
) -> None:
    on(stage, "1", 0)
    hand = add_line(actor=ACTOR, call=stage.call, at=NOON, role="head", person=stage.people[1])
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    client.force_login(stage.cast.dispatch)
    tap = reverse("crew:line_time", args=[stage.call.ref, hand.ref])
    twice = {"own_time": "01:30", "own_date": "2026-11-01", "version": "1"}
    assert "happens twice" in client.post(tap, twice).content.decode()
    never = {"own_time": "02:30", "own_date": "2026-03-08", "version": "1"}
    assert "clocks go forward then" in client.post(tap, never).content.decode()
    late = {"own_time": "23:30", "own_date": "2026-03-03", "version": "1"}
    for sent, field in ((late, "own_time"), ({**late, "own_date": "2020-01-01"}, "own_date")):
        form = client.post(tap, sent).context["form"]
        assert form.errors[field][0].startswith(
            "Head spot: the own call time, Mar 3, 2026, 11:30 PM, is after the end "
            if field == "own_time"
            else "Head spot: the own call time, Jan 1, 2020, 11:30 PM, is more than 7 days "
        )
    assert client.post(tap, {"own_time": "17:00", "version": "1"}).status_code == 302
    hand.refresh_from_db()
    assert hand.starts_at == hand.own_at == stage.call.call_at - timedelta(minutes=90)
    now = draft_of(Call.objects.get()).sheet
    said = [change_sentence(each) for each in changes(read_sheet(stage.call.sheets.get().content), now)]
    assert said == ["Мира Лисовская, own call time: Mar 3, 2026, 5:00 PM (was: nothing)"]


def test_eight_lines_six_filled_are_6_of_8_2_to_fill_on_the_board_and_on_the_call(client: Client) -> None:
    """The trade's story of the unfilled lines, by its own words; who was only asked counts as to fill."""
    stage = a_stage(4)
    for index, number in enumerate(("1", "2", "3", "4")):
        on(stage, number, index)
    add_line(actor=ACTOR, call=stage.call, at=NOON, role="head", person=stage.people[4])
    add_line(actor=ACTOR, call=stage.call, at=NOON, role="runner", person=_another(stage))
    asked, _open = (add_line(actor=ACTOR, call=stage.call, at=NOON, role="spare") for _ in range(2))
    ask(actor=ACTOR, line=asked, people=[_another(stage)], answer_by=None, at=NOON)
    client.force_login(stage.cast.dispatch)
    for page in (text_of(client, "calls"), text_of(client, "call", stage.call.ref)):
        assert "6 of 8, 2 to fill" in page
        assert "TO FILL" in page
    assert "no sheet issued yet" in text_of(client, "calls")
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    board = text_of(client, "calls")
    assert "revision 1 issued, current" in board
    assert "6 people have not confirmed revision 1" in board  # head spot and runner too
    assert reverse("crew:confirmations", args=[stage.call.ref]) in board
    replaced(stage, CallLine.objects.standing().get(number="3"), None)
    board = text_of(client, "calls")
    assert "CHANGED SINCE, not issued" in board
    assert "Show 3, operator: nobody yet (was: Zofia Wiśniak)" in board
    assert "5 of 8, 3 to fill" in board


def _another(stage: Stage) -> Any:
    return stage.cast.roster.persons.create(name="Ines Tallow")


def test_the_board_tells_no_change_of_what_it_does_not_read(stage: Stage) -> None:
    stage.cast.engagement.spots.update(notes="bring gloves", home="down center")
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    (found,) = board_of(Call.objects.all())
    assert [(change.what, change.number) for change in found.changes] == [("operator", "1")]


def test_the_board_costs_as_much_for_six_changed_calls_as_for_one(stage: Stage) -> None:
    stage.places[0].position.save()
    counts = []
    for day in range(1, 7):
        starts = SHOW_STARTS + timedelta(days=day)
        event = add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=starts)
        facts = call_facts(call=starts - timedelta(hours=1), talk=None)
        call = make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts)
        issue_call_sheet(actor=ACTOR, call=call, now=NOON)
        put_on_number(actor=ACTOR, call=call, number="2", person=stage.people[1])
        with CaptureQueriesContext(connection) as captured:
            found = board_of(Call.objects.order_by("pk"))
        counts.append(len(captured))
    assert len(set(counts)) == 1
    assert [each.state for each in found] == ["none-issued", *["changed-not-issued"] * 6]
    stage.places[0].position.save()
    assert {each.state for each in board_of(Call.objects.order_by("pk"))} == {"none-issued", "changed-not-issued"}


def test_a_truss_seats_line_shows_harness_and_no_exit_until_the_end(stage: Stage, client: Client) -> None:
    """The trade's story of what a position needs, by its own words (common practice, no source)."""
    position = stage.places[0].position
    position.fall_protection, position.show_exit, position.needs = "harness", "no", "water bottle"
    position.load_limit_kg, position.seats_lost = 450.0, 4
    position.save()
    line = put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[1])
    with pytest.raises(CertificationMissing):
        give_number(actor=ACTOR, line=line, number="4", at=NOON, seen=line.version)
    stage.cast.roster.certification_kinds.update(is_required=False)
    on(stage, "4", 0)
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    for who, name, more in (("dispatch", "call", ()), ("head", "call", ()), ("reader", "sheet", (1,))):
        client.force_login(getattr(stage.cast, who))
        said = text_of(client, name, stage.call.ref, *more)
        assert "Needs there: harness, no exit until end, water bottle, load limit 450 kg, 4 seats lost to it" in said, (
            who
        )
