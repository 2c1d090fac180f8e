"""A house with a booth whose labels run from house right to house left, a unit at each place, and paperwork."""

from datetime import timedelta
from typing import Any

from shows.actions import accept_paperwork, receive_paperwork
from shows.models import Engagement, Media, Paperwork
from shows.reading import read_for, taken
from shows.tonight import places_tonight, show_instant
from tests.factories import ACTOR, NOON, make_place, make_position, make_unit
from venue.actions import place_unit
from venue.models import House, Place

LEFT_TO_RIGHT = "Numbering: house left to house right\n"


def stock(house: House, count: int = 4, name: str = "Rear booth") -> list[Place]:
    """Places 1 … count, label 1 nearest house right, each with a unit since long before."""
    booth = make_position(house, name=name, kind="booth")
    places = []
    for number in range(1, count + 1):
        x = 2.0 * (count - 1) / 2 - 2.0 * (number - 1)
        place = make_place(booth, str(number), x_m=x, y_m=-38.0, z_m=14.0)
        place_unit(actor=ACTOR, unit=make_unit(house), place=place, starts_at=NOON - timedelta(days=99))
        places.append(place)
    return places


def listed(count: int, statement: str = LEFT_TO_RIGHT, **columns: list[str]) -> str:
    """Paperwork of so many spots, as pasted text; further columns by header."""
    rows = [["Spot", *columns]]
    rows += [[str(number + 1), *(column[number] for column in columns.values())] for number in range(count)]
    return statement + "\n".join(",".join(row) for row in rows)


def receive(show: Engagement, text: str, **facts: Any) -> Paperwork:
    content = {"content": text.encode(), "media": Media.TEXT, **facts}
    return receive_paperwork(actor=ACTOR, engagement=show, at=NOON, **content)


def accept(show: Engagement, text: str, **facts: Any) -> Paperwork:
    """Receive and accept as read."""
    paperwork = receive(show, text)
    read = read_for(places_tonight(show, show_instant(show)).house, text.encode(), {}, {})
    given = {"spots": taken(read).facts, "statement_read": read.statement or "", "seen": 1, **facts}
    accept_paperwork(actor=ACTOR, paperwork=paperwork, at=NOON, **given)
    show.refresh_from_db()
    return paperwork


def bound(show: Engagement) -> dict[str, tuple[str, str]]:
    """Show number to house label and what put it there."""
    rows = show.spot_places.standing().order_by("spot__sort_key", "team_order")
    return {row.spot.number: (row.place.label, row.source) for row in rows}
