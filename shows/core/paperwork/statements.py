"""The line that says how the show counts: marked by the word "Numbering", or read as a statement."""

import re
from collections.abc import Callable, Iterable

from shows.core.paperwork.records import Row
from venue.core.labels import plain_text

ReadsAsStatement = Callable[[str], bool]

_LONGEST = 1_000  # characters; no statement is longer
_LONGEST_QUOTE = 200  # characters
_MARK = re.compile(
    r"(?P<quote>[\"“])?(?:(?:(?:follow[\s-]*)?spots?|show|call)\s+)?numbering(?:\s*[:=,–—-]+\s*|$)", re.IGNORECASE
)


def marked_statement(row: Row, joiner: str) -> str | None:
    """The text after "Numbering:", its cells joined again where commas had cut it; None for other rows."""
    mark = _MARK.match(first_text(row))
    if mark is None:
        return None
    cells = filled_texts(row)
    text = _joined([cells[0][mark.end() :], *cells[1:]], joiner)
    return (text.rstrip('"”') if mark["quote"] else text) or None


def unmarked_statement(row: Row, joiner: str, reads_as_statement: ReadsAsStatement) -> str | None:
    """The whole row, where it reads as a statement."""
    if len(row.text) > _LONGEST:
        return None
    text = _joined(filled_texts(row), joiner)
    return text if text and reads_as_statement(text) else None


def _joined(cells: list[str], joiner: str) -> str:
    return joiner.join(filter(None, cells)).strip(" ,;")


def find_statement(
    rows: Iterable[Row], joiner: str, reads_as_statement: ReadsAsStatement
) -> tuple[str | None, int | None]:
    """The statement in the rows above the first spot and the line it begins on; several are joined by "; "."""
    texts, lines = [], []
    for row in rows:
        text = marked_statement(row, joiner) or unmarked_statement(row, joiner, reads_as_statement)
        if text:
            texts.append(text)
            lines.append(row.line)
    return ("; ".join(texts)[:_LONGEST], lines[0]) if texts else (None, None)


def is_late_statement(row: Row, joiner: str, reads_as_statement: ReadsAsStatement) -> bool:
    """Whether a row below the first spot states how the show counts."""
    if marked_statement(row, joiner):
        return True
    return filled_cells(row) == 1 and unmarked_statement(row, joiner, reads_as_statement) is not None


def filled_cells(row: Row) -> int:
    """How many cells of the row hold anything."""
    return sum(1 for cell in row.cells if cell.strip())


def first_text(row: Row) -> str:
    """The first cell that holds anything, in plain text."""
    return next((text for text in map(plain_text, row.cells) if text), "")


def quoted_text(row: Row) -> str:
    """The text of a row as a message quotes it: plain, and no longer than a line."""
    return plain_text(row.text[:_LONGEST_QUOTE])


def filled_texts(row: Row) -> list[str]:
    """The cells that hold anything, in plain text."""
    return [text for text in map(plain_text, row.cells) if text]
