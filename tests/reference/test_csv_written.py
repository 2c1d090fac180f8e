"""CSV files that the house hands out.

RFC 4180, Common Format and MIME Type for CSV Files (Y. Shafranovich, October 2005), section 2: records end with
CRLF (rule 1); fields with line breaks, quotation marks and commas are quoted (rule 6); a quotation mark inside is
written twice (rule 7). OWASP ASVS 5.0, 1.2.10: a text cell that starts with = + - @ tab or NUL gets a single quote
before it, a number such as -4.5 does not. Both quoted from secondary copies.
"""

import csv
from datetime import date
from decimal import Decimal
from io import StringIO

import pytest

from venue.core.csv_text import Cell, as_text, csv_record


@pytest.mark.parametrize(
    ("cells", "record"),
    [
        (("aaa", 'b"bb', "ccc"), 'aaa,"b""bb",ccc\r\n'),
        (("aaa", "b\r\nbb", "ccc"), 'aaa,"b\r\nbb",ccc\r\n'),
        (("b,bb", "b\nb"), '"b,bb","b\nb"\r\n'),
        (("", None, " "), ",, \r\n"),
        ((1, 2.5, Decimal("812.00"), date(2026, 3, 2)), "1,2.5,812.00,2026-03-02\r\n"),
        ((-4.5, Decimal("-12.50")), "-4.5,-12.50\r\n"),
        (("-4.5", "=1+1", "+1", "@x"), "'-4.5,'=1+1,'+1,'@x\r\n"),
    ],
)
def test_a_record_is_written_as_the_rfc_says(cells: tuple[Cell, ...], record: str) -> None:
    assert csv_record(cells) == record


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\0"])
def test_a_text_that_a_spreadsheet_would_compute_gets_a_quote(start: str) -> None:
    assert as_text(f"{start}SUM(A1)") == f"'{start}SUM(A1)"
    assert as_text(f"x{start}") == f"x{start}"


def test_what_is_written_is_read_back_by_an_independent_reader() -> None:
    rows = [["tag", 'say "go"', "two\r\nlines"], ["Ångström, FS-01", "", "a"]]
    text = "".join(csv_record(row) for row in rows)
    assert list(csv.reader(StringIO(text, newline=""), strict=True)) == rows
