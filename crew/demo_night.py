"""A night of the demo that is over: who came when, the meals, who was late, who did not come, who was sent home."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, time, timedelta
from functools import partial
from typing import Any

from crew.actions import fill_call
from crew.actions.day import add_extra_hand, add_meal, mark_not_come, sign_in, sign_out
from crew.models import Call, CallLine, Person
from venue.history import Actor
from venue.instants import the_instant

ON_NUMBERS = {"1": "Ada Quillfeather", "2": "Мира Лисовская", "3": "Célestine Marchetto", "4": "Júlia Bencze-Orr"}
CAME = {"Ada Quillfeather": "16:52", "Мира Лисовская": "16:58", "Júlia Bencze-Orr": "17:00"}
LATE, LATE_AT = "Célestine Marchetto", "17:40"
SENT_HOME, SENT_HOME_AT = "Júlia Bencze-Orr", "18:20"
MISSING, EXTRA, EXTRA_AT = "Farid Osei-Wynn", "Dov Halloran", "18:30"
MEAL = ("19:00", "19:30")
NOON = 12
EARLY_OUT, LATE_OUT = "23:05", "00:45"


def play_night(call: Call, people: Mapping[str, Person], actor: Actor, now: datetime) -> None:
    """The call, which is over, with its people and their day."""
    at = partial(_at, call)
    lines = _put_on(call, people, actor, now)
    missing = lines.pop(MISSING)
    day: dict[str, Any] = {"actor": actor, "call": call, "now": now}
    for name, clock in {**CAME, LATE: LATE_AT}.items():
        sign_in(lines=[lines[name]], at=at(clock), **day)
    mark_not_come(lines=[missing], note="rang at 5:20 PM, no answer", **day)
    sign_out(lines=[lines[SENT_HOME]], at=at(SENT_HOME_AT), home=True, note="one light fewer tonight", **day)
    lines[EXTRA] = add_extra_hand(person=people[EXTRA], at=at(EXTRA_AT), **day)
    _eat_and_leave([line for name, line in lines.items() if name != SENT_HOME], at, day)


def _put_on(call: Call, people: Mapping[str, Person], actor: Actor, now: datetime) -> dict[str, CallLine]:
    """Those of the numbers, and one who was to hear a number at the spot talk: their lines by name."""
    on = {(number, 1): people[name] for number, name in ON_NUMBERS.items()}
    fill_call(actor=actor, call=call, people=on, at_spot_talk=[people[MISSING]], at=now, seen=call.version)
    lines = {line.person_id: line for line in call.lines.standing().select_related("person")}
    return {name: lines[people[name].pk] for name in (*ON_NUMBERS.values(), MISSING)}


def _eat_and_leave(lines: Sequence[CallLine], at: Callable[[str], datetime], day: Mapping[str, Any]) -> None:
    """A meal for all before the show; those of the first two numbers stay to put the spots away."""
    add_meal(lines=lines, starts=at(MEAL[0]), ends=at(MEAL[1]), **day)
    sign_out(lines=lines[2:], at=at(EARLY_OUT), **day)
    sign_out(lines=lines[:2], at=at(LATE_OUT), **day)


def _at(call: Call, clock: str) -> datetime:
    """The instant of a time of day; small hours are those after the call."""
    hour, minute = map(int, clock.split(":"))
    day = call.call_date if hour >= NOON else call.call_date + timedelta(days=1)
    return the_instant(datetime.combine(day, time(hour, minute)), call.zone, fold=0)
