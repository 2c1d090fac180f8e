"""The page of all parts: for whoever signed in, from the templates of the real pages."""

import pytest
from django.template import Template
from django.test import Client
from django.test.utils import instrumented_test_render

from tests.factories import make_user

pytestmark = pytest.mark.django_db


def test_whoever_signed_in_sees_every_part_and_nothing_of_any_house(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Template, "_render", instrumented_test_render)  # notes the parts of a page too
    client.force_login(make_user("anybody"))
    response = client.get("/looks/")
    used = {template.name for template in response.templates}
    assert response.status_code == 200
    assert {
        "crew/card_part.html",
        "includes/messages.html",
        "shows/lines_part.html",
        "shows/plan_part.html",
        "shows/verdict_mark_part.html",
        "throwbook/field.html",
        "venue/caution_climb_part.html",
        "venue/form_part.html",
    } <= used


def test_the_parts_show_a_field_with_its_error_and_a_plan_that_turns(client: Client) -> None:
    client.force_login(make_user("anybody"))
    page = client.get("/looks/", {"view": "stage"}).content.decode()
    assert 'class="field field-wrong"' in page
    assert "Plan seen from the stage" in page


def test_nobody_signed_in_is_sent_to_the_sign_in(client: Client) -> None:
    assert client.get("/looks/").status_code == 302
