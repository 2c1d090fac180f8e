"""A show on the house's drawings: both numbers at every place in use, at a constant number of queries."""

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows.models import Engagement
from shows.show_drawings import show_drawings
from tests.factories import the_cast
from tests.shows.test_fit_pages import a_show

pytestmark = pytest.mark.django_db


def test_the_plan_and_the_section_carry_both_numbers_of_every_place(client: Client) -> None:
    cast = the_cast()
    show = a_show(spots=3, engagement=cast.engagement)
    client.force_login(cast.head)
    text = client.get(reverse("shows:plan", args=[show.ref])).content.decode()
    for number in (1, 2, 3):
        assert f"<li>show {number} / house {number}, " in text
    assert text.count("draft-number") >= 6
    turned = client.get(reverse("shows:plan", args=[show.ref]) + "?view=stage").content.decode()
    assert "YOU, on stage" in turned


def test_the_drawings_cost_as_many_queries_with_twenty_numbers_as_with_two() -> None:
    counts = []
    for spots in (2, 20):
        show = Engagement.objects.select_related("house", "setup__house").get(pk=a_show(spots=spots).pk)
        with CaptureQueriesContext(connection) as queries:
            assert len(show_drawings(show, "house").rows) == spots
        counts.append(len(queries))
    assert counts[0] == counts[1]
