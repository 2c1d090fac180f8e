"""Issuing: an immutable copy, a revision that rises only with the content, refused while lights are wrong."""

from dataclasses import replace
from datetime import timedelta

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from crew.actions import call_off, change_call, issue_call_sheet, make_call, put_at_spot_talk, put_on_number
from crew.core.call_sheet import digest, read_sheet
from crew.errors import ChangedMeanwhile, IssuingStopped, NothingToIssue
from crew.models import Call, IssuedSheet
from crew.sheet_content import state_of
from crew.sheet_standing import standing_of
from crew.wording.changes import change_sentence
from shows.actions import add_show_event, bind_spots, put_spots
from shows.facts import SpotFacts
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, add_lights, call_facts, spots
from tests.factories import ACTOR, NOON
from venue.errors import HistoryIsKept
from venue.models import Event
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(4)


def fresh(call: Call) -> Call:
    return Call.objects.get(pk=call.pk)


def issue(stage: Stage, hours: int = 0) -> tuple[IssuedSheet, bool]:
    done = issue_call_sheet(actor=ACTOR, call=fresh(stage.call), now=NOON + timedelta(hours=hours))
    return done.sheet, done.is_new


def bind_by_number(stage: Stage) -> None:
    """The commonest mistake: show 1 on the lamp that says 1."""
    rows = {spot: [stage.places[index]] for index, spot in enumerate(stage.cast.engagement.spots.standing())}
    bind_spots(actor=ACTOR, engagement=stage.cast.engagement, places=rows, at=NOON)


def test_the_sheet_has_a_line_a_show_spot_with_number_label_place_unit_and_operator(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[1])
    sheet = read_sheet(issue(stage)[0].content)
    assert [(line.number, line.label, line.position, line.operator) for line in sheet.lines] == [
        ("1", "4", "Rear booth", "Мира Лисовская"),
        ("2", "3", "Rear booth", ""),
        ("3", "2", "Rear booth", ""),
        ("4", "1", "Rear booth", ""),
    ]
    assert all(line.unit and line.channel == "B" for line in sheet.lines)
    assert sheet.lines[0].held_frames == [(1, "pale pink"), (3, "amber")]
    assert (sheet.notice_kind, sheet.notice) == ("tell", "House labels run the other way: show 1 = house 4.")


def test_times_are_told_in_the_zone_of_the_house(stage: Stage) -> None:
    sheet = read_sheet(issue(stage)[0].content)
    assert (sheet.starts, sheet.call) == ("2026-03-03T20:00:00-05:00", "2026-03-03T18:30:00-05:00")
    assert (sheet.talk, sheet.ends) == ("2026-03-03T19:15:00-05:00", "2026-03-03T22:30:00-05:00")


def test_unchanged_content_is_not_issued_again_whenever_it_is_tried(stage: Stage) -> None:
    first, is_new = issue(stage)
    assert (first.n, is_new) == (1, True)
    assert issue(stage, hours=5) == (first, False)
    assert IssuedSheet.objects.count() == 1
    assert first.sha256 == digest(first.content)


def test_a_change_and_its_undoing_are_two_more_revisions(stage: Stage) -> None:
    first, _ = issue(stage)
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(place="dock"), seen=stage.call.version)
    second, _ = issue(stage)
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(), seen=stage.call.version)
    third, _ = issue(stage)
    assert [first.n, second.n, third.n] == [1, 2, 3]
    assert first.content == third.content
    assert len({first.code.code, second.code.code, third.code.code}) == 3


def test_the_state_says_what_changed_line_by_line_until_the_next_issue(stage: Stage) -> None:
    assert state_of(fresh(stage.call)).code == "none-issued"
    issue(stage)
    assert state_of(fresh(stage.call)).code == "current"
    put_on_number(actor=ACTOR, call=stage.call, number="3", person=stage.people[0])
    put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[3])
    state = state_of(fresh(stage.call))
    assert state.code == "changed-not-issued"
    assert [change_sentence(change) for change in state.changes] == [
        "Number told at the spot talk: Dov Halloran (was: nothing)",
        "Show 3, operator: Ada Quillfeather (was: nobody yet)",
    ]


def test_paperwork_and_placements_count_as_changes_too(stage: Stage) -> None:
    issue(stage)
    changed = [replace(spots(4)[0], channel="C"), *spots(4)[1:], SpotFacts("5")]
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=changed, at=NOON)
    said = [change_sentence(change) for change in state_of(fresh(stage.call)).changes]
    assert "Show 1, channel: C (was: B)" in said
    assert "Show 5 is new: nobody yet." in said


def test_nothing_is_issued_while_the_numbers_break_the_shows_own_rule(stage: Stage) -> None:
    bind_by_number(stage)
    with pytest.raises(IssuingStopped, match="Backward against the tour's own rule; show 1 belongs on house 4"):
        issue(stage)
    assert not IssuedSheet.objects.exists()


def test_what_somebody_changed_meanwhile_is_not_issued_unseen(stage: Stage) -> None:
    seen = state_of(fresh(stage.call)).draft.sha256
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    with pytest.raises(ChangedMeanwhile):
        issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON, seen=seen)
    now_seen = state_of(fresh(stage.call)).draft.sha256
    assert issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON, seen=now_seen).sheet.n == 1


