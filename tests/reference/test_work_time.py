"""Work time against published rules and worked examples. Money stands only here: rate times straight hours.

Each value's source is named beside it. "Second hand": quoted from other texts, not read in the source itself.
"""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from crew.core.hours.counting import count_hours
from crew.core.hours.reading_rules import read_rules
from crew.core.hours.reading_times import read_times
from crew.core.hours.records import HourCount, Rules, Stretch, Tally, WorkedCall
from crew.core.hours.rounding import hours_in, two_places
from crew.core.hours.weeks import average_worked, total, week_hours

UTC_ZONE = ZoneInfo("UTC")
MONDAY = datetime(2026, 3, 2, 8, tzinfo=UTC)
FORTY_HOUR_WEEK = {"weekly": {"after_h": 40, "rate": 1.5}}
EIGHT_AND_TWELVE = {"overtime": [{"after_h": 8, "rate": 1.5}, {"after_h": 12, "rate": 2}]}


def rules(**keys: Any) -> Rules:
    read = read_rules(keys)
    assert not read.problems
    return read.rules


def days(*lengths: float) -> list[WorkedCall]:
    """One call a day from Monday on, of so many hours, each beginning at 8."""
    starts = [MONDAY + timedelta(days=day) for day in range(len(lengths))]
    return [
        WorkedCall.between("Ada Birch", start, start + timedelta(hours=length))
        for start, length in zip(starts, lengths, strict=True)
    ]


def counted(by: Rules, calls: Sequence[WorkedCall]) -> Tally:
    return total(count_hours(calls, by, UTC_ZONE))


def pay(rate: int | str, found: Tally) -> Decimal:
    return Decimal(rate) * hours_in(found.straight)


def hours_at(found: Tally) -> dict[str, float]:
    return {str(rate): minutes / 60 for rate, minutes in found.by_rate.items()}


# -- United States --------------------------------------------------------------------------------------


def test_46_hours_at_12_an_hour_are_588() -> None:
    """29 CFR 778.110(a) (2011). Second hand."""
    assert pay(12, counted(rules(**FORTY_HOUR_WEEK), days(8, 8, 8, 8, 8, 6))) == 588


def test_a_bonus_of_46_makes_the_regular_rate_13_and_the_week_637() -> None:
    """29 CFR 778.110(b) (2011). Second hand."""
    week = counted(rules(**FORTY_HOUR_WEEK), days(8, 8, 8, 8, 8, 6))
    regular = (12 * hours_in(week.worked) + 46) / hours_in(week.worked)
    assert regular == 13
    assert pay(str(regular), week) == 637


def test_44_hours_at_8_an_hour_are_368() -> None:
    """United States Department of Labor, Handy Reference Guide to the Fair Labor Standards Act. Second hand."""
    assert pay(8, counted(rules(**FORTY_HOUR_WEEK), days(8, 8, 8, 8, 12))) == 368


@pytest.mark.parametrize(
    ("minutes", "recorded"), [(0, 0), *((late, 0) for late in range(1, 8)), *((late, 15) for late in range(8, 15))]
)
def test_to_the_quarter_hour_1_to_7_minutes_go_down_and_8_to_14_go_up(minutes: int, recorded: int) -> None:
    """29 CFR 785.48(b), read; United States Department of Labor, Fact Sheet 53, second hand."""
    out = MONDAY + timedelta(hours=4, minutes=minutes)
    found = counted(rules(round_min=15), [WorkedCall.between("Ada Birch", MONDAY, out)])
    assert found.worked == found.paid == 240 + recorded


def test_starts_are_recorded_to_the_quarter_hour_as_stops_are() -> None:
    """29 CFR 785.48(b). Read."""
    start, out = MONDAY + timedelta(minutes=7), MONDAY + timedelta(minutes=8, hours=4)
    assert counted(rules(round_min=15), [WorkedCall.between("Ada Birch", start, out)]).worked == 255


@pytest.mark.parametrize(("minutes", "recorded"), [(2, 0), (3, 6), (5, 6)])
def test_to_the_tenth_of_an_hour_half_of_one_goes_up(minutes: int, recorded: int) -> None:
    """29 CFR 785.48(b) names the tenth of an hour, read; that half of one goes up is derived."""
    out = MONDAY + timedelta(hours=4, minutes=minutes)
    assert counted(rules(round_min=6), [WorkedCall.between("Ada Birch", MONDAY, out)]).worked == 240 + recorded


