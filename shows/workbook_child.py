"""Reads one workbook from standard input under limits that the system keeps, and writes its cells as JSON.

Run as a process of its own: a hostile file may make the reader ask for more memory than there is and end the
process, which nothing in Python can catch. Only the standard library and the reader are imported.

Out comes {"sheets": [{"name", "rows": [[line, [cell, …]], …]}, …], "has_macros"} or {"problem", "data"}.
"""

import io
import json
import re
import resource
import sys
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time
from typing import Any
from xml.parsers import expat

MEMORY_BYTES = 1_000_000_000
CPU_SECONDS = 10
MOST_BYTES = 40_000_000  # unpacked, all members together
MOST_MEMBERS = 2_000
MOST_TEXT = 10_000_000  # characters in all cells together
MOST_CELLS = 500_000  # that a sheet may hold
MOST_ROWS, MOST_COLUMNS = 2_100, 200  # the paperwork's own limits, with room for titles above the spots
_CHUNK = 65_536
_CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_OTHER_FORMATS = {"content.xml", "xl/workbook.bin"}
_HOLDS = {"v", "f", "is"}
# What the standard library raises for an archive that is damaged, encrypted, or packed in a way it does not know.
_BROKEN = (zipfile.BadZipFile, zlib.error, OSError, EOFError, NotImplementedError, ValueError, RuntimeError)


class Refused(Exception):
    """The workbook is not read: a code and its data."""

    def __init__(self, code: str, **data: Any) -> None:
        super().__init__(code)
        self.code, self.data = code, data


def main() -> None:
    """Set the limits, read, answer. The process ends with 0 whenever it could answer."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    resource.setrlimit(resource.RLIMIT_CPU, (CPU_SECONDS, CPU_SECONDS))
    resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    try:
        answer = read(sys.stdin.buffer.read())
    except Refused as refused:
        answer = {"problem": refused.code, "data": refused.data}
    except MemoryError:
        answer = {"problem": "workbook-too-big", "data": {}}
    sys.stdout.write(json.dumps(answer))


def read(data: bytes) -> dict[str, Any]:
    """The cells of every sheet. Raises Refused, before the reader sees a file that is too big for it."""
    names = check_archive(data)
    return {"sheets": list(sheets(data)), "has_macros": any("vbaproject" in name.lower() for name in names)}


def check_archive(data: bytes) -> list[str]:
    """The names of the members, each unpacked once to count its bytes and, of a sheet, its extent."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            members = archive.infolist()
            _check_members(members)
            left = MOST_BYTES
            for member in members:
                left -= _check_member(archive, member, left)
    except _BROKEN as error:
        raise Refused("workbook-broken") from error
    return [member.filename for member in members]


def _check_members(members: list[zipfile.ZipInfo]) -> None:
    names = {member.filename for member in members}
    if len(members) > MOST_MEMBERS:
        raise Refused("workbook-too-big")
    if any(member.flag_bits & 1 for member in members):
        raise Refused("workbook-locked")
    if "xl/workbook.xml" not in names or names & _OTHER_FORMATS:
        raise Refused("workbook-other")


def _check_member(archive: zipfile.ZipFile, member: zipfile.ZipInfo, left: int) -> int:
    """The bytes that the member unpacks to. Raises Refused if they are more than `left`, or a sheet is too wide."""
    size, extent = 0, Extent()
    with archive.open(member) as stream:
        while chunk := stream.read(_CHUNK):
            size += len(chunk)
            if size > left:
                raise Refused("workbook-too-big")
            if member.filename.lower().endswith((".xml", ".rels")):
                extent.feed(chunk)
    return size


class Extent:
    """Follows the cells of a sheet as its XML goes by, without keeping any."""

    def __init__(self) -> None:
        self.is_sheet: bool | None = None
        self.row = self.column = self.count = 0
        self.parser = expat.ParserCreate()
        self.parser.StartElementHandler = self._start
        self.parser.StartDoctypeDeclHandler = self._refuse

    def feed(self, chunk: bytes) -> None:
        """Read on, as long as this is a sheet at all."""
        if self.is_sheet is False:
            return
        try:
            self.parser.Parse(chunk, False)
        except expat.ExpatError as error:
            raise Refused("workbook-broken") from error

    def _refuse(self, *_declared: object) -> None:
        raise Refused("workbook-broken")

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        name = name.rpartition(":")[2]
        if self.is_sheet is None:
            self.is_sheet = name == "worksheet"
        if not self.is_sheet:
            return
        if name == "row":
            self.row, self.column = _number(attributes.get("r"), self.row + 1), 0
        elif name == "c":
            self._move_to(attributes.get("r", ""))
        elif name in _HOLDS:
            self._check()

    def _move_to(self, reference: str) -> None:
        found = _CELL.fullmatch(reference)
        self.column = _column(found[1]) if found else self.column + 1
        self.row = int(found[2]) if found else self.row
        self.count += 1
        if self.count > MOST_CELLS:
            raise Refused("workbook-too-big")

    def _check(self) -> None:
        """Only a cell that holds something stretches the sheet; a styled empty one does not."""
        if self.row > MOST_ROWS or self.column > MOST_COLUMNS:
            data = {"row": self.row, "column": self.column, "rows": MOST_ROWS, "columns": MOST_COLUMNS}
            raise Refused("far-cell", **data)


def _number(text: str | None, otherwise: int) -> int:
    return int(text) if text and text.isascii() and text.isdigit() and len(text) < 8 else otherwise


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def sheets(data: bytes) -> Iterator[dict[str, Any]]:
    """Each sheet's name and rows; blank rows are left out."""
    from python_calamine import CalamineError, CalamineWorkbook, PasswordError

    left = MOST_TEXT
    try:
        workbook = CalamineWorkbook.from_filelike(io.BytesIO(data))
        for name in workbook.sheet_names[:50]:
            rows = list(_rows(workbook.get_sheet_by_name(name).to_python(skip_empty_area=False)))
            left -= sum(len(cell) for _line, cells in rows for cell in cells)
            if left < 0:
                raise Refused("workbook-too-big")
            yield {"name": name[:100], "rows": rows}
    except PasswordError as error:
        raise Refused("workbook-locked") from error
    except (CalamineError, OSError, ValueError, KeyError) as error:
        raise Refused("workbook-broken") from error


def _rows(table: list[list[Any]]) -> Iterator[tuple[int, list[str]]]:
    for line, cells in enumerate(table[:MOST_ROWS], start=1):
        texts = [cell_text(cell) for cell in cells[:MOST_COLUMNS]]
        if any(text.strip() for text in texts):
            yield line, texts


def cell_text(value: Any) -> str:
    """The cell as a person would have typed it: 1.0 as 1; a date as 2026-01-02, for somebody to be asked about."""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    if isinstance(value, datetime):
        return value.isoformat(" ")
    if isinstance(value, date | time):
        return value.isoformat()
    return str(value)


if __name__ == "__main__":
    main()
