"""Workbooks are read in a process of their own; a hostile one is refused in words and hurts nobody."""

import io
import json
import subprocess
import sys
import time
import zipfile
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from shows import workbooks
from shows.core.numbering.statement import reads_as_statement
from shows.core.paperwork import MAX_BYTES, Paperwork, PaperworkUnreadable
from shows.wording.paperwork import problem_at_line
from shows.workbooks import read_received, read_workbook, sheets_of
from tests.shows.workbooks_made import MAIN, Day, sheet_xml, workbook

ROWS = [
    ["Numbering: stage right to stage left"],
    ["Spot #", "Position", "Channel"],
    [1.0, "Booth", "B"],
    [2.0, "Booth", "B"],
]


def read(data: bytes) -> Paperwork:
    return read_workbook(data, reads_as_statement=reads_as_statement)


def refusal(data: bytes) -> str:
    with pytest.raises(PaperworkUnreadable) as refused:
        read(data)
    return problem_at_line(refused.value.problems[0])


def test_a_workbook_reads_as_the_same_list_would_in_text() -> None:
    paperwork = read(workbook({"Spots": ROWS}))
    assert paperwork.statement == "stage right to stage left"
    assert [(spot.number, spot.position, spot.channel, spot.line) for spot in paperwork.spots] == [
        ("1", "Booth", "B", 3),
        ("2", "Booth", "B", 4),
    ]
    assert paperwork.problems == ()


def test_a_number_that_a_spreadsheet_made_a_date_is_asked_about() -> None:
    rows = [["Spot", "Notes"], [1.0, ""], [Day(46024), "was 1-2"], [3.0, "x"]]
    paperwork = read(workbook({"Spots": rows}))
    assert [spot.number for spot in paperwork.spots] == ["1", None, "3"]
    (problem,) = paperwork.problems
    assert (problem.line, problem.code) == (3, "date-like")
    assert problem_at_line(problem).startswith("line 3: “2026-01-02")


def test_the_first_sheet_with_spots_is_read_and_the_others_are_named() -> None:
    paperwork = read(workbook({"Cover": [["Weathervane Revue, follow spots"]], "Spots": ROWS, "Old": ROWS}))
    assert [spot.line for spot in paperwork.spots] == [3, 4]
    assert [problem_at_line(problem) for problem in paperwork.problems] == [
        "the sheet “Spots” is read; not read: Cover and Old"
    ]


def test_macros_are_left_out_and_said() -> None:
    paperwork = read(workbook({"Spots": ROWS}, {"xl/vbaProject.bin": b"\xd0\xcf\x11\xe0 Sub Auto_Open()"}))
    assert [problem.code for problem in paperwork.problems] == ["macros"]
    assert len(paperwork.spots) == 2


def test_a_far_cell_is_refused_before_the_reader_sees_it() -> None:
    far = (
        f'<worksheet xmlns="{MAIN}"><sheetData><row r="1"><c r="A1"><v>1</v></c></row>'
        '<row r="1048576"><c r="XFD1048576"><v>2</v></c></row></sheetData></worksheet>'
    )
    data = workbook({"Spots": far})
    assert len(data) < 2_000
    assert "row 1048576, column 16384 is too far out" in refusal(data)


def test_far_cells_that_hold_nothing_do_not_count() -> None:
    styled = sheet_xml(ROWS).replace("</sheetData>", '<row r="1048576"><c r="XFD1048576" s="1"/></row></sheetData>')
    assert len(read(workbook({"Spots": styled})).spots) == 2


def test_a_row_of_cells_without_references_is_followed_too() -> None:
    cells = "<c><v>1</v></c>" * 300
    sheet = f'<worksheet xmlns="{MAIN}"><sheetData><row>{cells}</row></sheetData></worksheet>'
    assert "column 201 is too far out" in refusal(workbook({"Spots": sheet}))


def test_an_archive_that_swells_is_refused_soon() -> None:
    bomb = workbook({"Spots": ROWS}, {"xl/media/image1.png": b"\0" * 200_000_000})
    assert len(bomb) < MAX_BYTES
    started = time.monotonic()
    assert "unpacks to more than can be read" in refusal(bomb)
    assert time.monotonic() - started < 10


