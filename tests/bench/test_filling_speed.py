"""How long it takes to list a roster of 2,000 people with 100,000 past call lines for one line, and to fill a call.

The floor of the page is the same page for a roster of 20 people, that of the proposal sorts the people of each line.
The page stays within 150 ms, the proposal for 16 lines within a second.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from crew.actions import add_person
from crew.models import Call, CallLine, Certification, CertificationKind, DaysOff, Person
from crew.proposal import open_seats, proposed_for
from shows.models import Engagement, ShowEvent
from tests.bench.measuring import milliseconds, report
from tests.bench.test_today_speed import _stored
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON, make_show
from venue.models import Position

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
PEOPLE, LINES, ON_A_CALL, LIGHTS = 2_000, 100_000, 10, 16
SHOWS = 50


@pytest.fixture(autouse=True)
def at_noon() -> Iterator[None]:
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(LIGHTS)


def grow(stage: Stage) -> None:
    """The roster with its people, and three years of calls before the show's."""
    random, roster = Random(1), stage.cast.roster
    people = _stored(
        Person(roster=roster, name=f"Person {n:04}", experience=random.choice(("", "some", "lead")), units_known="LED")
        for n in range(PEOPLE - len(stage.people))
    )
    people += stage.people
    kinds = list(CertificationKind.objects.filter(roster=roster).exclude(needed_for="house"))
    ends = (None, date(2026, 1, 1), date(2027, 1, 1))
    _stored(Certification(person=who, kind=kind, expires_on=random.choice(ends)) for who in people for kind in kinds)
    _stored(DaysOff(person=who, first_day=NOON.date(), last_day=date(2026, 3, 4)) for who in people[::20])
    _stored(_lines(random, _calls(stage), people))
    Position.objects.update(fall_protection="harness")


def _calls(stage: Stage) -> list[Call]:
    """So many shows before this one, and this one's own last fortnight."""
    house, roster = stage.cast.house, stage.cast.roster
    shows = [stage.cast.engagement, *(make_show(house, f"Show {n}") for n in range(SHOWS - 1))]
    many = LINES // ON_A_CALL
    starts = [NOON - timedelta(hours=3 * n + 6) for n in range(many)]
    events = _stored(_event(shows[n % SHOWS], starts[n]) for n in range(many))
    return _stored(
        Call(
            roster=roster, engagement=event.engagement, event=event, zone="UTC", call_at=event.starts_at,
            call_date=event.starts_at.date(), call_time=event.starts_at.time(),
            ends_at=event.starts_at + timedelta(hours=3), ends_date=event.starts_at.date(),
            ends_time=event.starts_at.time(),
        )
        for event in events
    )  # fmt: skip


def _event(show: Engagement, at: object) -> ShowEvent:
    facts = {"zone": "UTC", "starts_at": at, "starts_date": at.date(), "starts_time": at.time()}  # type: ignore[attr-defined]
    return ShowEvent(engagement=show, kind="show", **facts)


def _lines(random: Random, calls: list[Call], people: list[Person]) -> Iterator[CallLine]:
    for call in calls:
        for number, who in enumerate(random.sample(people, ON_A_CALL), start=1):
            keys = {"number": f"{number}", "number_key": f"{number}", "sort_key": f"{number:05}"}
            yield CallLine(call=call, person=who, starts_at=call.call_at, ends_at=call.ends_at, **keys)


def test_a_large_roster_against_a_small_one(client: Client, stage: Stage) -> None:
    client.force_login(stage.cast.dispatch)
    for n in range(15):
        add_person(actor=ACTOR, roster=stage.cast.roster, name=f"Hand {n}")
    address = reverse("crew:line_who", args=[stage.call.ref]) + "?number=3&seat=1"

    def look() -> None:
        assert client.get(address).status_code == 200

    small = milliseconds(look, rounds=10)
    grow(stage)
    large = milliseconds(look, rounds=10)
    print(f"\n{PEOPLE} people, {LINES} lines: {large:.1f} ms, {large / small:.2f} times the {small:.1f} ms of 20")
    assert large < 150.0


def test_a_proposal_for_a_large_roster(stage: Stage) -> None:
    grow(stage)
    call = Call.objects.select_related("engagement__house", "engagement__setup", "roster", "event").get(
        pk=stage.call.pk
    )
    asked = proposed_for(call)

    def sort_each_line() -> None:
        for seat in open_seats(asked.asked):
            asked.offers.ranked(seat)

    report(f"{LIGHTS} lines, {PEOPLE} people", lambda: proposed_for(call), sort_each_line, rounds=5)
    assert milliseconds(lambda: proposed_for(call), rounds=3) < 1_000.0
