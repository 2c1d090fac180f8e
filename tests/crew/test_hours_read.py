"""Tables of times and rules as people write them, and the `call_hours` command on good files and bad ones."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from hypothesis import given, settings
from hypothesis import strategies as st

from crew.core.hours.reading_rules import RulesRead, rules_in
from crew.core.hours.reading_times import COLUMNS, TimesRead, read_times
from crew.core.hours.records import Rules
from crew.wording.hours import PROBLEM_SENTENCES, problem_at_place
from tests.crew.test_hours import FOUR_HOURS

NEW_YORK = "America/New_York"
HEAD = "person,start,end,meal_start,meal_end,kind\n"
TIMES = (
    HEAD
    + "Ada Birch,2026-03-02T08:00,2026-03-02T18:00,2026-03-02T13:00,2026-03-02T14:00,load-in\n"
    + '"Elm, Bo",2026-03-02 19:00,2026-03-02 22:15,,,show\n'
)


def times(rows: str, head: str = HEAD, zone: str = NEW_YORK) -> TimesRead:
    return read_times((head + rows).encode(), zone)


def written(tmp_path: Path, name: str, content: str | bytes) -> str:
    path = tmp_path / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return str(path)


# -- what is wrong, by line and by path ------------------------------------------------------------------

DAY = "2026-03-02 08:00,2026-03-02 18:00"
BAD_TIMES = [
    ("empty", ""),
    ("binary", "a\0b"),
    ("too-big", "x" * 5_000_001),
    ("too-many-lines", HEAD + "\n" * 20_001),
    ("no-column", "person,start\n"),
    ("column-twice", "person,start,end,Start\n"),
    ("unknown-column", "person,start,end,wage\n"),
    ("open-quote", HEAD + f'"A,{DAY}\n'),
    ("extra-cells", HEAD + f"A,{DAY},,,show,more\n"),
    ("no-person", HEAD + f" ,{DAY}\n"),
    ("long-person", HEAD + f"{'A' * 201},{DAY}\n"),
    ("no-time", HEAD + "A,,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,2026-03-02,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,NaN,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,-8,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,2026-02-30 08:00,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,0001-01-01 00:00,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,9999-12-31 23:59-10:00,2026-03-02 18:00\n"),
    ("bad-time", HEAD + "A,2026-03-02 08:00+25:00,2026-03-02 18:00\n"),
    ("time-missing", HEAD + "A,2026-03-08 02:30,2026-03-08 08:00\n"),
    ("end-first", HEAD + "A,2026-03-02 18:00,2026-03-02 08:00\n"),
    ("end-first", HEAD + "A,2026-03-02 18:00,2026-03-02 18:00\n"),
    ("end-first", HEAD + f"A,{DAY},2026-03-02 13:00,2026-03-02 12:00\n"),
    ("too-long", HEAD + "A,2026-03-02 08:00,2026-04-02 08:00\n"),
    ("half-a-meal", HEAD + f"A,{DAY},2026-03-02 13:00,\n"),
    ("meal-outside", HEAD + f"A,{DAY},2026-03-02 07:00,2026-03-02 09:00\n"),
    (
        "meals-overlap",
        "person,start,end,meal_start,meal_end,meal2_start,meal2_end\n"
        f"A,{DAY},2026-03-02 12:00,2026-03-02 13:00,2026-03-02 12:30,2026-03-02 13:30\n",
    ),
    ("calls-overlap", HEAD + f"A,{DAY}\nB,{DAY}\n a,2026-03-02 17:00,2026-03-02 19:00\n"),
]
BAD_RULES = [
    ("empty", "", ""),
    ("too-big", "", " " * 200_001),
    ("not-utf-8", "", b"\xff\xfe{}"),
    ("not-json", "", "{"),
    ("too-deep", "", "[" * 100_000),
    ("not-object", "$", "[]"),
    ("not-list", "$.overtime", '{"overtime": 8}'),
    ("unknown-key", "$.minimum", '{"minimum": 4}'),
    ("unknown-key", '$["a b"]', '{"a b": 4}'),
    ("unknown-key", "$.overtime[0].until", '{"overtime": [{"after_h": 8, "rate": 2, "until": 1}]}'),
    ("duplicate-key", "$.night.from", '{"night": {"from": "00:00", "from": "01:00", "to": "08:00", "rate": 2}}'),
    ("missing", "$.weekly.rate", '{"weekly": {"after_h": 40}}'),
    ("bad-number", "$.minimum_h", '{"minimum_h": -4}'),
    ("bad-number", "$.minimum_h", '{"minimum_h": NaN}'),
    ("bad-number", "$.minimum_h", '{"minimum_h": 1e99999999999999999999}'),
    ("bad-number", "$.minimum_h", '{"minimum_h": %s}' % ("9" * 5000)),
    ("bad-number", "$.minimum_h", '{"minimum_h": "4"}'),
    ("bad-number", "$.minimum_h", '{"minimum_h": true}'),
    ("bad-number", "$.night.rate", '{"night": {"from": "00:00", "to": "08:00", "rate": 0.5}}'),
    ("not-whole", "$.increment_min", '{"increment_min": 7.5}'),
    ("bad-minutes", "$.round_min", '{"round_min": 7}'),
    ("bad-choice", "$.combine", '{"combine": "lowest"}'),
    ("bad-clock", "$.day_turns", '{"day_turns": "25:00"}'),
    ("bad-day", "$.holidays[0]", '{"holidays": ["2026-02-30"]}'),
    ("no-night", "$.night", '{"night": {"from": "00:00", "to": "24:00", "rate": 2}}'),
    ("goes-with", "$.recall_gap_h", '{"recall_h": 2}'),
    ("needs-rest", "$.rest_h", '{"overtime": [{"after_h": 8, "rate": 2, "day": "since-turnaround"}]}'),
]


@pytest.mark.parametrize(("code", "table"), BAD_TIMES, ids=[code for code, _table in BAD_TIMES])
def test_a_bad_table_is_told_by_its_line(code: str, table: str) -> None:
    problem = read_times(table.encode(), NEW_YORK).problems[0]
    assert problem.code == code
    by_line = code not in ("empty", "binary", "too-big")
    assert problem_at_place(problem).startswith(f"line {problem.line}: ") is by_line


@pytest.mark.parametrize(("code", "path", "text"), BAD_RULES, ids=[code for code, _path, _text in BAD_RULES])
def test_bad_rules_are_told_by_their_path(code: str, path: str, text: str | bytes) -> None:
    (problem,) = rules_in(text if isinstance(text, bytes) else text.encode()).problems
    assert (problem.code, problem.path) == (code, path)
    assert problem_at_place(problem).startswith(path)


def test_every_problem_that_has_a_sentence_is_among_these() -> None:
    seen = {code for code, _table in BAD_TIMES} | {code for code, _path, _text in BAD_RULES}
    assert seen | {"off-grid-start"} == set(PROBLEM_SENTENCES)


def test_all_that_is_wrong_is_told_at_once_and_the_lines_are_those_of_the_file() -> None:
    found = times("A,2026-03-02 18:00,2026-03-02 08:00\n\n\n,never,2026-03-02 08:00\n")
    assert [(each.line, each.code) for each in found.problems] == [(2, "end-first"), (5, "no-person"), (5, "bad-time")]
    assert found.calls == []


# -- what is read ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("marks", [(",", "\n"), (";", "\r\n"), ("\t", "\r")])
def test_a_table_is_read_in_the_encodings_and_marks_that_spreadsheets_write(
    encoding: str, marks: tuple[str, str]
) -> None:
    mark, end = marks
    rows = [["Kind", "Person", "START", "end"], ["show", "Zoë Ash", "2026-03-02 19:00", "2026-03-02 22:15"]]
    found = read_times("".join(mark.join(row) + end for row in rows).encode(encoding), NEW_YORK)
    assert found.problems == []
    (call,) = found.calls
    assert (call.person, call.kind, call.start) == ("Zoë Ash", "show", datetime(2026, 3, 3, 0, tzinfo=UTC))


def test_a_table_without_a_call_is_an_answer_without_one() -> None:
    assert times("") == TimesRead()


def test_a_time_that_clocks_show_twice_is_the_first_and_flagged_unless_an_offset_is_written() -> None:
    bare, offset = times("A,2026-11-01 01:30,2026-11-01 09:00\nB,2026-11-01T01:30-05:00,2026-11-01T09:00-0500\n").calls
    assert (bare.start, bare.flags) == (datetime(2026, 11, 1, 5, 30, tzinfo=UTC), ("ambiguous-time",))
    assert (offset.start, offset.flags) == (datetime(2026, 11, 1, 6, 30, tzinfo=UTC), ())
    assert bare.end == offset.end == datetime(2026, 11, 1, 14, tzinfo=UTC)


def test_seconds_go_to_the_nearest_minute_half_up() -> None:
    (call,) = times("A,2026-03-02 08:00:29,2026-03-02 12:00:30.5\n").calls
    assert (call.start.minute, call.end.minute, call.end.second) == (0, 1, 0)


def test_who_came_and_was_not_put_to_work_has_a_call_of_no_length_where_an_end_was_scheduled() -> None:
    head = "person,start,end,scheduled_end\n"
    (call,) = times("A,2026-03-02 08:00,2026-03-02 08:00,2026-03-02 16:00\n", head).calls
    assert call.start == call.end


def test_rules_that_are_left_out_or_null_do_not_apply() -> None:
    assert rules_in(b"{}") == rules_in(b'{"minimum_h": null, "night": null}') == RulesRead(Rules())


@settings(max_examples=30)
@given(st.lists(st.lists(st.text(max_size=20) | st.sampled_from(COLUMNS), max_size=8), max_size=6))
def test_no_table_breaks_the_reader(rows: list[list[str]]) -> None:
    found = read_times("\n".join(",".join(row) for row in rows), NEW_YORK)
    assert all(problem_at_place(problem) for problem in found.problems)
    wrong = {problem.line for problem in found.problems if problem.code != "calls-overlap"}
    assert not wrong & {call.key for call in found.calls}


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inside: st.lists(inside, max_size=3) | st.dictionaries(st.sampled_from(["after_h", "rate", "x"]), inside),
    max_leaves=6,
)
SOME_KEYS = [*FOUR_HOURS, "holidays", "weekly", "zz"]


@settings(max_examples=30)
@given(st.dictionaries(st.sampled_from(SOME_KEYS), json_values, max_size=4))
def test_no_rules_break_the_reader(document: dict[str, Any]) -> None:
    found = rules_in(json.dumps(document).encode())
    assert all(problem_at_place(problem) for problem in found.problems)
    assert found.problems or "zz" not in document


# -- the command -----------------------------------------------------------------------------------------


@pytest.fixture
def files(tmp_path: Path) -> tuple[str, str]:
    return written(tmp_path, "times.csv", TIMES), written(tmp_path, "rules.json", json.dumps(FOUR_HOURS))


def answer(capsys: pytest.CaptureFixture[str], files: tuple[str, str], *options: str) -> str:
    call_command("call_hours", files[0], "--rules", files[1], "--zone", NEW_YORK, *options)
    return capsys.readouterr().out


def refused(files: tuple[str, str], zone: str = NEW_YORK) -> list[str]:
    with pytest.raises(CommandError) as error:
        call_command("call_hours", files[0], "--rules", files[1], "--zone", zone, "--json")
    assert error.value.returncode == 2
    return str(error.value).splitlines()


def test_the_whole_document(capsys: pytest.CaptureFixture[str], files: tuple[str, str]) -> None:
    assert json.loads(answer(capsys, files, "--json")) == [
        {
            "person": "Ada Birch",
            "start": "2026-03-02T08:00:00-05:00",
            "end": "2026-03-02T18:00:00-05:00",
            "worked_h": 9.0,
            "paid_h": 9.0,
            "counted_h": 9.0,
            "by_rate": {"1.0": 8.0, "1.5": 1.0},
            "straight_h": 9.5,
            "flags": [],
        },
        {
            "person": "Elm, Bo",
            "start": "2026-03-02T19:00:00-05:00",
            "end": "2026-03-02T22:15:00-05:00",
            "worked_h": 3.25,
            "paid_h": 3.5,
            "counted_h": 3.25,
            "by_rate": {"1.0": 3.5},
            "straight_h": 3.5,
            "flags": [],
        },
    ]


def test_the_table_for_people(capsys: pytest.CaptureFixture[str], files: tuple[str, str]) -> None:
    head, ada, bo = answer(capsys, files).splitlines()
    assert head == "person     start             worked  paid  counted  straight  by rate                  to know"
    assert ada == "Ada Birch  2026-03-02 08:00    9.00  9.00     9.00      9.50  8.00 × 1.0 + 1.00 × 1.5"
    assert bo == "Elm, Bo    2026-03-02 19:00    3.25  3.50     3.25      3.50  3.50 × 1.0"


def test_problems_of_both_files_are_told_in_a_line_each(tmp_path: Path) -> None:
    table = written(tmp_path, "t.csv", HEAD + "A,2026-03-08 02:30,2026-03-08 08:00\n")
    by = written(tmp_path, "r.json", '{"minimum": 4}')
    first, second = refused((table, by))
    assert first.startswith(f"{table}: line 2: start: clocks in America/New_York never show “2026-03-08 02:30”")
    assert second.startswith(f"{by}: $.minimum: unknown key; known here: minimum_h, ")


def test_a_start_off_the_rules_grid_is_refused_by_its_line(tmp_path: Path) -> None:
    table = written(tmp_path, "t.csv", HEAD + "A,2026-03-02 08:15,2026-03-02 12:00\n")
    (line,) = refused((table, written(tmp_path, "r.json", '{"start_grid_min": 30}')))
    assert "line 2: the call does not begin on the rules' grid of 30 minutes" in line


@pytest.mark.parametrize("zone", ["Nowhere", "", "../etc", "posix/UTC"])
def test_a_zone_that_is_none_is_refused(files: tuple[str, str], zone: str) -> None:
    (line,) = refused(files, zone)
    assert line.startswith("--zone: ")


def test_a_file_that_is_not_there_is_refused(files: tuple[str, str], tmp_path: Path) -> None:
    assert "can't be read" in refused((str(tmp_path / "none.csv"), files[1]))[0]
