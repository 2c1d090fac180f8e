"""Signing in and out, and the lock-out by user name and address together."""

from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.conf import settings
from django.contrib.auth import get_user_model
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse
from django.utils import timezone

pytestmark = pytest.mark.django_db

PASSWORD = "follow the lit one"
SIGN_IN = "/sign-in/"
AT_HOME, ELSEWHERE = "198.51.100.1", "198.51.100.2"


@pytest.fixture(autouse=True)
def users() -> None:
    for name in ("head", "road"):
        get_user_model().objects.create_user(name, password=PASSWORD)


def try_to_sign_in(
    client: Client, password: str = PASSWORD, name: str = "head", address: str = AT_HOME, **more: Any
) -> HttpResponse:
    return client.post(SIGN_IN, {"username": name, "password": password, **more}, REMOTE_ADDR=address)


def lock_out(client: Client) -> HttpResponse:
    for _ in range(settings.AXES_FAILURE_LIMIT):
        refused = try_to_sign_in(client, "wrong")
    return refused


def test_the_right_password_leads_to_the_start_page(client: Client) -> None:
    response = try_to_sign_in(client)
    assert (response.status_code, response["Location"]) == (302, reverse("crew:home"))
    assert client.session["_auth_user_id"]


def test_a_sign_in_lasts_thirty_days_and_its_cookie_is_out_of_reach_for_scripts(client: Client) -> None:
    try_to_sign_in(client)
    cookie = client.cookies[settings.SESSION_COOKIE_NAME]
    assert cookie["max-age"] == 30 * 24 * 60 * 60
    assert cookie["httponly"]
    assert cookie["samesite"] == "Lax"


def test_after_signing_in_the_page_that_was_asked_for_opens(client: Client) -> None:
    assert try_to_sign_in(client, next="/somewhere/")["Location"] == "/somewhere/"


def test_a_page_on_another_site_is_not_opened(client: Client) -> None:
    assert try_to_sign_in(client, next="https://elsewhere.example/")["Location"] == reverse("crew:home")


def test_a_wrong_password_is_told_without_saying_which_half_was_wrong(client: Client) -> None:
    wrong_password = try_to_sign_in(client, "wrong")
    wrong_name = try_to_sign_in(client, name="nobody")
    for response in (wrong_password, wrong_name):
        assert response.status_code == 200
        assert "User name and password do not belong together" in response.content.decode()


def test_the_page_shows_the_name_again_but_never_the_password(client: Client) -> None:
    text = try_to_sign_in(client, "wrong-but-near").content.decode()
    assert 'value="head"' in text
    assert "wrong-but-near" not in text


@pytest.mark.parametrize("name", ["x" * 10_000, "nul\0inside", ""])
def test_a_name_that_can_not_be_on_file_is_refused_at_the_field(client: Client, name: str) -> None:
    response = try_to_sign_in(client, name=name)
    assert response.status_code == 200
    assert 'id="id_username_error"' in response.content.decode()


def test_a_browser_that_says_too_much_of_itself_does_no_harm(client: Client) -> None:
    response = client.post(SIGN_IN, {"username": "head", "password": "wrong"}, HTTP_USER_AGENT="x" * 5000)
    assert response.status_code == 200


def test_too_many_failures_lock_the_name_out_and_the_page_says_for_how_long(client: Client) -> None:
    response = lock_out(client)
    text = response.content.decode()
    assert response.status_code == 429
    assert "There were 5 failed sign-ins as “head” from this connection." in text
    assert "Try again in 15 minutes." in text
    assert "Ask the house head" in text
    assert 0 < int(response["Retry-After"]) <= 15 * 60


def test_a_name_is_shown_as_it_was_typed_and_not_as_markup(client: Client) -> None:
    for _ in range(settings.AXES_FAILURE_LIMIT):
        refused = try_to_sign_in(client, name="<b>head</b>")
    assert "&lt;b&gt;head&lt;/b&gt;" in refused.content.decode()


def test_a_locked_out_name_is_not_heard_even_with_the_right_password(client: Client) -> None:
    lock_out(client)
    assert try_to_sign_in(client).status_code == 429
    assert "_auth_user_id" not in client.session


def test_another_address_may_still_sign_in_by_that_name(client: Client) -> None:
    lock_out(client)
    assert try_to_sign_in(client, address=ELSEWHERE).status_code == 302


def test_another_name_may_still_sign_in_from_that_address(client: Client) -> None:
    lock_out(client)
    assert try_to_sign_in(client, name="road").status_code == 302


def test_the_time_to_wait_runs_down_and_trying_meanwhile_does_not_lengthen_it(client: Client) -> None:
    start = timezone.now()
    with time_machine.travel(start, tick=False) as clock:
        lock_out(client)
        clock.shift(timedelta(minutes=10))
        assert "Try again in 5 minutes." in try_to_sign_in(client).content.decode()
        clock.shift(timedelta(minutes=5, seconds=1))
        assert try_to_sign_in(client).status_code == 302


def test_a_success_clears_earlier_failures(client: Client) -> None:
    for _ in range(2):
        for _ in range(settings.AXES_FAILURE_LIMIT - 1):
            try_to_sign_in(client, "wrong")
        assert try_to_sign_in(client).status_code == 302
        client.logout()


def test_signing_out_takes_a_button_and_ends_the_session(client: Client) -> None:
    client.force_login(get_user_model().objects.get(username="head"))
    assert client.get("/sign-out/").status_code == 405
    assert "_auth_user_id" in client.session
    assert client.post("/sign-out/")["Location"] == SIGN_IN
    assert "_auth_user_id" not in client.session


def test_who_is_signed_in_already_goes_on_to_the_start_page(client: Client) -> None:
    client.force_login(get_user_model().objects.get(username="head"))
    assert client.get(SIGN_IN)["Location"] == reverse("crew:home")
