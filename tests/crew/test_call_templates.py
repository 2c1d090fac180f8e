"""What a call begins with: the usual times or a template; its expected end and its meal, on the sheet too."""

from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from crew.actions import add_template, change_call, end_template, issue_call_sheet, make_call, put_on_number
from crew.core.call_sheet import changes, read_sheet
from crew.line_errors import CantComeThen
from crew.models import Call, CallTemplate
from crew.sheet_content import draft_of
from crew.wording.changes import change_sentence
from crew.wording.sheet import times
from shows.actions import add_show_event
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON
from venue.models import Event
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


@pytest.fixture(autouse=True)
def at_noon() -> Any:
    with time_machine.travel(NOON, tick=False):
        yield


def an_event(stage: Stage, **facts: Any) -> Any:
    starts = SHOW_STARTS + timedelta(days=1)
    return add_show_event(
        actor=ACTOR, engagement=stage.cast.engagement, **{"kind": "show", "starts": starts, "ends": None, **facts}
    )


def text_of(client: Client, name: str, *args: object, query: str = "") -> str:
    return " ".join(client.get(reverse(f"crew:{name}", args=args) + query).content.decode().split())


def form_of(**changed: str) -> dict[str, str]:
    return {
        "call_date": "2026-03-04",
        "call_time": "18:30",
        "talk_time": "19:15",
        "at_spot_talk": "0",
        **changed,
    }


def test_the_usual_end_and_a_templates_times_fill_the_form_by_one_tap(client: Client, stage: Stage) -> None:
    roster, event = stage.cast.roster, an_event(stage, ends=SHOW_STARTS + timedelta(days=1, hours=2, minutes=30))
    client.force_login(stage.cast.dispatch)
    usual = text_of(client, "call_new", event.ref)
    assert 'name="ends_time" value="23:00"' in usual
    values = {"name": "Show call", "event_kind": "show", "call_before_min": 60, "talk_before_min": None}
    people = {"meal_after_min": 150, "ends_after_min": 95, "place": "dock", "head_spots": 1, "spares": 2}
    template = add_template(actor=ACTOR, roster=roster, values={**values, **people})
    add_template(actor=ACTOR, roster=roster, values={"name": "Load-in call", "event_kind": "load-in"})
    offered = text_of(client, "call_new", event.ref, query=f"?template={template.ref}")
    assert "Begin with Show call" in offered
    assert "Begin with Load-in call" not in offered
    for value in ("19:00", "21:30", "00:05", "dock", "1", "2"):
        assert f'value="{value}"' in offered, value
    assert 'name="talk_time" value' not in offered
    odd = reverse("crew:call_new", args=[event.ref]) + "?template=%00nothing"
    assert 'value="18:30"' in client.get(odd).content.decode()


def test_a_call_wants_head_spots_spares_and_runners_who_are_counted_and_stand_on_the_sheet(
    client: Client, stage: Stage
) -> None:
    event = an_event(stage)
    client.force_login(stage.cast.dispatch)
    wanted = {
        "head_spots": "1",
        "spares": "1",
        "runners": "1",
        "at_spot_talk": "1",
        "roster": f"{stage.cast.roster.pk}",
    }
    client.post(reverse("crew:call_new", args=[event.ref]), form_of(**wanted, meal_time="21:00", ends_time="00:30"))
    call = Call.objects.get(event=event)
    assert [(line.seat, line.role) for line in call.lines.order_by("seat")] == [
        (1, "operator"),
        (2, "head"),
        (3, "spare"),
        (4, "runner"),
    ]
    assert f"{call.ends_wall:%m-%d %H:%M} {call.meal_wall:%H:%M}" == "03-05 00:30 21:00"
    page = text_of(client, "call", call.ref)
    assert "0 of 5, 5 to fill" in page
    data = {"version": f"{call.version}", "talk-1": "", "talk-2": "not-wanted", "hand-2": f"{stage.people[0].ref}"}
    client.post(reverse("crew:call_fill", args=[call.ref]), data)
    sheet = draft_of(Call.objects.get(event=event)).sheet
    assert [(hand.role, hand.name) for hand in sheet.hands] == [
        ("head", "Ada Quillfeather"),
        ("spare", ""),
        ("runner", ""),
    ]
    assert (sheet.filled, sheet.wanted, sheet.at_spot_talk) == (1, 5, ("",))
    assert {(what, when) for what, when, _where in times(sheet)} >= {
        ("Meal", "9:00 PM"),
        ("Expected end", "Mar 5, 2026, 12:30 AM"),
    }
    issue_call_sheet(actor=ACTOR, call=call, now=NOON)
    client.force_login(stage.cast.reader)
    shown = text_of(client, "sheet", call.ref, 1)
    assert "Head spot" in shown
    assert "12:30 AM" in shown


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"meal_time": "17:00"}, "is outside the call. Write a time from Mar "),
        ({"ends_time": "18:30"}, "is not after the call, Mar "),
        ({"ends_date": "2026-03-06"}, "Write the time of the expected end too."),
        ({"ends_time": "02:30", "ends_date": "2026-03-08"}, "clocks go forward then"),
        ({"spares": "61"}, "less than or equal to 60"),
        ({"call_date": "9999-12-31"}, "less than or equal to"),
        ({"ends_time": "23:00", "ends_date": "0001-01-01"}, "greater than or equal to"),
    ],
)
def test_a_bad_time_is_refused_with_words(client: Client, stage: Stage, changed: dict[str, str], message: str) -> None:
    event = an_event(stage)
    client.force_login(stage.cast.dispatch)
    data = form_of(roster=f"{stage.cast.roster.pk}", **changed)
    assert message in client.post(reverse("crew:call_new", args=[event.ref]), data).content.decode()
    assert not Call.objects.filter(event=event).exists()


