"""What keeps somebody off a line, and who fits it best: hand-checkable cases."""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from crew.core.filling.bars import bars_of, calendar_days, days_worked
from crew.core.filling.ranking import Roll, passed_over, ranked
from crew.core.filling.records import Bar, Booking, Held, Need, Off, Ran, Rules, Somebody, Wanted

CLIMB, ARC, HOUSE = 1, 2, 3
ZONE = "America/New_York"
RULES = Rules(timedelta(hours=8), ZONE)
SHOW_DAY = date(2026, 3, 3)


def at(clock: str, day: date = SHOW_DAY) -> datetime:
    """By the clocks of New York in winter, five hours behind."""
    return datetime.combine(day, time.fromisoformat(clock), tzinfo=UTC) + timedelta(hours=5)


def wanted(starts: datetime, ends: datetime, *needs: Need, **facts: object) -> Wanted:
    days, works_on = calendar_days(starts, ends, ZONE), days_worked(starts, ends, ZONE, RULES.day_turns)
    return Wanted(starts, ends, days, works_on, needs, **facts)  # type: ignore[arg-type]


EVENING = wanted(at("18:00"), at("22:00"))
NEXT = SHOW_DAY + timedelta(days=1)


def codes(somebody: Somebody, line: Wanted = EVENING) -> list[str]:
    return [bar.code for bar in bars_of(somebody, line, RULES)]


def busy(*spans: tuple[datetime, datetime]) -> Somebody:
    return Somebody(1, "Ada", bookings=tuple(Booking(*span) for span in spans))


def test_overlapping_calls_keep_off_and_touching_ones_do_not() -> None:
    late = wanted(at("21:00"), at("23:00"))
    assert bars_of(busy((at("18:00"), at("22:00"))), late, RULES) == (
        Bar("booked", starts=at("18:00"), ends=at("22:00")),
    )
    assert codes(busy((at("18:00"), at("22:00"))), wanted(at("22:00"), at("23:00"))) == []


@pytest.mark.parametrize(
    ("other", "until"),
    [
        ((at("20:00"), at("01:00", NEXT)), at("09:00", NEXT)),
        ((at("20:00"), at("00:00", NEXT)), None),  # eight hours exactly
        ((at("00:30", NEXT), at("04:00", NEXT)), at("12:00", NEXT)),  # begins before the day turns: the day before
        ((at("05:00", NEXT), at("07:00", NEXT)), None),  # the same working day
        ((at("20:00"), at("08:00", NEXT)), None),  # touches
    ],
)
def test_a_rest_is_due_between_working_days_alone(other: tuple[datetime, datetime], until: datetime | None) -> None:
    morning = wanted(at("08:00", NEXT), at("12:00", NEXT))
    found = bars_of(busy(other), morning, RULES)
    assert [bar.until for bar in found] == ([until] if until else [])
    assert all((bar.code, bar.is_stop, bar.is_next) == ("short-rest", True, False) for bar in found)


def test_a_rest_that_runs_into_the_next_call_is_as_short() -> None:
    found = bars_of(busy((at("05:30", NEXT), at("09:00", NEXT))), EVENING, RULES)
    assert found == (
        Bar("short-rest", starts=at("05:30", NEXT), ends=at("09:00", NEXT), until=at("06:00", NEXT), is_next=True),
    )


def test_a_rest_counts_from_when_somebody_really_left() -> None:
    morning = wanted(at("08:00", NEXT), at("12:00", NEXT))
    early = Somebody(1, "Ada", bookings=(Booking(at("20:00"), at("02:00", NEXT), out=at("23:00")),))
    late = Somebody(1, "Ada", bookings=(Booking(at("18:00"), at("23:00"), out=at("02:30", NEXT)),))
    assert (codes(early, morning), codes(late, morning)) == ([], ["short-rest"])


@pytest.mark.parametrize(
    ("expires", "code"),
    [
        (date(2026, 3, 2), "certification-expired"),
        (date(2026, 3, 3), None),
        (None, None),
    ],
)
def test_a_certification_is_good_through_its_last_day(expires: date | None, code: str | None) -> None:
    line = wanted(at("18:00"), at("22:00"), Need(CLIMB, True))
    assert codes(Somebody(1, "Ada", held=(Held(CLIMB, None, expires),)), line) == ([code] if code else [])


def test_past_midnight_it_has_to_be_good_on_the_next_day_too() -> None:
    night = wanted(at("19:00"), at("00:30", NEXT), Need(CLIMB, True))
    assert codes(Somebody(1, "Ada", held=(Held(CLIMB, None, SHOW_DAY),)), night) == ["certification-expired"]
    until_midnight = wanted(at("19:00"), at("00:00", NEXT), Need(CLIMB, True))
    assert codes(Somebody(1, "Ada", held=(Held(CLIMB, None, SHOW_DAY),)), until_midnight) == []


