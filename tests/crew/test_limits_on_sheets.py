"""A limit reaches every show that uses the unit at once: pages, readiness, the sheet and its standing."""

from datetime import UTC, datetime, timedelta
from io import BytesIO

import pytest
import time_machine
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from crew.actions import issue_call_sheet, put_on_number
from crew.core.call_sheet import SheetLine, canonical, read_sheet
from crew.landing import Card, cards
from crew.models import Call, IssuedSheet
from crew.sheet_basis import basis_of
from crew.sheet_content import draft_of, state_of
from crew.sheet_standing import standing_of_sheet
from crew.wording.changes import change_sentence
from shows.actions import add_show_event, make_engagement, put_spots
from shows.lines import show_lines
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, add_lights, spots
from tests.factories import ACTOR, NOON
from tests.venue.fitted import fitted_lamp
from tests.venue.pages import as_user, words
from venue.actions import close_fault, decide_past_stop, report_fault
from venue.models import Fault, Unit

pytestmark = pytest.mark.django_db
ON_THE_DAY = datetime(2026, 3, 3, 15, tzinfo=UTC)


@pytest.fixture
def stage(db: None) -> Stage:
    """Two lights: show 1 is at the place labelled 2, show 2 at the one labelled 1."""
    return a_stage(2)


def unit_of(stage: Stage, label: str) -> Unit:
    return next(place for place in stage.places if place.label == label).placements.get().unit


def fault(stage: Stage, label: str, means: str = "out", **facts: str) -> Fault:
    usual = {"part": "douser", "limit_kind": "blackout"} if means == "limited" else {"part": "ballast", "limit": "dead"}
    return report_fault(actor=ACTOR, unit=unit_of(stage, label), means=means, at=NOON, **{**usual, **facts})


def line_of(stage: Stage, number: str) -> SheetLine:
    return next(line for line in draft_of(Call.objects.get()).sheet.lines if line.number == number)


def issue(stage: Stage) -> IssuedSheet:
    for number, person in zip(("1", "2"), stage.people, strict=False):
        put_on_number(actor=ACTOR, call=Call.objects.get(), number=number, person=person)
    return issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON).sheet


def head_card(stage: Stage) -> Card:
    (found,) = cards(stage.cast.head, ON_THE_DAY)
    return found


def test_a_fault_is_noted_on_the_line_of_every_show_that_uses_the_unit_at_once(stage: Stage) -> None:
    other = make_engagement(
        actor=ACTOR, house=stage.cast.house, name="Salt Lanterns", starts_on=NOON.date(), ends_on=NOON.date()
    )
    put_spots(actor=ACTOR, engagement=other, spots=spots(2), at=NOON)
    other.statement = "rear booth, house right to house left"
    other.save()
    fault(stage, "1", "limited")
    for engagement, number in ((stage.cast.engagement, "2"), (other, "1")):
        lines = {line.number: line for line in show_lines(engagement, stage.event.starts_at)}
        assert lines[number].limits == ("No full blackout",)
        assert sum(bool(line.limits) for line in lines.values()) == 1


def test_the_sheet_its_page_and_its_print_say_what_the_light_can_not_do(stage: Stage) -> None:
    fault(stage, "1", "limited")
    fault(stage, "2")
    assert line_of(stage, "2").limits == ("No full blackout",)
    assert line_of(stage, "1").stops == ("Ballast: dead",)
    sheet, client = issue(stage), as_user(stage.cast.head)
    page = words(client.get(f"/calls/{stage.call.ref}/sheets/{sheet.n}/"))
    content = client.get(f"/calls/{stage.call.ref}/sheets/{sheet.n}/letter.pdf").content
    printed = " ".join(" ".join(each.extract_text().split()) for each in PdfReader(BytesIO(content)).pages)
    call = words(client.get(f"/calls/{stage.call.ref}/"))
    to_fill = words(as_user(stage.cast.dispatch).get(f"/calls/{stage.call.ref}/"))
    for said in (page, printed, call, to_fill):
        assert "LIMIT: No full blackout" in said
        assert "OUT OF SERVICE: Ballast: dead" in said


def test_a_fault_after_issue_means_changed_not_issued_until_it_is_issued_or_closed(stage: Stage) -> None:
    sheet = issue(stage)
    assert standing_of_sheet(the(sheet)).state == "current"
    found = fault(stage, "1", "limited")
    assert standing_of_sheet(the(sheet)).state == "changed-not-issued"
    (change,) = state_of(Call.objects.get()).changes
    assert change_sentence(change) == "Show 2, limits of the unit: No full blackout (was: nothing)"
    close_fault(actor=ACTOR, fault=found, seen=found.version, at=NOON, done="new leaf", by="Tove Brandauer")
    assert standing_of_sheet(the(sheet)).state == "current"


def the(sheet: IssuedSheet) -> IssuedSheet:
    related = ("call__event", "call__engagement__house", "call__engagement__setup")
    return IssuedSheet.objects.select_related(*related).get(pk=sheet.pk)


