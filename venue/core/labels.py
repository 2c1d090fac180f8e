"""House labels and show numbers as the trade reads them: "#01", "Spot 1" and "1" are one label.

`label_key` says when two labels are the same, `sort_key` how they are ordered, `stored_sort_key` the same
order as text that every database collates alike. Rules: digits as numbers, before letters, case ignored.
"""

import re
import unicodedata
from functools import lru_cache

_PREFIX = re.compile(r"^(?:(?:(?:follow[\s-]*)?spots?|number|numbers|nos?|nrs?|#|№)[\s.:#-]*)+(?=\d|[a-z]{1,2}\d*$)")
_JOINTS = re.compile(r"(?<!\d)[\s.-]+|[\s.-]+(?!\d)")  # not between two digits: 1.5 is not 15
_PIECES = re.compile(r"(\d+)|(\D+)")

MOST_CHARACTERS_KEPT = 10_000

SortKey = tuple[tuple[int, int, str], ...]


class _PlainCharacters(dict[int, str]):
    """Code point -> its plain form, so that a long text costs one look-up a character."""

    def __missing__(self, code: int) -> str:
        if len(self) >= MOST_CHARACTERS_KEPT:
            self.clear()
        self[code] = _plain_char(chr(code))
        return self[code]


def _plain_char(char: str) -> str:
    category = unicodedata.category(char)
    if category[0] == "Z" or char in "\t\r\n":
        return " "
    if category == "Nd":
        return str(unicodedata.decimal(char))
    return "" if category[0] == "C" else char


_PLAIN = _PlainCharacters()


def plain_text(text: str) -> str:
    """The text in one Unicode form: no control or direction marks, white space folded, digits 0-9."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    plain = unicodedata.normalize("NFKC", text).translate(_PLAIN)
    return " ".join(unicodedata.normalize("NFKC", plain).split())


@lru_cache(maxsize=4096)
def label_key(text: str) -> str:
    """What two spellings of one label share: "01", "#1" and "Spot 1" give "1"; "t 2" gives "T2", "FS-01" "FS1"."""
    folded = plain_text(text).casefold()
    bare = _PREFIX.sub("", folded)
    joined = _JOINTS.sub("", bare)
    return re.sub(r"\d+", lambda digits: digits[0].lstrip("0") or "0", unicodedata.normalize("NFKC", joined.upper()))


@lru_cache(maxsize=4096)
def sort_key(text: str) -> SortKey:
    """The natural order of labels: 2 before 10, 2 before 2A, digits before letters.

    A piece is (0, length, digits) or (1, 0, letters): without leading zeros the longer number is the greater.
    """
    return tuple(
        (0, len(digits), digits) if digits else (1, 0, letters) for digits, letters in _PIECES.findall(label_key(text))
    )


def stored_sort_key(text: str) -> str:
    """`sort_key` as text whose plain code-point order is the natural order (binary collation)."""
    return "".join(f"0{length:04d}{piece}" if kind == 0 else f"1{piece}\x01" for kind, length, piece in sort_key(text))


@lru_cache(maxsize=4096)
def is_name(text: str) -> bool:
    """Whether the label is a name, with no order: no digits and longer than two letters (Left, Center)."""
    key = label_key(text)
    return len(key) > 2 and not any(char.isdigit() for char in key)
