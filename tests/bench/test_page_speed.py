"""How long the two fullest pages take, each as a ratio to a bare view that prints the same cells.

The bare views go the same way through the middleware, for the same signed-in user. They fetch the same rows by the
same indexed columns and print every cell of the page into plain lists: no judgement, no drawing, no translation. What
the page says of walks, faults, lamps past their stop and the choice needs rows of its own: the bare view reads those
too, and prints them.
"""

import json
from collections.abc import Iterator
from unittest.mock import patch
from uuid import UUID

import pytest
import time_machine
from django.http import HttpRequest, HttpResponse
from django.template import Context, Engine, Template
from django.test import Client, override_settings
from django.urls import path, reverse

from config.urls import urlpatterns as pages_of_the_site
from crew.access import sheet_for
from crew.actions import issue_call_sheet, put_on_number
from shows.access import engagement_for
from shows.actions import rebind
from shows.models import Choice, SpotPlace
from tests.bench.measuring import report
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON
from venue.models import Fault, LampTally, OrderWalk

pytestmark = [pytest.mark.bench, pytest.mark.django_db]

WAYS = 3
"""Tape, renumber, move: each lists every place."""
COMPARED = Engine().from_string("""<!doctype html><title>{{ show.name }}</title>
<svg>{% for row in rows %}<text x="{{ row.place.x_m }}" y="{{ row.place.y_m }}">{{ row.place.label }}</text>
<text x="{{ row.place.x_m }}" y="{{ row.place.y_m }}">{{ row.spot.number }}</text>{% endfor %}</svg>
<table>{% for row in rows %}<tr><td>{{ row.spot.number }}</td><td>{{ row.place.label }}</td>
<td>{{ row.place.position.name }}</td></tr>{% endfor %}</table>
{% for way in ways %}<ul>{% for row in rows %}<li>{{ row.place.position.name }}, {{ row.place.label }}:
{{ row.spot.number }}</li>{% endfor %}</ul>{% endfor %}
{% for walk in walks %}<p>{{ walk.position_id }} {{ walk.label_seen }}</p>{% endfor %}
{% for fault in faults %}<p>{{ fault.unit_id }} {{ fault.part }} {{ fault.limit }}</p>{% endfor %}
{% for lamp in lamps %}<p>{{ lamp.unit_id }} {{ lamp.left_h }}</p>{% endfor %}
{% for choice in choices %}<p>{{ choice.way }} {{ choice.chosen_by }} {{ choice.chosen_at }}</p>{% endfor %}""")
SHEET = Engine().from_string("""<!doctype html><title>{{ sheet.show }}</title>
<p>{{ sheet.house }} {{ sheet.event }} {{ sheet.starts }} {{ sheet.ends }} {{ sheet.call }} {{ sheet.place }}
{{ sheet.talk }} {{ sheet.talk_place }} {{ sheet.notice }} {{ issued.n }} {{ issued.code.code }}</p>
<ul>{% for line in sheet.lines %}<li>{{ line.number }} {{ line.label }} {{ line.operator }} {{ line.position }}
{{ line.unit }} {{ line.side }} {{ line.channel }} {% for frame in line.frames %}{{ frame }} {% endfor %}
{{ line.notes }}</li>{% endfor %}</ul>""")


def bare_compare(request: HttpRequest, ref: UUID) -> HttpResponse:
    show, _may_write = engagement_for(request.user, ref, NOON)
    rows = SpotPlace.objects.standing().filter(engagement=show).select_related("spot", "place__position")
    also = {
        "walks": OrderWalk.objects.standing().filter(setup=show.setup_id).order_by(),
        "faults": Fault.objects.standing().filter(unit__house=show.house_id).order_by(),
        "lamps": LampTally.objects.filter(house=show.house_id, left_h__lte=0),
        "choices": Choice.objects.standing().filter(engagement=show).order_by(),
    }
    context = {"show": show, "rows": rows.order_by("spot__sort_key"), "ways": range(WAYS), **also}
    return HttpResponse(COMPARED.render(Context(context)))


def bare_sheet(request: HttpRequest, ref: UUID, n: int) -> HttpResponse:
    issued = sheet_for(request.user, ref, n, NOON)
    return HttpResponse(SHEET.render(Context({"issued": issued, "sheet": json.loads(issued.content)})))


urlpatterns = [
    path("bare/shows/<uuid:ref>/", bare_compare, name="bare_compare"),
    path("bare/sheets/<uuid:ref>/<int:n>/", bare_sheet, name="bare_sheet"),
    *pages_of_the_site,
]


@pytest.fixture(autouse=True)
def as_a_server() -> Iterator[None]:
    """A fixed clock, the bare views besides the site's, and templates rendered as a server does it.

    In tests the framework copies the context of every template and part; a page of many parts would pay for that.
    """
    as_served = patch.object(Template, "_render", lambda template, context: template.nodelist.render(context))
    with time_machine.travel(NOON, tick=False), override_settings(ROOT_URLCONF=__name__), as_served:
        yield


def filled(lights: int) -> Stage:
    """So many lights with their numbers bound, as many people as there are, and the sheet issued."""
    stage = a_stage(lights)
    rebind(actor=ACTOR, engagement=stage.cast.engagement, at=NOON)
    for number, person in enumerate(stage.people[:lights], start=1):
        put_on_number(actor=ACTOR, call=stage.call, number=str(number), person=person)
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    return stage


def compare_pages(name: str, stage: Stage, client: Client) -> None:
    ref = stage.cast.engagement.ref
    page, bare = reverse("shows:compare", args=[ref]), reverse("bare_compare", args=[ref])
    report(name, lambda: got(client, page), lambda: got(client, bare))


def sheet_pages(name: str, stage: Stage, client: Client) -> None:
    values = [stage.call.ref, 1]
    page, bare = reverse("crew:sheet", args=values), reverse("bare_sheet", args=values)
    report(name, lambda: got(client, page), lambda: got(client, bare))


def got(client: Client, address: str) -> None:
    assert client.get(address).status_code == 200


@pytest.mark.parametrize("lights", [4, 60])
def test_the_compare_page(client: Client, lights: int) -> None:
    stage = filled(lights)
    client.force_login(stage.cast.head)
    compare_pages(f"compare page, {lights} places", stage, client)


@pytest.mark.parametrize("lights", [4, 60])
def test_the_call_sheet_page(client: Client, lights: int) -> None:
    stage = filled(lights)
    client.force_login(stage.cast.head)
    sheet_pages(f"call sheet page, {lights} lights", stage, client)
