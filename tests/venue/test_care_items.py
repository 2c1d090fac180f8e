"""Care falls due by lamp hours or days, whichever comes first; one tap records it, striking the entry takes it back."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, make_a_house, make_unit
from tests.venue.lamped import a_unit, day, read
from venue.actions import (
    add_care_plan,
    care_done,
    change,
    change_care_plan,
    end_care_plan,
    end_unit,
    read_meter,
    strike_log,
)
from venue.care import settle_house
from venue.condition import due_items
from venue.errors import AlreadyDone, Invalid
from venue.models import CareItem, CarePlan, House, LogEntry, Unit
from venue.use import use_of
from venue.wording_care import every_words

pytestmark = pytest.mark.django_db


def a_plan(house: House, what: str = "fan filters", covers: str = "all", at: float = 0, **facts: Any) -> CarePlan:
    facts = facts or {"every_h": Decimal(100), "every_days": 30}
    return add_care_plan(actor=ACTOR, house=house, what=what, covers=covers, at=day(at), **facts)


def the_item(unit: Unit | None) -> CareItem:
    return CareItem.objects.standing().get(unit=unit)


def done(unit: Unit | None, at: float) -> LogEntry:
    with time_machine.travel(day(at), tick=False):
        return care_done(actor=ACTOR, item=the_item(unit), at=day(at))


def read_at(unit: Unit, at: float, shows: float) -> None:
    with time_machine.travel(day(at), tick=False):
        read(unit, at, shows)


def test_at_nine_hours_a_day_a_hundred_hours_come_before_thirty_days_on_day_twelve() -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house)
    for number in range(1, 11):
        read_at(unit, number, 9 * number)
    done(unit, 10)
    item = the_item(unit)
    assert (item.due_h, item.due_on) == (Decimal(190), date(2026, 3, 24))  # day 10 is March 12
    read_at(unit, 11, 99)
    assert the_item(unit).due_on == date(2026, 3, 24)


def test_at_one_hour_a_day_thirty_days_come_first() -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house)
    for number in range(1, 11):
        read_at(unit, number, number)
    done(unit, 10)
    assert the_item(unit).due_on == date(2026, 4, 11)


def test_a_faster_use_brings_the_date_nearer_with_the_next_reading() -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house, every_h=Decimal(100))
    read_at(unit, 10, 20)
    done(unit, 10)
    assert the_item(unit).due_on == date(2026, 5, 1)  # 2 h a day: 50 days after March 12
    read_at(unit, 14, 68)
    assert the_item(unit).due_on == date(2026, 3, 27)  # 68 h in 14 days, 52 h left: 11 days after March 16


@pytest.mark.parametrize(
    ("now", "shows", "state"),
    [
        (11, 40, "later"),
        (21, 40, "soon"),
        (27, 40, "overdue"),
        (17, 130, "soon"),
        (17, 140, "due"),
        (17, 140.1, "overdue"),
    ],
)
def test_how_pressing_it_is_follows_from_days_and_from_hours_that_were_read(
    now: float, shows: float, state: str
) -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house, every_h=Decimal(100), every_days=16)
    read_at(unit, 10, 40)
    done(unit, 10)
    if shows > 40:
        with time_machine.travel(day(now), tick=False):
            read_meter(actor=ACTOR, unit=unit, at=day(now), hours=Decimal(str(shows)), confirmed=True)
    (found,) = due_items(CareItem.objects.standing(), day(now))
    assert found.state == state


def test_a_foretold_day_that_passed_without_a_reading_makes_it_due_never_overdue() -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house, every_h=Decimal(20))
    read_at(unit, 10, 20)
    done(unit, 10)
    (found,) = due_items(CareItem.objects.standing(), day(60))
    assert (found.state, found.words) == ("due", "about Mar 22, 2026, by its use; 20 h left")


def test_what_was_never_done_is_due_at_once() -> None:
    unit = make_unit()
    a_plan(unit.house)
    (found,) = due_items(CareItem.objects.standing(), day(1))
    assert (found.state, found.words) == ("due", "never recorded as done")


def test_one_tap_writes_the_log_and_a_second_one_is_told_so() -> None:
    unit = a_unit(starts=0)
    plan = a_plan(unit.house, log_kind="clean", every_days=30)
    item = the_item(unit)
    entry = care_done(actor=ACTOR, item=item, at=day(3))
    assert (entry.kind, entry.text, entry.unit, entry.at) == ("clean", "fan filters", unit, day(3))
    with pytest.raises(AlreadyDone):
        care_done(actor=ACTOR, item=item, at=day(3))
    assert (LogEntry.objects.count(), plan.items.standing().count()) == (1, 1)


def test_striking_out_the_entry_leads_back_to_what_was_before() -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house)
    read_at(unit, 5, 20)
    first, second = done(unit, 5), done(unit, 9)
    assert the_item(unit).last_done_at == day(9)
    strike(second)
    assert (the_item(unit).last_done_at, the_item(unit).last_done_h) == (day(5), Decimal(20))
    strike(first)
    assert (the_item(unit).last_done_at, the_item(unit).last_done_h) == (None, None)
    third = done(unit, 11)
    strike(third)
    assert the_item(unit).last_done_at is None


def test_striking_out_an_older_entry_changes_nothing_but_is_not_returned_to() -> None:
    unit = a_unit(starts=0)
    a_plan(unit.house)
    older, newer = done(unit, 5), done(unit, 9)
    strike(older)
    assert the_item(unit).last_done_at == day(9)
    strike(newer)
    assert the_item(unit).last_done_at is None


def strike(entry: LogEntry) -> None:
    strike_log(actor=ACTOR, entry=LogEntry.objects.get(pk=entry.pk), seen=1, at=day(20), reason="wrong tap")


@pytest.mark.parametrize(
    ("source", "tags"), [("short-arc", {"A", "B"}), ("LED", {"C"}), ("xenon", {"A", "B"}), ("halogen", set())]
)
def test_a_plan_covers_all_units_of_one_source_however_it_is_written(source: str, tags: set[str]) -> None:
    house = make_a_house()
    for tag, words in (("A", "Short arc"), ("B", "2 kW xenon"), ("C", "LED"), ("D", "")):
        make_unit(house, tag=tag, source=words)
    a_plan(house, covers="source", source=source, every_days=7)
    assert {item.unit.tag for item in CareItem.objects.standing() if item.unit} == tags


def test_plans_follow_units_that_come_change_and_go() -> None:
    house = make_a_house()
    a_plan(house, covers="source", source="LED", every_days=7)
    unit = make_unit(house, source="LED")
    assert the_item(unit).plan.what == "fan filters"
    change(actor=ACTOR, row=unit, house=house, seen=1, values={"source": "short-arc"})
    assert not CareItem.objects.standing().exists()
    change(actor=ACTOR, row=unit, house=house, seen=2, values={"source": "LED"})
    assert the_item(unit)
    end_unit(actor=ACTOR, unit=unit, at=day(1), reason="sold")
    assert not CareItem.objects.standing().exists()


def test_an_accessory_has_one_item_without_a_unit() -> None:
    house = make_a_house()
    a_plan(house, "new batteries", "accessory", accessory="sight batteries", every_days=60)
    entry = done(None, 2)
    assert (entry.unit, entry.accessory) == (None, "sight batteries")
    assert the_item(None).due_on == date(2026, 5, 3)
    strike(entry)
    assert the_item(None).last_done_at is None


def test_a_plan_changes_and_ends_with_its_items() -> None:
    unit = a_unit(starts=0)
    plan = a_plan(unit.house, every_days=30)
    done(unit, 1)
    change_care_plan(actor=ACTOR, plan=plan, seen=1, values={"every_days": 10}, at=day(2))
    assert the_item(unit).due_on == date(2026, 3, 13)
    plan = CarePlan.objects.get()
    end_care_plan(actor=ACTOR, plan=plan, at=day(3), reason="the maker says otherwise")
    assert not CareItem.objects.standing().exists()
    with pytest.raises(AlreadyDone):
        care_done(actor=ACTOR, item=CareItem.objects.latest("pk"), at=day(4))


@pytest.mark.parametrize(
    "facts",
    [
        {"covers": "all"},
        {"covers": "unit", "every_days": 7},
        {"covers": "source", "every_days": 7},
        {"covers": "accessory", "every_days": 7},
        {"covers": "accessory", "accessory": "gloves", "every_h": Decimal(5)},
        {"covers": "all", "every_days": 0},
        {"covers": "all", "every_h": Decimal("0.5")},
        {"covers": "moon", "every_days": 7},
    ],
)
def test_a_plan_that_says_too_little_or_too_much_is_refused(facts: dict[str, Any]) -> None:
    with pytest.raises(Invalid):
        add_care_plan(actor=ACTOR, house=make_a_house(), what="look", at=day(0), **facts)
    assert not CarePlan.objects.exists()


def test_how_often_is_said_in_words() -> None:
    plans = [CarePlan(every_h=Decimal("100.00"), every_days=30), CarePlan(every_days=1), CarePlan(every_h=Decimal(25))]
    assert [every_words(plan) for plan in plans] == [
        "every 100 h or 30 days, whichever comes first",
        "every 1 day",
        "every 25 h",
    ]


def test_use_is_told_over_the_window_from_the_reading_before_it() -> None:
    unit = a_unit(starts=0)
    for number, shows in ((1, 10), (20, 20), (60, 60), (100, 220)):
        read(unit, number, shows)
    assert use_of(unit.house, [unit.pk], day(100)) == {unit.pk: pytest.approx(4.0)}  # day 72 on, at 160 h in 40 days
    assert use_of(unit.house, [make_unit(unit.house).pk], day(100)) == {}


def test_settling_a_house_takes_as_many_queries_for_two_units_as_for_sixty() -> None:
    house = make_a_house()
    counts = []
    for size in (2, 60):
        for number in range(house.units.count(), size):
            a_unit(house, tag=f"F-{number}")
        if size == 2:
            a_plan(house)
        house.use_window_days += 1
        with CaptureQueriesContext(connection) as queries:
            settle_house(house, day(6))
        counts.append(len(queries))
    assert CareItem.objects.standing().count() == 60
    assert counts[0] == counts[1] < 16
