"""Calls: made for an event in the house's own time, changed against the version that was shown, called off."""

from datetime import UTC, datetime, timedelta

import pytest

from crew.actions import call_off, change_call, make_call, make_roster
from crew.errors import NotServed
from crew.models import Call
from shows.actions import add_show_event, end_show_event
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, LocalTimeMissing, LocalTimeTwice, StaleVersion
from venue.models import Event
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


def test_a_call_keeps_the_instant_the_wall_time_and_the_zone(stage: Stage) -> None:
    call = Call.objects.get()
    assert (call.zone, call.call_wall) == ("America/New_York", datetime(2026, 3, 3, 18, 30))
    assert call.call_at == datetime(2026, 3, 3, 23, 30, tzinfo=UTC)
    assert call.talk_at == datetime(2026, 3, 4, 0, 15, tzinfo=UTC)


def test_a_roster_calls_once_for_an_event(stage: Stage) -> None:
    with pytest.raises(AlreadyExists, match="a call for the event already"):
        make_call(actor=ACTOR, roster=stage.cast.roster, event=stage.event, facts=call_facts())


def test_only_a_roster_that_serves_the_house_is_called(stage: Stage) -> None:
    other = make_roster(actor=ACTOR, name="Harbor hands")
    with pytest.raises(NotServed, match="Harbor hands does not serve Quillmark Hall"):
        make_call(actor=ACTOR, roster=other, event=stage.event, facts=call_facts())


def test_nobody_is_called_for_an_event_that_is_off(stage: Stage) -> None:
    focus = add_show_event(
        actor=ACTOR, engagement=stage.cast.engagement, kind="focus", starts=SHOW_STARTS - timedelta(hours=6)
    )
    end_show_event(actor=ACTOR, event=focus, at=NOON, reason="truck is late")
    with pytest.raises(AlreadyEnded):
        make_call(actor=ACTOR, roster=stage.cast.roster, event=focus, facts=call_facts())


def another_event(stage: Stage, starts: datetime) -> object:
    return add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="rehearsal", starts=starts)


def test_a_time_that_clocks_jump_over_is_refused(stage: Stage) -> None:
    event = another_event(stage, datetime(2026, 3, 8, 12))
    with pytest.raises(LocalTimeMissing):
        make_call(
            actor=ACTOR,
            roster=stage.cast.roster,
            event=event,  # type: ignore[arg-type]
            facts=call_facts(call=datetime(2026, 3, 8, 2, 30), talk=None),
        )


def test_a_time_that_happens_twice_is_asked_for(stage: Stage) -> None:
    event = another_event(stage, datetime(2026, 11, 1, 12))
    twice = {"call": datetime(2026, 11, 1, 1, 30), "talk": None}
    with pytest.raises(LocalTimeTwice):
        make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=call_facts(**twice))  # type: ignore[arg-type]
    facts = call_facts(**twice, call_fold=1)
    call = make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts)  # type: ignore[arg-type]
    assert call.call_at == datetime(2026, 11, 1, 6, 30, tzinfo=UTC)


def test_a_spot_talk_before_the_call_is_refused(stage: Stage) -> None:
    with pytest.raises(Invalid, match="before the call"):
        change_call(
            actor=ACTOR,
            call=stage.call,
            facts=call_facts(talk=SHOW_STARTS - timedelta(hours=3)),
            seen=stage.call.version,
        )


def test_a_call_may_do_without_a_spot_talk(stage: Stage) -> None:
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(talk=None, talk_place=""), seen=stage.call.version)
    assert Call.objects.get().talk_wall is None


def test_a_change_against_an_older_version_is_refused_and_nothing_is_stored(stage: Stage) -> None:
    seen = stage.call.version
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(place="loading dock"), seen=seen)
    with pytest.raises(StaleVersion):
        change_call(actor=ACTOR, call=Call.objects.get(), facts=call_facts(place="lobby"), seen=seen)
    assert Call.objects.get().place == "loading dock"


def test_operators_may_be_wanted_before_any_number_is_known(stage: Stage) -> None:
    event = another_event(stage, datetime(2026, 3, 4, 14))
    call = make_call(
        actor=ACTOR,
        roster=stage.cast.roster,
        event=event,  # type: ignore[arg-type]
        facts=call_facts(call=datetime(2026, 3, 4, 13), talk=None),
        at_spot_talk=3,
    )
    assert [(line.seat, line.person) for line in call.lines.all()] == [(1, None), (2, None), (3, None)]


def test_a_call_is_called_off_once_with_a_reason_and_another_may_be_made(stage: Stage) -> None:
    with pytest.raises(Invalid):
        call_off(actor=ACTOR, call=Call.objects.get(), at=NOON, reason=" ")
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="moved to Friday")
    with pytest.raises(AlreadyEnded):
        call_off(actor=ACTOR, call=stage.call, at=NOON, reason="again")
    make_call(actor=ACTOR, roster=stage.cast.roster, event=stage.event, facts=call_facts())


def test_the_history_tells_of_calls(stage: Stage) -> None:
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(place="dock"), seen=stage.call.version)
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="moved")
    told = [event_sentence(line) for line in Event.objects.about("call", stage.call.ref)]
    assert told == [
        "called a crew of Nine Paper Boats for show, 2026-03-03 20:00",
        "changed the call of Nine Paper Boats for show, 2026-03-03 20:00",
        "called off the call of Nine Paper Boats for show, 2026-03-03 20:00: moved",
    ]
