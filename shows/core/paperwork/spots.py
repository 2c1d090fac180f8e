"""From the rows of a table to spots, each line with what is wrong with it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from shows.core.paperwork.numbers import check_number, has_whole_decimals, whole_number
from shows.core.paperwork.records import MAX_NUMBER, Column, Form, LineProblem, Row, SpotLine
from shows.core.paperwork.statements import (
    ReadsAsStatement,
    filled_cells,
    filled_texts,
    first_text,
    is_late_statement,
    quoted_text,
)
from venue.core.labels import is_name, plain_text

_QUOTED_CELLS = 10
_WHOLE_FIELDS = {"number", "label", "nth", "channel"}
_NO_SPOT = re.compile(
    r"(?:(?:grand|sub)[\s-]*)?totals?\b|(?:sum|count)\b[\s:=]*\d*$|(?:notes?|comments?|remarks?|legend|key|n\.?b\.?)[:.]"
    r"|(?:page|rev|revision|version|updated|printed|issued|end of)\b|//|\*+\s*\D",
    re.IGNORECASE,
)
_DASHES = re.compile(r"[-–—_]+")
_MARKED_AS_TEXT = re.compile(r"'(?=[\d=+@-])")


@dataclass(frozen=True)
class Layout:
    """A table cut up: its columns, the rows above the spots, the header row if any, and the rows below.

    `joiner` puts the cells of a row together again as one text.
    """

    form: Form
    columns: tuple[Column, ...]
    leading: tuple[Row, ...]
    header: Row | None
    body: tuple[Row, ...]
    joiner: str

    def column_of(self, field: str) -> int | None:
        """The first column of a field, counted from 0."""
        return next((index for index, column in enumerate(self.columns) if column.field == field), None)


def read_spots(layout: Layout, reads_as_statement: ReadsAsStatement) -> tuple[list[SpotLine], list[LineProblem]]:
    """The spots in the rows below the header, and the problems of those rows."""
    whole = _whole_columns(layout)
    is_wide = len(layout.columns) > 1
    has_digits = _numbers_have_digits(layout)
    spots: list[SpotLine] = []
    problems: list[LineProblem] = []
    for row in layout.body:
        if _is_empty(row) or _repeats_header(row, layout.header):
            continue
        problems += row_problems(row)
        values = _row_values(row, layout.columns, whole)
        if is_late_statement(row, layout.joiner, reads_as_statement):
            problems.append(LineProblem(row.line, None, "late-statement", {"text": quoted_text(row)}))
        elif _holds_spot(row, values, layout.form) and not _is_comment(row, values, is_wide, has_digits):
            spots.append(spot_line(row, values, problems))
            problems += _extra_cells(row, len(layout.columns))
        else:
            problems.append(LineProblem(row.line, None, "not-a-spot", {"text": quoted_text(row)}))
    return spots, problems


def row_problems(row: Row) -> list[LineProblem]:
    """What is wrong with the text of a row, whatever it means."""
    codes = []
    if row.has_open_quote:
        codes.append("unbalanced-quote")
    if "\ufffd" in row.text:
        codes.append("unreadable-characters")
    return [LineProblem(row.line, None, code, {"text": quoted_text(row)}) for code in codes]


def spot_line(row: Row, values: dict[str, str], problems: list[LineProblem]) -> SpotLine:
    """The spot of one row from field -> text; what is wrong with its number is added to `problems`."""
    number, code, data = check_number(values.get("number", ""))
    if code:
        problems.append(LineProblem(row.line, "number", code, data))
    return SpotLine(
        line=row.line,
        number=number,
        label=values.get("label"),
        position=values.get("position"),
        side=values.get("side"),
        nth=values.get("nth"),
        whose_left=values.get("whose_left"),
        frames=_frames(values),
        least_lux=values.get("least_lux"),
        pick_up=values.get("pick_up"),
        channel=values.get("channel"),
        notes=values.get("notes"),
        text=row.text,
    )


def _frames(values: dict[str, str]) -> tuple[str, ...]:
    colors = {int(field.removeprefix("frame ")): text for field, text in values.items() if field.startswith("frame ")}
    return tuple(colors.get(frame, "") for frame in range(1, max(colors, default=0) + 1))


def _row_values(row: Row, columns: Sequence[Column], whole: set[int]) -> dict[str, str]:
    """Field -> text of the filled cells in the columns that are read; several columns of notes are joined."""
    values: dict[str, str] = {}
    for index, (column, cell) in enumerate(zip(columns, row.cells, strict=False)):
        text = _cell_text(cell) if column.field else ""
        if column.field in ("number", "label"):
            text = _MARKED_AS_TEXT.sub("", text, count=1) if text.startswith("'") else text
        if column.field and text:
            value = whole_number(text) if index in whole else text
            values[column.field] = "; ".join(filter(None, [values.get(column.field), value]))
    return values


def _cell_text(cell: str) -> str:
    """The plain text of a cell; a cell of nothing but dashes is empty."""
    text = plain_text(cell)
    return "" if _DASHES.fullmatch(text) else text


def _whole_columns(layout: Layout) -> set[int]:
    return {
        index
        for index, column in enumerate(layout.columns)
        if column.field in _WHOLE_FIELDS and has_whole_decimals(_column_texts(layout.body, index))
    }


def _column_texts(rows: Sequence[Row], index: int) -> list[str]:
    return [text for row in rows if index < len(row.cells) and (text := _cell_text(row.cells[index]))]


def _numbers_have_digits(layout: Layout) -> bool:
    """Whether most show numbers of the table have digits, so that a name is likely to be a comment."""
    index = layout.column_of("number")
    texts = _column_texts(layout.body, index) if index is not None else []
    return 2 * sum(1 for text in texts if not is_name(text)) > len(texts)


def _repeats_header(row: Row, header: Row | None) -> bool:
    if header is None or first_text(row).casefold() != first_text(header).casefold():
        return False
    return _folded(row) == _folded(header)


def _folded(row: Row) -> list[str]:
    return [text.casefold() for text in filled_texts(row)]


def _is_empty(row: Row) -> bool:
    return not any(map(_cell_text, row.cells))


def _holds_spot(row: Row, values: dict[str, str], form: Form) -> bool:
    """Whether a field is filled; without a header, where few columns are read, whether two cells are."""
    return bool(values) or (form == "headless" and filled_cells(row) > 1)


def is_closing_line(row: Row) -> bool:
    """Whether the row begins as totals, notes and page feet do."""
    return bool(_NO_SPOT.match(first_text(row)))


def _is_comment(row: Row, values: dict[str, str], is_wide: bool, has_digits: bool) -> bool:
    """Whether a row is a total or a comment: by its first words, or words alone where others have a number."""
    number = values.get("number", "")
    words = len(number.split())
    filled = filled_cells(row)
    if is_closing_line(row):
        return True
    if not is_name(number):
        return filled == 1 and words > 4
    return has_digits and ((filled == 1 and words > (0 if is_wide else 1)) or (filled == 2 and words > 2))


def _extra_cells(row: Row, width: int) -> list[LineProblem]:
    extra = tuple(text for cell in row.cells[width:] if (text := _cell_text(cell)))
    quoted = tuple(text[:MAX_NUMBER] for text in extra[:_QUOTED_CELLS])
    return [LineProblem(row.line, None, "extra-cells", {"cells": quoted})] if extra else []