@pytest.mark.parametrize(("hours", "shown"), [("6.784999", "6.78"), ("6.865000", "6.87")])
def test_hours_are_shown_to_two_places_half_up(hours: str, shown: str) -> None:
    """United States Department of Labor, opinion letter of July 1, 2019. Second hand."""
    assert str(two_places(Decimal(hours))) == shown


@pytest.mark.parametrize(("minutes", "worked"), [(5, 480), (20, 480), (30, 450)])
def test_a_rest_of_5_to_20_minutes_counts_and_a_meal_of_30_does_not(minutes: int, worked: int) -> None:
    """29 CFR 785.18 and 785.19. Read."""
    noon = MONDAY + timedelta(hours=4)
    rest = Stretch(noon, noon + timedelta(minutes=minutes))
    eight_hours = WorkedCall.between("Ada Birch", MONDAY, MONDAY + timedelta(hours=8), [rest])
    assert counted(rules(), [eight_hours]).worked == worked


# -- California -----------------------------------------------------------------------------------------


def test_a_day_of_9_hours_at_30_an_hour_is_285() -> None:
    """California Labor Code, section 510. Second hand."""
    assert pay(30, counted(rules(**EIGHT_AND_TWELVE), days(9))) == 285


def test_a_day_of_13_hours_at_20_an_hour_is_320_8_and_4_at_one_and_a_half_and_1_at_double() -> None:
    """California Labor Code, section 510. Second hand."""
    found = counted(rules(**EIGHT_AND_TWELVE), days(13))
    assert (pay(20, found), hours_at(found)) == (320, {"1": 8.0, "1.5": 4.0, "2": 1.0})


@pytest.mark.parametrize("lengths", [(8, 8, 8, 8, 9), (9, 8, 8, 8, 8)])
def test_four_days_of_8_and_one_of_9_hours_are_41_hours_and_1_of_overtime_not_counted_twice(
    lengths: tuple[int, ...],
) -> None:
    """California Labor Code, section 510. Second hand."""
    found = counted(rules(**EIGHT_AND_TWELVE, **FORTY_HOUR_WEEK), days(*lengths))
    assert (found.counted, hours_at(found)) == (41 * 60, {"1": 40.0, "1.5": 1.0})


@pytest.mark.parametrize(
    ("scheduled", "worked", "paid"), [(8, 1, 4), (6, 2, 3), (10, 1, 4), (8, 4, 4), (3, 0, 2), (2, 1, 1)]
)
def test_who_is_sent_home_early_is_paid_half_the_schedule_2_to_4_hours_and_only_work_counts(
    scheduled: int, worked: int, paid: int
) -> None:
    """California Industrial Welfare Commission, wage orders, section 5 (reporting time). Second hand; the last three
    rows, exactly half and nothing at all, are derived from the same words."""
    by = rules(reporting={"share": 0.5, "least_h": 2, "most_h": 4}, **EIGHT_AND_TWELVE)
    end, scheduled_end = MONDAY + timedelta(hours=worked), MONDAY + timedelta(hours=scheduled)
    call = WorkedCall("Ada Birch", (Stretch(MONDAY, end),), scheduled_end=scheduled_end)
    (count,) = count_hours([call], by, UTC_ZONE)
    assert (count.worked, count.paid, count.counted) == (60 * worked, 60 * paid, 60 * worked)
    assert ("reporting-time" in count.flags) == (paid > worked)


@pytest.mark.parametrize(("minutes", "is_due"), [(300, False), (301, True)])
def test_over_5_hours_a_meal_is_due(minutes: int, is_due: bool) -> None:
    """California Labor Code, section 512. Second hand."""
    (count,) = count_hours(days(minutes / 60), rules(meal_by_h=5), UTC_ZONE)
    assert ("late-meal" in count.flags) == is_due


# -- British Columbia, the European Union ---------------------------------------------------------------


def test_a_day_of_13_hours_is_8_straight_4_at_one_and_a_half_and_1_at_double() -> None:
    """British Columbia, Employment Standards Act, section 40. Second hand."""
    assert hours_at(counted(rules(**EIGHT_AND_TWELVE), days(13))) == {"1": 8.0, "1.5": 4.0, "2": 1.0}


