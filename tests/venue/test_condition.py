"""What a unit can do right now, in sentences for sheets; everything that care knows of it."""

from decimal import Decimal

import pytest
import time_machine
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, hours, make_a_house, make_unit
from tests.venue.cared import ANSWERED, a_fault, an_entry
from tests.venue.lamped import a_kind, a_lamp, a_unit, day, fit, read
from venue.actions import add_care_plan, answer_relamp, close_fault, decide_past_stop, measure_light
from venue.condition import Condition, care_of, conditions_of
from venue.core.lengths import read_length
from venue.models import Unit
from venue.relamps import RelampAnswers

pytestmark = pytest.mark.django_db


def condition(unit: Unit, at: float = 100) -> Condition:
    return conditions_of([unit], day(at))[unit.pk]


def test_a_leaking_douser_means_no_full_blackout() -> None:
    unit = make_unit()
    a_fault(unit, part="douser")
    assert (condition(unit).state, condition(unit).limits) == ("limited", ("No full blackout",))


def test_a_unit_without_faults_is_ready_and_a_note_leaves_it_so() -> None:
    unit = make_unit()
    assert condition(unit) == Condition()
    assert condition(unit).state == "ready"
    a_fault(unit, "usable", part="sight", limit="missing")
    assert (condition(unit).state, condition(unit).notes) == ("ready", ("Sight: missing",))


def test_frames_out_are_listed_by_number_over_all_faults() -> None:
    unit = make_unit(frames=6)
    for frames in ("4", "2, 4"):
        a_fault(unit, limit_kind="frames", frames_out=frames)
    assert condition(unit).frames_out == (2, 4)
    assert condition(unit).limits == ("Frame 4 is out", "Frames 2, 4 are out")


def test_a_danger_stops_the_unit_and_says_until_when() -> None:
    unit = make_unit()
    a_fault(unit)
    a_fault(unit, "out", danger="interlock")
    found = condition(unit)
    assert found.state == "out"
    assert found.stops == ("Interlock bypassed: out of service until a named person closes it",)
    assert found.limits == ("No full blackout",)


def test_a_fault_counts_from_when_it_was_seen_until_it_was_closed() -> None:
    unit = make_unit()
    fault = a_fault(unit, at=day(2))
    close_fault(actor=ACTOR, fault=fault, seen=1, at=day(4), done="cleaned")
    assert [condition(unit, at).state for at in (1, 2, 3.9, 4, 5)] == ["ready", "limited", "limited", "ready", "ready"]


def test_a_lamp_at_its_stop_is_out_until_a_named_person_decides_and_only_so_far() -> None:
    unit = a_unit(starts=0)
    lamp = a_lamp(a_kind(unit.house, rated_h=100.0))
    fit(unit, 0, lamp, 0)
    read(unit, 20, 99)
    assert condition(unit).stops == ()
    read(unit, 21, 100)
    assert condition(unit).stops == ("Lamp L-1 is past its stop: relamp, or a named person decides",)
    facts = {"makers_source": "manual, page 12", "reason": "the new one is late"}
    decide_past_stop(actor=ACTOR, lamp=lamp, at=day(21), by="Inga Sørlund", until_h=Decimal(110), **facts)
    assert condition(unit).state == "ready"
    assert "Lamp L-1 burns past its stop until 110.0 h, decided by Inga Sørlund" in condition(unit).notes
    read(unit, 23, 110)
    assert condition(unit).state == "out"


def test_an_open_relamp_is_noted_until_it_is_answered() -> None:
    unit = make_unit(source="short-arc")
    entry = an_entry(unit, "relamp")
    assert condition(unit).notes == ("Relamp of 2026-03-02: its questions are not all answered",)
    answer_relamp(actor=ACTOR, entry=entry, seen=1, answers=RelampAnswers(**ANSWERED))
    assert condition(unit).notes == ()


def test_conditions_of_two_units_take_as_many_queries_as_of_forty() -> None:
    house = make_a_house()
    units = [make_unit(house) for _ in range(40)]
    for unit in units:
        a_fault(unit, "out", part="fan")
    counts = []
    for some in (units[:2], units):
        with CaptureQueriesContext(connection) as queries:
            assert {found.state for found in conditions_of(some, day(1)).values()} == {"out"}
        counts.append(len(queries))
    assert counts[0] == counts[1] <= 4


@time_machine.travel(day(10), tick=False)
def test_care_of_a_unit_holds_what_its_page_shows_in_few_queries() -> None:
    unit = a_unit()
    add_care_plan(actor=ACTOR, house=unit.house, what="look", covers="all", every_days=7, at=day(1))
    before = _queries(unit)
    a_fault(unit)
    entries = [an_entry(unit, at=day(number / 10)) for number in range(12)]
    for number in range(3):
        facts = {"lux": 1500 - 10 * number, "distance": read_length("43.4 m", "metric"), "setting": "open"}
        measure_light(actor=ACTOR, unit=unit, at=day(-3 + number), **facts)  # type: ignore[arg-type]
    care = care_of(unit, day(10))
    assert (len(care.faults), len(care.due), len(care.light.rows)) == (1, 1, 3)
    assert list(care.log) == entries[:1:-1]
    assert _queries(unit) < before + 12 <= 30


def _queries(unit: Unit) -> int:
    with CaptureQueriesContext(connection) as queries:
        care_of(unit, NOON + hours(240))
    return len(queries)
