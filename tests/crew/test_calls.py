"""Calls: made for an event in the house's own time, changed against the version that was shown, called off."""

from datetime import UTC, date, datetime, timedelta
from functools import partial

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from crew.actions import call_off, change_call, fill_call, make_call, make_roster, put_at_spot_talk, put_on_number
from crew.errors import NotServed
from crew.line_errors import CantComeThen
from crew.models import Call, CallLine, DaysOff, Message
from shows.actions import add_show_event, end_show_event
from shows.models import ShowEvent
from tests.crew.peopled import certified
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, LocalTimeMissing, LocalTimeTwice, StaleVersion
from venue.models import Event, Position
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


HOUR = timedelta(hours=1)


@pytest.mark.parametrize(
    ("facts", "field", "words"),
    [
        ({"call": SHOW_STARTS - 7 * 24 * HOUR, "talk": None}, "", ""),
        ({"call": SHOW_STARTS - 7 * 24 * HOUR - timedelta(minutes=1), "talk": None}, "call_date", "on Mar 3, 2026, 8:"),
        ({"call": SHOW_STARTS + 2.5 * HOUR, "talk": None}, "call_date", "a time before it ends"),
        ({"call": datetime(2020, 1, 1, 18), "talk": datetime(2020, 1, 1, 17)}, "call_date", "at most 7 days before"),
        ({"ends": SHOW_STARTS + 300 * 24 * HOUR}, "ends_date", "at most 7 days after it is over"),
        ({"ends": SHOW_STARTS - 1.5 * HOUR, "meal": SHOW_STARTS}, "ends_time", "Mar 3, 2026, 6:30 PM, is not after"),
        ({"talk": SHOW_STARTS + 4 * HOUR}, "talk_time", "is after the expected end, Mar 3, 2026, 11:00 PM"),
        ({"meal": SHOW_STARTS + 4 * HOUR}, "meal_time", "Write a time from Mar 3, 2026, 6:30 PM to Mar 3, 2026, 11:"),
    ],
)
def test_times_that_can_not_be_of_the_call_are_refused_at_their_field(
    stage: Stage, facts: dict[str, datetime], field: str, words: str
) -> None:
    change = partial(change_call, actor=ACTOR, call=stage.call, facts=call_facts(**facts), seen=stage.call.version)
    if not field:
        change()
        return
    with pytest.raises(Invalid) as refusal:
        change()
    assert words in refusal.value.problems[field][0]
    assert set(refusal.value.problems) - {"talk_time"} <= {field}


def test_where_no_end_is_known_a_call_begins_within_a_day_of_the_start(stage: Stage) -> None:
    event = another_event(stage, datetime(2026, 3, 9, 12))
    made = partial(make_call, actor=ACTOR, roster=stage.cast.roster, event=event)  # type: ignore[arg-type]
    with pytest.raises(Invalid, match="Rehearsal is on Mar 9, 2026, 12:00 PM"):
        made(facts=call_facts(call=datetime(2026, 3, 10, 12), talk=None))
    made(facts=call_facts(call=datetime(2026, 3, 10, 11, 59), talk=None))


def test_a_call_whose_event_was_put_off_is_called_off_all_the_same(stage: Stage) -> None:
    later = {"starts_at": stage.event.starts_at + timedelta(days=30), "ends_at": None, "ends_date": None}
    ShowEvent.objects.filter(pk=stage.event.pk).update(**later, ends_time=None)
    call_off(actor=ACTOR, call=Call.objects.get(), at=NOON, reason="put off")
    assert Call.objects.get().has_ended


def test_the_forms_of_a_call_show_it_at_the_field_and_odd_input_is_refused(client: Client, stage: Stage) -> None:
    event = another_event(stage, datetime(2026, 3, 9, 12))
    client.force_login(stage.cast.head)
    addresses = (reverse("crew:call_edit", args=[stage.call.ref]), reverse("crew:call_new", args=[event.ref]))  # type: ignore[attr-defined]
    usual = {"version": "1", "roster": stage.cast.roster.pk, "at_spot_talk": "0", "call_time": "18:30"}
    wrong = (
        ({"call_date": "2020-01-01"}, "call_date"),
        ({"call_date": "9000-12-31"}, "call_date"),
        ({"call_date": "9999-12-31"}, "call_date"),
        ({"call_date": "0001-01-01"}, "call_date"),
        ({"call_date": "\x00\x07"}, "call_date"),
        ({"call_date": "", "call_time": ""}, "call_date"),
        ({"call_date": "2026-03-03", "ends_time": "01:00", "ends_date": "9000-12-31"}, "ends_date"),
        ({"call_date": "2026-03-03", "ends_time": "18:30"}, "ends_time"),
        ({"call_date": "2026-03-03", "ends_time": "20:00", "talk_time": "21:00"}, "talk_time"),
        ({"call_date": "2026-03-03", "ends_time": "20:00", "meal_time": "\x0021:00"}, "meal_time"),
        ({"call_date": "2026-03-03", "ends_time": "20:00", "meal_time": "21:00"}, "meal_time"),
    )
    for n, (sent, field) in enumerate(wrong):
        page = client.post(addresses[n % 2], {**usual, **sent})
        assert (page.status_code, next(iter(page.context["form"].errors))) == (200, field), sent


def test_a_call_may_do_without_a_spot_talk(stage: Stage) -> None:
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(talk=None, talk_place=""), seen=stage.call.version)
    assert Call.objects.get().talk_wall is None


def test_a_change_against_an_older_version_is_refused_and_nothing_is_stored(stage: Stage) -> None:
    seen = stage.call.version
    change_call(actor=ACTOR, call=stage.call, facts=call_facts(place="loading dock"), seen=seen)
    with pytest.raises(StaleVersion):
        change_call(actor=ACTOR, call=Call.objects.get(), facts=call_facts(place="lobby"), seen=seen)
    assert Call.objects.get().place == "loading dock"