def test_a_later_end_books_everybody_longer_and_a_refusal_names_who_and_where(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    later = an_event(stage, kind="load-out", starts=SHOW_STARTS + timedelta(hours=4))
    facts = call_facts(call=SHOW_STARTS + timedelta(hours=4), talk=None)
    other = make_call(actor=ACTOR, roster=stage.cast.roster, event=later, facts=facts)
    put_on_number(actor=ACTOR, call=other, number="1", person=stage.people[0])
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    before = read_sheet(stage.call.sheets.get().content)
    change_call(
        actor=ACTOR,
        call=stage.call,
        facts=call_facts(ends=SHOW_STARTS + timedelta(hours=3, minutes=45)),
        seen=stage.call.version,
    )
    assert stage.call.lines.get().ends_at == stage.call.ends_at
    said = [change_sentence(each) for each in changes(before, draft_of(stage.call).sheet)]
    assert said == ["Expected end: Mar 3, 2026, 11:45 PM (was: Mar 3, 2026, 11:00 PM)"]
    with pytest.raises(CantComeThen, match=r"Ada Quillfeather is on another call .* Paper Boats at Quillmark Hall"):
        change_call(
            actor=ACTOR,
            call=stage.call,
            facts=call_facts(ends=SHOW_STARTS + timedelta(hours=5)),
            seen=stage.call.version,
        )


def test_a_template_is_changed_against_its_version_and_ends_with_a_reason(client: Client, stage: Stage) -> None:
    roster = stage.cast.roster
    client.force_login(stage.cast.dispatch)
    form = {"name": "Show call", "event_kind": "show", "call_before_min": "90", "talk_before_min": "45"}
    form |= {"ends_after_min": "30", "head_spots": "1", "spares": "0", "runners": "0"}
    client.post(reverse("crew:template_new", args=[roster.ref]), form)
    twice = client.post(reverse("crew:template_new", args=[roster.ref]), {**form, "name": " show  CALL "})
    assert "a template of this name already" in twice.content.decode()
    listed = text_of(client, "template_list", roster.ref)
    assert "For show: call 90 min before, spot talk 45 min before, released 30 min after its end; 1 head spot" in listed
    (template,) = CallTemplate.objects.all()
    edit = reverse("crew:template_edit", args=[roster.ref, template.ref])
    assert client.post(edit, {**form, "spares": "2", "version": "1"}).status_code == 302
    assert "Somebody else changed this" in client.post(edit, {**form, "version": "1"}).content.decode()
    late = client.post(edit, {**form, "talk_before_min": "100", "version": "2"}).content.decode()
    assert "The spot talk is before the call." in late
    template.refresh_from_db()
    end_template(actor=ACTOR, template=template, at=NOON, reason="two spares are too many")
    assert client.get(edit).status_code == 404
    told = [event_sentence(line) for line in Event.objects.about("calltemplate", template.ref)]
    assert told == [
        f"added the call template Show call to the roster {roster.name}",
        f"changed the call template Show call of the roster {roster.name}",
        f"ended the call template Show call of the roster {roster.name}: two spares are too many",
    ]
