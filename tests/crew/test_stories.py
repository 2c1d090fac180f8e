"""The trade's stories of the call sheet, by their own words (common practice, no source)."""

from datetime import timedelta
from random import Random

import pytest
from django.test import Client
from django.urls import reverse

from crew.actions import change_call, confirm_line, issue_call_sheet, put_on_number, set_own_time
from crew.actions.certifying import end_certification
from crew.confirmations import confirmed_on, waiting
from crew.core.call_sheet import read_sheet
from crew.models import Call, IssuedSheet
from crew.printing import issued_pdf
from crew.sheets.pen import LETTER
from tests.crew.peopled import certified
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.crew.test_call_sheet_pdf import text
from tests.factories import ACTOR, NOON
from venue.models import Position, Unit

pytestmark = pytest.mark.django_db


def issue(stage: Stage) -> IssuedSheet:
    related = ("event", "engagement__house", "engagement__setup")
    call = Call.objects.select_related(*related).get(pk=stage.call.pk)
    return issue_call_sheet(actor=ACTOR, call=call, now=NOON).sheet


def test_print_for_8_spots_has_8_lines_with_show_number_and_house_label_none_blank() -> None:
    made = issue(a_stage(8))
    lines = read_sheet(made.content).lines
    assert len(lines) == 8
    assert all(line.number and line.label for line in lines)
    printed = text(issued_pdf(made, paper=LETTER, now=NOON, site="https://book.example/"))
    assert [f"show {line.number} house {line.label}" in printed.lower() for line in lines] == [True] * 8


def test_an_old_revision_shows_a_banner_with_the_newest_number_and_time(client: Client) -> None:
    stage = a_stage(2)
    old = issue(stage)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    new = issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON + timedelta(hours=2)).sheet
    client.force_login(stage.cast.head)
    page = client.get(reverse("crew:sheet", args=[stage.call.ref, old.n])).content.decode()
    said = "Replaced: this is revision 1; revision 2 was issued Mar 2, 2026, 9:00 AM."
    assert said in " ".join(page.split())
    assert reverse("crew:sheet", args=[stage.call.ref, new.n]) in page


@pytest.mark.parametrize("seed", range(3))
def test_revision_n_of_an_unchanged_show_is_n(seed: int) -> None:
    """Issued again and again, the number rises with each change and stays where nothing changed."""
    stage, drawn = a_stage(2), Random(seed)
    expected = issue(stage).n
    for nth in range(8):
        if drawn.random() < 0.5:
            stage.cast.engagement.caller = f"desk {nth}"
            stage.cast.engagement.save()
            expected += 1
        assert issue(stage).n == expected


def test_contacts_are_printed_for_dispatch_alone_and_never_kept_in_the_sheet(client: Client) -> None:
    stage = a_stage(2)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    stage.people[0].phone = "555-0142"
    stage.people[0].save()
    made = issue(stage)
    assert "555-0142" not in made.content
    address = reverse("crew:sheet_pdf", args=[stage.call.ref, made.n, "letter"])
    client.force_login(stage.cast.dispatch)
    assert "Ada Quillfeather: 555-0142" in text(client.get(address, {"contacts": "yes"}).content)
    assert "555-0142" not in text(client.get(address).content)
    client.force_login(stage.cast.head)
    assert client.get(address, {"contacts": "yes"}).status_code == 403
    client.force_login(stage.cast.stranger)
    assert client.get(address, {"contacts": "yes"}).status_code == 404


def test_the_weather_of_outdoor_work_is_on_the_sheet_and_a_change_of_it_is_told(client: Client) -> None:
    stage = a_stage(2)
    issue(stage)
    facts = call_facts(weather="rain from 9 PM, 28 mph gusts: bring rain gear")
    change_call(actor=ACTOR, call=stage.call, facts=facts, seen=stage.call.version)
    made = issue(stage)
    assert made.n == 2
    client.force_login(stage.cast.head)
    page = client.get(reverse("crew:sheet", args=[stage.call.ref, 2])).content.decode()
    printed = text(issued_pdf(made, paper=LETTER, now=NOON, site="https://book.example/"))
    assert all("Weather: rain from 9 PM, 28 mph gusts: bring rain gear" in said for said in (page, printed))


