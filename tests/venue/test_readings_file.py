"""A file of readings held against the book: judged by time and meter, loaded whole or not at all."""

from datetime import timedelta
from decimal import Decimal
from time import perf_counter

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, make_unit
from tests.venue.lamped import a_kind, a_lamp, a_unit, burned, day, fit, h, read
from venue.actions import load_readings
from venue.errors import ReadingsFileRefused
from venue.models import Event, House, Reading, Unit
from venue.readings_file import JudgedFile, judge_file, text_of

pytestmark = pytest.mark.django_db

HEAD = "unit,at,meter_h,strikes\n"


def row(unit: Unit, at: float, shows: float, strikes: int | str = "") -> str:
    return f"{unit.tag},{day(at):%Y-%m-%d %H:%M}Z,{shows},{strikes}\n"


def load(unit: Unit, lines: str, *, confirmed: bool = False) -> JudgedFile:
    return load_readings(actor=ACTOR, house=unit.house, text=HEAD + lines, now=day(90), confirmed=confirmed)


def refused(unit: Unit, lines: str) -> JudgedFile:
    with pytest.raises(ReadingsFileRefused) as error:
        load(unit, lines)
    return error.value.judged


def test_lines_in_any_order_are_judged_by_time_and_the_hours_follow() -> None:
    unit = a_unit()
    lamp = a_lamp(a_kind(unit.house))
    fit(unit, 0, lamp, 500)
    read(unit, 4, 520)
    judged = load(unit, row(unit, 5, 524) + row(unit, 1, 504) + row(unit, 3, 515))
    assert (len(judged.readings), burned(lamp)) == (3, h("24.00"))
    assert set(Reading.objects.filter(cause="file").values_list("entered_by", flat=True)) == {ACTOR.name}
    assert Event.objects.get(verb="readings.loaded").data["count"] == 3


def test_nothing_is_stored_if_one_line_is_wrong_and_every_wrong_line_is_told() -> None:
    unit, other = a_unit(), None
    other = make_unit(unit.house, tag="FS-02")
    read(unit, 4, 520)
    lines = row(unit, 1, 504) + row(unit, 2, 530) + row(unit, 3, 503) + row(other, 1, 5) + "FS-99,2026-03-03 01:00,5,\n"
    judged = refused(unit, lines)
    told = {problem.line: problem.text for problem in judged.problems}
    assert sorted(told) == [3, 4, 5, 6]
    assert "26.0 h" in told[3]
    assert "504.0 h" in told[4]
    assert "FS-02 had no meter" in told[5]
    assert "FS-99" in told[6]
    assert Reading.objects.count() == 1


def test_a_stored_reading_after_a_line_is_what_the_line_is_held_against() -> None:
    unit = a_unit()
    read(unit, 4, 520)
    (problem,) = refused(unit, row(unit, 3, 521)).problems
    assert (problem.line, "520.0 h later" in problem.text) == (2, True)


def test_what_is_odd_is_asked_about_and_loaded_once_somebody_says_yes() -> None:
    unit = a_unit()
    judged = refused(unit, row(unit, 1, 516, 4))
    assert ([question.line for question in judged.questions], judged.problems) == ([2], [])
    load(unit, row(unit, 1, 516, 4), confirmed=True)
    assert Reading.objects.get().strikes == 4


def test_lines_that_the_book_has_already_are_passed_over() -> None:
    unit = a_unit()
    lines = row(unit, 1, 504) + row(unit, 2, 508)
    load(unit, lines)
    again = load(unit, lines + row(unit, 2, 508) + row(unit, 3, 511))
    assert (again.already, len(again.readings), Reading.objects.count()) == (3, 1, 3)
    (problem,) = refused(unit, row(unit, 2, 509)).problems
    assert "read at this very time already" in problem.text


def test_strikes_are_held_against_the_last_ones_told_even_across_lines_without() -> None:
    unit = a_unit(starts=0)
    read(unit, 1, 4, strikes=10, confirmed=True)
    lines = row(unit, 2, 8) + row(unit, 3, 12, 9) + row(unit, 4, 16, 12)
    (problem,) = refused(unit, lines).problems
    assert (problem.line, "count backward" in problem.text) == (3, True)


def test_a_first_reading_that_repeats_what_the_meter_started_with_is_no_problem() -> None:
    unit = a_unit()
    assert len(load(unit, row(unit, 0, 500) + row(unit, 1, 503)).readings) == 2


def test_bytes_of_any_usual_kind_become_text() -> None:
    text = "unit,at\nSpot Ä,2026\n"
    for content in (text.encode(), b"\xef\xbb\xbf" + text.encode(), text.encode("utf-16"), text.encode("cp1252")):
        assert text_of(content) == text


def big_file(house: House, count: int) -> str:
    """So many lines of 20 units, a reading a night, every 100th line wrong."""
    lines = [HEAD]
    for number in range(count):
        unit, night = number % 20, number // 20
        at = NOON + timedelta(days=-600 + night)
        hours = Decimal("0.1") if number % 100 == 99 and night else Decimal(3 * night + 3)
        lines.append(f"FS-{unit:02},{at:%Y-%m-%d %H:%M}Z,{hours},{night + 1}\n")
    return "".join(lines)


def test_ten_thousand_lines_are_answered_at_once_with_every_problem_in_few_queries() -> None:
    house = a_unit(tag="FS-99").house
    for number in range(20):
        unit = a_unit(house, f"FS-{number:02}", starts=0)
        unit.meters.update(starts_at=NOON - timedelta(days=700))
    text = big_file(house, 10_000)
    with CaptureQueriesContext(connection) as queries:
        begun = perf_counter()
        judged = judge_file(house, text, day(90))
        took = perf_counter() - begun
    wrong = [number + 2 for number in range(10_000) if number % 100 == 99 and number // 20]
    assert [problem.line for problem in judged.problems] == wrong
    assert len(judged.readings) == 10_000 - len(wrong)
    assert len(queries) <= 5
    assert took < 10
