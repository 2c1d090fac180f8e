"""What a new reading may say, and what is put into its field before anybody types."""

from datetime import timedelta
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.venue.ledgers import NOW, day, h, mark, meter
from venue.core.hours import Mark, judge_reading, likely_next, neighbors, run_problems

BEFORE, AFTER = mark(10, 500, 100), mark(12, 514, 110)


def codes(before: Mark | None, after: Mark | None, new: Mark) -> list[str]:
    return [problem.code for problem in judge_reading(before, after, new)]


@pytest.mark.parametrize(
    ("new", "expected"),
    [
        (mark(11, 507), []),
        (mark(11, 500), []),
        (mark(11, 514), []),
        (mark(11, 499.9), ["backward", "over-14"]),
        (mark(11, 514.1), ["ahead-of-later", "over-14"]),
        (mark(10.5, 512.1), []),
        (mark(10.5, 512.2), ["faster-than-clock"]),
        (mark(11.5, 501.8), ["faster-than-clock"]),
        (mark(11.5, 501.9), []),
        (mark(11, 507, 105), []),
        (mark(11, 507, 99), ["strikes-backward"]),
        (mark(11, 507, 111), ["strikes-backward"]),
        (mark(11, 504, 108), []),
        (mark(11, 503.9, 108), ["few-hours-a-strike"]),
        (mark(10, 500), ["same-time"]),
        (mark(12, 514), ["same-time"]),
        (mark(10, 503), ["faster-than-clock"]),
    ],
)
def test_a_reading_between_two_others_is_judged_on_both_sides(new: Mark, expected: list[str]) -> None:
    assert codes(BEFORE, AFTER, new) == expected


@pytest.mark.parametrize(
    ("days", "hours", "expected"),
    [
        (0.5, 12.1, []),
        (0.6, 14.0, []),
        (0.6, 14.1, ["over-14"]),
        (1, 24.1, ["over-14"]),
        (1, 24.2, ["faster-than-clock"]),
        (3, 42.0, []),
        (3, 42.1, ["over-14"]),
        (3, 72.2, ["faster-than-clock"]),
    ],
)
def test_fourteen_hours_a_day_are_asked_about_and_more_than_the_clock_has_refused(
    days: float, hours: float, expected: list[str]
) -> None:
    assert codes(mark(0, 100), None, mark(days, 100 + hours)) == expected


def test_a_fall_without_a_relamp_or_a_new_meter_is_refused_and_with_a_new_meter_accepted() -> None:
    assert codes(mark(1, 512), None, mark(2, 498)) == ["backward"]
    replaced = meter(2, 0)
    assert codes(*neighbors(replaced, day(3)), mark(3, 4.2)) == []


def test_a_refusal_says_what_the_meter_can_have_shown() -> None:
    (problem,) = judge_reading(BEFORE, None, mark(11, 540))
    assert not problem.is_question
    assert (problem.other, problem.change_h, problem.elapsed_h) == (BEFORE, h(40), 24)
    assert (problem.least_h, problem.most_h) == (h(500), h(524.1))
    (late,) = judge_reading(None, AFTER, mark(11, 489))
    assert (late.code, late.least_h, late.most_h) == ("faster-than-clock", h(489.9), h(514))


def test_questions_come_after_refusals_and_say_that_they_are() -> None:
    found = judge_reading(BEFORE, AFTER, mark(11, 515, 150))
    assert [(each.code, each.is_question) for each in found] == [
        ("ahead-of-later", False),
        ("strikes-backward", False),
        ("over-14", True),
        ("few-hours-a-strike", True),
    ]
    assert [each.strikes for each in found if each.code == "few-hours-a-strike"] == [50]


def test_a_first_reading_is_judged_against_nothing_and_one_before_the_meter_finds_no_neighbor() -> None:
    assert codes(None, None, mark(1, 9999)) == []
    run = meter(5, 100, mark(6, 104), mark(8, 110))
    assert neighbors(run, day(4)) == (None, run.start)
    assert neighbors(run, day(5)) == (run.start, run.marks[0])
    assert neighbors(run, day(7)) == run.marks
    assert neighbors(run, day(9)) == (run.marks[1], None)


def test_a_meters_whole_book_is_checked_reading_by_reading() -> None:
    run = meter(0, 100, mark(1, 104), mark(2, 103), mark(3, 140), mark(4, 142))
    assert [(each.at, problem.code) for each, problem in run_problems(run)] == [
        (day(2), "backward"),
        (day(3), "faster-than-clock"),
    ]


@settings(max_examples=30)
@given(st.lists(st.tuples(st.integers(1, 200), st.floats(0, 1)), min_size=1, max_size=30), st.data())
def test_a_book_that_was_right_stays_right_when_readings_are_struck_out(steps, data) -> None:
    at, shows, marks = 0.0, Decimal(0), []
    for hours, share in steps:
        at, shows = at + hours / 24, shows + Decimal(str(round(hours * share, 1)))
        marks.append(mark(at, shows))
    kept = data.draw(st.lists(st.sampled_from(marks), unique_by=lambda each: each.at))
    run = meter(0, 0, *sorted(kept, key=lambda each: each.at))
    assert [problem for _mark, problem in run_problems(run) if not problem.is_question] == []


NIGHTS = [mark(at, shows) for at, shows in ((0, 100), (1, 103.2), (2, 106.4), (3, 106.4), (4, 112.4), (5, 115.6))]


def test_the_likely_next_reading_is_the_last_and_the_median_of_recent_nights() -> None:
    # 3.2, 3.2, 6.0, 3.2; the dark night does not count.
    assert likely_next(NIGHTS, day(6)) == Decimal("118.8")


def test_the_likely_next_reading_is_never_more_than_the_clock_allows() -> None:
    soon = day(5) + timedelta(minutes=100)
    assert likely_next(NIGHTS, soon) == Decimal("117.2")
    assert likely_next(NIGHTS, day(5)) == likely_next(NIGHTS, day(4)) == Decimal("115.6")


def test_the_last_eight_nights_count_and_long_gaps_only_where_there_is_nothing_else() -> None:
    long_ago = [mark(at, 10 * at) for at in range(10)]
    lately = [mark(9 + at, 90 + 2 * at) for at in range(1, 9)]
    assert likely_next([*long_ago, *lately], NOW) == Decimal("108.0")
    weekly = [mark(0, 0), mark(7, 21), mark(14, 45)]
    assert likely_next(weekly, NOW) == Decimal("67.5")
    assert likely_next([*weekly, mark(15, 48)], NOW) == Decimal("51.0")


def test_without_nights_the_typical_use_is_taken_or_nothing_is_told() -> None:
    assert likely_next([mark(0, 640)], NOW, typical=h(3.25)) == Decimal("643.3")
    assert likely_next([mark(0, 640)], NOW) is None
    assert likely_next([], NOW, typical=h(3)) is None
