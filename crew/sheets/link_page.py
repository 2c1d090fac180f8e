"""A page for the call-board: what a link opens, and its QR code as large as a page has room for.

+-------------------------+
| Nine Paper Boats        |
| Arrival check           |
|        [ QR ]           |
| who scans it may ...    |
| works until ...         |
+-------------------------+
"""

from dataclasses import dataclass

from crew.sheets.call_sheet import MARGIN
from crew.sheets.lettering import BOLD
from crew.sheets.pen import Paper, Paragraph, Pen

SIDE = 320.0


@dataclass(frozen=True)
class LinkPage:
    """`lines` stand above the code, `below` under it, the address at last."""

    title: str
    lines: tuple[str, ...]
    below: tuple[str, ...]
    address: str


def link_page_pdf(page: LinkPage, paper: Paper) -> bytes:
    """The page. The same records give the same bytes."""
    pen, room = Pen(paper, page.title), paper.width - 2 * MARGIN
    y = Paragraph.of(page.title, 24, room, BOLD).draw(pen, MARGIN, MARGIN)
    for line in page.lines:
        y = Paragraph.of(line, 12, room).draw(pen, MARGIN, y + 2)
    pen.code((paper.width - SIDE) / 2, y, SIDE, page.address)
    y += SIDE
    for line in page.below:
        y = Paragraph.of(line, 12, room).draw(pen, MARGIN, y + 4)
    Paragraph.of(page.address, 8, room).draw(pen, MARGIN, y + 8)
    pen.next_page()
    return pen.finished()