def test_a_line_says_the_units_source_the_own_call_the_tickets_needed_and_held_and_who_is_told_by_the_late(
    client: Client,
) -> None:
    stage = a_stage(2)
    unit = stage.places[0].placements.get().unit
    unit.source = "2 kW xenon, short arc"
    unit.save()
    stage.cast.roster.late_tell = "the dispatch desk, 555-0100"
    stage.cast.roster.save()
    Position.objects.update(fall_protection="harness")
    day_before = SHOW_STARTS.date() - timedelta(days=1)
    certified(stage.people[0])
    certified(stage.people[0], "Arc-lamp handling", expires_on=day_before)
    number = next(line.number for line in read_sheet(issue(stage).content).lines if line.unit == unit.tag)
    line = put_on_number(actor=ACTOR, call=stage.call, number=number, person=stage.people[0])
    set_own_time(actor=ACTOR, line=line, own=SHOW_STARTS - timedelta(hours=2), seen=line.version)
    made = issue(stage)
    at = next(nth for nth, each in enumerate(read_sheet(made.content).lines, start=1) if each.number == number)
    client.force_login(stage.cast.head)
    on_sheet = (
        *("Certifications: Arc-lamp handling (NOT HELD), Climb and harness (held)", "Needs there: harness"),
        *(f"unit {unit.tag} (2 kW xenon, short arc)", "Own call: 6:00 PM", "Late? Tell the dispatch desk, 555-0100."),
    )
    sheet, card = (
        [client.get(reverse(f"crew:{page}", args=args)).content.decode(), text(client.get(paper).content)]
        for page, args, paper in (
            ("sheet", [stage.call.ref, made.n], reverse("crew:sheet_pdf", args=[stage.call.ref, made.n, "letter"])),
            ("card", [stage.call.ref, made.n, at], reverse("crew:cards_pdf", args=[stage.call.ref, made.n, "letter"])),
        )
    )
    for said in on_sheet:
        assert all(said in " ".join(shown.split()) for shown in sheet), said
    for said in on_sheet[1:]:
        assert all(said in " ".join(shown.split()) for shown in card), said


def test_a_ticket_that_is_only_told_changes_the_sheet_and_sends_nobody_back() -> None:
    stage = a_stage(2)
    Unit.objects.update(source="xenon")
    held = certified(stage.people[0], "Arc-lamp handling")
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    made = issue(stage)
    confirm_line(actor=ACTOR, line=stage.call.lines.get(), sheet=made, by="", at=NOON)
    end_certification(actor=ACTOR, certification=held, at=NOON, reason="taken back")
    after = issue(stage)
    assert read_sheet(after.content).lines[0].tickets == ("Arc-lamp handling (NOT HELD)",)
    assert after.n == 2
    assert waiting(read_sheet(after.content), confirmed_on(stage.call, after)) == []


def test_no_sheet_sends_somebody_to_a_position_whose_required_ticket_they_lack(client: Client) -> None:
    """A number may come onto a truss after somebody is on it, and a ticket may be taken back."""
    stage = a_stage(2)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    Position.objects.update(fall_protection="harness")
    client.force_login(stage.cast.dispatch)
    address = reverse("crew:sheet_issue", args=[stage.call.ref])
    told = client.post(address, follow=True).content.decode()
    assert "Ada Quillfeather has no “Climb and harness” on file" in told
    assert "The sheet was not issued: take them off these lines" in told
    assert not stage.call.sheets.exists()
    certified(stage.people[0])
    client.post(address)
    assert stage.call.sheets.get().n == 1
