"""Wall times, instants, and when the day of a house turns."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.local_time import house_day, possible_instants, shown, wall_time
from venue.errors import LocalTimeMissing, LocalTimeTwice
from venue.instants import the_instant

CHICAGO = "America/Chicago"
ZONES = st.sampled_from([CHICAGO, "America/New_York", "Europe/Berlin", "Australia/Lord_Howe", "Asia/Kolkata", "UTC"])
WALLS = st.datetimes(datetime(2000, 1, 1), datetime(2037, 12, 31))
SPRING = datetime(2026, 3, 8, 2, 30)
FALL = datetime(2026, 11, 1, 1, 30)


def test_an_ordinary_wall_time_is_one_instant() -> None:
    assert possible_instants(datetime(2026, 2, 1, 19, 30), CHICAGO) == (datetime(2026, 2, 2, 1, 30, tzinfo=UTC),)


def test_a_wall_time_that_clocks_jump_over_is_no_instant() -> None:
    assert possible_instants(SPRING, CHICAGO) == ()


def test_a_wall_time_that_clocks_show_twice_is_two_instants_in_order() -> None:
    first = datetime(2026, 11, 1, 6, 30, tzinfo=UTC)
    assert possible_instants(FALL, CHICAGO) == (first, first + timedelta(hours=1))


def test_the_missing_time_is_refused_with_what_to_do() -> None:
    with pytest.raises(LocalTimeMissing, match=r"does not exist in America/Chicago.*Write another time"):
        the_instant(SPRING, CHICAGO)
    with pytest.raises(LocalTimeMissing):
        the_instant(SPRING, CHICAGO, fold=1)


def test_the_double_time_is_asked_with_both_instants_and_an_answer_settles_it() -> None:
    with pytest.raises(LocalTimeTwice, match="happens twice") as asked:
        the_instant(FALL, CHICAGO)
    both = (asked.value.first, asked.value.second)
    assert both == possible_instants(FALL, CHICAGO)
    assert (the_instant(FALL, CHICAGO, fold=0), the_instant(FALL, CHICAGO, fold=1)) == both


def test_an_answer_that_was_not_needed_changes_nothing() -> None:
    wall = datetime(2026, 2, 1, 19, 30)
    assert the_instant(wall, CHICAGO, fold=1) == the_instant(wall, CHICAGO)


@given(WALLS, ZONES)
def test_clocks_at_each_possible_instant_show_the_wall_time(wall: datetime, zone: str) -> None:
    assert all(wall_time(instant, zone) == wall for instant in possible_instants(wall, zone))


@given(WALLS, ZONES)
def test_an_instant_is_among_those_of_the_wall_time_it_shows(moment: datetime, zone: str) -> None:
    instant = moment.replace(tzinfo=UTC)
    assert instant in possible_instants(wall_time(instant, zone), zone)


@pytest.mark.parametrize(
    ("clock", "day"),
    [
        ("23:50", date(2026, 2, 1)),
        ("00:40", date(2026, 2, 1)),
        ("04:59", date(2026, 2, 1)),
        ("05:00", date(2026, 2, 2)),
    ],
)
def test_after_midnight_tonight_is_still_tonight_until_the_day_turns(clock: str, day: date) -> None:
    wall = datetime.combine(date(2026, 2, 1 if clock > "12" else 2), time.fromisoformat(clock))
    assert house_day(the_instant(wall, CHICAGO), CHICAGO, time(5)) == day


def test_a_time_is_shown_as_the_clocks_of_the_house_show_it() -> None:
    assert shown(datetime(2026, 2, 2, 5, 10, tzinfo=UTC), CHICAGO) == "2026-02-01 23:10"
