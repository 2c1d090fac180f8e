"""Another number, time, place or weather is told to whom it concerns, once, with what they heard before."""

from collections.abc import Iterator
from datetime import timedelta

import pytest
import time_machine
from django.core import mail
from django.db import connection
from django.test.utils import CaptureQueriesContext

from crew.actions import add_line, change_call, issue_call_sheet, put_at_spot_talk, put_on_number
from crew.actions.changed import call_before, tell_call_changed
from crew.actions.lines import give_number, set_own_time
from crew.mailing import send_all
from crew.models import Call, CallLine, Message, Person
from shows.models import ShowEvent
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON

pytestmark = pytest.mark.django_db
SITE = "http://localhost"
HALF_HOUR = timedelta(minutes=30)


@pytest.fixture(autouse=True)
def at_noon() -> Iterator[None]:
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def stage(db: None) -> Stage:
    stage = a_stage(2)
    for index, person in enumerate(stage.people[:2]):
        person.email = f"person{index}@crew.example"
        person.save()
    return stage


def send() -> None:
    send_all(lambda: NOON, SITE)


def told(person: Person) -> list[str]:
    """What stands, the oldest first."""
    rows = Message.objects.filter(person=person).exclude(delivery="dropped").order_by("pk")
    return [f"{each.kind} {each.delivery}" for each in rows]


def change(stage: Stage, **facts: object) -> None:
    call = Call.objects.get(pk=stage.call.pk)
    change_call(actor=ACTOR, call=call, facts=call_facts(**facts), seen=call.version)


def retime(line: CallLine, before: timedelta | None) -> None:
    line = CallLine.objects.get(pk=line.pk)
    own = None if before is None else SHOW_STARTS - before
    set_own_time(actor=ACTOR, line=line, own=own, seen=line.version)


def test_a_number_given_before_the_call_is_told_and_the_same_one_again_is_not(stage: Stage) -> None:
    line = put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[0])
    send()
    for _twice in range(2):
        line = CallLine.objects.get(pk=line.pk)
        give_number(actor=ACTOR, line=line, number="2", at=NOON, seen=line.version)
        send()
    assert told(stage.people[0]) == ["booked sent", "changed sent"]
    sent = mail.outbox[-1]
    assert sent.subject == "Changed for you, please look: Nine Paper Boats, Mar 3, 2026, 6:30 PM"
    assert "Show 2 = house 1: Rear booth" in sent.body
    assert "Please say here that you have seen it: http" in sent.body


def test_a_swap_at_the_spot_talk_after_the_call_began_tells_nobody(stage: Stage) -> None:
    line = put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[0])
    send()
    with time_machine.travel(stage.call.call_at, tick=False):
        give_number(actor=ACTOR, line=line, number="2", at=NOON, seen=line.version)
    assert told(stage.people[0]) == ["booked sent"]


def test_another_own_time_says_what_it_was_when_they_heard_it_last(stage: Stage) -> None:
    line = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    send()
    retime(line, timedelta(hours=3))
    retime(line, timedelta(hours=2))
    assert told(stage.people[0]) == ["booked sent", "changed waiting"]
    assert Message.objects.get(delivery="waiting").words == "Call before: Mar 3, 2026, 6:30 PM"
    send()
    assert "Call: Mar 3, 2026, 6:00 PM, stage door" in mail.outbox[-1].body
    retime(line, None)
    assert Message.objects.get(delivery="waiting").words == "Call before: Mar 3, 2026, 6:00 PM"
    retime(line, timedelta(hours=2))
    assert Message.objects.get(delivery="waiting").words == ""


def test_whoever_never_heard_of_the_line_is_told_anew_that_they_are_on_it(stage: Stage) -> None:
    line = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    retime(line, timedelta(hours=3))
    change(stage, place="loading dock")
    assert told(stage.people[0]) == ["booked waiting"]
    send()
    assert "Call: Mar 3, 2026, 5:00 PM, loading dock" in mail.outbox[0].body


def test_a_changed_call_is_told_to_those_whom_it_concerns(stage: Stage) -> None:
    ada, mira = stage.people[:2]
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=ada)
    spare = add_line(actor=ACTOR, call=stage.call, at=NOON, role="spare", person=mira)
    retime(spare, timedelta(hours=3))
    send()
    change(stage)
    change(stage, notes="wear black")
    assert told(ada) == told(mira) == ["booked sent"]
    change(stage, call=SHOW_STARTS - timedelta(hours=1), notes="wear black")
    assert (told(ada), told(mira)) == (["booked sent", "changed waiting"], ["booked sent"])
    change(stage, talk=None, weather="rain from 9 PM")
    words = {each.person: each.words for each in Message.objects.filter(delivery="waiting")}
    assert words == {
        ada: "Spot talk before: Mar 3, 2026, 7:15 PM",  # the call time is back at what was heard
        mira: "Spot talk before: Mar 3, 2026, 7:15 PM",
    }
    send()
    assert "Weather: rain from 9 PM" in mail.outbox[-1].body
    assert "Spot talk: none" in mail.outbox[-1].body


def test_an_own_time_goes_along_to_another_day_and_is_told(stage: Stage) -> None:
    line = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    retime(line, timedelta(hours=3))
    send()
    later = timedelta(days=1)
    ShowEvent.objects.update(ends_at=None, ends_date=None, ends_time=None)
    change(
        stage, call=SHOW_STARTS - timedelta(hours=2) + later, talk=None, ends=SHOW_STARTS + timedelta(hours=3) + later
    )
    line = CallLine.objects.get(pk=line.pk)
    assert (line.own_date, line.own_time) == ((SHOW_STARTS + later).date(), (SHOW_STARTS - timedelta(hours=3)).time())
    assert line.starts_at == line.own_at
    assert Message.objects.get(delivery="waiting").words.startswith("Call before: Mar 3, 2026, 5:00 PM")
    send()
    assert "Call: Mar 4, 2026, 5:00 PM, stage door" in mail.outbox[-1].body


def test_a_later_revision_makes_it_needless_and_so_does_leaving(stage: Stage) -> None:
    line = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    send()
    retime(line, timedelta(hours=3))
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    assert told(stage.people[0]) == ["booked sent", "revision waiting"]
    change(stage, place="loading dock")
    assert told(stage.people[0])[-1] == "changed waiting"
    CallLine.objects.update(ended_at=NOON, ends_at=NOON, starts_at=NOON, ended_reason="gone")
    send()
    assert told(stage.people[0]) == ["booked sent"]


def test_a_changed_call_takes_as_many_queries_for_two_people_as_for_twenty(stage: Stage) -> None:
    counts = []
    for number in (2, 18):
        for index in range(number):
            person = stage.cast.roster.persons.create(name=f"Person {number} {index}")
            add_line(actor=ACTOR, call=stage.call, at=NOON, role="spare", person=person)
        before = call_before(stage.call)
        stage.call.place = f"door {number}"
        with CaptureQueriesContext(connection) as captured:
            tell_call_changed(stage.call, before)
        counts.append(len(captured))
    assert counts[0] == counts[1]
