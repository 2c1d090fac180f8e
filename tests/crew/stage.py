"""A show that is ready to be called: a booth with units, show numbers, an event, people on the roster."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from crew.actions import add_person, make_call
from crew.facts import CallFacts
from crew.models import Call, Person
from shows.actions import add_show_event, put_spots
from shows.facts import SpotFacts
from shows.models import ShowEvent
from tests.factories import ACTOR, NOON, Cast, make_place, make_position, make_unit, the_cast
from venue.actions import place_unit
from venue.models import House, Place

SHOW_STARTS = datetime(2026, 3, 3, 20)
"""By the clocks of the house."""
NAMES = ("Ada Quillfeather", "Мира Лисовская", "Zofia Wiśniak", "Dov Halloran", "Júlia Bencze-Orr")


@dataclass(frozen=True)
class Stage:
    """The cast, and what it plays with."""

    cast: Cast
    event: ShowEvent
    call: Call
    people: tuple[Person, ...]
    places: tuple[Place, ...]


def lights(house: House, number: int) -> tuple[Place, ...]:
    """A booth whose labels run from house right to house left, a unit at each place."""
    booth = make_position(house, "Rear booth", zone="front")
    places = []
    for index in range(number):
        place = make_place(booth, f"{index + 1}", x_m=2.0 * (number - index), y_m=-30.0, z_m=12.0)
        place_unit(actor=ACTOR, unit=make_unit(house), place=place, starts_at=NOON - timedelta(days=9))
        places.append(place)
    return tuple(places)


def spots(number: int, **facts: object) -> list[SpotFacts]:
    frames = ("pale pink", "", "amber")
    return [SpotFacts(number=f"{n}", channel="B", frames=frames, **facts) for n in range(1, number + 1)]  # type: ignore[arg-type]


def call_facts(**changed: object) -> CallFacts:
    usual = {"call": SHOW_STARTS - timedelta(minutes=90), "place": "stage door"}
    talk = {"talk": SHOW_STARTS - timedelta(minutes=45), "talk_place": "rear booth"}
    return CallFacts(**{**usual, **talk, **changed})  # type: ignore[arg-type]


def a_stage(number: int = 4, statement: str = "rear booth, house left to house right") -> Stage:
    """So many lights and show numbers that run the other way than the labels, and an empty call."""
    cast = the_cast()
    places = lights(cast.house, number)
    engagement = cast.engagement
    engagement.statement = statement
    engagement.save()
    put_spots(actor=ACTOR, engagement=engagement, spots=spots(number), at=NOON)
    ends = SHOW_STARTS + timedelta(hours=2, minutes=30)
    event = add_show_event(actor=ACTOR, engagement=engagement, kind="show", starts=SHOW_STARTS, ends=ends)
    people = tuple(add_person(actor=ACTOR, roster=cast.roster, name=name) for name in NAMES)
    call = make_call(actor=ACTOR, roster=cast.roster, event=event, facts=call_facts())
    return Stage(cast, event, call, people, places)


def add_lights(stage: Stage, number: int) -> None:
    """The same show with so many lights in all, those added on a rail of their own."""
    house, engagement = stage.cast.house, stage.cast.engagement
    engagement.statement = "house left to house right, all in one row"
    engagement.save()
    put_spots(actor=ACTOR, engagement=engagement, spots=spots(number), at=NOON)
    rail = make_position(house, f"Rail for {number}")
    for index in range(len(stage.places), number):
        place = make_place(rail, f"R{index}", x_m=index * 1.0, y_m=-20.0, z_m=9.0)
        place_unit(actor=ACTOR, unit=make_unit(house), place=place, starts_at=NOON - timedelta(days=9))
