"""The header row: the trade's own words for each field, matched by meaning, or named by the user.

The words are common practice (no source).
"""

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from shows.core.paperwork.records import MAX_FRAMES, Column, Data, PaperworkUnreadable, Row, unreadable
from shows.core.paperwork.statements import filled_cells
from venue.core.labels import plain_text

FIELDS = (
    *("number", "label", "position", "side", "nth", "whose_left"),
    *("least_lux", "pick_up", "channel", "notes"),
)
PREAMBLE_ROWS = 20  # the header is looked for in so many rows
_LONGEST_HEADER = 60  # characters

_WORDS = {
    "number": """spot; spot #; spot number; spot nr; no; nr; number; num; show number; show #; show spot;
        show spot #; call number; call #; called as; tour number; tour #; tour spot; our number; our #;
        fs; fs #; fs number""",
    "label": """label; house label; house #; house number; house nr; house spot; house spot #;
        house spot number; your number; your #; your spot; your label; venue label; venue #; venue number;
        venue spot; painted label; painted number""",
    "position": "position; pos; location; loc; place; where; booth position; spot position; spot location",
    "side": "side; hl hr; sl sr; hl hr sl sr; house side; stage side; left right; left or right; l r",
    "nth": "nth; order; from end; from the end; order from end; nth from end; order in row; place in row",
    "whose_left": """whose left; whose side; view; viewpoint; as seen from; seen from; viewed from;
        left as seen from; left right as seen from""",
    "pick_up": "pick up; pickup; picks up; target; cover; artist; performer",
    "channel": """channel; ch; chan; channel #; ch #; headset; headset channel; headset ch; intercom;
        intercom channel; intercom ch; comms; comms channel""",
    "notes": "note; remark; comment; spot note",
}
_FRAME = re.compile(r"(?:color frame|frame color|frame|fr|f|color|gel)(?: no)? (\d{1,2})")
_LEVEL = re.compile(
    r"(?:least|min|minimum|lowest) (?:light|level|lux|lx|fc|foot ?candle)(?: level)?"
    r"|(?:lux|lx|fc|foot ?candle)(?: (?:least|min|minimum))?"
)
_UNITS = re.compile(r" (?:in )?(?:lux|lx|fc|foot ?candle)$")


def _fold(text: str) -> str:
    """The words alone: no case, punctuation or plural, "#" as "no", "Colour" as "color", "F1" as "f 1"."""
    lowered = plain_text(text).casefold().replace("#", " no ").replace("colour", "color")
    spaced = re.sub(r"(?<=[a-z])(?=\d)", " ", re.sub(r"[\W_]+", " ", lowered))
    singular = (word[:-1] if len(word) > 2 and word.endswith("s") else word for word in spaced.split())
    return re.sub(r"\bfollow ?spot", "spot", " ".join(singular))


_FIELD_OF_WORDS = {_fold(words): field for field, table in _WORDS.items() for words in table.split(";")} | {
    _fold(field): field for field in FIELDS
}


@lru_cache(maxsize=1024)
def match_header(header: str) -> str | None:
    """The field that a header means; of "Booth / Location" or "Lux (least)" too. None when unknown."""
    if not 0 < len(header) <= _LONGEST_HEADER:
        return None
    whole = _match_words(header) or _match_words(re.sub(r"\(.*?\)|\[.*?\]", " ", header))
    if whole:
        return whole
    either = {_match_words(part) for part in header.split("/")}
    return either.pop() if len(either) == 1 else None


def _match_words(text: str) -> str | None:
    folded = _fold(text)
    frame = _FRAME.fullmatch(folded)
    if frame:
        return f"frame {int(frame[1])}" if 1 <= int(frame[1]) <= MAX_FRAMES else None
    if _LEVEL.fullmatch(folded) or _LEVEL.fullmatch(_UNITS.sub("", folded)):
        return "least_lux"
    return _FIELD_OF_WORDS.get(folded)


def check_wanted(columns: Mapping[str, str]) -> dict[str, str]:
    """Field -> header as the user asked. Raises PaperworkUnreadable: unknown-field, header-taken."""
    known = {_fold(field): field for field in (*FIELDS, *(f"frame {n + 1}" for n in range(MAX_FRAMES)))}
    wanted: dict[str, str] = {}
    for given, header in columns.items():
        field = known.get(_fold(given))
        if field is None:
            data: Data = {"given": given, "known": (*FIELDS, f"frame 1 … frame {MAX_FRAMES}")}
            raise unreadable("unknown-field", data=data)
        wanted[field] = plain_text(header)
    return wanted


