"""Which rules for hours hold for a call: by house, by day, as each set turns days."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from crew.core.hours.records import Rules
from crew.hour_rows import usual_week
from crew.models import HourRules
from crew.models.hour_rules import FROM_THE_START
from crew.rule_book import RuleBook, book_of
from crew.wording.rules import days_of_rules, ending_words

NEW_YORK = "America/New_York"
JUNE, JULY = date(2026, 6, 1), date(2026, 7, 1)
HALL, ARENA = 1, 2


def a_set(pk: int, house: int | None, first_day: date = FROM_THE_START, **rules: object) -> HourRules:
    return HourRules(pk=pk, house_id=house, first_day=first_day, name=f"set {pk}", rules=rules)


def a_book() -> RuleBook:
    """For all from the start and from June, in the hall from July."""
    rows = [a_set(1, None, minimum_h=4), a_set(2, None, JUNE, minimum_h=5), a_set(3, HALL, JULY, minimum_h=6)]
    return book_of(rows)


@pytest.mark.parametrize(
    ("house", "day", "hours"),
    [
        (ARENA, date(1990, 1, 1), 4),
        (ARENA, date(2026, 5, 31), 4),
        (ARENA, JUNE, 5),
        (ARENA, date(2099, 1, 1), 5),
        (HALL, date(2026, 6, 30), 5),
        (HALL, JULY, 6),
        (None, JULY, 5),
    ],
)
def test_a_set_holds_from_its_first_day_until_the_next(house: int | None, day: date, hours: int) -> None:
    assert a_book().of(house, day).minimum == hours * 60


def test_a_call_goes_by_the_working_day_on_which_it_began_as_each_set_turns_days() -> None:
    """A load-out at 2:00 on June 1 is of May 31 where days turn at 5:00, and of June 1 where they turn at 0:00."""

    def minimum(turns: str, hour: int, day: int = 1) -> int:
        book = book_of([a_set(1, None, minimum_h=4), a_set(2, None, JUNE, minimum_h=5, day_turns=turns)])
        began = datetime(2026, 6, day, hour, tzinfo=ZoneInfo(NEW_YORK)).astimezone(UTC)
        return book.at(ARENA, began, NEW_YORK).minimum // 60

    assert [minimum("05:00", 2), minimum("05:00", 4), minimum("05:00", 5)] == [4, 4, 5]
    assert [minimum("00:00", 2), minimum("00:00", 0)] == [5, 5]


def test_a_houses_own_clocks_say_whether_the_day_has_come() -> None:
    instant = datetime(2026, 6, 1, 10, tzinfo=UTC)
    assert a_book().at(ARENA, instant, NEW_YORK).minimum == 5 * 60, "6:00 in New York"
    assert a_book().at(ARENA, instant, "Pacific/Honolulu").minimum == 4 * 60, "0:00 in Honolulu, the day turns at 5:00"


def test_a_day_that_turns_while_clocks_jump_turns_when_they_have_jumped() -> None:
    """In New York clocks go from 2:00 to 3:00 on 2026-03-08, at 7:00 UTC (IANA time zone database)."""
    march = date(2026, 3, 8)
    book = book_of([a_set(1, None, minimum_h=4), a_set(2, None, march, minimum_h=5, day_turns="02:30")])
    jump = datetime(2026, 3, 8, 7, tzinfo=UTC)
    told = [book.at(ARENA, at, NEW_YORK).minimum // 60 for at in (jump - timedelta(minutes=1), jump)]
    assert told == [4, 5]


def test_a_set_with_a_problem_is_not_used_and_the_one_before_holds_on() -> None:
    book = book_of([a_set(1, None, minimum_h=4), a_set(2, None, JUNE, minimum_h=-1)])
    assert book.of(ARENA, JULY).minimum == 4 * 60
    assert [row.pk for row in book.unread] == [2]


def test_what_was_stored_where_nothing_is_ruled_reads_as_no_rules() -> None:
    assert book_of([a_set(1, None, combine="highest")]).of(HALL, JULY) == Rules()
    assert book_of([a_set(1, None)]).of(HALL, JULY) == Rules()
    assert book_of([]).of(HALL, JULY) == Rules()


def test_the_week_begins_as_the_set_of_the_asked_day_says() -> None:
    """May 31, 2026 is a Sunday."""
    book = book_of([a_set(1, None), a_set(2, None, JUNE, week_starts="wednesday")])
    assert usual_week(date(2026, 5, 31), book) == date(2026, 5, 25)
    assert usual_week(date(2026, 6, 2), book) == date(2026, 5, 27)
    assert usual_week(date(2026, 6, 3), book) == date(2026, 6, 3)


def test_what_holds_once_a_set_has_ended_is_said_before() -> None:
    book = a_book()
    first, june, hall = a_set(1, None), a_set(2, None, JUNE), a_set(3, HALL, JULY)
    told = {row.pk: (book.row_before(row), book.row_after(row)) for row in (first, june, hall)}
    assert days_of_rules(first, told[1][1]) == "through May 31, 2026"
    assert days_of_rules(june, told[2][1]) == "from Jun 1, 2026 on"
    assert "“set 1”, the rules before these, hold again." in ending_words(june, *told[2])
    assert "Hours in houses without rules of their own are then paid as worked." in ending_words(first, *told[1])
    assert told[3] == (None, None)
