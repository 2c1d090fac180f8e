"""The start page lists what its user may open, and in which role."""

import re
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, Cast, make_a_house, make_show, make_user, the_cast
from tests.shows.booked import a_booked_house, a_light, a_run
from venue.actions import grant_membership

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast() -> Cast:
    return the_cast()


def rows(client: Client, user: Any) -> list[str]:
    """The lines of the page's lists, as a person reads them."""
    client.force_login(user)
    with time_machine.travel(NOON, tick=False):
        response = client.get("/")
    assert response.status_code == 200
    items = re.findall(r'<li class="row">(.*?)</li>', response.content.decode(), re.DOTALL)
    return [" ".join(re.sub(r"<[^>]+>", " ", item).split()) for item in items]


@pytest.mark.parametrize(
    ("who", "seen"),
    [
        (
            "head",
            [
                "{house} head Today at {house} Shows in {house} Quick verdict in {house}",
                "{show} you may change it {house}, Mar 2 – Mar 8, 2026",
            ],
        ),
        (
            "reader",
            [
                "{house} reader Today at {house} Shows in {house} Quick verdict in {house}",
                "{show} you may look at it {house}, Mar 2 – Mar 8, 2026",
            ],
        ),
        ("road", ["{show} road crew {house}, Mar 2 – Mar 8, 2026"]),
        ("dispatch", ["{roster} dispatch"]),
        ("stranger", []),
    ],
)
def test_each_of_the_cast_sees_what_is_theirs_with_the_role(
    client: Client, cast: Cast, who: str, seen: list[str]
) -> None:
    names = {"house": cast.house.name, "show": cast.engagement.name, "roster": cast.roster.name}
    assert rows(client, getattr(cast, who)) == [line.format(**names) for line in seen]


def test_somebody_without_any_role_reads_what_to_do_first(client: Client) -> None:
    client.force_login(make_user("newcomer"))
    text = client.get("/").content.decode()
    assert "Ask the house head to add you" in text
    assert "<strong>newcomer</strong>" in text


def test_the_page_asks_as_much_of_the_database_for_twenty_houses_as_for_two(
    client: Client,
) -> None:
    head = make_user()
    client.force_login(head)
    counts = []
    for more in (2, 18):
        for _ in range(more):
            make_show(make_a_house(head=head))
        with time_machine.travel(NOON, tick=False), CaptureQueriesContext(connection) as captured:
            client.get("/")
        counts.append(len(captured))
    assert counts[0] == counts[1] <= 26


def test_the_head_is_told_of_a_lamp_that_will_not_last_a_booked_show(client: Client) -> None:
    house, head = a_booked_house(), make_user("keeper")
    a_light(house, "1", 980)
    a_run(house, 10)
    grant_membership(actor=ACTOR, house=house, user=head, role="head")
    client.force_login(head)
    with time_machine.travel(NOON, tick=False):
        assert "1 lamp will not last" in client.get("/").content.decode()
