"""Workbooks (XLSX): read in a child process under limits, then as rows of paperwork like any other."""

import json
import subprocess
import sys
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from shows.core.paperwork import (
    MAX_BYTES,
    LineProblem,
    Paperwork,
    PaperworkUnreadable,
    Row,
    read_paperwork,
    read_rows,
)
from shows.core.paperwork.records import unreadable
from shows.core.paperwork.statements import ReadsAsStatement

CHILD = Path(__file__).with_name("workbook_child.py")
WALL_SECONDS = 20
ARCHIVE, COMPOUND = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"
LOCKED = "EncryptedPackage".encode("utf-16-le")
"""A workbook with a password is no archive but a compound file that holds this name."""


def is_workbook(data: bytes) -> bool:
    """Whether the bytes begin as a workbook does, old ones too."""
    return data.startswith((ARCHIVE, COMPOUND))


def read_received(
    data: bytes | str, *, reads_as_statement: ReadsAsStatement, columns: Mapping[str, str] = {}
) -> Paperwork:
    """Paperwork of whatever kind: workbook, CSV or text. Raises PaperworkUnreadable."""
    if isinstance(data, bytes) and is_workbook(data):
        return read_workbook(data, reads_as_statement=reads_as_statement, columns=columns)
    return read_paperwork(data, reads_as_statement=reads_as_statement, columns=columns)


def read_workbook(data: bytes, *, reads_as_statement: ReadsAsStatement, columns: Mapping[str, str] = {}) -> Paperwork:
    """The first sheet that holds spots; problems name it where there are several, and macros, which never run.

    Raises PaperworkUnreadable.
    """
    answer = sheets_of(data)
    first_refusal: PaperworkUnreadable | None = None
    for sheet in answer["sheets"]:
        try:
            paperwork = read_rows(list(_rows(sheet)), reads_as_statement=reads_as_statement, columns=columns)
        except PaperworkUnreadable as refusal:
            first_refusal = first_refusal or refusal
            continue
        return replace(paperwork, problems=(*_notes(answer, sheet), *paperwork.problems))
    raise first_refusal or unreadable("empty")


def sheets_of(data: bytes) -> dict[str, Any]:
    """What the child process found: sheets with their rows. Raises PaperworkUnreadable."""
    if len(data) > MAX_BYTES:
        raise unreadable("too-big", data={"limit": MAX_BYTES, "size": len(data)})
    if not data.startswith(ARCHIVE):
        raise unreadable("workbook-locked" if LOCKED in data else "workbook-other")
    command = [sys.executable, "-I", str(CHILD)]
    try:
        done = subprocess.run(command, input=data, capture_output=True, timeout=WALL_SECONDS, check=False, env={})
        answer: dict[str, Any] = json.loads(done.stdout)
    except (subprocess.TimeoutExpired, ValueError) as error:
        raise unreadable("workbook-too-big") from error  # the process was ended before it could answer
    if "problem" in answer:
        raise unreadable(answer["problem"], data=answer["data"])
    return answer


def _rows(sheet: Mapping[str, Any]) -> Iterator[Row]:
    return (Row(line, tuple(cells), "\t".join(cells).rstrip("\t")) for line, cells in sheet["rows"])


def _notes(answer: Mapping[str, Any], sheet: Mapping[str, Any]) -> Iterator[LineProblem]:
    others = tuple(other["name"] for other in answer["sheets"] if other is not sheet and other["rows"])
    if others:
        yield LineProblem(None, None, "one-sheet", {"sheet": sheet["name"], "others": others})
    if answer["has_macros"]:
        yield LineProblem(None, None, "macros", {})
