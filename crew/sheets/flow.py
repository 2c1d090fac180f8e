"""Blocks that run over pages: what stands above a block is said again where it comes to the top of a page."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from crew.sheets.blocks import Block
from crew.sheets.drawn import draw
from crew.sheets.pen import LEADING, Paragraph, Pen
from venue.core.drawing.shapes import Drawing

GUTTER = 6.0
PAD = 2.0


@dataclass(frozen=True)
class Piece:
    """A block, and the heads that go above it at the top of a page."""

    block: Block
    heads: tuple[Block, ...] = ()


@dataclass(frozen=True)
class Space:
    """Nothing, so high."""

    height: float

    def draw(self, _pen: Pen, _x: float, y: float) -> float:
        return y + self.height


@dataclass(frozen=True)
class Stack:
    """Blocks that stay together."""

    blocks: tuple[Block, ...]

    @property
    def height(self) -> float:
        return sum(block.height for block in self.blocks)

    def draw(self, pen: Pen, x: float, y: float) -> float:
        for block in self.blocks:
            y = block.draw(pen, x, y)
        return y


@dataclass(frozen=True)
class Cells:
    """Texts beside one another, each from its own left edge; over a rule where `rule` is its weight [pt].

    `pad` is what stays free above and below them [pt].
    """

    texts: tuple[Paragraph, ...]
    lefts: tuple[float, ...]
    room: float
    rule: float = 0.25
    pad: float = PAD

    @property
    def height(self) -> float:
        tallest = max(text.height for text in self.texts)
        return tallest + 2 * self.pad if tallest else 0.0

    def draw(self, pen: Pen, x: float, y: float) -> float:
        for left, text in zip(self.lefts, self.texts, strict=True):
            text.draw(pen, x + left, y + self.pad)
        if self.rule:
            pen.rule(x, y + self.height, self.room, self.rule)
        return y + self.height

    def torn(self, tallest: float) -> Iterator["Cells"]:
        """The same in as many rows as their height asks for; nearly always itself."""
        most = max(1, int((tallest - 2 * self.pad) / max(text.size * LEADING for text in self.texts)))
        longest = max(len(text.lines) for text in self.texts)
        if longest <= most:
            yield self
            return
        for start in range(0, longest, most):
            texts = (replace(text, lines=text.lines[start : start + most]) for text in self.texts)
            yield replace(self, texts=tuple(texts))


Setter = Callable[[str, float, float, str], Paragraph]
"""Sets a text in a size, a room and a font, as `Paragraph.of` does; one that remembers saves most of the time."""


@dataclass(frozen=True)
class Columns:
    """Where the columns of a table stand, by the shares of their widths, and how their texts are set."""

    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    room: float
    size: float
    setter: Setter

    @classmethod
    def of(cls, shares: Sequence[float], room: float, size: float, setter: Setter = Paragraph.of) -> "Columns":
        widths = [room * share / sum(shares) for share in shares]
        return cls(tuple(sum(widths[:index]) for index in range(len(widths))), tuple(widths), room, size, setter)

    def row(self, texts: Iterable[str], fonts: Sequence[str], rule: float = 0.25) -> Cells:
        """One row, each text in its column's font."""
        triples = zip(texts, self.widths, fonts, strict=True)
        cells = (self.setter(text, self.size, width - GUTTER, font) for text, width, font in triples)
        return Cells(tuple(cells), self.lefts, self.room, rule)


@dataclass(frozen=True)
class Picture:
    """A drawing across the room, no taller than its height."""

    drawing: Drawing
    room: float
    height: float

    @classmethod
    def of(cls, drawing: Drawing, room: float, tallest: float) -> "Picture":
        return cls(drawing, room, min(tallest, drawing.height * room / drawing.width))

    def draw(self, pen: Pen, x: float, y: float) -> float:
        draw(pen, self.drawing, x, y, self.room, self.height)
        return y + self.height


def pages_of(pieces: Iterable[Piece], room: float) -> list[list[Block]]:
    """The blocks page by page, none torn; no piece is taller than a page with its heads."""
    pages: list[list[Block]] = [[]]
    left = room
    for piece in pieces:
        if piece.block.height > left and pages[-1]:
            pages.append(list(piece.heads))
            left = room - sum(head.height for head in piece.heads)
        pages[-1].append(piece.block)
        left -= piece.block.height
    return pages
