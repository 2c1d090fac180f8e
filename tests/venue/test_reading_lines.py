"""A table of readings as people keep it, read to instants and hours, every problem by its line."""

from datetime import UTC, datetime
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.reading_lines import MOST_LINES, LineReading, ReadLines, read_lines

CHICAGO = "America/Chicago"
NOW = datetime(2026, 12, 31, tzinfo=UTC)
HEAD = "unit,at,meter_h,strikes\n"


def read(text: str) -> ReadLines:
    return read_lines(text, CHICAGO, NOW)


def codes(text: str) -> list[tuple[int, str]]:
    return [(problem.line, problem.code) for problem in read(text).problems]


def test_a_line_is_read_by_the_houses_clocks() -> None:
    (line,) = read(HEAD + "FS-01,2026-02-01 23:10,846.5,131\n").readings
    at = datetime(2026, 2, 2, 5, 10, tzinfo=UTC)
    assert line == LineReading(2, "fs-01", "FS-01", at, Decimal("846.50"), 131)


@pytest.mark.parametrize(
    "text",
    [
        "Unit;When;Hours;Strikes\nFS-01;2026-02-01 23:10;846,5;131",
        "Follow spot\tDate\tTime\tMeter reading\tStrike count\nFS-01\t2026-02-01\t23:10\t846,5\t131",
        "strikes, meter_h, at, unit\n131, 846.50 h, 2026-02-01T23:10:00, FS-01",
        "TAG,Read at,Hour meter,Starts,Notes\n\nFS-01,2026-02-01T23:10:00-06:00,846.5,131,quiet night",
        'unit,at,meter_h,strikes\n"FS-01","2026-02-02 05:10Z","846.5","131"',
        "unit,at,meter_h,strikes\nfs-01 ,2026-2-1 23:10,846.5,131",
    ],
)
def test_headers_numbers_and_times_are_read_as_people_write_them(text: str) -> None:
    found = read(text)
    assert not found.problems
    (line,) = found.readings
    assert (line.unit_key, line.at, line.hours, line.strikes) == (
        "fs-01", datetime(2026, 2, 2, 5, 10, tzinfo=UTC), Decimal("846.5"), 131,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("line", "code"),
    [
        (",2026-02-01 23:10,846.5", "no-unit"),
        ("FS-01,,846.5", "no-time"),
        ("FS-01,02/01/2026,846.5", "bad-time"),
        ("FS-01,2026-02-30 10:00,846.5", "bad-time"),
        ("FS-01,2026-02-01,846.5", "bad-time"),
        ("FS-01,9999-12-31 23:59,846.5", "bad-time"),
        ("FS-01,2026-03-08 02:30,846.5", "time-missing"),
        ("FS-01,2026-11-01 01:30,846.5", "time-twice"),
        ("FS-01,2027-01-01 10:00,846.5", "lies-ahead"),
        ("FS-01,2026-02-01 23:10,", "no-hours"),
        ("FS-01,2026-02-01 23:10,-5", "bad-hours"),
        ("FS-01,2026-02-01 23:10,846.555", "bad-hours"),
        ("FS-01,2026-02-01 23:10,NaN", "bad-hours"),
        ("FS-01,2026-02-01 23:10,1e30", "bad-hours"),
        ("FS-01,2026-02-01 23:10,٨٤٦", "bad-hours"),
        ("FS-01,2026-02-01 23:10,846.5,many", "bad-strikes"),
        ("FS-01,2026-02-01 23:10,846.5,-3", "bad-strikes"),
        ("FS-01,2026-02-01 23:10,846.5,99999999999", "bad-strikes"),
    ],
)
def test_each_thing_that_is_wrong_is_told_with_its_line(line: str, code: str) -> None:
    assert codes(HEAD + line) == [(2, code)]


def test_a_time_that_comes_twice_is_told_apart_by_its_offset() -> None:
    first, second = read(HEAD + "A,2026-11-01 01:30-05:00,5\nA,2026-11-01 01:30-06:00,6").readings
    assert (second.at - first.at).total_seconds() == 3600


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", [(1, "no-header")]),
        ("FS-01,2026-02-01 23:10,846.5", [(1, "no-header")]),
        ("unit,strikes\nFS-01,3", [(1, "no-column"), (1, "no-column")]),
        ("unit,tag,at,hours\nA,B,2026-02-01 23:10,5", [(1, "column-twice")]),
        (HEAD + "A,2026-02-01 23:10,5\n" * (MOST_LINES + 1), [(MOST_LINES + 2, "too-many-lines")]),
        (HEAD + '"' + "x" * 200_000, [(1, "bad-quotes")]),
    ],
)
def test_a_table_without_its_columns_or_too_long_is_refused(text: str, expected: list[tuple[int, str]]) -> None:
    assert codes(text) == expected


def test_all_that_is_wrong_in_one_line_is_told_and_unknown_columns_are_named() -> None:
    found = read("unit,at,meter_h,mood\n,soon,much,fine")
    assert [problem.code for problem in found.problems] == ["no-unit", "bad-time", "bad-hours"]
    assert found.unknown == ("mood",)


@given(st.text(max_size=300))
def test_any_text_is_answered_without_an_exception(text: str) -> None:
    for whole in (text, HEAD + text):
        found = read(whole)
        assert all(problem.line >= 1 for problem in found.problems)
