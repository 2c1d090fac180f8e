"""A paper of a call whose pages have the sheet's head in short and the sheet's foot."""

from collections.abc import Callable, Iterable

from crew.core.call_sheet import CallSheet
from crew.sheets.call_sheet import FOOT, MARGIN, Imprint, draw_foot
from crew.sheets.flow import Piece, pages_of
from crew.sheets.head import LaterHead
from crew.sheets.pen import Paper, Pen
from crew.wording.papers import revision

Filled = Callable[[float, float], Iterable[Piece]]
"""Makes the pieces for so much room across and down a page [pt]."""


def paper_pdf(name: str, sheet: CallSheet, imprint: Imprint, paper: Paper, fill: Filled) -> bytes:
    """The paper of that name. The same records and print time give the same bytes."""
    title = revision(name, imprint.revision)
    pen = Pen(paper, f"{title}: {sheet.show}")
    room = paper.width - 2 * MARGIN
    head = LaterHead.of(sheet, title, room)
    height = paper.height - 2 * MARGIN - FOOT - head.height
    pages = pages_of(fill(room, height), height)
    for number, blocks in enumerate(pages, start=1):
        y = head.draw(pen, MARGIN, MARGIN)
        for block in blocks:
            y = block.draw(pen, MARGIN, y)
        draw_foot(pen, imprint, title, number, len(pages))
        pen.next_page()
    return pen.finished()
