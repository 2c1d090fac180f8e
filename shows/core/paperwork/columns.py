"""Text without a header row: columns A, B, C; the first rising one is proposed as the show number."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

from shows.core.paperwork.headers import PREAMBLE_ROWS, column_letter, map_columns, short_headers
from shows.core.paperwork.numbers import check_number, is_bare_number
from shows.core.paperwork.records import Column, LineProblem, PaperworkUnreadable, Row, unreadable
from shows.core.paperwork.spots import Layout, is_closing_line
from shows.core.paperwork.statements import ReadsAsStatement, filled_cells, find_statement, marked_statement
from venue.core.labels import SortKey, is_name, plain_text, sort_key

_SEARCHED = 26  # columns A to Z; no show number stands farther right
_SHORTEST_YEAR = 4  # digits; a line of one such number is a title's year, not a spot


def lay_out_headless(
    rows: Sequence[Row], joiner: str, wanted: Mapping[str, str], reads_as_statement: ReadsAsStatement
) -> Layout:
    """The columns of rows without a known header; a row of unknown words above the numbers names them.

    Raises PaperworkUnreadable: no-number-column, no-spots, header-missing, header-taken.
    """
    width = max(len(row.cells) for row in rows)
    start = next((index for index, row in enumerate(rows) if _has_number(row, width)), len(rows))
    header = _unknown_header(rows[:start], joiner, reads_as_statement) if start < len(rows) else None
    fields = map_columns(_column_names(header, width), wanted)
    number = next((index for index, field in fields.items() if field == "number"), None)
    if number is not None:
        below = 0 if header is None else rows.index(header) + 1
        start = _first_filled(rows, number, below, joiner, reads_as_statement)
    else:
        number = propose_number(rows[start:], width, fields)
    if number is None:
        raise _no_number(rows, width)
    start = min(start, PREAMBLE_ROWS)
    columns = _columns(_column_names(header, width), fields, number)
    return Layout("headless", columns, tuple(rows[:start]), header, tuple(rows[start:]), joiner)


def _has_number(row: Row, width: int) -> bool:
    """Whether a row has a cell that is a number and nothing else; "Numbering: 1, 2, 5" and a year have not."""
    bare = [cell for cell in row.cells[:_SEARCHED] if is_bare_number(plain_text(cell))]
    if not bare or marked_statement(row, ", "):
        return False
    return width == 1 or filled_cells(row) > 1 or len(bare[0].strip()) < _SHORTEST_YEAR


def _unknown_header(leading: Sequence[Row], joiner: str, reads_as_statement: ReadsAsStatement) -> Row | None:
    """The last row above the numbers, if it has several cells and is no statement."""
    if not leading or filled_cells(leading[-1]) < 2:
        return None
    return None if find_statement(leading[-1:], joiner, reads_as_statement)[0] else leading[-1]


def _column_names(header: Row | None, width: int) -> list[str]:
    cells = header.cells if header else ()
    return [(plain_text(cells[index]) if index < len(cells) else "") or column_letter(index) for index in range(width)]


def _first_filled(
    rows: Sequence[Row], column: int, below: int, joiner: str, reads_as_statement: ReadsAsStatement
) -> int:
    """The first row from `below` that has a number in its column and is neither statement nor title."""
    is_narrow = all(filled_cells(row) < 2 for row in rows)
    for index, row in enumerate(rows[below:], start=below):
        is_filled = column < len(row.cells) and row.cells[column].strip() != ""
        is_wide = is_narrow or filled_cells(row) > 1
        if is_filled and is_wide and not find_statement([row], joiner, reads_as_statement)[0]:
            return index
    return len(rows)


def propose_number(rows: Sequence[Row], width: int, taken: Collection[int]) -> int | None:
    """The first column whose values rise, one of bare numbers before one of other labels; None if none does.

    A lone column of numbers need not rise.
    """
    spots = [row for row in rows if _may_be_spot(row, width)]
    free = [index for index in range(min(width, _SEARCHED)) if index not in taken]
    if width == 1 and free:
        values = list(_numbers_in(spots, 0))
        return 0 if 2 * sum(map(is_bare_number, values)) > len(values) else None
    bare = (index for index in free if _rises(spots, index, is_bare_number))
    named = (index for index in free if len(spots) > 1 and _rises(spots, index, lambda text: not is_name(text)))
    found = next(bare, None)
    return next(named, None) if found is None else found


def _may_be_spot(row: Row, width: int) -> bool:
    return (width == 1 or filled_cells(row) > 1) and not is_closing_line(row)


def _numbers_in(rows: Sequence[Row], index: int) -> Iterator[str]:
    for row in rows:
        number, code, _ = check_number(plain_text(row.cells[index])) if index < len(row.cells) else (None, None, {})
        if number and not code:
            yield number


def _rises(rows: Sequence[Row], index: int, accepts: Callable[[str], bool]) -> bool:
    """Whether a column's values are accepted, rise in natural order and stand in most rows."""
    last: SortKey | None = None
    count = 0
    for value in _numbers_in(rows, index):
        key = sort_key(value)
        if not accepts(value) or (last is not None and key <= last):
            return False
        last, count = key, count + 1
    return 2 * count > len(rows)


def _columns(names: Sequence[str], fields: Mapping[int, str], number: int) -> tuple[Column, ...]:
    found = {number: Column(names[number], "number", "proposed")} | {
        index: Column(names[index], field, "mapped") for index, field in fields.items()
    }
    return tuple(found.get(index, Column(name, None, None)) for index, name in enumerate(names))


def _no_number(rows: Sequence[Row], width: int) -> PaperworkUnreadable:
    if width == 1:
        checked = ((row.line, *check_number(plain_text(row.cells[0]))) for row in rows)
        reasons = (LineProblem(line, "number", code, data) for line, _, code, data in checked if code)
        return PaperworkUnreadable((LineProblem(None, None, "no-spots", {}), *reasons))
    widest = max(rows, key=filled_cells)
    examples = short_headers(map(plain_text, widest.cells))
    headers = tuple(column_letter(index) for index in range(width))
    return unreadable("no-number-column", field="number", data={"headers": headers, "examples": examples})
