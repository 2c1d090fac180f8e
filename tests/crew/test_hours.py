"""Hours of calls by hand: worked, paid, counted, what rate, which flags; and what holds for all of them."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crew.core.hours.counting import count_hours
from crew.core.hours.notice import cancel_pay, is_late, start_problem
from crew.core.hours.presets import PRACTICE, PRESETS
from crew.core.hours.reading_rules import read_rules
from crew.core.hours.records import FLAGS, HourCount, Rules, Stretch, WorkedCall
from crew.core.hours.rounding import rate_words
from crew.core.hours.weeks import total, week_hours
from crew.wording.hours import FLAG_SENTENCES, FLAG_WORDS

CHICAGO = ZoneInfo("America/Chicago")
NEW_YORK = ZoneInfo("America/New_York")
FOUR_HOURS = {
    "minimum_h": 4,
    "increment_min": 60,
    "meal_by_h": 5,
    "meal_penalty": "double-until-meal",
    "overtime": [{"after_h": 8, "rate": 1.5}],
    "night": {"from": "00:00", "to": "08:00", "rate": 1.5},
    "combine": "highest",
    "show_minimum_h": 3.5,
    "rest_h": 8,
}


def rules(**keys: Any) -> Rules:
    read = read_rules(keys)
    assert not read.problems
    return read.rules


DERIVED = rules(**FOUR_HOURS)


def at(text: str, zone: ZoneInfo = CHICAGO) -> datetime:
    """ "2 08:00" is 8 in the morning of March 2, 2026, a Monday."""
    day, clock = text.split()
    return datetime.combine(date(2026, 3, int(day)), time.fromisoformat(clock), zone).astimezone(UTC)


def call(start: str, end: str, *meals: tuple[str, str], kind: str = "load-in", person: str = "Ada Birch") -> WorkedCall:
    breaks = [Stretch(at(out), at(back)) for out, back in meals]
    return WorkedCall.between(person, at(start), at(end), breaks, kind)


def counts(by: Rules, *calls: WorkedCall, zone: ZoneInfo = CHICAGO) -> tuple[HourCount, ...]:
    return count_hours(calls, by, zone)


def one(by: Rules, *args: Any, **kwargs: Any) -> HourCount:
    return counts(by, call(*args, **kwargs))[0]


def by_rate(count: HourCount) -> dict[str, float]:
    return {rate_words(rate): minutes / 60 for rate, minutes in count.by_rate.items()}


# -- derived from the rule set of four-hour minimums, no published answer --------------------------------


def test_load_in_0800_to_1030_is_2_and_a_half_worked_and_4_paid() -> None:
    count = one(DERIVED, "2 08:00", "2 10:30")
    assert (count.worked, count.paid, count.counted) == (150, 240, 150)
    assert by_rate(count) == {"1.0": 4.0}


def test_load_in_0800_to_1320_without_a_meal_is_6_paid_5_straight_and_1_double_7_straight_hours() -> None:
    count = one(DERIVED, "2 08:00", "2 13:20")
    assert (count.paid, by_rate(count), count.straight) == (360, {"1.0": 5.0, "2.0": 1.0}, 7 * 60)
    assert count.flags == ("late-meal",)


def test_show_call_1900_out_2215_is_3_and_a_half_paid() -> None:
    count = one(DERIVED, "2 19:00", "2 22:15", kind="show")
    assert (count.worked, count.paid, by_rate(count)) == (195, 210, {"1.0": 3.5})


def test_load_in_0800_to_1300_meal_1400_to_1800_is_9_worked_8_straight_and_1_at_one_and_a_half_9_and_a_half() -> None:
    count = one(DERIVED, "2 08:00", "2 18:00", ("2 13:00", "2 14:00"))
    assert (count.worked, count.paid, by_rate(count)) == (540, 540, {"1.0": 8.0, "1.5": 1.0})
    assert (count.straight, count.flags) == (Decimal("9.5") * 60, ())


def test_load_out_2200_to_0200_is_2_straight_and_2_at_one_and_a_half_5_straight_hours() -> None:
    count = one(DERIVED, "2 22:00", "3 02:00", kind="load-out")
    assert (by_rate(count), count.straight, count.flags) == ({"1.0": 2.0, "1.5": 2.0}, 5 * 60, ("night",))


@pytest.mark.parametrize(("next_call", "is_short"), [("3 08:00", True), ("3 09:00", False)])
def test_out_0100_next_call_0800_is_a_short_rest_and_0900_is_ok(next_call: str, is_short: bool) -> None:
    _out, back = counts(DERIVED, call("2 20:00", "3 01:00"), call(next_call, "3 13:00"))
    assert ("short-rest" in back.flags, "forced-call" in back.flags) == (is_short, is_short)


def test_a_0815_start_with_the_half_hour_grid_on_is_refused() -> None:
    grid = rules(start_grid_min=30)
    assert start_problem(at("2 08:15"), grid, CHICAGO) == "off-grid-start"
    assert start_problem(at("2 08:30"), grid, CHICAGO) is None
    assert start_problem(at("2 08:15"), rules(), CHICAGO) is None
    assert one(grid, "2 08:15", "2 10:15").flags == ("off-grid-start",)


@pytest.mark.parametrize(("hours_before", "due"), [(23, 4 * 60), (25, 0), (24, 0), (-1, 4 * 60)])
def test_cancelled_23_h_before_pay_is_due_25_h_none(hours_before: int, due: int) -> None:
    notice = rules(cancel_notice_h=24, cancel_pay_h=4)
    assert cancel_pay(at("4 08:00"), at("4 08:00") - timedelta(hours=hours_before), notice) == due


def test_a_cancellation_costs_nothing_where_no_notice_is_ruled() -> None:
    assert cancel_pay(at("4 08:00"), at("4 07:59"), rules()) == 0


# -- minimums, increments, recalls ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pad_rate", "expected"), [("straight", {"1.0": 3.5, "1.5": 0.5}), ("last", {"1.0": 2.0, "1.5": 2.0})]
)
def test_the_unworked_part_of_a_minimum_over_midnight_is_rated_as_the_house_says(
    pad_rate: str, expected: dict[str, float]
) -> None:
    count = one(rules(**FOUR_HOURS, pad_rate=pad_rate), "2 22:00", "3 00:30")
    assert (count.worked, count.paid, by_rate(count)) == (150, 240, expected)


def test_increments_count_from_the_end_of_the_minimum_each_at_the_rate_in_which_it_begins() -> None:
    assert by_rate(one(DERIVED, "2 19:00", "2 22:45", kind="Show call")) == {"1.0": 4.5}
    overtime = one(DERIVED, "2 08:00", "2 17:40", ("2 12:00", "2 13:00"))
    assert by_rate(overtime) == {"1.0": 8.0, "1.5": 1.0}


@pytest.mark.parametrize(("back", "paid", "flags"), [("2 14:00", 120, ("recall",)), ("2 14:01", 240, ())])
def test_who_is_back_within_the_gap_has_the_recalls_minimum(back: str, paid: int, flags: tuple[str, ...]) -> None:
    by = rules(minimum_h=4, recall_h=2, recall_gap_h=2)
    _first, second = counts(by, call("2 08:00", "2 12:00"), call(back, "2 15:00"))
    assert (second.paid, second.flags) == (paid, flags)


def test_a_show_keeps_its_own_minimum_in_a_recall() -> None:
    by = rules(minimum_h=4, recall_h=2, recall_gap_h=2, show_minimum_h=3.5)
    _first, show = counts(by, call("2 14:00", "2 18:00"), call("2 19:00", "2 21:00", kind="show"))
    assert show.paid == 210


def test_with_no_rules_what_was_worked_is_what_is_paid() -> None:
    count = one(rules(), "2 08:00", "2 23:07")
    assert (count.worked, count.paid, by_rate(count), count.flags) == (907, 907, {"1.0": 907 / 60}, ())


def test_paid_hours_count_toward_overtime_only_where_the_house_says_so() -> None:
    short, long = call("2 08:00", "2 10:00"), call("2 12:00", "2 17:00")
    keys = {"minimum_h": 4, "overtime": [{"after_h": 8, "rate": 1.5}]}
    assert [by_rate(each) for each in counts(rules(**keys), short, long)] == [{"1.0": 4.0}, {"1.0": 5.0}]
    paid = counts(rules(**keys, counted="paid"), short, long)
    assert [each.counted for each in paid] == [240, 300]
    assert by_rate(paid[1]) == {"1.0": 4.0, "1.5": 1.0}


# -- meals ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("back", "worked", "flags"), [("2 12:30", 8 * 60, ()), ("2 12:29", 8 * 60 + 30, ("short-meal",))]
)
def test_a_break_of_30_minutes_is_a_meal_and_a_shorter_one_is_work(
    back: str, worked: int, flags: tuple[str, ...]
) -> None:
    count = one(rules(), "2 08:00", "2 16:30", ("2 12:00", back))
    assert (count.worked, count.flags) == (worked, flags)


def test_a_short_break_does_not_end_the_time_since_the_last_meal() -> None:
    assert "late-meal" in one(rules(meal_by_h=5), "2 08:00", "2 14:00", ("2 11:00", "2 11:20")).flags


def test_exactly_five_hours_are_in_time_and_a_minute_more_is_late() -> None:
    assert one(rules(meal_by_h=5), "2 08:00", "2 13:00").flags == ()
    assert one(rules(meal_by_h=5), "2 08:00", "2 13:01").flags == ("late-meal",)


def test_a_late_meal_is_double_until_it_is_given_and_the_second_is_told_apart() -> None:
    by = rules(meal_by_h=5, meal_penalty="double-until-meal")
    late = one(by, "2 08:00", "2 17:00", ("2 13:30", "2 14:30"))
    assert (by_rate(late), late.flags) == ({"1.0": 7.5, "2.0": 0.5}, ("late-meal",))
    second = one(by, "2 08:00", "2 19:30", ("2 13:00", "2 14:00"))
    assert (by_rate(second), second.flags) == ({"1.0": 10.0, "2.0": 0.5}, ("second-meal-late",))


def test_a_flat_hour_for_each_late_meal_is_paid_and_does_not_count() -> None:
    count = one(rules(meal_by_h=5, meal_penalty="one-hour"), "2 08:00", "2 14:00")
    assert (count.worked, count.paid, count.counted) == (360, 420, 360)


def test_the_flat_hour_does_not_change_the_rate_of_an_increment_begun_in_overtime() -> None:
    by = rules(increment_min=60, meal_by_h=5, meal_penalty="one-hour", overtime=[{"after_h": 8, "rate": 1.5}])
    assert by_rate(one(by, "2 08:00", "2 16:20")) == {"1.0": 9.0, "1.5": 1.0}


def test_work_right_after_another_call_has_had_no_meal_either() -> None:
    _first, second = counts(rules(meal_by_h=5), call("2 08:00", "2 12:00"), call("2 12:10", "2 14:00", kind="show"))
    assert second.flags == ("late-meal",)


# -- overtime, nights, premiums -------------------------------------------------------------------------


def test_a_calendar_day_ends_at_midnight_and_a_day_since_the_turnaround_does_not() -> None:
    calls = call("2 14:00", "2 20:00"), call("2 21:00", "3 02:00")
    by_day = rules(overtime=[{"after_h": 8, "rate": 1.5}])
    assert by_rate(counts(by_day, *calls)[1]) == {"1.0": 4.0, "1.5": 1.0}
    since = rules(overtime=[{"after_h": 8, "rate": 1.5, "day": "since-turnaround"}], rest_h=8)
    assert by_rate(counts(since, *calls)[1]) == {"1.0": 2.0, "1.5": 3.0}
    assert since == rules(overtime=[{"after_h": 8, "rate": 1.5}], day="since-turnaround", rest_h=8)


@pytest.mark.parametrize(
    ("back", "out", "expected"), [("3 04:00", "3 06:00", {"1.0": 2.0}), ("3 03:00", "3 05:00", {"1.5": 2.0})]
)
def test_a_full_rest_begins_a_new_day_since_the_turnaround(back: str, out: str, expected: dict[str, float]) -> None:
    since = rules(overtime=[{"after_h": 8, "rate": 1.5, "day": "since-turnaround"}], rest_h=8)
    assert by_rate(counts(since, call("2 12:00", "2 20:00"), call(back, out))[1]) == expected


@pytest.mark.parametrize(("combine", "expected"), [("highest", {"1.5": 6.0}), ("multiply", {"1.5": 4.0, "2.25": 2.0})])
def test_premiums_do_not_stack_unless_the_house_says_so(combine: str, expected: dict[str, float]) -> None:
    night = {"from": "00:00", "to": "08:00", "rate": 1.5}
    by = rules(overtime=[{"after_h": 4, "rate": 1.5}], night=night, combine=combine)
    assert by_rate(one(by, "3 00:00", "3 06:00")) == expected


def test_two_calls_of_a_day_are_one_day_for_overtime_but_two_people_are_two() -> None:
    by = rules(overtime=[{"after_h": 8, "rate": 1.5}])
    morning, evening = call("2 08:00", "2 13:00"), call("2 15:00", "2 20:00", person="ada  birch ")
    assert by_rate(counts(by, morning, evening)[1]) == {"1.0": 3.0, "1.5": 2.0}
    assert by_rate(counts(by, morning, replace(evening, person="Bo Elm"))[1]) == {"1.0": 5.0}


def test_the_night_may_reach_over_midnight() -> None:
    by = rules(night={"from": "23:00", "to": "06:00", "rate": 2})
    assert by_rate(one(by, "2 22:00", "3 07:00")) == {"1.0": 2.0, "2.0": 7.0}
    assert one(by, "2 06:00", "2 23:00").flags == ()


def test_holidays_are_calendar_days_and_the_seventh_day_is_of_working_days_in_a_row() -> None:
    by = rules(holidays=["2026-03-03"], holiday_rate=2, seventh_day_rate=1.5)
    assert by_rate(one(by, "2 22:00", "3 01:00")) == {"1.0": 2.0, "2.0": 1.0}
    row = counts(by, *(call(f"{day} 19:00", f"{day} 23:00") for day in range(9, 17)))
    assert [each.flags for each in row] == [()] * 6 + [("seventh-day",)] * 2
    assert by_rate(row[6]) == {"1.5": 4.0}
    broken = counts(by, *(call(f"{day} 19:00", f"{day} 23:00") for day in (9, 10, 11, 13, 14, 15, 16)))
    assert all(each.flags == () for each in broken)


def test_a_long_day_is_the_working_day_over_midnight_and_over_calls() -> None:
    by = rules(long_day_h=12)
    first, second = counts(by, call("2 14:00", "2 20:00"), call("2 21:00", "3 04:00"))
    assert (first.flags, second.flags) == ((), ("long-day",))


def test_rest_is_due_between_working_days_and_not_between_two_calls_of_one() -> None:
    _load_in, show, after = counts(
        rules(rest_h=8), call("2 08:00", "2 12:00"), call("2 19:00", "3 00:30"), call("3 00:45", "3 03:00")
    )
    assert (show.flags, after.flags) == ((), ())


def test_more_than_the_limit_is_late() -> None:
    assert not is_late(at("2 08:00"), at("2 08:30"), 30)
    assert is_late(at("2 08:00"), at("2 08:31"), 30)


# -- weeks ----------------------------------------------------------------------------------------------


def test_weeks_add_up_by_person_and_a_call_over_the_turn_is_in_both() -> None:
    found = week_hours(
        [call("8 22:00", "9 02:00"), call("10 08:00", "10 12:00"), call("10 08:00", "10 09:00", person="Bo Elm")],
        rules(),
        CHICAGO,
    )
    assert [(week.person, week.week.day, week.paid) for week in found.weeks] == [
        ("Ada Birch", 2, 120),
        ("Ada Birch", 9, 360),
        ("Bo Elm", 9, 60),
    ]
    assert total(found.weeks).paid == total(found.calls).paid == 540
    from_sunday = week_hours([call("8 22:00", "9 02:00")], rules(week_starts="sunday"), CHICAGO)
    assert [(week.week.day, week.paid) for week in from_sunday.weeks] == [(8, 240)]


# -- presets, flags -------------------------------------------------------------------------------------


@pytest.mark.parametrize("preset", PRESETS, ids=lambda preset: preset.name)
def test_a_preset_is_a_rule_set_that_can_be_read_and_says_where_it_comes_from(preset: Any) -> None:
    assert read_rules(preset.rules).problems == ()
    assert preset.basis == PRACTICE


def test_the_derived_rule_set_is_among_the_presets() -> None:
    assert read_rules(PRESETS[0].rules).rules == DERIVED


def test_every_flag_has_its_words_and_its_sentence() -> None:
    assert set(FLAGS) == set(FLAG_WORDS) == set(FLAG_SENTENCES)


# -- what holds for all calls ---------------------------------------------------------------------------

AROUND = [datetime(2026, 3, 7, tzinfo=UTC), datetime(2026, 10, 31, tzinfo=UTC), datetime(2026, 6, 1, tzinfo=UTC)]
RULE_SETS = [read_rules(preset.rules).rules for preset in PRESETS] + [
    rules(
        increment_min=15,
        round_min=15,
        overtime=[{"after_h": 3, "rate": 1.25}],
        weekly={"after_h": 5, "rate": 2},
        night={"from": "01:30", "to": "02:30", "rate": 3},
        combine="multiply",
        reporting={"share": 0.5, "least_h": 2, "most_h": 4},
        counted="paid",
        seventh_day_rate=2,
    ),
    rules(),
]


@st.composite
def some_calls(draw: st.DrawFn) -> list[WorkedCall]:
    """A person's calls about a clock change or none, one after the other, and some of another person."""
    instant, found = draw(st.sampled_from(AROUND)), []
    for _number in range(draw(st.integers(1, 5))):
        lengths = draw(st.lists(st.integers(0, 420), min_size=1, max_size=5).filter(lambda each: len(each) % 2 == 1))
        instant += timedelta(minutes=draw(st.integers(0, 1500)))
        edges = [instant]
        for length in lengths:
            edges.append(edges[-1] + timedelta(minutes=length))
        length = draw(st.none() | st.integers(1, 600))
        scheduled = None if length is None else edges[0] + timedelta(minutes=length)
        stretches = tuple(map(Stretch, edges[::2], edges[1::2]))
        kind, person = draw(st.sampled_from(["show", "load-in"])), draw(st.sampled_from(["A", "A", "B"]))
        found.append(WorkedCall(person, stretches, kind, scheduled, key=len(found)))
        instant = edges[-1]
    return found


