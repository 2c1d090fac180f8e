"""When a lamp passes its limits: by hand, then against adding up one burn after the other."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from time import perf_counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.forecast import Burn, Calendar, burn_of, outlook, state_of

NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)
HOUR = timedelta(hours=1)


def at(hours: float) -> datetime:
    return NOON + timedelta(hours=hours)


def burn(start: float, end: float, key: object = None) -> Burn:
    return Burn(at(start), at(end), key if key is not None else f"{start:g}")  # type: ignore[arg-type]


def shows(count: int, length: float = 3) -> Calendar:
    """A show each night at eight hours after noon, numbered from 1."""
    return Calendar([burn(24 * night + 8, 24 * night + 8 + length, night + 1) for night in range(count)])


def h(hours: float) -> Decimal:
    return Decimal(str(hours))


def test_a_lamp_at_980_of_1000_hours_passes_its_stop_in_the_seventh_of_ten_shows_of_three() -> None:
    found = outlook(h(980), h(800), h(1000), shows(10), NOON, None)
    assert (found.state, found.remaining_h, found.booked_h) == ("warn", 20, 30)
    assert (found.stops_in, found.stops_at) == (7, at(24 * 6 + 8 + 2))
    assert not found.beyond_calendar


def test_a_burn_that_ends_as_the_limit_is_reached_does_not_pass_it_but_the_next_does() -> None:
    found = outlook(h(979), None, h(1000), shows(8), NOON, None)
    assert (found.stops_in, found.stops_at) == (8, at(24 * 7 + 8))
    assert outlook(h(979), None, h(1000), shows(7), NOON, None).stops_in is None


@pytest.mark.parametrize(
    ("hours", "state"), [(799.9, "ok"), (800, "warn"), (999.99, "warn"), (1000, "stop"), (1200, "stop")]
)
def test_a_limit_holds_from_its_very_hour_on(hours: float, state: str) -> None:
    assert state_of(h(hours), h(800), h(1000)) == state


def test_nothing_is_known_without_hours_or_without_a_stop() -> None:
    for hours, stop in ((None, h(1000)), (h(10), None)):
        found = outlook(hours, h(800), stop, shows(3), NOON, 3.0)
        assert (found.state, found.remaining_h, found.stops_at, found.booked_h) == ("unknown", None, None, 9)


def test_a_lamp_past_its_stop_passed_it_at_its_reading_and_in_no_event() -> None:
    found = outlook(h(1003.5), h(800), h(1000), shows(3), NOON, 3.0, as_of=at(-5))
    assert (found.state, found.remaining_h) == ("stop", h(-3.5))
    assert (found.stops_at, found.stops_in, found.warns_at) == (at(-5), None, at(-5))


def test_what_was_burnt_since_the_last_reading_counts_by_the_calendar() -> None:
    # Read before the first show; now in the middle of the third: 3 + 3 + 1 unread, 2 + 3 booked of four shows.
    found = outlook(h(990), h(991), h(1000), shows(4), at(48 + 9), None, as_of=NOON)
    assert (found.unread_h, found.booked_h) == (7, 5)
    assert (found.state, found.warns_in, found.warns_at) == ("ok", 1, at(9))
    assert (found.stops_in, found.stops_at) == (4, at(72 + 9))


def test_a_limit_that_the_calendar_passed_before_now_is_told_with_its_time() -> None:
    found = outlook(h(998), h(800), h(1000), shows(4), at(30), None, as_of=NOON)
    assert (found.state, found.stops_in, found.stops_at) == ("warn", 1, at(10))


def test_beyond_the_calendar_the_usual_use_tells() -> None:
    # 980 + 2 x 3 booked; 14 h left at 3.5 h a day are four days after the last show.
    found = outlook(h(980), h(800), h(1000), shows(2), NOON, 3.5)
    assert (found.beyond_calendar, found.stops_in) == (True, None)
    assert found.stops_at == at(24 + 11) + timedelta(days=4)


@pytest.mark.parametrize("per_day", [None, 0.0, 1e-9])
def test_without_use_nobody_can_tell_what_lies_beyond_the_calendar(per_day: float | None) -> None:
    found = outlook(h(10), h(800), h(1000), shows(2), NOON, per_day)
    assert (found.beyond_calendar, found.stops_at, found.booked_h) == (True, None, 6)


def test_without_a_calendar_use_counts_from_now() -> None:
    found = outlook(h(990), h(800), h(1000), Calendar([]), NOON, 5.0)
    assert (found.stops_at, found.booked_h) == (NOON + timedelta(days=2), 0)


def test_overlapping_burns_count_once_and_for_the_one_that_began_first() -> None:
    calendar = Calendar([burn(2, 6, "matinee"), burn(4, 9, "evening"), burn(5, 6, "inside")])
    assert calendar.hours(NOON) == 7
    assert calendar.passing(NOON, h(3.5)) == (at(5.5), "matinee")
    assert calendar.passing(NOON, h(4)) == (at(6), "evening")
    assert calendar.passing(NOON, h(7)) is None


def test_a_light_burns_from_before_an_event_until_its_end_or_its_usual_length() -> None:
    half, usual = HOUR / 2, 3 * HOUR
    assert burn_of(NOON, at(2.5), half, usual) == (at(-0.5), at(2.5))
    assert burn_of(NOON, None, half, usual) == (at(-0.5), at(3))
    assert burn_of(NOON, at(-1), half, usual) == (at(-0.5), NOON)


BURNS = st.lists(st.tuples(st.integers(0, 300), st.integers(0, 12)), max_size=30)


@settings(max_examples=50)
@given(BURNS, st.integers(-5, 320), st.integers(0, 60))
def test_the_calendar_agrees_with_counting_hour_by_hour(burns, start: int, hours: int) -> None:
    calendar = Calendar([burn(begins, begins + length, number) for number, (begins, length) in enumerate(burns)])
    lit = {hour for begins, length in burns for hour in range(begins, begins + length)}
    ahead = sorted(hour for hour in lit if hour >= start)
    assert calendar.hours(at(start)) == len(ahead)
    assert calendar.hours(at(start), at(start + 50)) == sum(hour < start + 50 for hour in ahead)
    found = calendar.passing(at(start), Decimal(hours))
    if hours >= len(ahead):
        assert found is None
    else:
        assert found is not None
        passed, key = found
        assert passed == at(ahead[hours])
        begins, length = burns[key]  # type: ignore[index]
        assert begins <= ahead[hours] < begins + length


@settings(max_examples=50)
@given(BURNS, st.permutations(range(30)))
def test_the_order_of_bookings_changes_no_instant(burns, order) -> None:
    made = [burn(begins, begins + length, (begins, length)) for begins, length in burns]
    mixed = [made[index] for index in order if index < len(made)]
    assert Calendar(mixed).passing(NOON, h(20)) == Calendar(made).passing(NOON, h(20))


def test_a_house_of_many_lamps_is_foretold_from_one_calendar_without_walking_it() -> None:
    # A twentieth of the lamps and events that must take under two seconds, with room for a busy machine.
    calendar = shows(2000)
    before = perf_counter()
    found = [outlook(h(lamp * 4), h(800), h(1000), calendar, NOON, 3.0) for lamp in range(250)]
    assert perf_counter() - before < 0.5
    assert [each.stops_in for each in found[::100]] == [334, 201, 67]
