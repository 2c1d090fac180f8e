"""Each page for what went wrong says what happened and what to do, and shows nothing of the inside."""

from typing import Any

import pytest
from django.contrib.auth import get_user_model
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import BadRequest, PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.test import Client, RequestFactory, override_settings
from django.urls import include, path

from config.urls import handler400, handler403, handler404, handler500
from venue.views.errors import server_error

__all__ = ["handler400", "handler403", "handler404", "handler500"]  # this module is a URLconf in its tests

RAISED = {
    "bad": BadRequest("The number of the spot is missing."),
    "denied": PermissionDenied("You may look at this but not change it."),
    "missing": Http404("No House matches the given query."),
    "broken": ZeroDivisionError("inner detail"),
}


@login_not_required
def fail(request: HttpRequest, kind: str) -> HttpResponse:
    raise RAISED[kind]


urlpatterns = [path("fail/<slug:kind>/", fail), path("", include("config.urls"))]

pytestmark = [pytest.mark.django_db, pytest.mark.urls(__name__)]


def page(client: Client, address: str, **extra: Any) -> tuple[int, str]:
    client.raise_request_exception = False
    response = client.get(address, **extra)
    return response.status_code, response.content.decode()


@pytest.mark.parametrize(
    ("address", "status", "happened", "to_do"),
    [
        ("/fail/bad/", 400, "The number of the spot is missing.", "load the page anew"),
        ("/fail/denied/", 403, "You may look at this but not change it.", "ask the house head"),
        ("/fail/missing/", 404, "no page at this address", "Check the address"),
        ("/no/such/page/", 404, "no page at this address", "Check the address"),
        ("/theme/", 405, "only takes what a button on a page sends", "Go to the start page"),
        ("/fail/broken/", 500, "The fault is ours", "try again"),
    ],
)
def test_an_error_page_says_what_happened_and_what_to_do(
    client: Client, address: str, status: int, happened: str, to_do: str
) -> None:
    got, text = page(client, address)
    assert got == status
    assert happened in text
    assert to_do in text
    assert text.count("<h1>") == 1


@pytest.mark.parametrize("address", ["/fail/missing/", "/fail/broken/", "/fail/denied/", "/no/such/page/"])
def test_nothing_of_the_inside_is_shown(client: Client, address: str) -> None:
    _, text = page(client, address)
    assert not [word for word in ("Traceback", "inner detail", "matches the given query", ".py") if word in text]


def test_a_broken_page_is_rendered_without_user_session_or_database(django_assert_num_queries: Any) -> None:
    with django_assert_num_queries(0):
        response = server_error(RequestFactory().get("/"))
    assert response.status_code == 500


def test_a_broken_page_says_so_even_if_its_template_is_what_broke(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("django.templatetags.static.StaticNode.handle_simple", missing_file)
    response = server_error(RequestFactory().get("/"))
    assert response.status_code == 500
    assert response.content.decode() == "Something broke. Nothing was stored. Wait a minute and try again."


def missing_file(path: str) -> str:
    raise ValueError(f"Missing staticfiles manifest entry for {path}")


def test_a_broken_page_keeps_the_theme(client: Client) -> None:
    client.cookies["theme"] = "booth"
    assert 'data-theme="booth"' in page(client, "/fail/broken/")[1]


def test_a_refused_method_still_says_which_are_allowed(client: Client) -> None:
    assert client.get("/theme/")["Allow"] == "POST"


def test_a_form_from_elsewhere_is_refused_with_advice() -> None:
    response = Client(enforce_csrf_checks=True).post("/theme/", {"theme": "dark"})
    assert response.status_code == 403
    assert "load the page anew" in response.content.decode()


@override_settings(ALLOWED_HOSTS=["house.example"])
def test_a_host_name_that_is_not_ours_gets_a_page_too(client: Client) -> None:
    status, text = page(client, "/sign-in/", headers={"host": "stranger.example"})
    assert status == 400
    assert "load the page anew" in text


def test_an_error_page_offers_a_stranger_the_sign_in_and_a_user_the_start_page(client: Client) -> None:
    assert "To the start page" not in page(client, "/no/such/page/")[1]
    client.force_login(get_user_model().objects.create_user("head"))
    assert "To the start page" in page(client, "/no/such/page/")[1]