by_some = st.sampled_from(RULE_SETS)


def facts(count: HourCount) -> tuple[Any, ...]:
    return count.worked, count.paid, count.counted, count.by_rate, count.straight, count.flags


@settings(max_examples=30)
@given(some_calls(), by_some)
def test_what_is_paid_is_never_less_than_what_was_worked_and_rates_add_up_to_it(
    calls: list[WorkedCall], by: Rules
) -> None:
    for count in count_hours(calls, by, NEW_YORK):
        assert count.paid >= count.counted >= count.worked >= 0
        assert sum(count.by_rate.values()) == count.paid
        assert count.straight == sum(rate * minutes for rate, minutes in count.by_rate.items()) >= count.paid
        assert set(count.flags) <= set(FLAGS)


@settings(max_examples=30)
@given(some_calls(), by_some, st.data())
def test_splitting_a_stretch_anywhere_changes_nothing(calls: list[WorkedCall], by: Rules, data: st.DataObject) -> None:
    split = [replace(each, stretches=split_at(each.stretches, data)) for each in calls]
    assert list(map(facts, count_hours(split, by, NEW_YORK))) == list(map(facts, count_hours(calls, by, NEW_YORK)))


def split_at(stretches: tuple[Stretch, ...], data: st.DataObject) -> tuple[Stretch, ...]:
    nth = data.draw(st.integers(0, len(stretches) - 1))
    whole = stretches[nth]
    middle = whole.start + timedelta(minutes=data.draw(st.integers(0, whole.minutes)))
    return (*stretches[:nth], Stretch(whole.start, middle), Stretch(middle, whole.end), *stretches[nth + 1 :])


