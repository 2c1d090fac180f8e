"""What a page is filled with: blocks that stand on one page in one piece, and text torn into such blocks."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Protocol

from crew.sheets.pen import Paragraph, Pen

GAP = 5.0
INSET = 8.0


class Block(Protocol):
    """Something that stands on one page in one piece."""

    @property
    def height(self) -> float: ...

    def draw(self, pen: Pen, x: float, y: float) -> float:
        """Draw from the top at y; returns where the next block begins."""


@dataclass(frozen=True)
class TextBlock:
    """Paragraphs below one another; over a rule where `rule` is its weight [pt]."""

    texts: tuple[Paragraph, ...]
    room: float
    rule: float = 0.0

    @property
    def height(self) -> float:
        return sum(text.height for text in self.texts) + 2 * GAP

    def draw(self, pen: Pen, x: float, y: float) -> float:
        below = y + GAP
        for text in self.texts:
            below = text.draw(pen, x, below)
        if self.rule:
            pen.rule(x, y + self.height, self.room, self.rule)
        return y + self.height


@dataclass(frozen=True)
class FramedBlock:
    """Paragraphs in a frame."""

    texts: tuple[Paragraph, ...]
    room: float

    @property
    def height(self) -> float:
        return sum(text.height for text in self.texts) + 4 * GAP

    def draw(self, pen: Pen, x: float, y: float) -> float:
        pen.box(x, y + GAP, self.room, self.height - 2 * GAP, weight=1.5)
        below = y + 2 * GAP - 1
        for text in self.texts:
            below = text.draw(pen, x + INSET, below)
        return y + self.height


def text_blocks(texts: Iterable[Paragraph], room: float, tallest: float, rule: float = 0.0) -> Iterator[TextBlock]:
    """The paragraphs in as many blocks as pages need; none where there is no text."""
    return (TextBlock(group, room, rule) for group in torn(texts, tallest - 2 * GAP) if group)


def framed_blocks(texts: Iterable[Paragraph], room: float, tallest: float) -> Iterator[FramedBlock]:
    """As `text_blocks`, each in a frame; the paragraphs leave an `INSET` on both sides."""
    return (FramedBlock(group, room) for group in torn(texts, tallest - 4 * GAP) if group)


def torn(paragraphs: Iterable[Paragraph], tallest: float) -> list[tuple[Paragraph, ...]]:
    """The paragraphs in groups, none taller than `tallest` [pt]: torn between lines where they must be."""
    whole = tuple(paragraph for paragraph in paragraphs if paragraph.lines)
    if sum(paragraph.height for paragraph in whole) <= tallest:
        return [whole]
    groups: list[list[Paragraph]] = [[]]
    left = tallest
    for single in (replace(paragraph, lines=(line,)) for paragraph in whole for line in paragraph.lines):
        if single.height > left and groups[-1]:
            groups.append([])
            left = tallest
        groups[-1].append(single)
        left -= single.height
    return [tuple(group) for group in groups]
