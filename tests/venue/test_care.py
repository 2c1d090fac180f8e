"""When care falls due: after so many hours or days, whichever comes first."""

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from venue.core.care import Due, due

ZONE = "America/Chicago"
DONE = datetime(2026, 3, 1, 18, tzinfo=UTC)
DAY_0 = date(2026, 3, 1)


def h(hours: float | None) -> Decimal | None:
    return None if hours is None else Decimal(str(hours))


def on(day: int, every_h=None, every_days=None, hours=None, per_day=None, done_h: float | None = 500.0) -> Due:
    """The care as seen on a day after it was done at 500 lamp hours."""
    now = datetime(2026, 3, 1 + day, 18, tzinfo=UTC)
    return due(h(every_h), every_days, DONE, h(done_h), h(hours), per_day, now, ZONE)


def test_a_hundred_hours_or_thirty_days_at_nine_hours_a_day_is_due_at_100_h_on_day_12() -> None:
    found = on(0, 100, 30, 500, 9.0)
    assert found == Due(date(2026, 3, 13), Decimal(600), "hours", "later")
    assert (found.on - DAY_0).days == 12  # type: ignore[operator]


def test_days_come_first_where_use_is_slow() -> None:
    assert on(0, 100, 30, 500, 3.0) == Due(date(2026, 3, 31), Decimal(600), "days", "later")
    assert on(0, 90, 30, 500, 3.0).by == "hours"  # both on day 30


@pytest.mark.parametrize(
    ("day", "hours", "state", "at_day"),
    [
        (0, 500, "later", 12),
        (4, 536, "later", 12),
        (5, 545, "soon", 12),
        (11, 599, "soon", 12),
        (12, 600, "due", 12),
        (12, 608, "overdue", 12),
        (14, 626, "overdue", 12),
        (3, 591, "soon", 4),
    ],
)
def test_what_is_burnt_decides_the_state(day: int, hours: float, state: str, at_day: int) -> None:
    found = on(day, 100, 30, hours, 9.0)
    assert (found.state, (found.on - DAY_0).days) == (state, at_day)  # type: ignore[operator]


@pytest.mark.parametrize(("day", "state"), [(0, "later"), (22, "later"), (23, "soon"), (29, "soon"), (30, "due")])
def test_days_alone_need_no_meter(day: int, state: str) -> None:
    assert on(day, every_days=30) == Due(date(2026, 3, 31), None, "days", state)


def test_hours_that_nobody_noted_leave_it_to_the_days() -> None:
    assert on(0, 100, 30, 1467, 3.0, done_h=None) == Due(date(2026, 3, 31), None, "days", "later")
    assert on(0, 100, None, 1467, 3.0, done_h=None).state == "unknown"


def test_days_that_are_over_are_overdue_since_their_date() -> None:
    assert on(20, every_days=7) == Due(date(2026, 3, 8), None, "days", "overdue")
    assert on(20, 100, 7, 505, 1.0).state == "overdue"


@pytest.mark.parametrize(
    ("hours", "state", "is_dated"),
    [(550, "later", False), (590, "soon", False), (600, "due", True), (640, "overdue", True), (None, "unknown", False)],
)
def test_hours_alone_without_known_use_have_a_date_only_once_they_are_burnt(hours, state: str, is_dated: bool) -> None:
    for per_day in (None, 0.0):
        found = on(10, every_h=100, hours=hours, per_day=per_day)
        assert (found.state, found.on == date(2026, 3, 11), found.by) == (state, is_dated, "hours")


def test_use_too_slow_to_tell_gives_no_date() -> None:
    assert on(0, every_h=100, hours=500, per_day=1e-9).on is None


def test_care_that_was_never_done_is_due_and_a_plan_without_an_interval_tells_nothing() -> None:
    now = datetime(2026, 3, 1, 3, tzinfo=UTC)  # still the day before in the house
    assert due(h(100), 30, None, None, h(50), 9.0, now, ZONE) == Due(date(2026, 2, 28), Decimal(100), None, "due")
    assert on(0) == Due(None, None, None, "unknown")


def test_days_are_the_houses_days() -> None:
    done_late = datetime(2026, 3, 2, 4, tzinfo=UTC)  # March 1, 22:00 in the house
    assert due(None, 7, done_late, None, None, None, done_late, ZONE).on == date(2026, 3, 8)
