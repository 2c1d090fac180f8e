"""The trade's stories of the call sheet, by their own words (common practice, no source)."""

from datetime import timedelta
from random import Random

import pytest
from django.test import Client
from django.urls import reverse

from crew.actions import issue_call_sheet, put_on_number
from crew.core.call_sheet import read_sheet
from crew.models import Call, IssuedSheet
from crew.printing import issued_pdf
from crew.sheets.pen import LETTER
from tests.crew.stage import Stage, a_stage
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