def test_one_long_text_in_very_many_cells_is_refused() -> None:
    texts = f'<sst xmlns="{MAIN}"><si><t>{"x" * 30_000}</t></si></sst>'.encode()
    row = "".join('<c t="s"><v>0</v></c>' for _ in range(200))
    sheet = f'<worksheet xmlns="{MAIN}"><sheetData>{f"<row>{row}</row>" * 2000}</sheetData></worksheet>'
    links = workbook({"Spots": sheet})
    relations = read_member(links, "xl/_rels/workbook.xml.rels").replace(
        b"</Relationships>",
        b'<Relationship Id="rIdT" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/'
        b'sharedStrings" Target="sharedStrings.xml"/></Relationships>',
    )
    data = workbook({"Spots": sheet}, {"xl/sharedStrings.xml": texts, "xl/_rels/workbook.xml.rels": relations})
    assert "unpacks to more than can be read" in refusal(data)


def read_member(data: bytes, name: str) -> bytes:
    return zipfile.ZipFile(io.BytesIO(data)).read(name)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"PK\x03\x04 but nothing more", "damaged or cut off"),
        (workbook({"Spots": ROWS})[:-200], "damaged or cut off"),
        (b"\xd0\xcf\x11\xe0" + "EncryptedPackage".encode("utf-16-le"), "has a password"),
        (b"\xd0\xcf\x11\xe0 an old workbook", "no XLSX workbook"),
        (workbook({"Spots": "<worksheet"}), "damaged or cut off"),
        (workbook({"Spots": f'<!DOCTYPE a [<!ENTITY b "c">]><worksheet xmlns="{MAIN}"/>'}), "damaged or cut off"),
        (workbook({"Spots": ROWS}, {"content.xml": b"<a/>"}), "no XLSX workbook"),
        (workbook({}), "empty"),
        (workbook({"Spots": []}), "empty"),
        (b"PK\x03\x04" + b"x" * MAX_BYTES, "larger than"),
    ],
)
def test_what_is_no_readable_workbook_is_refused_in_words(data: bytes, told: str) -> None:
    assert told in refusal(data)


def test_a_member_under_a_password_is_refused() -> None:
    data = bytearray(workbook({"Spots": ROWS}))
    at = data.rfind(b"PK\x01\x02")
    data[at + 8] |= 1
    assert "has a password" in refusal(bytes(data))


def test_the_process_is_ended_when_it_asks_for_too_much_memory_or_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    limits = Path(workbooks.CHILD).read_text().split("    try:\n        answer")[0]
    for greedy in ("bytearray(3_000_000_000)", "while True: pass"):
        child = tmp_path / "child.py"
        child.write_text(f"{limits}    {greedy}\n\nmain()\n".replace("CPU_SECONDS = 10", "CPU_SECONDS = 1"))
        monkeypatch.setattr(workbooks, "CHILD", child)
        with pytest.raises(PaperworkUnreadable, match="workbook-too-big"):
            sheets_of(workbook({"Spots": ROWS}))


def test_the_child_needs_nothing_but_itself_and_the_reader() -> None:
    done = subprocess.run(
        [sys.executable, "-I", str(workbooks.CHILD)], input=workbook({"S": ROWS}), capture_output=True, env={}
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert json.loads(done.stdout)["sheets"][0]["rows"][2] == [3, ["1", "Booth", "B"]]


def test_text_and_workbooks_come_in_by_one_door() -> None:
    text = read_received(b"Spot,Position\n1,Booth\n", reads_as_statement=reads_as_statement)
    book = read_received(workbook({"S": ROWS}), reads_as_statement=reads_as_statement)
    assert (len(text.spots), len(book.spots)) == (1, 2)


def test_the_numbering_command_takes_workbooks(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "spots.xlsx"
    rows = [["Numbering: stage right to stage left"], ["Spot", "Position"], *([n + 1.0, "Booth"] for n in range(4))]
    path.write_bytes(workbook({"Spots": rows}))
    call_command("numbering", "shows/demo/lantern_street.json", str(path), "--json")
    assert json.loads(capsys.readouterr().out)["against_labels"]["code"] == "reversed"
    path.write_bytes(b"PK\x03\x04")
    with pytest.raises(CommandError, match="damaged or cut off"):
        call_command("numbering", "shows/demo/lantern_street.json", str(path), "--json")