@pytest.mark.parametrize("what", ["report", "close", "past its stop", "decide"])
def test_what_changes_a_units_condition_changes_the_basis_of_the_sheet(stage: Stage, what: str) -> None:
    unit, standing = unit_of(stage, "1"), fault(stage, "2", "limited")
    lamp = fitted_lamp(unit, 1003) if what == "decide" else None
    before = basis_of(a_call())
    if what == "report":
        fault(stage, "1", "limited")
    elif what == "close":
        close_fault(actor=ACTOR, fault=standing, seen=standing.version, at=NOON, done="new leaf", by="Tove")
    elif lamp is None:
        fitted_lamp(unit, 1003)
    else:
        facts = {"by": "Inga Sørlund", "makers_source": "maker's manual, 4.2", "reason": "one more show"}
        decide_past_stop(actor=ACTOR, lamp=lamp, at=NOON, until_h=lamp.came_with_h + 20, **facts)
    assert basis_of(a_call()) != before


def a_call() -> Call:
    return Call.objects.select_related("event", "engagement__house", "engagement__setup").get()


def test_a_sheet_issued_before_limits_were_kept_reads_back_and_keeps_its_digest(stage: Stage) -> None:
    content = issue(stage).content
    assert '"limits"' not in content and '"stops"' not in content
    sheet = read_sheet(content)
    assert {(line.limits, line.stops) for line in sheet.lines} == {((), ())}
    assert canonical(sheet) == content


def test_a_head_reads_which_number_stands_on_a_unit_out_of_service_and_is_led_to_it(stage: Stage) -> None:
    issue(stage)
    tag = unit_of(stage, "2").tag
    assert head_card(stage).sentence.endswith("can run.")
    fault(stage, "2")
    found = head_card(stage)
    assert found.sentence.endswith(f"can't run yet. Show 1 stands on {tag}, out of service.")
    assert (found.url, found.label) == ("/houses/quillmark-hall/today/", "See what is out")
    assert "Today at Quillmark Hall: 1 unit is out of service." in found.more


def test_a_limited_unit_stops_no_show_but_the_card_counts_it(stage: Stage) -> None:
    fault(stage, "2", "limited")
    issue(stage)
    found = head_card(stage)
    assert found.sentence.endswith("can run.")
    assert found.more[-1] == "Today at Quillmark Hall: 1 unit is limited."


def test_a_unit_out_stops_a_show_for_which_no_crew_is_called(stage: Stage) -> None:
    fault(stage, "2")
    starts = SHOW_STARTS + timedelta(days=1)
    add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=starts)
    assert any("stands on" in line and "out of service" in line for line in head_card(stage).more)


def test_the_pages_about_the_numbers_say_what_the_units_can_not_do(stage: Stage) -> None:
    fault(stage, "1", "limited")
    fault(stage, "2")
    ref, client = stage.cast.engagement.ref, as_user(stage.cast.head)
    limited, out = unit_of(stage, "1").tag, unit_of(stage, "2").tag
    for page in ("", "compare/", "places/", "assign/"):
        said = words(client.get(f"/shows/{ref}/{page}"))
        assert f"{limited}: no full blackout" in said, page
        assert f"{out} is out of service: Ballast: dead" in said, page


def test_todays_page_tells_which_show_numbers_have_no_light_and_where_to_put_them(stage: Stage) -> None:
    fault(stage, "2")
    fault(stage, "1", "limited")
    with time_machine.travel(ON_THE_DAY, tick=False):
        answer = as_user(stage.cast.head).get("/houses/quillmark-hall/today/")
    said, tag = words(answer), unit_of(stage, "2").tag
    assert "1 show number has no light; 1 unit is out of service; 1 unit is limited." in said
    assert f"Tue, Mar 3, 8:00 PM: {tag} is out of service: Ballast: dead" in said
    shown = answer.context["step"]  # type: ignore[attr-defined]
    assert (shown.url, shown.label) == (
        f"/shows/{stage.cast.engagement.ref}/assign/",
        "Put show 1 of Nine Paper Boats on another place",
    )


def test_todays_page_tells_which_lamp_will_not_last_which_show(stage: Stage) -> None:
    """Two hours left; the show burns half an hour before and two and a half hours long."""
    lamp = fitted_lamp(unit_of(stage, "2"), 998, "L-0117")
    stage.cast.house.log.update(is_open=False)
    with time_machine.travel(ON_THE_DAY, tick=False):
        said = words(as_user(stage.cast.head).get("/houses/quillmark-hall/today/"))
    assert f"Lamp {lamp} passes its stop in Nine Paper Boats, Tue, Mar 3, 8:00 PM" in said
    assert "1 lamp will not last" in said


def test_the_pages_ask_the_database_as_often_for_two_lights_as_for_twenty(stage: Stage) -> None:
    client, ref = as_user(stage.cast.head), stage.cast.engagement.ref
    pages = [f"/shows/{ref}/{page}" for page in ("", "compare/", "places/", "assign/")]
    pages += [f"/calls/{stage.call.ref}/", "/", "/houses/quillmark-hall/today/"]
    fault(stage, "1", "limited")
    few = [asked(client, page) for page in pages]
    add_lights(stage, 20)
    for unit in stage.cast.house.units.filter(faults__isnull=True):
        report_fault(actor=ACTOR, unit=unit, means="out", at=NOON, part="ballast", limit="dead")
    assert few == [asked(client, page) for page in pages]


def asked(client: Client, page: str) -> int:
    cache.clear()
    with time_machine.travel(ON_THE_DAY, tick=False), CaptureQueriesContext(connection) as queries:
        answer: HttpResponse = client.get(page)
    assert answer.status_code == 200
    return len(queries)
