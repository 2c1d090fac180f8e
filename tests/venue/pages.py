"""Going to the house's pages in tests: signed in, sending what a form shows, reading what a person reads."""

import html
import re
from collections.abc import Iterable
from typing import Any

from django.forms import BaseForm
from django.http import HttpResponse
from django.test import Client

from tests.factories import ACTOR, NOON, Cast, make_place, make_position, make_unit
from venue.actions import confirm_walk, place_unit
from venue.models import House, Placement, Position, User


def as_user(user: User) -> Client:
    """A browser in which the user is signed in."""
    client = Client()
    client.force_login(user)
    return client


def words(response: HttpResponse) -> str:
    """The page's text as one line, quotes and marks as a person sees them."""
    body = re.sub(r"<(style|script|head).*?</\1>", " ", response.content.decode(), flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", body)).split())


def shown_values(form: BaseForm) -> dict[str, Any]:
    """What a browser would send if nothing on the form were touched."""
    values = {field.html_name: field.value() for field in form}
    return {name: value for name, value in values.items() if value is not None and value is not False}


def send(client: Client, address: str, **changes: Any) -> HttpResponse:
    """Open the form at the address, change some of its values, and send it."""
    page = client.get(address)
    assert page.status_code == 200, page.status_code
    values = {**shown_values(page.context["form"]), **changes}
    return client.post(address, {name: value for name, value in values.items() if value is not None})


def errors_of(response: HttpResponse) -> dict[str, list[str]]:
    """The messages of the page's form by field."""
    assert response.status_code == 200, response.status_code
    return {name: list(map(str, found)) for name, found in response.context["form"].errors.items()}  # type: ignore[attr-defined]


def furnished(cast: Cast, places: int = 3) -> House:
    """The cast's house with one row of measured places, a unit at each, and a walk."""
    position = make_position(cast.house, name="Rear booth", kind="booth")
    fill(position, range(1, places + 1))
    setup = cast.house.setups.get()
    first = position.places.get(label="1")
    seen = {"left_end": first, "walked_by": "Hollis Varga", "walked_at": NOON}
    confirm_walk(actor=ACTOR, setup=setup, position=position, **seen)
    return cast.house


def fill(position: Position, numbers: Iterable[int]) -> None:
    """Measured places under these labels, from house left, with a unit at each."""
    for number in numbers:
        at = {"x_m": float(number), "y_m": -38.0, "z_m": 14.0}
        place = make_place(position, label=str(number), **at)
        unit = make_unit(position.house, tag=f"FS-{number:02}")
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)


def addresses(house: House) -> dict[str, str]:
    """The address of each page of a furnished house by the page's name."""
    setup, position = house.setups.get(), house.positions.get()
    place, unit = position.places.get(label="1"), house.units.get(tag="FS-01")
    stay = Placement.objects.get(unit=unit)
    top = f"/houses/{house.slug}/"
    return {
        "house_detail": top,
        "position_detail": f"{top}positions/{position.ref}/",
        "unit_list": f"{top}units/",
        "walk": f"{top}setups/{setup.ref}/walk/{position.ref}/",
        "house_edit": f"{top}edit/",
        "setup_new": f"{top}setups/new/",
        "setup_edit": f"{top}setups/{setup.ref}/edit/",
        "row_turn": f"{top}setups/{setup.ref}/turn/{position.ref}/",
        "row_new": f"{top}rows/new/",
        "position_new": f"{top}positions/new/",
        "position_edit": f"{top}positions/{position.ref}/edit/",
        "position_end": f"{top}positions/{position.ref}/end/",
        "place_new": f"{top}positions/{position.ref}/places/new/",
        "place_edit": f"{top}places/{place.ref}/edit/",
        "place_end": f"{top}places/{place.ref}/end/",
        "place_stand": f"{top}places/{place.ref}/stand/",
        "placement_end": f"{top}placements/{stay.ref}/end/",
        "placement_move": f"{top}placements/{stay.ref}/move/",
        "unit_new": f"{top}units/new/",
        "unit_edit": f"{top}units/{unit.ref}/edit/",
        "unit_end": f"{top}units/{unit.ref}/end/",
    }
