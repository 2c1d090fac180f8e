"""The trade's stories of the call sheet, by their own words (common practice, no source)."""

from datetime import timedelta
from random import Random

import pytest
from django.test import Client
from django.urls import reverse

from crew.actions import change_call, issue_call_sheet, put_on_number
from crew.core.call_sheet import read_sheet
from crew.models import Call, IssuedSheet
from crew.printing import issued_pdf
from crew.sheets.pen import LETTER
from tests.crew.stage import Stage, a_stage, call_facts
from tests.crew.test_call_sheet_pdf import text
from tests.factories import ACTOR, NOON

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
