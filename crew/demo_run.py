"""The run of the demo's house show: one night is over, another is to come and still being filled.

Both nights are counted from the day of loading. What is said to have happened has its time on the days before.
"""

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from crew.actions import confirm_line, issue_call_sheet, make_call, put_on_number, replace_person
from crew.actions.certifying import add_days_off
from crew.actions.offers import accept, ask, decline, open_line
from crew.actions.rules import make_rules
from crew.actions.sending import told_by_hand
from crew.core.hours.presets import PRESETS
from crew.demo_night import play_night
from crew.demo_paper import take_in
from crew.facts import CallFacts
from crew.models import Call, CallLine, Message, Person, Roster
from crew.wording.rules import preset_words
from shows.actions import add_show_event, make_engagement
from shows.models import Engagement
from venue.history import Actor
from venue.instants import the_instant
from venue.models import House

NAME = "The Tin Orchard"
FILE_NAME = "tin_orchard.csv"
PAPERWORK = b"""The Tin Orchard - follow spots
Numbering: rear booth, stage left to stage right
Spot #,Position,Frame 1,Frame 2,Frame 3,Pick-up,Channel
1,Booth,rose,straw,light frost,Orla Fennimore,A
2,Booth,rose,straw,light frost,chorus,A
3,Booth,rose,straw,light frost,chorus,A
4,Booth,rose,straw,light frost,Jasper Quoyle,A
"""
PLAYED_DAYS_AGO, PLAYS_IN_DAYS = 2, 6
PLACES: Mapping[str, Any] = {"place": "stage door, river side", "talk_place": "rear booth"}

People = Mapping[str, Person]


def add_run(house: House, roster: Roster, operators: Sequence[Person], actor: Actor, now: datetime) -> None:
    """The show with its two nights, the rules by which hours are counted, and days off."""
    today = now.astimezone(ZoneInfo(house.time_zone)).date()
    people = {person.name: person for person in operators}
    engagement = _engage(house, today, actor, now)
    preset = PRESETS[0]
    make_rules(actor=actor, roster=roster, house=house, name=preset_words(preset), rules=preset.rules)
    play_night(_call_for(engagement, roster, today - timedelta(days=PLAYED_DAYS_AGO), actor), people, actor, now)
    days_off: dict[str, Any] = {
        "first_day": today + timedelta(days=5),
        "last_day": today + timedelta(days=8),
        "words": "by the lake",
    }
    add_days_off(actor=actor, person=people["Célestine Marchetto"], **days_off)
    _fill(_call_for(engagement, roster, today + timedelta(days=PLAYS_IN_DAYS), actor), people, actor, now)


def _engage(house: House, today: date, actor: Actor, now: datetime) -> Engagement:
    first, last = today - timedelta(days=PLAYED_DAYS_AGO), today + timedelta(days=PLAYS_IN_DAYS)
    engagement = make_engagement(actor=actor, house=house, name=NAME, starts_on=first, ends_on=last)
    for day in (first, last):
        times: dict[str, Any] = {"starts": datetime.combine(day, time(20)), "ends": datetime.combine(day, time(22, 30))}
        add_show_event(actor=actor, engagement=engagement, kind="show", **times)
    take_in(engagement, PAPERWORK, FILE_NAME, actor, now)
    return engagement


def _call_for(engagement: Engagement, roster: Roster, day: date, actor: Actor) -> Call:
    """From 5 PM, with a meal before the show, until the spots are put away after midnight."""
    facts = CallFacts(
        call=datetime.combine(day, time(17)),
        meal=datetime.combine(day, time(19)),
        talk=datetime.combine(day, time(19, 30)),
        ends=datetime.combine(day + timedelta(days=1), time(0, 45)),
        **PLACES,
    )
    event = engagement.events.get(starts_date=day)
    return make_call(actor=actor, roster=roster, event=event, facts=facts)


def _fill(call: Call, people: People, actor: Actor, now: datetime) -> None:
    """Two are booked, one of them is replaced, one said yes, one said no, and one has not answered."""
    yesterday = now.astimezone(ZoneInfo(call.zone)).date() - timedelta(days=1)

    def at(hour: int) -> datetime:
        return the_instant(datetime.combine(yesterday, time(hour)), call.zone, fold=0)

    by: dict[str, Any] = {"actor": actor}
    booked = [
        put_on_number(call=call, number=number, person=people[name], **by)
        for number, name in (("1", "Ada Quillfeather"), ("2", "Zofia Wiśniak"))
    ]
    _confirm_first(call, booked, at(14), actor)
    replace_person(line=booked[1], person=people["Júlia Bencze-Orr"], reason="double-booked", at=at(16), seen=1, **by)
    issue_call_sheet(call=call, now=at(17), **by)
    _ask(call, people, at, actor)


def _confirm_first(call: Call, lines: Sequence[CallLine], at: datetime, actor: Actor) -> None:
    """The first revision is told by hand, and both have seen it."""
    sheet = issue_call_sheet(actor=actor, call=call, now=at).sheet
    for message in Message.objects.filter(call=call, delivery="waiting"):
        told_by_hand(actor=actor, message=message, at=at, seen=message.version)
    for line in lines:
        confirm_line(actor=actor, line=line, sheet=sheet, by=str(line.person), at=at + timedelta(hours=1))


def _ask(call: Call, people: People, at: Callable[[int], datetime], actor: Actor) -> None:
    """One number is asked for in turn; for another somebody said yes after the last revision."""
    third, fourth = (open_line(call=call, number=number, seat=1) for number in ("3", "4"))
    in_turn = [people["Farid Osei-Wynn"], people["Dov Halloran"]]
    asked: dict[str, Any] = {"actor": actor, "at": at(18), "answer_by": at(18) + timedelta(days=2)}
    said_no, _waits = ask(line=third, people=in_turn, in_turn=True, **asked)
    (said_yes,) = ask(line=fourth, people=[people["Мира Лисовская"]], **asked)
    decline(actor=actor, offer=said_no, at=at(20), note="plays elsewhere that week; glad to come the week after")
    accept(actor=actor, offer=said_yes, at=at(21))
