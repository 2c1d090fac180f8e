"""Confirming a revision: who has, who has to look again, and what stands side by side."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import add_line, confirm_line, give_number, issue_call_sheet, put_at_spot_talk, put_on_number
from crew.confirmations import confirmed_on
from crew.core.confirming import Named
from crew.errors import NotTheLatest
from crew.models import CallLine, IssuedSheet
from tests.crew.stage import NAMES, Stage, a_stage
from tests.factories import ACTOR, NOON
from venue.actions import report_fault
from venue.models import Event, Unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def stage(db: None) -> Stage:
    """Four people on four numbers, and revision 1 issued."""
    stage = a_stage()
    for number, person in enumerate(stage.people[:4], start=1):
        put_on_number(actor=ACTOR, call=stage.call, number=f"{number}", person=person)
    return stage


def issued(stage: Stage, hours: int = 0) -> IssuedSheet:
    return issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON + timedelta(hours=hours)).sheet


def lines(stage: Stage) -> list[CallLine]:
    return list(stage.call.lines.standing().order_by("sort_key"))


def confirm_all(stage: Stage, sheet: IssuedSheet) -> None:
    for line in lines(stage):
        confirm_line(actor=ACTOR, line=line, sheet=sheet, by="", at=NOON)


def limit_the_unit_at(stage: Stage, place: int) -> None:
    unit: Unit = stage.places[place].placements.get().unit
    facts = {"limit_kind": "blackout", "at": NOON}
    report_fault(actor=ACTOR, unit=unit, means="limited", **facts)  # type: ignore[arg-type]


def test_a_change_to_one_spot_raises_the_revision_and_sends_back_its_operator_alone(stage: Stage) -> None:
    """The trade's story of a change after issue, by its own words (common practice, no source)."""
    first = issued(stage)
    confirm_all(stage, first)
    assert len(confirmed_on(stage.call, first)) == 4
    limit_the_unit_at(stage, 1)  # house 2 answers to show 3: the labels run the other way
    second = issued(stage, hours=1)
    assert second.n == 2
    assert sorted(confirmed_on(stage.call, second)) == [("1", 1), ("2", 1), ("4", 1)]


def test_confirming_twice_is_once_and_an_old_revision_can_not_be_confirmed(stage: Stage) -> None:
    first = issued(stage)
    (line, *_rest) = lines(stage)
    made = confirm_line(actor=ACTOR, line=line, sheet=first, by="Ada", at=NOON)
    assert confirm_line(actor=ACTOR, line=line, sheet=first, by="Ada", at=NOON) == made
    assert Event.objects.filter(verb="line.confirmed").count() == 1
    limit_the_unit_at(stage, 0)
    issued(stage, hours=1)
    with pytest.raises(NotTheLatest):
        confirm_line(actor=ACTOR, line=line, sheet=first, by="Ada", at=NOON)


def test_dispatch_confirms_with_one_tap_and_the_page_says_who_is_missing(stage: Stage, client: Client) -> None:
    sheet = issued(stage)
    client.force_login(stage.cast.dispatch)
    page = reverse("crew:confirmations", args=[stage.call.ref])
    assert "0 of 4 have confirmed what revision 1 says of them." in client.get(page).content.decode()
    tap = reverse("crew:line_confirm", args=[stage.call.ref, lines(stage)[0].ref, sheet.n])
    text = client.post(tap, follow=True).content.decode()
    assert "1 of 4 have confirmed" in text
    assert f"confirmed on revision 1 by {NAMES[0]}" in text
    assert text.count("NOT CONFIRMED") == 3


def test_who_has_no_number_confirms_too_and_again_once_a_number_is_given(client: Client) -> None:
    stage = a_stage(2)
    call, people = stage.call, stage.people
    at_talk = put_at_spot_talk(actor=ACTOR, call=call, person=people[0])
    head = add_line(actor=ACTOR, call=call, at=NOON, role="head", person=people[1])
    sheet = issued(stage)
    client.force_login(stage.cast.dispatch)
    page = client.get(reverse("crew:confirmations", args=[call.ref])).content.decode()
    assert "0 of 2 have confirmed what revision 1 says of them." in page and "Head spot" in page
    for line in (at_talk, head):
        tap = reverse("crew:line_confirm", args=[call.ref, line.ref, sheet.n])
        text = client.post(tap, follow=True).content.decode()
    assert "All 2 have confirmed what revision 1 says of them." in text
    assert f"{NAMES[1]} is confirmed for revision 1." in text
    at_talk.refresh_from_db()
    give_number(actor=ACTOR, line=at_talk, number="1", at=NOON, seen=at_talk.version)
    assert set(confirmed_on(call, issued(stage, hours=1))) == {Named(NAMES[1])}
    said = client.get(reverse("crew:sheet_against", args=[call.ref, 2, 1])).content.decode()
    assert f"<li>Show 1, {NAMES[0]}</li>" in said and f", {NAMES[1]}</li>" not in said
    assert NAMES[0] in client.get(reverse("crew:offers", args=[call.ref])).content.decode()


def test_two_revisions_stand_side_by_side_with_what_changed_for_whom(stage: Stage, client: Client) -> None:
    issued(stage)
    limit_the_unit_at(stage, 1)
    issued(stage, hours=1)
    client.force_login(stage.cast.dispatch)
    text = client.get(reverse("crew:sheet_against", args=[stage.call.ref, 2, 1])).content.decode()
    assert "Show 3, limits of the unit: No full blackout (was: nothing)" in text
    assert f"<li>Show 3, {NAMES[2]}</li>" in text
    assert text.count("changed</span>") == 1


def test_who_confirmed_costs_as_many_queries_with_twenty_confirmations_as_with_four(stage: Stage) -> None:
    counts = []
    for hours in range(5):
        sheet = issued(stage, hours)
        confirm_all(stage, sheet)
        with CaptureQueriesContext(connection) as queries:
            confirmed_on(stage.call, sheet)
        counts.append(len(queries))
        stage.call.refresh_from_db()
        stage.call.notes = f"wear black {hours}"
        stage.call.save()
    assert len(set(counts)) == 1
