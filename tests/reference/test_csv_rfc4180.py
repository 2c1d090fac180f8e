"""RFC 4180, Common Format and MIME Type for CSV Files (Y. Shafranovich, October 2005), section 2.

Rules 1 and 2: records end with CRLF, the last may do without. Rules 5 and 6: fields may be quoted, and fields
with line breaks, quotation marks and commas should be. Rule 7: a quotation mark in a quoted field is written
twice, as in the RFC's own line `"aaa","b""bb","ccc"`. Quoted from secondary copies of the text.
"""

import pytest

from shows.core.paperwork.tables import iterate_rows, split_lines


def _records(text: str) -> list[tuple[str, ...]]:
    return [row.cells for row in iterate_rows(split_lines(text), ",")]


@pytest.mark.parametrize(
    ("text", "records"),
    [
        ('"aaa","b""bb","ccc"', [("aaa", 'b"bb', "ccc")]),
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx", [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ('"aaa","bbb","ccc"\r\nzzz,yyy,xxx', [("aaa", "bbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [("aaa", "b\r\nbb", "ccc"), ("zzz", "yyy", "xxx")]),
        ('"a,aa",bbb\r\n', [("a,aa", "bbb")]),
    ],
)
def test_records_are_cut_as_the_rfc_says(text: str, records: list[tuple[str, ...]]) -> None:
    assert _records(text) == records
