"""Rows for tests, each in one call, and the fixed cast: who may see and do what in one invented house."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import count
from typing import Any

from crew.actions import grant_dispatch, open_house
from crew.models import Roster
from shows.actions import grant_road, make_engagement
from shows.models import Engagement
from venue.actions import add_place, add_position, add_unit, grant_membership
from venue.history import Actor
from venue.models import House, Place, Position, Unit, User

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
"""An instant to count from."""
ACTOR = Actor.of_command("tests")
_numbers = count(1)


def hours(number: float) -> timedelta:
    return timedelta(hours=number)


def make_user(username: str = "", **facts: Any) -> User:
    """A user who may sign in with the password "follow the light"."""
    username = username or f"user-{next(_numbers)}"
    return User.objects.create_user(username, password="follow the light", **facts)


def make_a_house(name: str = "", **facts: Any) -> House:
    """A house with its usual set-up and its roster."""
    number = next(_numbers)
    facts.setdefault("slug", f"house-{number}")
    house, _roster = open_house(actor=ACTOR, name=name or f"House {number}", **facts)
    return house


def make_position(house: House | None = None, name: str = "", **facts: Any) -> Position:
    house = house or make_a_house()
    return add_position(actor=ACTOR, house=house, name=name or f"Booth {next(_numbers)}", **facts)


def make_place(position: Position | None = None, label: str = "1", **facts: Any) -> Place:
    return add_place(actor=ACTOR, position=position or make_position(), label=label, **facts)


def make_unit(house: House | None = None, tag: str = "", **facts: Any) -> Unit:
    return add_unit(actor=ACTOR, house=house or make_a_house(), tag=tag or f"FS-{next(_numbers)}", **facts)


def make_show(house: House | None = None, name: str = "Nine Paper Boats", **facts: Any) -> Engagement:
    dates = {"starts_on": date(2026, 3, 2), "ends_on": date(2026, 3, 8)}
    return make_engagement(actor=ACTOR, house=house or make_a_house(), name=name, **{**dates, **facts})


@dataclass(frozen=True)
class Cast:
    """One house, one show in it, and everybody who comes to the pages; the road's access ends at `road_until`."""

    house: House
    roster: Roster
    engagement: Engagement
    head: User
    road: User
    dispatch: User
    reader: User
    stranger: User
    road_until: datetime


def the_cast() -> Cast:
    """The house head, a member of the road crew, a dispatcher, a reader, and somebody with no part in it."""
    names = ("head", "road", "dispatch", "reader", "stranger")
    head, road, dispatch, reader, stranger = (make_user(name, printed_name=name.title()) for name in names)
    house, roster = open_house(actor=ACTOR, name="Quillmark Hall", slug="quillmark-hall", head=head)
    grant_membership(actor=ACTOR, house=house, user=reader, role="reader")
    grant_dispatch(actor=ACTOR, roster=roster, user=dispatch)
    engagement = make_show(house)
    until = NOON + timedelta(days=7)
    grant_road(actor=ACTOR, engagement=engagement, user=road, until=until)
    return Cast(house, roster, engagement, head, road, dispatch, reader, stranger, until)
