"""Setting text: the fonts, what they can print, wrapping, fitting."""

import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR, BOLD = "ThrowbookSans", "ThrowbookSans-Bold"
UNPRINTABLE = "\N{REPLACEMENT CHARACTER}"
"""Stands, in sight, for a character that the fonts lack."""

_FILES = {REGULAR: "DejaVuSans.ttf", BOLD: "DejaVuSans-Bold.ttf"}
_FOLDER = Path(__file__).parent / "fonts"


@cache
def _font(name: str) -> TTFont:
    """The font, read once and made known to the PDF writer."""
    font = TTFont(name, str(_FOLDER / _FILES[name]))
    pdfmetrics.registerFont(font)
    return font


def printable(text: str, font: str = REGULAR) -> str:
    """The text on one line, in composed letters; what the font lacks becomes `UNPRINTABLE`, a mark a character."""
    text = " ".join(text.split())
    if text.isascii() and text.isprintable():
        return text  # the usual case: in every font, composed, nothing unseen
    known = _font(font).face.charToGlyph
    composed = unicodedata.normalize("NFC", text)
    return "".join(char if ord(char) in known else UNPRINTABLE for char in composed if _is_seen(char))


def _is_seen(char: str) -> bool:
    """Marks of direction, joiners and controls leave nothing on paper."""
    return unicodedata.category(char) not in {"Cf", "Cc"}


def width(text: str, font: str, size: float) -> float:
    """How wide the text is set [pt]."""
    _font(font)
    return float(pdfmetrics.stringWidth(text, font, size))


def wrapped(text: str, font: str, size: float, room: float) -> list[str]:
    """The text, made printable, in lines no wider than the room [pt]; a longer word is broken. Empty: none."""
    words = printable(text, font).split()
    whole = " ".join(words)
    if whole and width(whole, font, size) <= room:
        return [whole]  # the usual case, measured once instead of word by word
    lines: list[str] = []
    for word in words:
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width(joined, font, size) <= room:
            lines[-1] = joined
        else:
            lines.extend(_pieces(word, font, size, room))
    return lines


def _pieces(word: str, font: str, size: float, room: float) -> Iterator[str]:
    piece = ""
    for char in word:
        if piece and width(piece + char, font, size) > room:
            yield piece
            piece = ""
        piece += char
    yield piece


def fitting_size(text: str, font: str, largest: float, smallest: float, room: float) -> float:
    """The largest size [pt] at which the printable text fits the room on one line, but no smaller than `smallest`."""
    natural = width(printable(text, font), font, largest)
    return max(smallest, min(largest, largest * room / natural)) if natural else largest