def find_header(rows: Sequence[Row], wanted: Mapping[str, str]) -> int | None:
    """The index of the header row: the first of those that name the most fields, or None.

    A row counts that names the number column or two fields; a row of one cell only above rows of one cell.
    """
    counts = [
        (count_fields(row, wanted), -index)
        for index, row in enumerate(rows[:PREAMBLE_ROWS])
        if _is_header(row, wanted) and (filled_cells(row) > 1 or _is_narrow(rows[index + 1 :]))
    ]
    return -max(counts)[1] if counts else None


def _is_narrow(rows: Sequence[Row]) -> bool:
    sample = rows[:PREAMBLE_ROWS]
    return 2 * sum(1 for row in sample if filled_cells(row) == 1) > len(sample)


def count_fields(row: Row, wanted: Mapping[str, str]) -> int:
    """How many different fields the cells of the row name, by their meaning or as the user asked."""
    return len({match_header(cell) for cell in row.cells} - {None}) + len(_wanted_cells(row, wanted))


def _wanted_cells(row: Row, wanted: Mapping[str, str]) -> list[str]:
    words = [header for header in wanted.values() if letter_index(header, len(row.cells)) is None]
    return [cell for cell in row.cells if any(_is_same(cell, header) for header in words)]


def _is_same(cell: str, header: str) -> bool:
    if len(cell) > _LONGEST_HEADER:
        return False
    return plain_text(cell) == header or _fold(cell) == _fold(header) != ""


def _is_header(row: Row, wanted: Mapping[str, str]) -> bool:
    fields = {match_header(cell) for cell in row.cells} - {None}
    has_digits = any(cell.strip().isdigit() for cell in row.cells)
    return len(fields) >= 2 or bool(_wanted_cells(row, wanted)) or ("number" in fields and not has_digits)


def column_letter(index: int) -> str:
    """The spreadsheet letter of a column, counted from 0: A, B … Z, AA."""
    rest, last = divmod(index, 26)
    return (column_letter(rest - 1) if rest else "") + chr(ord("A") + last)


def letter_index(text: str, width: int) -> int | None:
    """The column, counted from 0, that a letter names among `width`; None when it names none."""
    letters = [column_letter(index) for index in range(width)]
    return letters.index(text.upper()) if text.upper() in letters else None


def header_columns(row: Row, wanted: Mapping[str, str]) -> tuple[Column, ...]:
    """The columns of a header row. Raises PaperworkUnreadable: header-missing, header-taken, duplicate-header."""
    headers = [plain_text(cell) or column_letter(index) for index, cell in enumerate(row.cells)]
    mapped = map_columns(headers, wanted)
    columns = []
    for index, header in enumerate(headers):
        field = match_header(header)
        if index in mapped:
            columns.append(Column(header, mapped[index], "mapped"))
        elif field and field not in wanted:
            columns.append(Column(header, field, "matched"))
        else:
            columns.append(Column(header, None, None))
    _refuse_duplicates(columns)
    return tuple(columns)


def map_columns(headers: Sequence[str], wanted: Mapping[str, str]) -> dict[int, str]:
    """Column, counted from 0 -> field, as the user asked by header or else by letter.

    Raises PaperworkUnreadable: header-missing, header-taken, duplicate-header.
    """
    mapped: dict[int, str] = {}
    for field, given in wanted.items():
        index = _find_column(headers, field, given)
        if index in mapped:
            fields = (mapped[index], field)
            raise unreadable("header-taken", field=field, data={"given": given, "fields": fields})
        mapped[index] = field
    return mapped


def _find_column(headers: Sequence[str], field: str, given: str) -> int:
    found = [index for index, header in enumerate(headers) if _is_same(header, given)]
    if len(found) > 1:
        raise _duplicate(field, headers, found)
    if found:
        return found[0]
    letter = letter_index(given, len(headers))
    if letter is None:
        raise unreadable("header-missing", field=field, data={"given": given, "headers": short_headers(headers)})
    return letter


def short_headers(headers: Iterable[str]) -> tuple[str, ...]:
    """The headers as a message quotes them."""
    return tuple(header[:_LONGEST_HEADER] for header in headers)


def _refuse_duplicates(columns: Sequence[Column]) -> None:
    """Notes may stand in several columns; any other field must be one."""
    counts = Counter(column.field for column in columns if column.field not in (None, "notes"))
    for field, count in counts.items():
        if field and count > 1:
            found = [index for index, column in enumerate(columns) if column.field == field]
            raise _duplicate(field, [column.header for column in columns], found)


def _duplicate(field: str, headers: Sequence[str], found: Sequence[int]) -> PaperworkUnreadable:
    data: Data = {
        "headers": short_headers(headers[index] for index in found),
        "letters": tuple(column_letter(index) for index in found),
    }
    return unreadable("duplicate-header", field=field, data=data)
