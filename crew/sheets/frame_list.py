"""The frame loading list: each light's frames from 1 on, a box to tick beside each, empty frames said.

| Show 3 · house 2 · FS-02                 |
| As the show counts: frame 1 at ...       |
| [ ]  frame 1   pale pink                 |
| [ ]  frame 2   empty                     |
"""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.core.cards import frames_of
from crew.sheets.blocks import GAP, Block, TextBlock, text_blocks
from crew.sheets.call_sheet import Imprint
from crew.sheets.flow import PAD, Cells, Columns, Piece, Stack
from crew.sheets.lettering import BOLD, REGULAR
from crew.sheets.pages import paper_pdf
from crew.sheets.pen import Paper, Paragraph, Pen
from crew.wording import papers as words

SHARES = (0.06, 0.17, 0.77)
SIZE, BOX = 12.0, 11.0


@dataclass(frozen=True)
class Ticked:
    """A row with a box to tick in its first column."""

    cells: Cells

    @property
    def height(self) -> float:
        return self.cells.height

    def draw(self, pen: Pen, x: float, y: float) -> float:
        pen.box(x + 2, y + PAD + 2, BOX, BOX)
        return self.cells.draw(pen, x, y)


def frames_pdf(sheet: CallSheet, imprint: Imprint, paper: Paper) -> bytes:
    """The list for all lights of the sheet."""

    def fill(room: float, height: float) -> Iterator[Piece]:
        if not sheet.lines:
            yield Piece(TextBlock((Paragraph.of(_("No light is on this sheet."), 11, room),), room))
        for line in sheet.lines:
            yield from _light(line, sheet, room, height)

    return paper_pdf(_("Frame loading list"), sheet, imprint, paper, fill)


def _light(line: SheetLine, sheet: CallSheet, room: float, height: float) -> Iterator[Piece]:
    """One light in one piece where a page has room, its name again on each page where not."""
    head = TextBlock((Paragraph.of(words.light_title(line), 13, room, BOLD),), room, rule=1.5)
    texts = [Paragraph.of(text, 10, room, BOLD) for text in words.counting(line, sheet)]
    rows: list[Block] = [
        *text_blocks(texts, room, height - head.height),
        *_rows(line, sheet, room, height - head.height),
    ]
    if not frames_of(line, sheet):
        rows += [TextBlock((Paragraph.of(words.no_frames(), 10, room),), room)]
    whole = Stack((head, *rows))
    if whole.height <= height:
        yield Piece(whole)
        return
    yield Piece(Stack((head, rows[0])))
    yield from (Piece(row, (head,)) for row in rows[1:])


def _rows(line: SheetLine, sheet: CallSheet, room: float, tallest: float) -> Iterator[Ticked]:
    columns = Columns.of(SHARES, room, SIZE)
    for frame in frames_of(line, sheet):
        name = _("frame %(n)s") % {"n": frame.number}
        row = columns.row(("", name, words.frame_words(frame)), (REGULAR, BOLD, REGULAR))
        yield from (Ticked(part) for part in row.torn(tallest - GAP))
