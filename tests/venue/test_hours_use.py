"""How much a unit burns: by day, and a day on the whole."""

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.ledgers import NOW, added, day, mark, meter
from venue.core.hours import hours_by_day, unit_curve, use_per_day


def on_day(instant: datetime) -> date:
    return instant.date()


NIGHTLY = meter(0, 100, *(mark(at, 100 + 3 * at) for at in range(1, 31)))


@pytest.mark.parametrize(("window", "expected"), [(10, 3.0), (30, 3.0), (365, 3.0)])
def test_use_a_day_is_what_was_burnt_over_the_days_that_were_read(window: float, expected: float) -> None:
    assert use_per_day([NIGHTLY], [], day(30), window) == pytest.approx(expected)


def test_dark_days_count_but_days_since_the_last_reading_do_not() -> None:
    resting = meter(0, 0, mark(10, 60), mark(20, 60))
    assert use_per_day([resting], [], day(20), 90) == pytest.approx(3.0)
    assert use_per_day([resting], [], day(60), 90) == pytest.approx(3.0)
    assert use_per_day([resting], [], day(25), 15) == pytest.approx(0.0)


def test_a_window_that_begins_between_readings_takes_its_part_of_the_step() -> None:
    assert use_per_day([meter(0, 0, mark(10, 40), mark(20, 60))], [], day(20), 15) == pytest.approx((20 + 20) / 15)


def test_use_goes_on_over_a_replaced_meter_and_hours_added() -> None:
    runs = [meter(0, 500, mark(5, 510), until=5), meter(7, 0, mark(10, 12))]
    assert use_per_day(runs, [added(6, 8)], day(10), 90) == pytest.approx(30 / 10)
    assert use_per_day([], [added(1, 4), added(2, 3), added(5, 9)], day(5)) == pytest.approx(12 / 4)


def test_nothing_is_told_from_less_than_a_day_or_from_before_the_window() -> None:
    assert use_per_day([], [], NOW) is None
    assert use_per_day([meter(0, 0, mark(0.5, 4))], [], NOW) is None
    assert use_per_day([NIGHTLY], [], day(200), 90) is None


def test_a_step_belongs_to_the_days_after_the_reading_before_it_up_to_its_own() -> None:
    run = meter(0.9, 0, mark(1.9, 3), mark(4.9, 12))
    found = hours_by_day([run], [added(6.5, 2)], NOW, on_day)
    first = day(0).date()
    assert found == {
        first + timedelta(days=1): 3.0,
        **{first + timedelta(days=at): 3.0 for at in (2, 3, 4)},
        **{first + timedelta(days=at): 1.0 for at in (5, 6)},
    }


@settings(max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 100), st.integers(0, 80)), min_size=1, max_size=30))
def test_the_days_add_up_to_what_was_burnt_and_the_curve_never_falls(steps) -> None:
    at, shows, marks = 0.0, 0.0, []
    for hours, tenths in steps:
        at, shows = at + hours / 24, shows + tenths / 10
        marks.append(mark(at, shows))
    runs, extra = [meter(0, 0, *marks)], [added(1.5, 2.5)]
    curve = unit_curve(runs, extra, NOW)
    assert list(curve.hours) == sorted(curve.hours)
    assert sum(hours_by_day(runs, extra, NOW, on_day).values()) == pytest.approx(shows + 2.5)
    assert curve.value(NOW) == pytest.approx(shows + 2.5)
    assert curve.value(day(-1)) == 0