@pytest.mark.parametrize(("rest", "is_short"), [(timedelta(hours=10, minutes=59), True), (timedelta(hours=11), False)])
def test_11_hours_of_rest_are_due_each_day(rest: timedelta, is_short: bool) -> None:
    """Directive 2003/88/EC, article 3. Second hand."""
    (first,) = days(14)
    start = first.end + rest
    second = WorkedCall.between("Ada Birch", start, start + timedelta(hours=4))
    assert ("short-rest" in _last(rules(rest_h=11), first, second).flags) == is_short


def test_48_hours_a_week_are_an_average() -> None:
    """Directive 2003/88/EC, article 6. Second hand; the weeks are derived: 52 and 44 hours make 48."""
    calls = days(8, 8, 8, 8, 8, 8, 4, 8, 8, 8, 8, 8, 4)
    weeks = week_hours(calls, rules(), UTC_ZONE).weeks
    assert [hours_in(week.worked) for week in weeks] == [52, 44]
    assert average_worked(weeks, over=2) == 48 * 60


def _last(by: Rules, *calls: WorkedCall) -> HourCount:
    return count_hours(calls, by, UTC_ZONE)[-1]


# -- clocks ---------------------------------------------------------------------------------------------


def start_of(text: str, zone: str) -> tuple[float, tuple[str, ...]]:
    """The timestamp at which a call begins that is written so, and what is flagged."""
    end = (datetime.fromisoformat(text[:16]) + timedelta(hours=6)).isoformat()
    (call,) = read_times(f"person,start,end\nAda Birch,{text},{end}\n", zone).calls
    return call.start.timestamp(), call.flags


def test_the_double_half_past_one_of_pep_495() -> None:
    """PEP 495: US/Eastern 2014-11-02 01:30, fold 0 and fold 1. Read."""
    assert start_of("2014-11-02T01:30", "US/Eastern") == (1414906200, ("ambiguous-time",))
    assert start_of("2014-11-02T01:30-05:00", "US/Eastern") == (1414909800, ())


def test_the_missing_half_past_two_of_pep_495_is_a_problem_with_its_line() -> None:
    """PEP 495: US/Eastern 2015-03-08 02:30 is in a gap; its two folds are 1425799800 and 1425796200. Read."""
    table = "person,start,end\nAda Birch,2015-03-08T02:30,2015-03-08T08:00\n"
    (problem,) = read_times(table, "US/Eastern").problems
    assert (problem.line, problem.code, problem.column) == (2, "time-missing", "start")
    assert start_of("2015-03-08T03:30-04:00", "US/Eastern")[0] == 1425799800
    assert start_of("2015-03-08T01:30-05:00", "US/Eastern")[0] == 1425796200


def test_the_first_of_two_is_meant_in_rfc_5545() -> None:
    """RFC 5545, 3.3.5: TZID=America/New_York:20071104T013000 is 2007-11-04T05:30:00Z. Second hand."""
    assert start_of("2007-11-04T01:30", "America/New_York")[0] == datetime(2007, 11, 4, 5, 30, tzinfo=UTC).timestamp()


@pytest.mark.parametrize(
    ("start", "end", "hours", "night_hours"),
    [
        (datetime(2026, 3, 7, 23), datetime(2026, 3, 8, 7), 7, 6),
        (datetime(2026, 10, 31, 23), datetime(2026, 11, 1, 7), 9, 8),
    ],
)
def test_a_night_over_a_clock_change_in_new_york_is_7_or_9_hours(
    start: datetime, end: datetime, hours: int, night_hours: int
) -> None:
    """Derived from the United States' rule for daylight time; no published answer."""
    zone = ZoneInfo("America/New_York")
    call = WorkedCall.between("Ada Birch", *(wall.replace(tzinfo=zone).astimezone(UTC) for wall in (start, end)))
    by = rules(night={"from": "00:00", "to": "08:00", "rate": 1.5})
    (count,) = count_hours([call], by, zone)
    assert (count.worked, count.paid) == (60 * hours, 60 * hours)
    assert hours_at(count) == {"1": 1.0, "1.5": float(night_hours)}
    assert {part.day for part in count.parts} == {start.date(), date(end.year, end.month, end.day)}
