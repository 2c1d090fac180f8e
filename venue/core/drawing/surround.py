"""What stands around every plan: both sides in whole words, the viewer, what the shapes mean."""

from collections.abc import Sequence
from dataclasses import dataclass

from venue.core.drawing.shapes import Box, Line, Shape, Text, shortened, text_width

MARGIN = 10.0
YOU_HEIGHT, KEY_HEIGHT = 40.0, 44.0
_LINE = 18.0
_WORD = 15.0
_LONGEST_EDGE = 17
"""Half of the narrowest drawing is all there is for a landmark [characters]."""


@dataclass(frozen=True)
class KeyWords:
    """What the shapes of both numbers mean."""

    show_number: str
    house_label: str
    spare: str


def edge_height(*sides: Sequence[str]) -> float:
    """How high the words at both edges stand."""
    return MARGIN + _LINE * max(map(len, sides)) + 6.0


def edge_words(left: Sequence[str], right: Sequence[str], width: float, top: float = 0.0) -> list[Shape]:
    """Whole words at both edges, a line each: the house's name of the side first."""
    shapes: list[Shape] = []
    for texts, x, anchor in ((left, MARGIN, "start"), (right, width - MARGIN, "end")):
        for index, text in enumerate(texts):
            size, kind = (_WORD, "edge-house") if index == 0 else (_WORD - 1.0, "edge-more")
            y = top + MARGIN + _LINE * (index + 0.5)
            shapes.append(Text(x, y, shortened(text, _LONGEST_EDGE), size, kind, anchor))  # type: ignore[arg-type]
    return shapes


def edge_lines(width: float, top: float, bottom: float) -> list[Shape]:
    """A line down either side."""
    return [Line(x, top, x, bottom, "edge") for x in (2.0, width - 2.0)]


def viewer(text: str, width: float, top: float) -> list[Shape]:
    """Who looks, at the bottom of every view."""
    return [Box(width / 2, top + 10.0, 12.0, 12.0, "you-mark", 6.0), Text(width / 2, top + 28.0, text, 15.0, "you")]


def number_key(words: KeyWords, width: float, top: float, *, has_number: bool = True, has_spare: bool) -> list[Shape]:
    """Each shape with its meaning written inside: the pill is the show's, the box the house's."""
    pieces = [(words.show_number, 16.0, 30.0, "number-shape")] if has_number else []
    pieces += [(words.house_label, 13.0, 22.0, "label-shape")]
    pieces += [(words.spare, 13.0, 26.0, "spare-shape")] if has_spare else []
    widths = [text_width(text, size) + 16.0 for text, size, _height, _kind in pieces]
    x = (width - sum(widths) - MARGIN * (len(pieces) - 1)) / 2
    shapes: list[Shape] = []
    for own, (text, size, height, kind) in zip(widths, pieces, strict=True):
        radius = 2.0 if kind == "label-shape" else height / 2
        shapes += [Box(x + own / 2, top + 22.0, own, height, kind, radius)]
        shapes += [Text(x + own / 2, top + 22.0, text, size, "legend")]
        x += own + MARGIN
    return shapes
