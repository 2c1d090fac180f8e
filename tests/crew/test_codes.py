"""What anybody may ask with a code: the state of the sheet, and not one name."""

from collections.abc import Iterator
from datetime import timedelta

import pytest
import time_machine
from django.core.cache import cache
from django.test import Client

from crew.actions import issue_call_sheet, put_on_number
from crew.models import Call, IssuedSheet
from tests.crew.stage import NAMES, Stage, a_stage
from tests.factories import ACTOR, NOON
from venue.actions import make_code
from venue.views.asking import ASKED_A_MINUTE

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def nobody_has_asked_yet() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


def issue(hours: int = 0) -> IssuedSheet:
    return issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON + timedelta(hours=hours)).sheet


def answer(client: Client, code: str) -> str:
    response = client.get(f"/q/{code}")
    assert response.status_code == 200
    return " ".join(response.content.decode().split())


def test_the_three_answers(client: Client, stage: Stage) -> None:
    code = issue().code.code
    assert "Current: this is revision 1, the latest, issued Mar 2, 2026, 7:00 AM" in answer(client, code)
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    assert "Changed since revision 1, not issued" in answer(client, code)
    issue(hours=2)
    assert "Replaced: this is revision 1; revision 2 was issued Mar 2, 2026, 9:00 AM." in answer(client, code)


def test_no_name_of_anybody_or_anything_is_told(client: Client, stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    text = answer(client, issue().code.code)
    for name in (*NAMES, stage.cast.house.name, stage.cast.engagement.name, "tests", "Rear booth"):
        assert name not in text


def test_a_code_is_read_however_it_is_typed(client: Client, stage: Stage) -> None:
    code = issue().code.code
    assert "CURRENT" in answer(client, f"{code[:4]}-{code[4:7]}-{code[7:]}".lower())


@pytest.mark.parametrize("code", ["ACDEFGHJKMN", "x", "%00", "%F0%9F%92%A1", "A" * 300, "'; --"])
def test_an_unknown_code_meets_the_page_of_whatever_is_not_there(client: Client, stage: Stage, code: str) -> None:
    issue()
    response = client.get(f"/q/{code}")
    assert response.status_code == 404
    assert response.templates[0].name == "errors/404.html"


def test_a_code_of_something_else_is_not_answered_for_a_sheet(client: Client, stage: Stage) -> None:
    code = make_code(actor=ACTOR, purpose="tape", subject=stage.places[0], house=stage.cast.house)
    assert client.get(f"/q/{code.code}").status_code == 404


def test_asking_changes_nothing_and_is_neither_listed_nor_kept(client: Client, stage: Stage) -> None:
    code = issue().code.code
    response = client.get(f"/q/{code}")
    assert response["X-Robots-Tag"] == "noindex, nofollow"
    assert response["Referrer-Policy"] == "same-origin"
    assert response["Cache-Control"] == "no-store"
    assert client.post(f"/q/{code}").status_code == 405


def test_who_asks_too_often_waits_for_the_next_minute(client: Client, stage: Stage) -> None:
    code = issue().code.code
    for _ in range(ASKED_A_MINUTE):
        assert client.get("/q/ACDEFGHJKMN").status_code == 404
    response = client.get(f"/q/{code}")
    assert response.status_code == 429
    assert response["Retry-After"] == "60"
    assert "Wait a minute" in response.content.decode()
    assert client.get(f"/q/{code}", REMOTE_ADDR="192.0.2.7").status_code == 200
    with time_machine.travel(NOON + timedelta(minutes=1), tick=False):
        assert client.get(f"/q/{code}").status_code == 200


def test_addresses_of_one_ipv6_network_count_together(client: Client, stage: Stage) -> None:
    code = issue().code.code
    for index in range(ASKED_A_MINUTE):
        client.get(f"/q/{code}", REMOTE_ADDR=f"2001:db8:0:7::{index:x}")
    assert client.get(f"/q/{code}", REMOTE_ADDR="2001:db8:0:7::ffff").status_code == 429
    assert client.get(f"/q/{code}", REMOTE_ADDR="2001:db8:0:8::1").status_code == 200