@settings(max_examples=30)
@given(some_calls().flatmap(lambda calls: st.tuples(st.just(calls), st.permutations(calls))), by_some)
def test_the_order_of_the_calls_does_not_matter(both: tuple[list[WorkedCall], list[WorkedCall]], by: Rules) -> None:
    given_so, shuffled = both
    first = {count.call.key: facts(count) for count in count_hours(given_so, by, NEW_YORK)}
    assert {count.call.key: facts(count) for count in count_hours(shuffled, by, NEW_YORK)} == first


@settings(max_examples=30)
@given(some_calls(), by_some)
def test_minutes_worked_are_those_that_passed_and_the_weeks_hold_them_all(calls: list[WorkedCall], by: Rules) -> None:
    plain = replace(by, rounding=0)
    found = week_hours(calls, plain, NEW_YORK)
    for count in found.calls:
        passed = (count.call.end - count.call.start) // timedelta(minutes=1)
        assert count.worked == passed - sum(meal.minutes for meal in meals_of(count.call))
    weeks, calls_together = total(found.weeks), total(found.calls)
    assert (weeks.paid, weeks.straight) == (calls_together.paid, calls_together.straight)


def meals_of(each: WorkedCall) -> list[Stretch]:
    breaks = [Stretch(one.end, other.start) for one, other in pairwise(each.stretches)]
    return [rest for rest in breaks if rest.minutes >= 30]


