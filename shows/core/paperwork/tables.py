"""Lines and records: RFC 4180 cells under one separator, with the line numbers of the file."""

import csv
import io
import re
from collections.abc import Iterator, Sequence
from itertools import islice

from shows.core.paperwork.records import MAX_COLUMNS, MAX_LINE, MAX_ROWS, Row, unreadable

SEPARATORS = ("\t", ";", ",")
_MAX_LINES = 10 * MAX_ROWS  # physical ones, blank ones too
_MAX_RECORD_LINES = 100
_MAX_PREAMBLE = 100  # records beside the spots: titles, statements, the header
_END = "\r\n"
_LINE_END = re.compile(r"[\r\n]")


def split_lines(text: str) -> list[str]:
    """The lines with their ends (CRLF, LF or CR, mixed too); blank rows at the end of the text are dropped.

    Raises PaperworkUnreadable: too-many-rows, line-too-long.
    """
    end = _LINE_END.search(text, len(text.rstrip(" \t\r\n,;")))
    stream = io.StringIO(text[: end.start()] if end else text, newline="")
    lines = list(islice(stream, _MAX_LINES + 1))
    if len(lines) > _MAX_LINES:
        raise unreadable("too-many-rows", data={"limit": MAX_ROWS})
    for number, line in enumerate(lines, start=1):
        if len(line) > MAX_LINE:
            raise unreadable("line-too-long", line=number, data={"limit": MAX_LINE})
    return lines


def line_rows(lines: Sequence[str]) -> list[Row]:
    """Each line that is not blank as a row of one cell."""
    texts = enumerate((line.rstrip(_END) for line in lines), start=1)
    return [Row(number, (text,), text) for number, text in texts if text.strip()]


def table_rows(lines: Sequence[str], separator: str) -> list[Row]:
    """Each record that is not blank. Raises PaperworkUnreadable: too-many-rows, too-many-columns."""
    rows = list(islice(iterate_rows(lines, separator), MAX_ROWS + _MAX_PREAMBLE + 1))
    for row in rows:
        if len(row.cells) > MAX_COLUMNS:
            counts = {"limit": MAX_COLUMNS, "columns": len(row.cells)}
            raise unreadable("too-many-columns", line=row.line, data=counts)
    if len(rows) > MAX_ROWS + _MAX_PREAMBLE:
        raise unreadable("too-many-rows", data={"limit": MAX_ROWS})
    return rows


def iterate_rows(lines: Sequence[str], separator: str) -> Iterator[Row]:
    """The records in turn, blank ones left out."""
    start = 0
    while start < len(lines):
        cells, used, is_open = _next_record(lines, start, separator)
        if any(cell.strip() for cell in cells):
            text = "".join(lines[start : start + used]).rstrip(_END)
            yield Row(start + 1, _bounded_cells(cells), text, is_open)
        start += used


def _bounded_cells(cells: list[str]) -> tuple[str, ...]:
    if len(cells) > MAX_COLUMNS:
        while not cells[-1].strip():
            cells.pop()
    return tuple(cells)


def _next_record(lines: Sequence[str], start: int, separator: str) -> tuple[list[str], int, bool]:
    """The cells of the record at `start`, the lines it takes, and whether its quote is never closed.

    An open quote would swallow every line after it, so such a line is read by itself with its marks as text.
    """
    record = _possible_record(lines, start)
    cells, used = _read_record(record, separator, is_strict=False)
    if used > 1:
        cells, used = _read_record(record, separator, is_strict=True)
    if 0 < used <= len(record):
        return cells, used, False
    return [cell.strip() for cell in lines[start].rstrip(_END).split(separator)], 1, True


def _read_record(record: list[str], separator: str, *, is_strict: bool) -> tuple[list[str], int]:
    """The first record and the lines it took: 0 where it breaks the rules, more than given where it is open."""
    reader = csv.reader([*record, _END], delimiter=separator, skipinitialspace=True, strict=is_strict)
    try:
        return next(reader), reader.line_num
    except csv.Error:
        return [], 0


def _possible_record(lines: Sequence[str], start: int) -> list[str]:
    """The lines from `start` that one record may take: bounded in number and in characters."""
    record = [lines[start]]
    if '"' not in lines[start]:
        return record
    size = len(lines[start])
    for line in lines[start + 1 : start + _MAX_RECORD_LINES]:
        size += len(line)
        if size > MAX_LINE:
            break
        record.append(line)
    return record