def test_the_later_of_two_counts_and_an_orientation_is_of_its_house() -> None:
    line = wanted(at("18:00"), at("22:00"), Need(CLIMB, True), Need(HOUSE, False, house=7))
    held = (Held(CLIMB, None, date(2026, 1, 1)), Held(CLIMB, None, date(2027, 1, 1)), Held(HOUSE, 8))
    found = bars_of(Somebody(1, "Ada", held=held), line, RULES)
    assert found == (Bar("certification-missing", is_stop=False, kind=HOUSE),)


@pytest.mark.parametrize(
    ("first", "last", "is_off"),
    [
        (SHOW_DAY, SHOW_DAY, True),
        (date(2026, 3, 1), date(2026, 3, 2), False),
        (NEXT, NEXT, False),  # the night before it ends after midnight: still the day before
        (date(2026, 3, 1), date(2026, 3, 9), True),
    ],
)
def test_days_off_keep_off_by_the_calendar(first: date, last: date, is_off: bool) -> None:
    night = wanted(at("19:00"), at("00:30", NEXT))
    assert codes(Somebody(1, "Ada", off=(Off(first, last),)), night) == (["day-off"] if is_off else [])


def test_who_left_can_not_come() -> None:
    assert codes(Somebody(1, "Ada", has_left=True)) == ["left"]


def names(people: list[Somebody], line: Wanted, by: str = "alphabet") -> list[str]:
    pairs = [(each, bars_of(each, line, RULES)) for each in people]
    return [found.somebody.name for found in ranked(pairs, line, Roll(people, by))]  # type: ignore[arg-type]


SEAT = ("2", 1)


def ran(days_ago: int, calls: int = 1) -> Ran:
    return Ran(calls, {SEAT: calls}, {SEAT: at("18:00") - timedelta(days=days_ago)})


def test_the_best_stands_first_level_by_level() -> None:
    line = wanted(at("18:00"), at("22:00"), Need(ARC, False), number="2", unit_words=frozenset({"fs-02"}))
    arc = (Held(ARC),)
    best_first = [
        Somebody(2, "on it last", held=arc, ran=ran(2)),
        Somebody(3, "ever on it", held=arc, ran=ran(3, calls=9)),
        Somebody(4, "knows the show", held=arc, ran=Ran(2)),
        Somebody(5, "has led", held=arc, experience="lead"),
        Somebody(6, "knows the unit", held=arc, experience="some", units_known=frozenset({"fs-02"})),
        Somebody(7, "first on the list", held=arc, experience="some", seniority=3),
        Somebody(9, "later on the list", held=arc, experience="some", seniority=4, minutes=30),
        Somebody(8, "as late, more hours", held=arc, experience="some", seniority=4, minutes=60),
        Somebody(1, "lacks what is only told", ran=ran(4), experience="lead"),
        Somebody(10, "can't come", held=arc, ran=ran(3), off=(Off(SHOW_DAY, SHOW_DAY),)),
    ]
    assert names(best_first[::-1], line, "seniority") == [each.name for each in best_first]


def test_the_operator_of_the_last_performance_stands_first_if_free_and_certified() -> None:
    line = wanted(at("18:00"), at("22:00"), Need(CLIMB, True), number="2")
    held = (Held(CLIMB),)
    last = Somebody(1, "Mira", held=held, ran=ran(1))
    before = Somebody(2, "Ada", held=held, ran=ran(4, calls=8), experience="lead")
    assert names([before, last], line) == ["Mira", "Ada"]
    uncertified = Somebody(1, "Mira", ran=ran(1))
    assert names([before, uncertified], line) == ["Ada", "Mira"]


@pytest.mark.parametrize(
    ("by", "order"),
    [
        ("alphabet", ["Ada", "Bo", "Cy"]),
        ("seniority", ["Cy", "Bo", "Ada"]),
        ("skill", ["Bo", "Ada", "Cy"]),
    ],
)
def test_the_roster_orders_its_list(by: str, order: list[str]) -> None:
    people = [
        Somebody(1, "Cy", seniority=1),
        Somebody(2, "Ada", seniority=10, grade=2),
        Somebody(3, "Bo", seniority=9, grade=1),
    ]
    assert names(people, EVENING, by) == order
    roll = Roll(people, by)  # type: ignore[arg-type]
    key = {each.name: each.key for each in people}
    assert passed_over(key[order[2]], [1, 2, 3], roll) == [key[order[0]], key[order[1]]]
    assert passed_over(key[order[0]], [1, 2, 3], roll) == []
