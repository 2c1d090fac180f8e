"""Cells and records of a CSV file (RFC 4180), safe to open in a spreadsheet."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

Cell = str | int | float | Decimal | date | None
"""A cell as a program has it: a text, a number, a day, or nothing."""

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\0")
TO_QUOTE = ('"', ",", "\r", "\n")
BYTE_ORDER_MARK = "\ufeff"
"""First in a file, so that spreadsheets read it as UTF-8."""


def as_text(text: str) -> str:
    """A leading quote where a spreadsheet would take the text for a formula (OWASP ASVS 5.0, 1.2.10)."""
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def csv_record(cells: Iterable[Cell]) -> str:
    """One record with its line end. Numbers and days are written as they are, texts are made safe."""
    return ",".join(map(_field, cells)) + "\r\n"


def cell_text(cell: Cell) -> str:
    """The cell as it is read: nothing as an empty text, a whole number without its ".0"."""
    if cell is None:
        return ""
    return str(int(cell)) if isinstance(cell, float) and cell.is_integer() else str(cell)


def _field(cell: Cell) -> str:
    text = as_text(cell) if isinstance(cell, str) else cell_text(cell)
    return f'"{text.replace(chr(34), chr(34) * 2)}"' if any(mark in text for mark in TO_QUOTE) else text
