"""Choosing who comes on a line by a tap, the proposal for a whole call, and the list of who was passed over."""

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import add_person, fill_call, put_at_spot_talk, put_on_number
from crew.core.namesakes import Bearer, told_apart
from crew.models import Call, CallLine, DaysOff, PassedOver, Person, Roster
from crew.proposal import proposed_for
from tests.crew.stage import Stage, a_stage
from tests.crew.test_candidates import SHOW_DAY, a_call, certify, day
from tests.factories import ACTOR, NOON
from venue.models import Position

pytestmark = pytest.mark.django_db
ADA, MIRA, ZOFIA, DOV, JULIA = range(5)


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


@pytest.fixture(autouse=True)
def signed_in(client: Client, stage: Stage) -> Iterator[None]:
    with time_machine.travel(NOON, tick=False):
        client.force_login(stage.cast.dispatch)
        yield


def address(stage: Stage, name: str = "line_who") -> str:
    return reverse(f"crew:{name}", args=[stage.call.ref])


def page(client: Client, at: str, **query: object) -> str:
    response = client.get(at, query)
    assert response.status_code == 200
    return " ".join(response.content.decode().split())


def tap(client: Client, stage: Stage, person: Person, number: str = "1", **more: object) -> str | None:
    """The page that a tap brings, None where it was stored."""
    version = Call.objects.get(pk=stage.call.pk).version
    data = {"version": version, "number": number, "seat": 1, "person": person.ref, **more}
    response = client.post(address(stage), data)
    return None if response.status_code == 302 else " ".join(response.content.decode().split())


def on_it(stage: Stage) -> dict[str, str]:
    lines = stage.call.lines.standing().filter(person__isnull=False).select_related("person")
    return {str(line): line.person.name for line in lines if line.person}


def test_the_page_says_who_can_come_and_why_the_rest_can_not(client: Client, stage: Stage) -> None:
    Position.objects.update(fall_protection="harness")
    for index in (ADA, ZOFIA, DOV, JULIA):
        certify(stage.people[index], expires_on=SHOW_DAY - timedelta(days=index == JULIA))
    DaysOff.objects.create(person=stage.people[DOV], first_day=SHOW_DAY, last_day=SHOW_DAY)
    put_at_spot_talk(actor=ACTOR, call=a_call(stage, day(3, 18), day(3, 22)), person=stage.people[ZOFIA])
    text = page(client, address(stage), number="1", seat=1)
    assert "1 person can come. 4 can&#x27;t:" in text
    for said in (
        "no Climb and harness on file",
        "booked Mar 3, 6:00 PM to 10:00 PM",
        "day off, Mar 3, 2026",
        "Climb and harness only through Mar 2, 2026",
        "Caution: going up",
    ):
        assert said in text
    assert text.count("Put on it") == 1
    assert "Dov Halloran" in page(client, address(stage), number="1", seat=1, q="dov")


def test_a_tap_puts_somebody_on_the_line_and_a_stale_one_does_not(client: Client, stage: Stage) -> None:
    old = stage.call.version
    assert tap(client, stage, stage.people[ADA], number="Spot 01") is None
    assert on_it(stage) == {"show 1": "Ada Quillfeather"}
    assert "Somebody else changed this" in (tap(client, stage, stage.people[MIRA], number="2", version=old) or "")


def test_whoever_is_on_the_line_is_replaced_for_a_reason(client: Client, stage: Stage) -> None:
    old = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[ADA])
    asked = tap(client, stage, stage.people[MIRA]) or ""
    assert "Say why it ends" in asked
    assert "Put Мира Лисовская on it for this reason" in asked
    assert tap(client, stage, stage.people[MIRA], reason="sick") is None
    new = CallLine.objects.standing().get(person=stage.people[MIRA])
    assert (new.follows, new.number) == (old, "1")


