"""Operator cards: a light a card, its number as large as the paper allows, the rest in the order of need.

+-----------------------------+
|  3        house 2           |
|           Ada Quillfeather  |
|  Rear booth, place 2, FS-02 |
|  house left · stage right   |
|  Facing the stage: ...      |
|  Call 6:30 PM · ...         |
|  Channel B   Home ...       |
|  CAUTION: ...               |
|  Frames: 1 ...              |
|  revision, code        [QR] |
+-----------------------------+
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.sheets.blocks import Block, TextBlock, torn
from crew.sheets.call_sheet import FOOT, MARGIN, Imprint, draw_foot
from crew.sheets.flow import Piece, pages_of
from crew.sheets.lettering import BOLD, REGULAR, fitting_size
from crew.sheets.pen import LEADING, Paper, Paragraph, Pen
from crew.wording import papers as words
from crew.wording import sheet as sheet_words

NUMBER_PT, LEAST_PT = 120.0, 14.0
NUMBER_SHARE = 0.55
"""So much of the width the number may take."""
FIGURE = 0.76
"""How high a figure is, with a little air, as a share of its size."""


@dataclass(frozen=True)
class CardHead:
    """The show number, and beside it the house label and who runs the light."""

    number: Paragraph
    beside: tuple[Paragraph, ...]
    room: float

    @classmethod
    def of(cls, line: SheetLine, sheet: CallSheet, room: float) -> "CardHead":
        share = room * NUMBER_SHARE
        size = fitting_size(line.number, BOLD, NUMBER_PT, LEAST_PT, share)
        rest = room - share - 12
        beside = (
            Paragraph.of(_("SHOW NUMBER"), 9, rest),
            Paragraph.of(_("house label %(label)s") % {"label": sheet_words.house_label(line)}, 15, rest, BOLD),
            Paragraph.of(sheet_words.operator(line.operator, sheet), 15, rest, BOLD),
            Paragraph.of(sheet.show, 10, rest),
            Paragraph.of(f"{sheet.house} · {sheet_words.day(sheet.starts)}", 9, rest),
        )
        return cls(Paragraph.of(line.number, size, share, BOLD), beside, room)

    @property
    def height(self) -> float:
        return max(self.number.height - self._slack, sum(text.height for text in self.beside)) + 8

    @property
    def _slack(self) -> float:
        """What the line of a number leaves free above and below its figures [pt]."""
        return self.number.size * (LEADING - FIGURE)

    def draw(self, pen: Pen, x: float, y: float) -> float:
        self.number.draw(pen, x, y - self.number.size * (1 - FIGURE))
        below = y
        for text in self.beside:
            below = text.draw(pen, x + self.room * NUMBER_SHARE + 12, below)
        pen.rule(x, y + self.height - 3, self.room, 2.0)
        return y + self.height


def cards_pdf(sheet: CallSheet, lines: Sequence[SheetLine], imprint: Imprint, paper: Paper) -> bytes:
    """A card for each of the lines. The same records and print time give the same bytes."""
    title = words.revision(_("Operator card"), imprint.revision)
    pen = Pen(paper, f"{title}: {sheet.show}")
    room = paper.width - 2 * MARGIN
    height = paper.height - 3 * MARGIN / 2 - FOOT
    pages = [page for line in lines for page in _card(line, sheet, room, height)]
    for number, blocks in enumerate(pages, start=1):
        y = MARGIN
        for block in blocks:
            y = block.draw(pen, MARGIN, y)
        draw_foot(pen, imprint, title, number, len(pages))
        pen.next_page()
    if not pages:
        pen.text(MARGIN, MARGIN + 14, _("No light is on this sheet."), 11)
        draw_foot(pen, imprint, title, 1, 1)
        pen.next_page()
    return pen.finished()


def _card(line: SheetLine, sheet: CallSheet, room: float, height: float) -> list[list[Block]]:
    """The pages of one card: nearly always one; the number stands on each."""
    head = CardHead.of(line, sheet, room)
    texts = [Paragraph.of(text, size, room, font) for text, size, font in _texts(line, sheet)]
    blocks = (TextBlock(group, room) for group in torn(texts, height - head.height - 10) if group)
    return pages_of([Piece(head), *(Piece(block, (head,)) for block in blocks)], height)


def _texts(line: SheetLine, sheet: CallSheet) -> Iterator[tuple[str, float, str]]:
    """Text, size and font, in the order in which an operator needs them."""
    yield sheet_words.called_off(sheet), 14, BOLD
    yield words.where(line), 14, BOLD
    yield line.side, 12, BOLD
    yield words.beside_line(line), 12, BOLD
    for what, when, at in sheet_words.times(sheet):
        yield f"{what}: {when}" + (f", {at}" if at else ""), 12, REGULAR
    yield sheet_words.own_call(line.own_call, sheet), 13, BOLD
    yield sheet_words.clocks(sheet), 8, REGULAR
    yield sheet_words.late_tell(sheet.late_tell), 10, REGULAR
    yield sheet_words.needs(line), 11, BOLD
    for name, said in words.facts(line, sheet):
        yield f"{name}: {said}", 12, REGULAR
    for sentence in words.cautions(line):
        yield sentence, 11, BOLD
    frames = words.frames_line(line, sheet)
    yield (_("Frames: %(what)s") % {"what": frames} if frames else ""), 11, REGULAR
    for sentence in words.counting(line, sheet):
        yield sentence, 10, REGULAR
    yield sheet_words.caution(), 8, REGULAR
