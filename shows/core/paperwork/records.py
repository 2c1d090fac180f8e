"""What reading a show's paperwork gives, and the codes of what can be wrong with it.

A problem is a code with data; sentences are made elsewhere. `line` is counted from 1 in what came, None for the
whole of it.

The paperwork can't be read (`PaperworkUnreadable`), code and data:

- `empty`
- `binary`: kind (workbook, pdf, image, unknown)
- `too-big`: limit (bytes), size (bytes)
- `line-too-long`: limit (characters)
- `too-many-rows`: limit
- `too-many-columns`: limit, columns
- `no-spots`: no line that could be a spot; the problems of its lines may follow
- `no-number-column`: headers (column letters in text without a header, with the cells of one row as examples)
- `duplicate-header`: headers, letters (two or more columns read as one field)
- `unknown-field`: given, known
- `header-missing`: given, headers (what `columns` asked for is not there)
- `header-taken`: given, fields (two fields asked for one column)
- `workbook-broken`, `workbook-locked`, `workbook-other`, `workbook-too-big`
- `far-cell`: row, column, rows, columns (a filled cell beyond what is read)

A line has a problem, the rest is read:

- `not-a-spot`: text (a total, a comment; the line is left out)
- `late-statement`: text (a statement below the first spot; left out)
- `unbalanced-quote`: text (a quotation mark that is never closed; its line is read by itself)
- `unreadable-characters`: text (bytes that are no character in the file's encoding, shown as U+FFFD)
- `extra-cells`: cells (more cells than the header names; left out)
- `date-like`: value (the spreadsheet may have made 1-2 a date; the number is None)
- `formula`: value (never computed; the number is None)
- `several-numbers`: value (one line for several spots; the number is None)
- `number-too-long`: limit (characters; the number is cut there)
- `one-sheet`: sheet, others (of a workbook one sheet is read)
- `macros` (a workbook's, never run)
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

MAX_BYTES = 5_000_000
MAX_ROWS = 2_000
MAX_LINE = 10_000  # characters
MAX_COLUMNS = 200
MAX_NUMBER = 60  # characters
MAX_FRAMES = 24

Data = Mapping[str, str | int | tuple[str, ...]]
Form = Literal["table", "headless", "prose"]
How = Literal["mapped", "matched", "proposed"]


@dataclass(frozen=True)
class Row:
    """One record: the line it begins on, its cells, and its text as it came without the line's end."""

    line: int
    cells: tuple[str, ...]
    text: str
    has_open_quote: bool = False


@dataclass(frozen=True)
class Column:
    """A column: its header (or letter), the field it is read as, and how that was found (None when unread)."""

    header: str
    field: str | None
    how: How | None


@dataclass(frozen=True)
class SpotLine:
    """One spot as the paperwork words it. `frames[n - 1]` is frame n, "" where it is empty.

    `least_lux` is the text as it came: its unit may stand in the column's header.
    """

    line: int
    number: str | None
    label: str | None
    position: str | None
    side: str | None
    nth: str | None
    whose_left: str | None
    frames: tuple[str, ...]
    least_lux: str | None
    pick_up: str | None
    channel: str | None
    notes: str | None
    text: str


@dataclass(frozen=True)
class LineProblem:
    """What is wrong with one line, or with the whole (line None): a code of this module and its data."""

    line: int | None
    field: str | None
    code: str
    data: Data


@dataclass(frozen=True)
class Paperwork:
    """A show's paperwork as read; `columns` is empty for prose."""

    statement: str | None
    statement_line: int | None
    columns: tuple[Column, ...]
    spots: tuple[SpotLine, ...]
    problems: tuple[LineProblem, ...]
    form: Form


class PaperworkUnreadable(Exception):
    """The paperwork can't be read as its format, or nothing in it could be a show number."""

    def __init__(self, problems: tuple[LineProblem, ...]) -> None:
        super().__init__(", ".join(problem.code for problem in problems))
        self.problems = problems


def unreadable(
    code: str, *, line: int | None = None, field: str | None = None, data: Data | None = None
) -> PaperworkUnreadable:
    """The error for one problem that stops the whole reading."""
    return PaperworkUnreadable((LineProblem(line, field, code, data or {}),))
