"""A house with lights, lamps and booked shows, for the tests of outlooks: hours in few words."""

from collections.abc import Sequence
from datetime import datetime, time, timedelta
from typing import Any

from shows.actions import add_show_event, bind_spot, put_spots
from shows.facts import SpotFacts
from shows.models import Engagement, ShowEvent, ShowSpot
from tests.factories import ACTOR, NOON, hours, make_a_house, make_place, make_position, make_show, make_unit
from tests.venue.fitted import fitted_lamp
from venue.actions import place_unit
from venue.models import House, Lamp, Place, Unit

BEGIN = NOON - timedelta(days=60)


def a_booked_house(**facts: Any) -> House:
    """A house whose lamps burn exactly as long as an event lasts, in UTC."""
    return make_a_house(time_zone="UTC", **{"burn_before_min": 0, **facts})


def a_light(house: House, label: str, burned: float, at: datetime = BEGIN) -> tuple[Unit, Place, Lamp]:
    """A unit at a place, with a lamp of 1,000 rated hours that has burned so many."""
    position = house.positions.first() or make_position(house, "Rear booth")
    unit, place = make_unit(house, f"FS-{label}", source="short-arc"), make_place(position, label)
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=at)
    return unit, place, fitted_lamp(unit, burned, f"L-{label}", at)


def evenings(show: Engagement, count: int, length_h: float = 3, **facts: Any) -> list[ShowEvent]:
    """So many shows at 19:00, one a day, the first one today."""
    first = datetime.combine(NOON.date(), time(19))
    starts = [first + timedelta(days=day) for day in range(count)]
    kinds = {"kind": "show", **facts}
    return [
        add_show_event(actor=ACTOR, engagement=show, starts=at, ends=at + hours(length_h), **kinds) for at in starts
    ]


def a_run(house: House, count: int = 10, name: str = "Nine Paper Boats", **facts: Any) -> Engagement:
    show = make_show(house, name)
    evenings(show, count, **facts)
    return show


def numbered(show: Engagement, places: Sequence[Place]) -> None:
    """Accepted numbers 1, 2, … on the places."""
    put_spots(actor=ACTOR, engagement=show, spots=[SpotFacts(str(n)) for n, _ in enumerate(places, 1)], at=BEGIN)
    spots = ShowSpot.objects.standing().filter(engagement=show).order_by("sort_key")
    for spot, place in zip(spots, places, strict=True):
        bind_spot(actor=ACTOR, spot=spot, places=[place], at=BEGIN, seen=spot.version)
