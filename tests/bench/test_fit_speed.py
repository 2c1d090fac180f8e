"""How long the pages of a show on a full house take, each as a ratio to a bare view of the same rows.

The floor prints the numbers with their places and units as plain lists: it judges nothing and solves nothing.
"""

import pytest
from django.http import HttpRequest, HttpResponse
from django.template import Context, Engine
from django.test import Client, override_settings
from django.urls import path, reverse

from config.urls import urlpatterns as pages_of_the_site
from shows.access import engagement_for
from shows.models import Engagement, SpotPlace
from shows.proposal import proposed_for
from shows.tonight import show_instant
from tests.bench.measuring import milliseconds, report
from tests.factories import NOON, Cast, the_cast
from tests.shows.test_propose_page import a_show
from venue.models import Placement

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
NUMBERS, PLACES = 16, 60
PLAIN = Engine().from_string("""<!doctype html><title>{{ show.name }}</title><table>
{% for row in rows %}<tr><td>{{ row.spot.number }}</td><td>{{ row.place.label }}</td><td>{{ row.place.position.name }}
</td>{% for frame in row.spot.frames %}<td>{{ frame }}</td>{% endfor %}</tr>{% endfor %}</table>
<ul>{% for stay in stays %}<li>
{{ stay.unit.tag }} {{ stay.unit.frames }} {{ stay.place.label }}</li>{% endfor %}</ul>""")


def bare(request: HttpRequest, ref: str) -> HttpResponse:
    show, _may_write = engagement_for(request.user, ref, NOON)  # type: ignore[arg-type]
    rows = SpotPlace.objects.standing().filter(engagement=show).select_related("spot", "place__position")
    stays = Placement.objects.at(NOON).filter(unit__house=show.house_id).select_related("unit", "place")
    return HttpResponse(PLAIN.render(Context({"show": show, "rows": rows, "stays": stays})))


urlpatterns = [path("bare/<uuid:ref>/", bare, name="bare"), *pages_of_the_site]


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def show(cast: Cast) -> Engagement:
    return a_show(PLACES, {f"{n}": 6 for n in range(1, NUMBERS + 1)}, cast.engagement)


@override_settings(ROOT_URLCONF=__name__)
@pytest.mark.parametrize("page", ["shows:fit", "shows:propose", "shows:compare"])
def test_pages_of_16_numbers_on_60_places(client: Client, cast: Cast, show: Engagement, page: str) -> None:
    client.force_login(cast.head)
    addresses = reverse(page, args=[show.ref]), reverse("bare", args=[show.ref])
    assert [client.get(address).status_code for address in addresses] == [200, 200]
    report(
        f"{page}, {NUMBERS} numbers, {PLACES} places", *(lambda at=at: client.get(at) for at in addresses), rounds=24
    )


def test_a_proposal_from_the_rows(show: Engagement) -> None:
    at = show_instant(show)
    spent = milliseconds(lambda: proposed_for(show, at, NOON), rounds=12)
    print(f"\nproposal from the rows, {NUMBERS} numbers, {PLACES} places: {spent:.0f} ms")