def test_a_call_read_before_it_was_changed_is_issued_as_it_is_now(stage: Stage) -> None:
    change_call(actor=ACTOR, call=fresh(stage.call), facts=call_facts(place="dock"), seen=stage.call.version)
    sheet = issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON).sheet
    assert read_sheet(sheet.content).place == "dock"


def test_an_empty_call_is_not_issued(stage: Stage) -> None:
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=[], at=NOON)
    with pytest.raises(NothingToIssue):
        issue(stage)
    put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[3])
    assert read_sheet(issue(stage)[0].content).at_spot_talk == ("Dov Halloran",)


def test_a_call_that_is_off_is_told_by_one_more_revision_even_with_wrong_lights(stage: Stage) -> None:
    issue(stage)
    bind_by_number(stage)
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="storm")
    sheet, is_new = issue(stage)
    assert (sheet.n, is_new, read_sheet(sheet.content).called_off) == (2, True, "storm")


def test_somebody_on_a_number_that_the_show_has_no_more_stays_on_the_sheet(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="4", person=stage.people[0])
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=spots(3), at=NOON)
    last = read_sheet(issue(stage)[0].content).lines[-1]
    assert (last.number, last.label, last.operator) == ("4", "", "Ada Quillfeather")


def test_a_team_has_a_line_a_light_each_with_its_own_operator(stage: Stage) -> None:
    engagement = stage.cast.engagement
    engagement.statement += "; 1 is a team of 2"
    engagement.save()
    put_spots(actor=ACTOR, engagement=engagement, spots=spots(1), at=NOON)
    spot = stage.cast.engagement.spots.standing().get()
    bind_spots(actor=ACTOR, engagement=stage.cast.engagement, places={spot: stage.places[2:]}, at=NOON)
    for seat in (1, 2):
        person = stage.people[seat]
        put_on_number(actor=ACTOR, call=stage.call, number="1", person=person, seat=seat)
    lines = state_of(fresh(stage.call)).draft.sheet.lines
    assert [(line.number, line.seat, line.label, line.operator) for line in lines] == [
        ("1", 1, "3", "Мира Лисовская"),
        ("1", 2, "4", "Zofia Wiśniak"),
    ]


@pytest.mark.parametrize("statement", ["UPDATE crew_issuedsheet SET content = ''", "DELETE FROM crew_issuedsheet"])
def test_the_database_itself_keeps_issued_sheets(stage: Stage, statement: str) -> None:
    sheet, _ = issue(stage)
    refusals = (IntegrityError, DatabaseError)
    with pytest.raises(refusals, match="issued_sheet_append_only"), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)
    with pytest.raises(HistoryIsKept):
        sheet.save()
    with pytest.raises(HistoryIsKept):
        sheet.delete()


def test_a_code_answers_current_changed_or_replaced(stage: Stage) -> None:
    first, _ = issue(stage)
    assert standing_of(first.code).state == "current"  # type: ignore[union-attr]
    put_on_number(actor=ACTOR, call=stage.call, number="3", person=stage.people[0])
    assert standing_of(first.code).state == "changed-not-issued"  # type: ignore[union-attr]
    second, _ = issue(stage, hours=3)
    standing = standing_of(first.code)
    assert standing is not None
    assert (standing.state, standing.latest.n, standing.latest_at) == ("replaced", 2, NOON + timedelta(hours=3))
    assert standing_of(second.code).state == "current"  # type: ignore[union-attr]


def test_the_history_tells_of_each_revision(stage: Stage) -> None:
    issue(stage)
    told = [event_sentence(line) for line in Event.objects.filter(verb="sheet.issued")]
    assert told == ["issued the call sheet of Nine Paper Boats for show, 2026-03-03 20:00, revision 1"]


def test_a_sheet_costs_as_many_queries_with_sixty_lights_as_with_two() -> None:
    stage = a_stage(2)
    assert queries_of_sheet(stage, 2) == queries_of_sheet(stage, 60) <= 14


def queries_of_sheet(stage: Stage, number: int) -> int:
    """The show brought to so many lights, and what reading its sheet asks of the database."""
    add_lights(stage, number)
    call = Call.objects.select_related("event", "engagement__house", "engagement__setup").get(pk=stage.call.pk)
    with CaptureQueriesContext(connection) as captured:
        assert len(state_of(call).draft.sheet.lines) == number
    return len(captured)


def test_calls_for_two_events_have_sheets_of_their_own(stage: Stage) -> None:
    later = add_show_event(
        actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=SHOW_STARTS + timedelta(days=1)
    )
    facts = call_facts(call=SHOW_STARTS + timedelta(hours=22), talk=None)
    other = make_call(actor=ACTOR, roster=stage.cast.roster, event=later, facts=facts)
    issue(stage)
    second = issue_call_sheet(actor=ACTOR, call=other, now=NOON)
    assert (second.sheet.n, second.is_new, IssuedSheet.objects.count()) == (1, True, 2)