@settings(max_examples=30)
@given(some_calls())
def test_each_minute_has_the_rate_that_clocks_and_the_count_so_far_give_it(calls: list[WorkedCall]) -> None:
    """The same, minute by minute and without cutting: a night about the clock change, overtime by the day."""
    by = rules(overtime=[{"after_h": 3, "rate": 1.25}], night={"from": "01:30", "to": "02:30", "rate": 3})
    so_far: dict[tuple[str, date], int] = {}
    expected: dict[Decimal, int] = {}
    for each in sorted(calls, key=lambda each: (each.start, each.end)):
        for instant in minutes_of(each):
            wall = instant.astimezone(NEW_YORK)
            day = each.person, wall.date()
            is_night = time(1, 30) <= wall.time() < time(2, 30)
            rate = Decimal(3) if is_night else Decimal("1.25") if so_far.get(day, 0) >= 180 else Decimal(1)
            expected[rate] = expected.get(rate, 0) + 1
            so_far[day] = so_far.get(day, 0) + 1
    assert total(count_hours(calls, by, NEW_YORK)).by_rate == expected


def minutes_of(each: WorkedCall) -> list[datetime]:
    """The instants at which each minute of work begins."""
    length = (each.end - each.start) // timedelta(minutes=1)
    every = [each.start + timedelta(minutes=number) for number in range(length)]
    meals = meals_of(each)
    return [start for start in every if not any(meal.start <= start < meal.end for meal in meals)]
