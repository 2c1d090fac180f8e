"""The roster's page, and opening a house from the browser."""

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.access import roster_for
from crew.actions import add_person, end_person
from crew.models import Person, Roster
from tests.factories import ACTOR, NOON, Cast, the_cast
from venue.access import house_for
from venue.models import House

pytestmark = pytest.mark.django_db
ROLES = ("head", "dispatch", "road", "reader", "stranger")


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


def roster_page(cast: Cast, name: str = "roster", *more: object) -> str:
    return reverse(f"crew:{name}", args=[cast.roster.ref, *more])


def test_only_dispatch_sees_and_changes_a_roster(client: Client, cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow")
    expected = {"dispatch": [200, 302, 200]}
    for who in ROLES:
        client.force_login(getattr(cast, who))
        found = [
            client.get(roster_page(cast)).status_code,
            client.post(roster_page(cast, "person_add"), {"name": "Dov Halloran"}).status_code,
            client.get(roster_page(cast, "person_end", person.ref)).status_code,
        ]
        assert found == expected.get(who, [404, 404, 404])
    assert Person.objects.filter(name="Dov Halloran").count() == 1


def test_an_empty_roster_says_what_to_do_first(client: Client, cast: Cast) -> None:
    client.force_login(cast.dispatch)
    assert "Add the first person" in client.get(roster_page(cast)).content.decode()


@pytest.mark.parametrize("name", ["", "   ", "x" * 121, "half\0name"])
def test_a_bad_name_is_refused_at_its_field(client: Client, cast: Cast, name: str) -> None:
    client.force_login(cast.dispatch)
    response = client.post(roster_page(cast, "person_add"), {"name": name})
    assert response.status_code == 200
    assert "field-wrong" in response.content.decode()
    assert not Person.objects.exists()


def test_somebody_is_taken_off_with_a_reason_once(client: Client, cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow")
    client.force_login(cast.dispatch)
    address = roster_page(cast, "person_end", person.ref)
    assert "field-wrong" in client.post(address, {"reason": ""}).content.decode()
    assert client.post(address, {"reason": "moved away"}).status_code == 302
    assert "has ended already" in client.post(address, {"reason": "again"}).content.decode()
    assert not cast.roster.persons.standing().exists()


def test_a_person_of_another_roster_is_not_found(client: Client, cast: Cast) -> None:
    other = add_person(actor=ACTOR, roster=Roster.objects.create(name="Other"), name="Ines Tallow")
    client.force_login(cast.dispatch)
    assert client.get(roster_page(cast, "person_end", other.ref)).status_code == 404


def test_the_roster_asks_as_much_for_sixty_people_as_for_two(client: Client, cast: Cast) -> None:
    client.force_login(cast.dispatch)
    counts = []
    for more in (2, 58):
        for index in range(more):
            add_person(actor=ACTOR, roster=cast.roster, name=f"Person {index}")
        with CaptureQueriesContext(connection) as captured:
            client.get(roster_page(cast))
        counts.append(len(captured))
    assert counts[0] == counts[1]


def house_data(**changed: str) -> dict[str, str]:
    usual = {
        "name": "Ellery Arena",
        "slug": "ellery",
        "time_zone": "America/Denver",
        "unit_system": "imperial",
        "day_turns_at": "05:00",
        "layout": "bowl",
    }
    return {**usual, **changed}


def test_only_a_head_opens_another_house(client: Client, cast: Cast) -> None:
    expected = {"head": 302}
    for who in ROLES:
        client.force_login(getattr(cast, who))
        response = client.post(reverse("crew:house_new"), house_data(slug=f"house-{who}"))
        assert response.status_code == expected.get(who, 403)
    client.force_login(cast.reader)
    assert "Only somebody who heads a house already" in client.get(reverse("crew:house_new")).content.decode()


def test_who_opens_a_house_heads_it_and_dispatches_its_roster(client: Client, cast: Cast) -> None:
    client.force_login(cast.head)
    client.post(reverse("crew:house_new"), house_data())
    house, may_write = house_for(cast.head, "ellery")
    assert (house.setups.get().layout, house.setups.get().is_default, may_write) == ("bowl", True, True)
    roster = Roster.objects.get(name="Ellery Arena")
    assert roster_for(cast.head, roster.ref) == (roster, True)


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"slug": "quillmark-hall"}, "Another house has this short name"),
        ({"slug": "new"}, "an address of its own"),
        ({"slug": "two words"}, "valid “slug”"),
        ({"name": ""}, "This field is required"),
        ({"time_zone": "Mars/Olympus"}, "is not a time zone"),
        ({"layout": "moat"}, "is not one of the available choices"),
    ],
)
def test_a_bad_house_is_refused_and_nothing_typed_is_lost(
    client: Client, cast: Cast, changed: dict[str, str], message: str
) -> None:
    client.force_login(cast.head)
    text = client.post(reverse("crew:house_new"), {**house_data(), **changed}).content.decode()
    assert message in text
    assert 'value="05:00"' in text
    assert House.objects.count() == 1


def test_an_ended_person_is_not_listed(client: Client, cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow")
    end_person(actor=ACTOR, person=person, at=NOON, reason="moved away")
    client.force_login(cast.dispatch)
    assert "Ines Tallow" not in client.get(roster_page(cast)).content.decode()
