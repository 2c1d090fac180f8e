"""A show's paperwork, as bytes or pasted text, read as a table, as text without a header, or as prose."""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from shows.core.paperwork.columns import lay_out_headless
from shows.core.paperwork.decoding import decode_text
from shows.core.paperwork.headers import check_wanted, count_fields, find_header, header_columns, short_headers
from shows.core.paperwork.numbers import is_bare_number
from shows.core.paperwork.prose import is_prose, read_prose
from shows.core.paperwork.records import (
    MAX_COLUMNS,
    MAX_ROWS,
    Column,
    Form,
    LineProblem,
    Paperwork,
    PaperworkUnreadable,
    Row,
    SpotLine,
    unreadable,
)
from shows.core.paperwork.spots import Layout, read_spots
from shows.core.paperwork.statements import ReadsAsStatement, filled_cells, find_statement
from shows.core.paperwork.tables import SEPARATORS, iterate_rows, line_rows, split_lines, table_rows

_SAMPLE = 60  # lines in which the separator is looked for
_NAMED_SEPARATOR = re.compile(r'"?sep=(?P<separator>[,;\t])"?[,;\s]*', re.IGNORECASE)


def read_paperwork(
    data: bytes | str, *, reads_as_statement: ReadsAsStatement, columns: Mapping[str, str] = {}
) -> Paperwork:
    """The spots, statement and columns of a show's paperwork, with what is wrong line by line.

    `reads_as_statement` says whether a line above the spots states how the show counts. `columns` is field ->
    header, or column letter. Raises PaperworkUnreadable (its codes: `records`).
    """
    wanted = check_wanted(columns)
    lines = split_lines(decode_text(data))
    separator = _choose_separator(lines, wanted)
    joiner = " " if separator == "\t" else f"{separator} "
    return _read(table_rows(lines, separator), line_rows(lines), joiner, reads_as_statement, wanted)


def read_rows(
    rows: Sequence[Row], *, reads_as_statement: ReadsAsStatement, columns: Mapping[str, str] = {}
) -> Paperwork:
    """The same from rows that are cut into cells already, none of them blank: a sheet of a workbook."""
    return _read(rows, rows, " ", reads_as_statement, check_wanted(columns))


def _read(
    rows: Sequence[Row],
    lines: Sequence[Row],
    joiner: str,
    reads_as_statement: ReadsAsStatement,
    wanted: Mapping[str, str],
) -> Paperwork:
    """Read as what the text is: its `rows` by the header, its `lines` of words, or columns without a header.

    `joiner` goes between the cells of a statement that was cut.
    """
    if not rows:
        raise unreadable("empty")
    header = find_header(rows, wanted)
    if not wanted and _is_prose(lines, rows, header, joiner, reads_as_statement):
        leading, spots, problems = read_prose(lines, reads_as_statement)
        return _paperwork("prose", (), find_statement(leading, " ", reads_as_statement), spots, problems)
    if header is None:
        layout = lay_out_headless(rows, joiner, wanted, reads_as_statement)
    else:
        layout = _lay_out_table(rows, header, joiner, wanted)
    spots, problems = read_spots(layout, reads_as_statement)
    statement = find_statement(layout.leading, joiner, reads_as_statement)
    return _paperwork(layout.form, layout.columns, statement, spots, problems)


def _choose_separator(lines: Sequence[str], wanted: Mapping[str, str]) -> str:
    """The separator under which the lines are most like a table; a first line such as "sep=;" names it."""
    named = _NAMED_SEPARATOR.fullmatch(lines[0].strip("\r\n"))
    if named:
        return named["separator"]
    return max(SEPARATORS, key=lambda separator: _table_score(lines[:_SAMPLE], separator, wanted))


def _table_score(lines: Sequence[str], separator: str, wanted: Mapping[str, str]) -> tuple[float, ...]:
    """Fields named by the header row, share of rows of the usual width, rows with a bare number, width."""
    rows = [replace(row, cells=row.cells[:MAX_COLUMNS]) for row in iterate_rows(lines, separator)]
    rows = [row for row in rows if len(row.cells) > 1]
    if not rows:
        return (0, 0, 0, 0)
    header = find_header(rows, wanted)
    width, count = Counter(len(row.cells) for row in rows).most_common(1)[0]
    numbered = sum(1 for row in rows if any(map(is_bare_number, row.cells)))
    return (count_fields(rows[header], wanted) if header is not None else 0, count / len(lines), numbered, width)


def _is_prose(
    lines: Sequence[Row],
    rows: Sequence[Row],
    header: int | None,
    joiner: str,
    reads_as_statement: ReadsAsStatement,
) -> bool:
    """Whether the lines are spots in words; those that only begin with a number give way to a table."""
    if header is not None and filled_cells(rows[header]) > 1:
        return False
    if is_prose(lines, is_plain=True):
        return True
    if not is_prose(lines, is_plain=False):
        return False
    try:
        lay_out_headless(rows, joiner, {}, reads_as_statement)
    except PaperworkUnreadable:
        return True
    return False


def _lay_out_table(rows: Sequence[Row], header: int, joiner: str, wanted: Mapping[str, str]) -> Layout:
    columns = header_columns(rows[header], wanted)
    if all(column.field != "number" for column in columns):
        data = {"headers": short_headers(column.header for column in columns), "examples": ()}
        raise unreadable("no-number-column", line=rows[header].line, field="number", data=data)
    return Layout("table", columns, tuple(rows[:header]), rows[header], tuple(rows[header + 1 :]), joiner)


def _paperwork(
    form: Form,
    columns: tuple[Column, ...],
    statement: tuple[str | None, int | None],
    spots: list[SpotLine],
    problems: list[LineProblem],
) -> Paperwork:
    if not spots:
        raise PaperworkUnreadable((LineProblem(None, None, "no-spots", {}), *problems))
    if len(spots) > MAX_ROWS:
        raise unreadable("too-many-rows", data={"limit": MAX_ROWS})
    return Paperwork(*statement, columns, tuple(spots), tuple(problems), form)
