"""Dispatchers who press at the same instant: nobody is on two calls at once, or without the rest between two."""

from collections.abc import Sequence
from datetime import datetime
from functools import partial

import pytest

from crew.actions import change_call, fill_call, make_call, put_at_spot_talk
from crew.line_errors import Booked, CantComeThen, ShortRest
from crew.models import Call, CallLine, Person
from shows.actions import add_show_event
from tests.crew.stage import Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON
from tests.racing import race

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]


def calls(stage: Stage, *spans: tuple[datetime, datetime]) -> list[Call]:
    """Calls of the roster, by the clocks of the house."""
    made = []
    for starts, ends in spans:
        show = {"engagement": stage.cast.engagement, "kind": "rehearsal", "starts": starts, "ends": ends}
        event = add_show_event(actor=ACTOR, **show)  # type: ignore[arg-type]
        facts = call_facts(call=starts, ends=ends, talk=None)
        made.append(make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts))
    return made


def outcomes_of_putting(person: Person, on: Sequence[Call]) -> list[object]:
    return race([partial(put_at_spot_talk, actor=ACTOR, call=call, person=person) for call in on])


def test_of_calls_that_overlap_one_gets_the_person() -> None:
    stage = a_stage(1)
    day = partial(datetime, 2026, 3, 6)
    found = outcomes_of_putting(
        stage.people[0], calls(stage, *((day(18, minute), day(22, minute)) for minute in range(0, 50, 10)))
    )
    assert len([one for one in found if isinstance(one, CallLine)]) == 1
    assert {type(one) for one in found if isinstance(one, Exception)} == {Booked}


def test_of_a_night_and_the_morning_after_one_gets_the_person() -> None:
    stage = a_stage(1)
    night = datetime(2026, 3, 6, 20), datetime(2026, 3, 7, 1)
    morning = datetime(2026, 3, 7, 8), datetime(2026, 3, 7, 12)
    found = outcomes_of_putting(stage.people[0], calls(stage, night, morning))
    assert sorted(type(one).__name__ for one in found) == [CallLine.__name__, ShortRest.__name__]


def test_of_a_call_that_is_moved_and_one_too_soon_after_it_one_gets_the_person() -> None:
    """The night ends at 23:00, the morning after begins at 8:00; moved to end at 1:00 it leaves no rest."""
    stage = a_stage(1)
    night, morning = calls(
        stage,
        (datetime(2026, 3, 6, 18), datetime(2026, 3, 6, 23)),
        (datetime(2026, 3, 7, 8), datetime(2026, 3, 7, 12)),
    )
    put_at_spot_talk(actor=ACTOR, call=night, person=stage.people[0])
    night.refresh_from_db()
    facts = call_facts(call=datetime(2026, 3, 6, 18), ends=datetime(2026, 3, 7, 1), talk=None)
    move = partial(change_call, actor=ACTOR, call=night, facts=facts, seen=night.version)
    put = partial(put_at_spot_talk, actor=ACTOR, call=morning, person=stage.people[0])
    moved, made = race([move, put])
    assert sorted([isinstance(moved, CantComeThen), isinstance(made, ShortRest)]) == [False, True]
    assert sorted([moved == [], isinstance(made, CallLine)]) == [False, True]


def test_two_who_fill_two_calls_with_the_same_people_in_other_orders_never_wait_for_each_other() -> None:
    stage = a_stage(3)
    span = datetime(2026, 3, 6, 18), datetime(2026, 3, 6, 22)
    first, second = calls(stage, span, span)
    put = partial(fill_call, actor=ACTOR, people={}, at=NOON, seen=1)
    one = partial(put, call=first, at_spot_talk=stage.people)
    other = partial(put, call=second, at_spot_talk=stage.people[::-1])
    found = race([one, other])
    assert sorted(type(each).__name__ for each in found) == [Booked.__name__, "NoneType"]
    assert CallLine.objects.standing().filter(person__isnull=False).count() == len(stage.people)
