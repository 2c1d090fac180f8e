"""Whatever comes in: only PaperworkUnreadable is raised, and tables read back as they were written."""

import csv
import io
from collections.abc import Mapping

from hypothesis import example, given
from hypothesis import strategies as st

from shows.core.paperwork import FIELDS, PaperworkUnreadable
from tests.shows.paperwork import numbers, read
from venue.core.labels import plain_text

PIECES = st.sampled_from(
    [
        *("Spot", "Position", "No.", "Numbering:", "left to ", "1", "2", "10", "1.0", "1-Feb", "=1", "booth", "HL"),
        *("frames:", "house 2", "2nd from center", ",", ";", "\t", "\n", "\r\n", '"', "–", " - ", ":", " ", "#", "é"),
        *("\u200f", "\ufffd", "\ud800", "\x0b", "\u2028", "total", "ch B", "'", "sep=;"),
    ]
)
COLUMNS = st.dictionaries(st.sampled_from([*FIELDS, "frame 1", "x"]), st.sampled_from(["A", "b", "Spot", "", "ZZ"]))


def _is_answered(data: bytes | str, columns: Mapping[str, str]) -> None:
    try:
        paperwork = read(data, columns)
    except PaperworkUnreadable as refused:
        assert refused.problems
        return
    lines = [spot.line for spot in paperwork.spots]
    assert lines == sorted(set(lines))
    assert all(spot.number is None or 0 < len(spot.number) <= 60 for spot in paperwork.spots)
    str(paperwork).encode()


@given(st.binary(max_size=300), COLUMNS)
def test_any_bytes_are_answered(data: bytes, columns: Mapping[str, str]) -> None:
    _is_answered(data, columns)


@given(st.text(st.characters(), max_size=200), COLUMNS)
@example("\ud800,\n1,2", {})
def test_any_text_is_answered(text: str, columns: Mapping[str, str]) -> None:
    _is_answered(text, columns)


@given(st.lists(PIECES, max_size=40).map("".join), COLUMNS)
def test_any_jumble_of_the_words_of_paperwork_is_answered(text: str, columns: Mapping[str, str]) -> None:
    _is_answered(text, columns)


@given(st.text(st.characters(exclude_categories=[]), max_size=60))
def test_plain_text_is_plain_once_and_for_all(text: str) -> None:
    assert plain_text(plain_text(text)) == plain_text(text)
    assert "  " not in plain_text(text)


CELL_MARKS = " ,;\t\n\"'=é–%Łł"
CELLS = st.text(st.sampled_from("abXYZ019" + CELL_MARKS), max_size=20)


@given(
    cells=st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=12),
    separator=st.sampled_from([",", ";", "\t"]),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"]),
    end=st.sampled_from(["\n", "\r\n"]),
    quoting=st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
)
def test_a_table_reads_back_as_it_was_written(
    cells: list[tuple[str, str]], separator: str, encoding: str, end: str, quoting: int
) -> None:
    stream = io.StringIO()
    writer = csv.writer(stream, delimiter=separator, lineterminator=end, quoting=quoting)
    writer.writerow(["Spot", "Position", "Notes"])
    writer.writerows([(number, *pair) for number, pair in enumerate(cells, start=1)])
    paperwork = read(stream.getvalue().encode(encoding))
    assert numbers(paperwork) == [str(number) for number in range(1, len(cells) + 1)]
    expected = [tuple(_read_back(cell) for cell in pair) for pair in cells]
    assert [(spot.position, spot.notes) for spot in paperwork.spots] == expected
    assert paperwork.problems == ()


def _read_back(cell: str) -> str | None:
    text = plain_text(cell)
    return None if set(text) <= {"–"} else text