def test_where_the_list_is_strict_passing_somebody_over_takes_a_reason_which_is_kept(
    client: Client, stage: Stage
) -> None:
    Roster.objects.filter(pk=stage.cast.roster.pk).update(is_strict=True, referral_order="seniority")
    for place, person in enumerate(stage.people, start=1):
        Person.objects.filter(pk=person.pk).update(seniority=place)
    DaysOff.objects.create(person=stage.people[MIRA], first_day=SHOW_DAY, last_day=SHOW_DAY)
    asked = tap(client, stage, stage.people[DOV]) or ""
    assert "2 people come earlier on the list and can come: Ada Quillfeather, Zofia Wiśniak." in asked
    assert on_it(stage) == {}
    assert tap(client, stage, stage.people[DOV], reason="ran it last night") is None
    assert [row.person.name for row in PassedOver.objects.all()] == ["Ada Quillfeather", "Zofia Wiśniak"]
    assert tap(client, stage, stage.people[ADA], number="2") is None
    told = page(client, address(stage, "passed_over"))
    assert "<td>Ada Quillfeather, Zofia Wiśniak</td><td>ran it last night</td>" in told
    assert tap(client, stage, stage.people[JULIA], reason="sick") is None
    assert PassedOver.objects.filter(reason="sick").count() == 2  # who is off it now, and who is free
    data = {"version": Call.objects.get(pk=stage.call.pk).version, "talk-1": "not-wanted"}
    chosen = {"on-1-1": stage.people[DOV].ref, "on-2-1": stage.people[JULIA].ref}
    filled = client.post(reverse("crew:call_fill", args=[stage.call.ref]), {**data, **chosen}).content.decode()
    assert "Write why they are passed over" in filled


def test_the_form_of_the_call_marks_who_can_not_come(client: Client, stage: Stage) -> None:
    Position.objects.update(fall_protection="harness")
    certify(stage.people[ADA], expires_on=SHOW_DAY - timedelta(days=1))
    text = page(client, reverse("crew:call", args=[stage.call.ref]))
    assert ">Ada Quillfeather — Climb and harness only through Mar 2, 2026</option>" in text
    assert ">Мира Лисовская — no Climb and harness on file</option>" in text
    assert ">Ada Quillfeather</option>" in text  # at the spot talk, where no place is known


def test_a_proposal_is_shown_and_taken_in_one_tap(client: Client, stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[ADA])
    Position.objects.update(fall_protection="harness")
    certify(stage.people[ZOFIA])
    text = page(client, address(stage, "call_propose"))
    assert "Every open line has somebody." in text
    assert "show 2: Ada Quillfeather — <strong>look again:</strong> no Climb and harness" in text.replace(
        "Show", "show"
    )
    seen = proposed_for(Call.objects.get(pk=stage.call.pk)).fingerprint
    assert f'value="{seen}"' in text
    put_at_spot_talk(actor=ACTOR, call=a_call(stage, day(3, 18), day(3, 22)), person=stage.people[ZOFIA])
    refused = client.post(address(stage, "call_propose"), {"seen": seen}).content.decode()
    assert "while you were looking" in refused
    assert "Nobody can come: 1 booked, 3 without a certification." in refused
    CallLine.objects.exclude(call=stage.call).update(ended_at=NOON, ended_reason="x", ends_at=NOON, starts_at=NOON)
    assert client.post(address(stage, "call_propose"), {"seen": seen}).status_code == 302
    assert on_it(stage) == {"show 1": "Zofia Wiśniak", "show 2": "Ada Quillfeather"}


def test_an_open_line_says_what_nobody_has(client: Client, stage: Stage) -> None:
    Position.objects.update(fall_protection="harness")
    text = page(client, address(stage, "call_propose"))
    assert text.count("Nobody has Climb and harness through that day.") == 2
    assert "For 2 lines nobody can be proposed." in text


