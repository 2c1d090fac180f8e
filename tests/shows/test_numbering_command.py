"""The `numbering` command on real files, and on bad ones."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

DEMO = Path("shows/demo")
LANTERN, ARENA = DEMO / "lantern_street.json", DEMO / "ellery_arena.json"
REVUE, DRAFT = DEMO / "weathervane_revue.csv", DEMO / "weathervane_revue_first_draft.csv"
HERON, PASTED = DEMO / "copper_heron.csv", DEMO / "copper_heron_pasted.txt"


def numbering(capsys: pytest.CaptureFixture[str], house: Path, paperwork: Path, *options: str) -> dict[str, Any]:
    call_command("numbering", str(house), str(paperwork), "--json", *options)
    out = capsys.readouterr().out
    answer: dict[str, Any] = json.loads(out)
    return answer


def refused(house: Path, paperwork: Path, *options: str) -> list[str]:
    with pytest.raises(CommandError) as error:
        call_command("numbering", str(house), str(paperwork), "--json", *options)
    assert error.value.returncode == 2
    return str(error.value).splitlines()


def written(tmp_path: Path, text: str | bytes, name: str = "paperwork.csv") -> Path:
    path = tmp_path / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def test_the_whole_document_for_a_house_that_counts_the_other_way(capsys: pytest.CaptureFixture[str]) -> None:
    answer = numbering(capsys, LANTERN, REVUE)
    assert list(answer) == [
        "pairs",
        "against_labels",
        "against_statement",
        "flags",
        "readings",
        "ways_out",
        "sentence",
    ]
    assert answer["pairs"][0] == {"show": "1", "position": "Rear booth", "label": "4", "from": "statement"}
    assert answer["against_labels"] == {
        "code": "reversed",
        "blocks": [{"position": "Rear booth", "code": "reversed"}],
        "cycles": [["1", "4"], ["2", "3"]],
        "tau": -1.0,
    }
    assert answer["against_statement"]["code"] == "same"
    assert answer["flags"] == [{"flag": "spare", "position": "Balcony rail", "labels": ["R1", "R2"]}]
    tape, move, renumber = answer["ways_out"]
    assert (tape["way"], tape["changes"]) == ("tape", 4)
    assert tape["tapes"][0] == {"position": "Rear booth", "label": "1", "tape": "4"}
    assert move["moves"][0] == {"number": "1", "position": "Rear booth", "label": "4"}
    assert renumber["table"][0] == {"show": "1", "becomes": "4"}
    assert answer["sentence"] == "House labels run the other way: show 1 = house 4."


def test_numbers_put_on_their_labels_by_hand_break_the_tours_rule(capsys: pytest.CaptureFixture[str]) -> None:
    answer = numbering(capsys, LANTERN, REVUE, "--assign", "1=1,2=2", "--assign", "3=Rear booth/3,4=04")
    assert {pair["from"] for pair in answer["pairs"]} == {"label"}
    assert answer["against_statement"]["code"] == "reversed"
    assert answer["sentence"].startswith("Backward against the tour's own rule; show 1 belongs on house 4.")


def test_an_unclear_statement_gives_the_question_and_both_readings(capsys: pytest.CaptureFixture[str]) -> None:
    answer = numbering(capsys, LANTERN, DRAFT)
    assert (answer["pairs"], answer["against_labels"], answer["against_statement"]) == ([], None, None)
    assert [reading["reading"] for reading in answer["readings"]] == ["house", "stage"]
    unclear = next(flag for flag in answer["flags"] if flag["flag"] == "unclear")
    assert unclear["question"] == answer["sentence"] == "Left and right as seen from the house, or from the stage?"


def test_a_statement_given_by_hand_overrules_the_paperworks_own(capsys: pytest.CaptureFixture[str]) -> None:
    answer = numbering(capsys, LANTERN, DRAFT, "--statement", "left to right from the stage")
    assert answer["sentence"] == "Show numbers are the house labels."
    assert answer["ways_out"] == []


def test_a_bowl_counted_the_other_way_round(capsys: pytest.CaptureFixture[str]) -> None:
    answer = numbering(capsys, ARENA, HERON)
    assert answer["against_labels"]["code"] == "other-way-round"
    assert answer["against_labels"]["tau"] is None
    assert answer["sentence"] == "Other way round; show 1 = house 12."


def test_pasted_lines_of_prose(capsys: pytest.CaptureFixture[str]) -> None:
    answer = numbering(capsys, ARENA, PASTED)
    assert [pair["label"] for pair in answer["pairs"]] == ["4", "5", "6", "7"]
    assert answer["sentence"] == "Same order: show 1–4 = house 4–7."


def test_a_column_is_named_with_map(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    paperwork = written(tmp_path, "Lamp,Size\nx2,b\nx1,a\n")
    assert "--map number=HEADER" in refused(LANTERN, paperwork)[0]
    answer = numbering(capsys, LANTERN, paperwork, "--map", "number=Lamp", "--statement", "booth, HL to HR")
    assert [pair["show"] for pair in answer["pairs"]] == ["X1", "X2"]


def test_wrong_lines_are_flags_and_the_command_answers(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    text = "Spot,House label\n1,4\n2,77\n2,3\n,1\n5,Rear booth/4\n"
    answer = numbering(capsys, LANTERN, written(tmp_path, text))
    names = {flag["flag"] for flag in answer["flags"]}
    assert {"duplicate", "missing-number", "convention-missing"} <= names
    assert next(flag for flag in answer["flags"] if flag.get("label")) == {
        "flag": "duplicate",
        "numbers": ["1", "5"],
        "position": "Rear booth",
        "label": "4",
    }
    assert next(flag for flag in answer["flags"] if flag["flag"] == "missing-number")["lines"] == [5]


def test_without_json_a_person_reads_what_to_fix_or_tell(capsys: pytest.CaptureFixture[str]) -> None:
    call_command("numbering", str(LANTERN), str(REVUE))
    told = capsys.readouterr().out
    call_command("numbering", str(LANTERN), str(REVUE), "--assign", "1=1,2=2,3=3,4=4")
    to_fix = capsys.readouterr().out
    assert told.startswith("TELL: House labels run the other way")
    assert "show 1 / house 4, Rear booth" in told
    assert to_fix.startswith("FIX: Backward against the tour's own rule")


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--assign", "9=1"], "the paperwork has no show number 9"),
        (["--assign", "1"], "can't read “1”"),
        (["--assign", "=4"], "can't read “=4”"),
        (["--map", "wattage=Spot"], "there is no field wattage"),
        (["--map", "number=Nothing"], "there is no column Nothing"),
    ],
)
def test_a_wrong_option_is_named(options: list[str], message: str) -> None:
    assert any(message in line for line in refused(LANTERN, REVUE, *options))


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "empty"),
        (b"\xef\xbb\xbf", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "not text"),
        (b"1\x00,2\x00\n" * 9, ""),
        (b"Spot,Position\n" + b"x" * 20_000, "longer than"),
        (b"Spot\n" + b"1\n" * 100_000, "more than 2000 rows"),
        (b"Spot,Spot #\n1,2\n", "all read as number"),
        (b"x" * 6_000_000, "larger than"),
    ],
)
def test_hostile_paperwork_is_refused_in_one_line_each(tmp_path: Path, data: bytes, message: str) -> None:
    lines = refused(LANTERN, written(tmp_path, data))
    assert lines
    assert all(line.startswith(str(tmp_path)) for line in lines)
    assert message in lines[0]


def test_formulas_and_direction_marks_in_numbers_are_named_and_never_computed(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    text = "Numbering: booth, HL to HR\nSpot,Notes\n=1+1,a\n\u200f2\u200e,b\n1-Feb,c\n"
    call_command("numbering", str(LANTERN), str(written(tmp_path, text)), "--json")
    captured = capsys.readouterr()
    assert [pair["show"] for pair in json.loads(captured.out)["pairs"]] == ["2"]
    assert "line 3: “=1+1” is a formula" in captured.err
    assert "line 5: “1-Feb” looks like a date" in captured.err


def test_a_house_file_with_an_unknown_key_is_refused_by_its_path(tmp_path: Path) -> None:
    house = json.loads(LANTERN.read_text())
    house["positions"][0]["slots"][0]["wattage"] = 5
    lines = refused(written(tmp_path, json.dumps(house), "house.json"), REVUE)
    assert "$.positions[0].slots[0].wattage" in lines[0]


def test_from_a_shell_nothing_but_the_answer_is_on_standard_output_and_no_traceback_anywhere(tmp_path: Path) -> None:
    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        command = [sys.executable, "manage.py", "numbering", *arguments]
        return subprocess.run(command, capture_output=True, text=True, check=False)

    good = run(str(LANTERN), str(REVUE), "--json")
    assert (good.returncode, good.stderr) == (0, "")
    assert json.loads(good.stdout)["against_labels"]["code"] == "reversed"
    for arguments in ([], [str(LANTERN)], ["nowhere.json", str(REVUE)], [str(LANTERN), str(tmp_path)]):
        bad = run(*arguments)
        assert (bad.returncode, bad.stdout) == (2, "")
        assert bad.stderr
        assert "Traceback" not in bad.stderr
