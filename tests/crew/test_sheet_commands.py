"""The commands about sheets: what they write, print and refuse."""

import json
from collections.abc import Iterator
from datetime import timedelta
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
import time_machine
from django.core.management import CommandError, call_command
from pypdf import PdfReader

from crew.actions import issue_call_sheet, put_on_number
from crew.models import Call
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def at_noon() -> Iterator[None]:
    with time_machine.travel(NOON, tick=False):
        yield


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    call_command(*arguments, "--json")
    return json.loads(capsys.readouterr().out)


def text_of(file: Path) -> str:
    return " ".join(PdfReader(BytesIO(file.read_bytes())).pages[0].extract_text().split())


def test_the_latest_issued_revision_is_written(
    stage: Stage, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON).sheet
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    file = tmp_path / "sheet.pdf"
    answer = told(capsys, "call_sheet", str(stage.call.ref), "--pdf", str(file), "--site", "https://house.example")
    assert answer == {
        "call": str(stage.call.ref),
        "file": str(file),
        "wanted": 2,
        "filled": 0,
        "revision": 1,
        "issued_at": "2026-03-02T12:00:00+00:00",
        "code": sheet.code.code,
    }
    text = text_of(file)
    assert "Call sheet, revision 1" in text
    assert f"https://house.example/q/{sheet.code.code}" in text
    assert "Ada Quillfeather" not in text


def test_a_draft_is_what_would_be_issued_now(stage: Stage, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    file = tmp_path / "draft.pdf"
    answer = told(capsys, "call_sheet", str(stage.call.ref), "--pdf", str(file), "--draft", "--paper", "a4")
    assert (answer["revision"], answer["code"], answer["filled"]) == (None, None, 1)
    assert "DRAFT" in text_of(file)
    assert "Ada Quillfeather" in text_of(file)
    assert float(PdfReader(file).pages[0].mediabox.width) == pytest.approx(595.28, abs=0.01)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["{ref}", "--pdf", "{file}"], "no sheet is issued yet; issue one, or see what it would be with --draft"),
        (["nonsense", "--pdf", "{file}"], "is not a call's reference"),
        (["00000000-0000-0000-0000-000000000007", "--pdf", "{file}"], "There is no call"),
        (["{ref}", "--draft", "--pdf", "{file}/in/no/folder.pdf"], "can't be written"),
    ],
)
def test_what_cannot_be_done_ends_with_2_and_says_why(
    stage: Stage, tmp_path: Path, arguments: list[str], message: str
) -> None:
    values = {"ref": stage.call.ref, "file": tmp_path / "sheet.pdf"}
    with pytest.raises(CommandError, match=message) as refused:
        call_command("call_sheet", *(argument.format(**values) for argument in arguments))
    assert refused.value.returncode == 2
    assert not (tmp_path / "sheet.pdf").exists()


def test_a_code_is_checked(stage: Stage, capsys: pytest.CaptureFixture[str]) -> None:
    code = issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON).sheet.code.code
    usual = {"code": code, "revision": 1, "issued_at": "2026-03-02T12:00:00+00:00"}
    nothing = {"replaced_by": None, "replaced_at": None}
    assert told(capsys, "check_sheet", code) == {**usual, "state": "current", **nothing}
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    assert told(capsys, "check_sheet", code.lower()) == {**usual, "state": "changed-not-issued", **nothing}
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON + timedelta(hours=1))
    replaced = {"replaced_by": 2, "replaced_at": "2026-03-02T13:00:00+00:00"}
    assert told(capsys, "check_sheet", f"{code[:4]} {code[4:]}") == {**usual, "state": "replaced", **replaced}


def test_a_check_is_told_in_words_too(stage: Stage, capsys: pytest.CaptureFixture[str]) -> None:
    code = issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON).sheet.code.code
    call_command("check_sheet", code)
    assert capsys.readouterr().out.startswith("Current: this is revision 1")


def test_an_unknown_code_ends_with_2(stage: Stage) -> None:
    with pytest.raises(CommandError, match="There is no sheet with the code") as refused:
        call_command("check_sheet", "ACDEFGHJKMN")
    assert refused.value.returncode == 2
