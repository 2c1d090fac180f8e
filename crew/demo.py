"""The invented scenario that a new installation shows: two houses, three shows, ten operators, four sign-ins.

Everything is made once: what is there already, changed or not, is left as it is.
"""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

from django.db import transaction

from crew.actions import (
    add_template,
    ensure_roster,
    grant_dispatch,
    make_call,
    put_at_spot_talk,
    put_on_number,
)
from crew.demo_asks import note_points, tell_asks
from crew.demo_book import with_book
from crew.demo_paper import take_in
from crew.demo_people import add_operators
from crew.demo_run import add_run
from crew.facts import CallFacts
from crew.models import Person, Roster
from shows.actions import add_show_event, grant_road, make_engagement
from shows.models import Engagement
from venue.actions import change, confirm_walk, grant_membership
from venue.history import Actor
from venue.house_file.reading import read_house_file
from venue.house_file.storing import store_house
from venue.models import House, User

FILES = Path(__file__).resolve().parents[1] / "shows" / "demo"

OPERATORS = (
    "Ada Quillfeather",
    "Bruno Achterberg",
    "Célestine Marchetto",
    "Dov Halloran",
    "Eun-ji Castellane",
    "Farid Osei-Wynn",
    "Мира Лисовская",
    "Zofia Wiśniak",
    "Ike Thornapple",
    "Júlia Bencze-Orr",
)


@dataclass(frozen=True)
class SignIn:
    """A demo account, its password the same as its name, and what it is for."""

    username: str
    printed_name: str
    purpose: str

    @property
    def password(self) -> str:
        return f"{self.username}-demo"


SIGN_INS = (
    SignIn("head", "Hollis Varga", "house head of both houses, dispatch of Lantern Street"),
    SignIn("road", "Rowan Sedge", "road crew of the Weathervane Revue"),
    SignIn("dispatch", "Dilys Okafor-Penn", "dispatch of both rosters"),
    SignIn("reader", "Remy Tallis", "reader of both houses"),
)


@dataclass(frozen=True)
class Tour:
    """A show of the demo: its house's file, its paperwork, how many days from the first loading it plays."""

    name: str
    house: str
    paperwork: str
    days_away: int


TOURS = (
    Tour("The Weathervane Revue", "lantern_street.json", "weathervane_revue.csv", 1),
    Tour("Copper Heron in the Round", "ellery_arena.json", "copper_heron.csv", 4),
)


SHOW_CALL = {
    "event_kind": "show",
    "call_before_min": 90,
    "talk_before_min": 45,
    "head_spots": 1,
    "place": "stage door, river side",
    "talk_place": "rear booth",
}
"""Of the first house's roster: what its calls for a show begin with."""
LATE_TELL = "the dispatch desk, 555-0100"
"""Of the same roster: who is told by somebody who is late."""


@transaction.atomic
def load_demo(*, now: datetime) -> bool:
    """Make what is missing of the demo; whether anything was. The scenario's house head is who did it all."""
    users = {sign_in.username: _user(sign_in) for sign_in in SIGN_INS}
    actor = Actor.of_user(users["head"])
    made = [_load_tour(tour, users, actor, now) for tour in TOURS]
    return any(made)


def _user(sign_in: SignIn) -> User:
    user = User.objects.filter(username=sign_in.username).first()
    if user is None:
        names = {"printed_name": sign_in.printed_name}
        user = User.objects.create_user(sign_in.username, password=sign_in.password, **names)
    return user


def _load_tour(tour: Tour, users: dict[str, User], actor: Actor, now: datetime) -> bool:
    """The tour with its house, unless the house is there already."""
    house_file = read_house_file(_house_file(tour, now))
    if House.objects.filter(slug=house_file.house.slug).exists():
        return False
    house = store_house(house_file, actor=actor, now=now)
    grant_membership(actor=actor, house=house, user=users["head"], role="head")
    grant_membership(actor=actor, house=house, user=users["reader"], role="reader")
    roster = ensure_roster(actor=actor, house=house)
    grant_dispatch(actor=actor, roster=roster, user=users["dispatch"])
    engagement = _engage(tour, house, actor, now)
    if tour is TOURS[0]:
        _walk_booth(house, actor, now)
        people = add_operators(OPERATORS, roster, actor, now)
        add_template(actor=actor, roster=roster, values={"name": "Show call", **SHOW_CALL})
        change(actor=actor, row=roster, house=None, seen=roster.version, values={"late_tell": LATE_TELL})
        _call_crew(engagement, roster, people, actor)
        add_run(house, roster, people, actor, now)
        grant_dispatch(actor=actor, roster=roster, user=users["head"])
        grant_road(actor=actor, engagement=engagement, user=users["road"], until=now + timedelta(days=30))
    return True


def _house_file(tour: Tour, now: datetime) -> bytes:
    """The tour's house as a file; the first one has a book of its lamps besides."""
    content = (FILES / tour.house).read_bytes()
    if tour is not TOURS[0]:
        return content
    return json.dumps(with_book(json.loads(content), now)).encode()


def _call_crew(engagement: Engagement, roster: Roster, people: Sequence[Person], actor: Actor) -> None:
    """The show's call: three of the four numbers are filled, one operator waits for the spot talk; not issued."""
    event = engagement.events.get(kind="show")
    facts = CallFacts(
        call=event.starts_wall - timedelta(minutes=90),
        place="stage door, river side",
        talk=event.starts_wall - timedelta(minutes=45),
        talk_place="rear booth",
    )
    call = make_call(actor=actor, roster=roster, event=event, facts=facts)
    for number, person in zip(("1", "2", "4"), (people[0], people[6], people[7]), strict=True):
        put_on_number(actor=actor, call=call, number=number, person=person)
    put_at_spot_talk(actor=actor, call=call, person=people[3])


def _engage(tour: Tour, house: House, actor: Actor, now: datetime) -> Engagement:
    """The engagement with its day: load-in, focus, show, load-out, and its paperwork, accepted as it reads."""
    day = now.astimezone(ZoneInfo(house.time_zone)).date() + timedelta(days=tour.days_away)
    engagement = make_engagement(actor=actor, house=house, name=tour.name, starts_on=day, ends_on=day)
    add = partial(add_show_event, actor=actor, engagement=engagement)
    for kind, starts, ends in _hours(day):
        add(kind=kind, starts=starts, ends=ends)
    take_in(engagement, (FILES / tour.paperwork).read_bytes(), tour.paperwork, actor, now)
    if tour is TOURS[0]:
        tell_asks(engagement, actor)
        note_points(engagement, actor)
    return engagement


def _walk_booth(house: House, actor: Actor, now: datetime) -> None:
    """Somebody stood in the rear booth and saw label 4 at the left end; the rail is left to be walked."""
    booth = house.positions.get(name="Rear booth")
    confirm_walk(
        actor=actor,
        setup=house.setups.get(is_default=True),
        position=booth,
        left_end=booth.places.get(label="4"),
        walked_by="Hollis Varga",
        walked_at=now,
    )


def _hours(day: date) -> list[tuple[str, datetime, datetime]]:
    """A touring day's usual hours (common practice, no source)."""

    def at(hour: int, minute: int = 0) -> datetime:
        return datetime.combine(day, time(hour, minute))

    return [
        ("load-in", at(8), at(13)),
        ("focus", at(14), at(16)),
        ("show", at(20), at(22, 30)),
        ("load-out", at(22, 30), at(23, 59)),
    ]
