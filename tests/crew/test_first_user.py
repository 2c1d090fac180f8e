"""The first user of an installation, and lifting one user's lock-out."""

import json
from typing import Any

import pytest
from axes.models import AccessAttempt
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from crew.models import DispatchMembership
from tests.factories import ACTOR, make_user
from venue.actions import make_house
from venue.models import House, HouseMembership, User

pytestmark = pytest.mark.django_db
PASSWORD = "a quiet lamp at noon"


@pytest.fixture(autouse=True)
def with_password(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("THROWBOOK_PASSWORD", PASSWORD)


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    call_command(*arguments, "--json")
    return json.loads(capsys.readouterr().out)


def test_a_user_is_made_who_heads_and_dispatches_a_new_house(
    client: Client, capsys: pytest.CaptureFixture[str]
) -> None:
    answer = told(
        capsys, "make_head", "hollis", "--house", "lantern", "--name", "Lantern Street", "--zone", "Europe/Oslo"
    )
    assert answer == {"username": "hollis", "is_new": True, "house": "lantern", "role": "head"}
    house = House.objects.get(slug="lantern")
    assert (house.name, house.time_zone) == ("Lantern Street", "Europe/Oslo")
    assert HouseMembership.objects.get(house=house).role == "head"
    assert DispatchMembership.objects.count() == 1
    assert User.objects.get().check_password(PASSWORD)
    assert not User.objects.get().is_superuser
    response = client.post(reverse("venue:sign_in"), {"username": "hollis", "password": PASSWORD})
    assert response["Location"] == reverse("crew:home")


def test_somebody_on_file_gets_the_house_and_keeps_the_password(capsys: pytest.CaptureFixture[str]) -> None:
    user = make_user("hollis")
    make_house(actor=ACTOR, name="Lantern Street", slug="lantern")
    assert told(capsys, "make_head", "hollis", "--house", "lantern")["is_new"] is False
    assert told(capsys, "make_head", "hollis", "--house", "lantern")["is_new"] is False
    user.refresh_from_db()
    assert user.check_password("follow the light")
    assert HouseMembership.objects.standing().count() == DispatchMembership.objects.standing().count() == 1


@pytest.mark.parametrize(
    ("arguments", "password", "message"),
    [
        (["hollis", "--house", "nowhere"], PASSWORD, "there is no house “nowhere” on file"),
        (["hollis", "--house", "lantern", "--name", "L"], "short", "too short"),
        (["hollis", "--house", "lantern", "--name", "L"], "password1234", "too common"),
        (["hollis", "--house", "lantern", "--name", "L"], "", "no password: set THROWBOOK_PASSWORD"),
        (["hol lis", "--house", "lantern", "--name", "L"], PASSWORD, "username"),
        (["hollis", "--house", "lan tern", "--name", "L"], PASSWORD, "slug"),
        (["hollis", "--house", "lantern", "--name", "L", "--zone", "Mars/Olympus"], PASSWORD, "not a time zone"),
    ],
)
def test_what_is_refused_makes_nobody_and_nothing(
    monkeypatch: pytest.MonkeyPatch, arguments: list[str], password: str, message: str
) -> None:
    monkeypatch.setenv("THROWBOOK_PASSWORD", password)
    monkeypatch.setattr("sys.stdin", None)
    with pytest.raises(CommandError, match=message) as refused:
        call_command("make_head", *arguments)
    assert refused.value.returncode == 2
    assert not User.objects.exists()
    assert not House.objects.exists()


def test_one_lock_out_is_lifted_and_the_others_stay(client: Client, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("hollis", "rowan"):
        make_user(name)
        for _ in range(5):
            client.post(reverse("venue:sign_in"), {"username": name, "password": "wrong"})
    assert told(capsys, "lift_lockout", "hollis") == {"username": "hollis", "lifted": 1}
    assert set(AccessAttempt.objects.values_list("username", flat=True)) == {"rowan"}
    good = {"password": "follow the light"}
    assert client.post(reverse("venue:sign_in"), {"username": "rowan", **good}).status_code == 429
    assert client.post(reverse("venue:sign_in"), {"username": "hollis", **good}).status_code == 302


def test_a_user_who_is_not_on_file_has_no_lock_out_to_lift() -> None:
    with pytest.raises(CommandError, match="There is no user “nobody” on file"):
        call_command("lift_lockout", "nobody")