def test_those_of_the_spot_talk_take_the_lights_that_nobody_is_on(stage: Stage) -> None:
    call = stage.call
    put_at_spot_talk(actor=ACTOR, call=call, person=stage.people[JULIA])
    proposed = proposed_for(call)
    assert (len(proposed.proposal.chosen), len(proposed.new)) == (2, 1)
    fill_call(actor=ACTOR, call=call, people={}, at_spot_talk=[None] * 3, at=NOON, seen=call.version)
    assert [seat for seat in proposed_for(call).new if not seat[0]] == [("", 1)]


@pytest.mark.parametrize(
    "query",
    [
        {},
        {"number": "1"},
        {"number": "1", "seat": "99999999999999999999"},
        {"number": "1", "seat": "-1"},
        {"number": "\0", "seat": "1"},
        {"number": "no such", "seat": "1"},
        {"number": "1", "seat": "NaN"},
    ],
)
def test_an_address_without_a_line_of_the_call_asks_which(client: Client, stage: Stage, query: dict[str, str]) -> None:
    assert "which line?" in page(client, address(stage), **query)


@pytest.mark.parametrize(
    ("bearers", "expected"),
    [
        ((("Ada", 3, 1), ("Dov", 4, 1)), {}),
        ((("Ada", 3, 1), ("ada ", 4, 1), ("Dov", 4, 1)), {1: ("list", 3), 2: ("list", 4)}),
        ((("Ada", None, 2), ("Ada", 4, 1)), {1: ("grade", 2), 2: ("grade", 1)}),
        ((("Ada", 4, 1), ("Ada", 4, 1)), {1: ("entry", 1), 2: ("entry", 2)}),
        ((("Ada", None, 1), ("Ada", None, None), ("Ada", 1, 2)), {n: ("entry", n) for n in (1, 2, 3)}),
    ],
)
def test_those_of_one_name_are_told_apart_by_what_does_for_all_of_them(bearers: Any, expected: Any) -> None:
    assert told_apart(Bearer(key, *facts) for key, facts in enumerate(bearers, start=1)) == expected


def test_every_choice_of_people_tells_those_of_one_name_apart(client: Client, stage: Stage) -> None:
    for seniority in (14, 15):
        add_person(
            actor=ACTOR, roster=stage.cast.roster, name="Tove Brandauer", seniority=seniority, email="t@a.example"
        )
    line = put_on_number(actor=ACTOR, call=stage.call, number="2", person=Person.objects.get(seniority=15))
    replace = reverse("crew:line_replace", args=[stage.call.ref, line.ref])
    addresses = [replace, *(address(stage, name) for name in ("call", "line_new", "day_extra"))]
    for at in (*addresses, address(stage) + "?number=1&seat=1", address(stage, "offer_new") + "?number=1&seat=1"):
        text = page(client, at)
        assert "Tove Brandauer, no. 14 on the list" in text, at
        assert "Ada Quillfeather, " not in text and "t@a.example" not in text, at


def test_odd_searches_and_pages_are_answered(client: Client, stage: Stage) -> None:
    for odd in ({"q": "\0"}, {"q": "%' x" * 99}, {"page": "-3"}, {"page": "x"}):
        page(client, address(stage), number="1", seat=1, **odd)
    assert "Nothing was changed" in client.post(address(stage, "call_propose"), {"seen": "x"}).content.decode()
    bad = client.post(address(stage), {"number": "1", "seat": 1, "version": 1, "person": "nobody"})
    assert "not on the roster any more" in bad.content.decode()


def test_the_pages_ask_as_much_for_sixty_people_as_for_five(client: Client, stage: Stage) -> None:
    counts = []
    for _round in range(2):
        with CaptureQueriesContext(connection) as captured:
            page(client, address(stage), number="1", seat=1)
            page(client, address(stage, "call_propose"))
            page(client, reverse("crew:call", args=[stage.call.ref]))
        counts.append(len(captured))
        for index in range(55):
            certify(add_person(actor=ACTOR, roster=stage.cast.roster, name=f"Person {index:02}"))
    assert counts[0] == counts[1]