NEXT_DAY = call_facts(call=datetime(2026, 3, 4, 18, 30), talk=datetime(2026, 3, 4, 19, 15))
CANT = (
    "Ada Quillfeather is off from Mar 4, 2026 through Mar 5, 2026.",
    "Мира Лисовская: “Climb and harness” is valid through Mar 3, 2026 only, and nobody works there without it.",
    "Dov Halloran has a call at Mar 5, 2026, 6:00 AM, and a rest after this one until Mar 5, 2026, 6:30 AM.",
    "Júlia Bencze-Orr is on another call from Mar 4, 2026, 8:00 PM to Mar 4, 2026, 11:00 PM, Nine Paper Boats at "
    "Quillmark Hall.",
)
"""Why people can't come the day after."""


def moving(stage: Stage) -> Call:
    """A call with five on it for an event of open end, of whom only Zofia can come the day after."""
    ShowEvent.objects.filter(pk=stage.event.pk).update(ends_at=None, ends_date=None, ends_time=None)
    ada, mira, zofia, dov, julia = stage.people
    Position.objects.update(fall_protection="harness")
    certified(ada)
    certified(mira, expires_on=date(2026, 3, 3))
    DaysOff.objects.create(person=ada, first_day=date(2026, 3, 4), last_day=date(2026, 3, 5))
    for person, clock in ((dov, datetime(2026, 3, 5, 6)), (julia, datetime(2026, 3, 4, 20))):
        event = another_event(stage, clock)
        facts = call_facts(call=clock, ends=clock + timedelta(hours=3), talk=None)
        call = make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts)  # type: ignore[arg-type]
        put_at_spot_talk(actor=ACTOR, call=call, person=person)
    people, talk = {("1", 1): ada, ("2", 1): mira}, [zofia, dov, julia]
    fill_call(actor=ACTOR, call=stage.call, people=people, at_spot_talk=talk, at=NOON, seen=stage.call.version)
    return Call.objects.get(pk=stage.call.pk)


@time_machine.travel(NOON, tick=False)
def test_other_times_name_everybody_who_can_not_come_then_and_change_nothing(stage: Stage) -> None:
    call = moving(stage)
    before = [*Call.objects.filter(pk=call.pk).values(), *CallLine.objects.order_by("pk").values()]
    with pytest.raises(CantComeThen) as refusal:
        change_call(actor=ACTOR, call=call, facts=NEXT_DAY, seen=call.version)
    assert sorted(refusal.value.lines()[1:-1]) == sorted(CANT)
    assert str(refusal.value).startswith("4 people on the call can't come at these times. Dov Halloran has a call")
    assert before == [*Call.objects.filter(pk=call.pk).values(), *CallLine.objects.order_by("pk").values()]
    assert not Message.objects.exclude(kind="booked").exists()


@time_machine.travel(NOON, tick=False)
def test_who_can_not_come_is_taken_off_with_the_change_and_told_and_the_lines_are_to_fill(stage: Stage) -> None:
    call = moving(stage)
    gone = change_call(actor=ACTOR, call=call, facts=NEXT_DAY, seen=call.version, release_at=NOON)
    assert gone == [stage.people[at].name for at in (3, 4, 0, 1)]
    standing = call.lines.standing().order_by("sort_key", "seat")
    assert [(line.number, line.person) for line in standing] == [
        ("", stage.people[2]), ("", None), ("", None), ("1", None), ("2", None)
    ]  # fmt: skip
    assert {line.starts_at for line in standing} == {datetime(2026, 3, 4, 23, 30, tzinfo=UTC)}
    ended = call.lines.filter(ended_at=NOON)
    assert {line.ended_reason for line in ended} == {"the times of the call changed"}
    told = Message.objects.filter(call=call, delivery="waiting").values_list("person__name", "kind")
    assert dict(told) == {**dict.fromkeys(gone, "released"), stage.people[2].name: "booked"}


def test_who_stays_as_before_is_not_held_against_anything(stage: Stage) -> None:
    line = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    DaysOff.objects.create(person=stage.people[0], first_day=date(2026, 3, 3), last_day=date(2026, 3, 3))
    facts = call_facts(place="dock", talk=None, talk_place="")
    assert change_call(actor=ACTOR, call=stage.call, facts=facts, seen=stage.call.version) == []
    line.refresh_from_db()
    assert line.version == 1


@time_machine.travel(NOON, tick=False)
def test_the_form_says_who_can_not_come_a_line_each_and_dispatch_may_take_them_off(
    client: Client, stage: Stage
) -> None:
    call = moving(stage)
    address = reverse("crew:call_edit", args=[call.ref])
    sent = {"call_date": "2026-03-04", "call_time": "18:30", "talk_time": "19:15", "version": call.version}
    box = '<input type="checkbox" name="take_off"'
    for user, may_take_off in ((stage.cast.head, False), (stage.cast.dispatch, True)):
        client.force_login(user)
        assert box not in client.get(address).content.decode()
        page = client.post(address, sent).content.decode()
        assert all(f"<p>{line}</p>" in page for line in CANT)
        assert (box in page, f"{box} checked" in page) == (may_take_off, False)
    done = client.post(address, {**sent, "take_off": "on"}, follow=True).content.decode()
    assert "Taken off, to fill again: Dov Halloran, Júlia Bencze-Orr, Ada Quillfeather, Мира Лисовская." in done
    stale = client.post(address, {**sent, "take_off": "on"}).content.decode()
    assert "Compare both" in stale and box in stale


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
