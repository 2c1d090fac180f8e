"""The caller's chart: every light where it stands, its number large, its operator and label below.

+------------------------------------------+
| HOUSE LEFT                   HOUSE RIGHT |
| [================ STAGE ===============] |
| Rear booth                               |
|   1       2        3        4            |
|  Ada    Mira     Zofia   TO FILL         |
+------------------------------------------+
"""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.chart import Band, Chart, Lights, chart_of
from crew.sheets.blocks import Block, TextBlock
from crew.sheets.call_sheet import Imprint
from crew.sheets.flow import Piece
from crew.sheets.lettering import BOLD, fitting_size
from crew.sheets.pages import paper_pdf
from crew.sheets.pen import LEADING, Paper, Paragraph, Pen
from crew.wording import papers as words
from crew.wording import sheet as sheet_words

MOST_ACROSS = 8
NUMBER, PAD, GUTTER = 24.0, 5.0, 6.0


@dataclass(frozen=True)
class Cell:
    """One light: number, operator, house label and unit, each centered."""

    texts: tuple[Paragraph, ...]
    width: float

    @classmethod
    def of(cls, line: SheetLine, sheet: CallSheet, width: float) -> "Cell":
        room = width - GUTTER
        size = fitting_size(line.number, BOLD, NUMBER, 7.0, room)
        where = " · ".join(
            filter(None, [_("house %(label)s") % {"label": line.label} if line.label else "", line.unit])
        )
        texts = (
            Paragraph.of(line.number, size, room, BOLD),
            Paragraph.of(sheet_words.operator(line.operator, sheet), 8.5, room, BOLD),
            Paragraph.of(where, 7.5, room),
        )
        return cls(texts, width)

    @property
    def height(self) -> float:
        return sum(text.height for text in self.texts) + 2 * PAD

    def draw(self, pen: Pen, x: float, y: float) -> None:
        below = y + PAD
        for text in self.texts:
            for index, line in enumerate(text.lines):
                baseline = below + text.size + index * text.size * LEADING
                pen.text_centered(x + self.width / 2, baseline, line, text.size, text.font)
            below += text.height


@dataclass(frozen=True)
class Across:
    """Cells beside one another, each from its left edge; None leaves its place empty."""

    cells: tuple[Cell | None, ...]
    lefts: tuple[float, ...]

    @property
    def height(self) -> float:
        return max(cell.height for cell in self.cells if cell)

    def draw(self, pen: Pen, x: float, y: float) -> float:
        for cell, left in zip(self.cells, self.lefts, strict=True):
            if cell:
                cell.draw(pen, x + left, y)
        return y + self.height


@dataclass(frozen=True)
class Stage:
    """The stage as a bar, or the two sides over the edges."""

    word: str
    right: str
    room: float
    is_framed: bool = True
    height: float = 30.0

    def draw(self, pen: Pen, x: float, y: float) -> float:
        if self.is_framed:
            pen.box(x, y + 3, self.room, self.height - 6, weight=2.5)
            pen.text_centered(x + self.room / 2, y + 19, self.word, 12, BOLD)
        else:
            pen.text(x, y + 15, self.word, 10, BOLD)
            pen.text_right(x + self.room, y + 15, self.right, 10, BOLD)
        return y + self.height


def chart_pdf(sheet: CallSheet, imprint: Imprint, paper: Paper, *, is_turned: bool = False) -> bytes:
    """The chart on paper, turned by 180 degrees if so asked."""
    chart = chart_of(sheet).turned if is_turned else chart_of(sheet)

    def fill(room: float, _height: float) -> Iterator[Piece]:
        edges = Stage(*words.corners(is_turned), room, is_framed=False, height=22.0)
        yield Piece(TextBlock((Paragraph.of(words.view(is_turned), 11, room, BOLD),), room))
        yield Piece(edges)
        yield from (Piece(block, (edges,)) for block in _blocks(chart, sheet, room))

    return paper_pdf(_("Caller's chart"), sheet, imprint, paper, fill)


def _blocks(chart: Chart, sheet: CallSheet, room: float) -> Iterator[Block]:
    for band in chart.above:
        yield from _band(band, sheet, room)
    yield Stage(_("STAGE"), "", room)
    for band in chart.below:
        yield from _band(band, sheet, room)
    if chart.placeless:
        yield TextBlock((Paragraph.of(_("No place yet"), 10, room, BOLD),), room)
        yield from _rows(chart.placeless, sheet, room)
    if sheet.caller:
        yield TextBlock((Paragraph.of(_("Caller: %(who)s") % {"who": sheet.caller}, 10, room),), room)


def _band(band: Band, sheet: CallSheet, room: float) -> Iterator[Block]:
    is_long = len(band.lights) > MOST_ACROSS
    said = [*words.band_notes(band), *([_("Read line by line, from left to right.")] if is_long else [])]
    notes = (Paragraph.of(note, 8, room) for note in said)
    yield TextBlock((Paragraph.of(band.name, 10, room, BOLD), *notes), room, rule=0.75)
    yield from _columns(band, sheet, room) if band.kind == "sides" else _rows(band.lights, sheet, room)


def _rows(lights: Lights, sheet: CallSheet, room: float) -> Iterator[Block]:
    """From left to right, evenly; a row too long for the paper goes on in the next line."""
    across = min(len(lights), MOST_ACROSS)
    width = room / across
    for start in range(0, len(lights), across):
        part = lights[start : start + across]
        lefts = tuple(width * index for index in range(len(part)))
        yield Across(tuple(Cell.of(line, sheet, width) for line in part), lefts)


def _columns(band: Band, sheet: CallSheet, room: float) -> Iterator[Block]:
    """House left at one edge, house right at the other, what stands on the center line between."""
    width = room / 3
    for row in band.rows:
        cells = tuple(Cell.of(line, sheet, width) if line else None for line in row)
        yield Across(cells, (0.0, width, 2 * width))
