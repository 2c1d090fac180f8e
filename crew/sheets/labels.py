"""Labels for units and places: so many a page, each to be cut out along its frame.

+--------------------------+
| FS-01              [QR ] |
| Quillmark Hall     [   ] |
| ACDE-FGH-JKMN      [   ] |
+--------------------------+
"""

from collections.abc import Sequence
from dataclasses import dataclass

from crew.sheets.lettering import BOLD
from crew.sheets.pen import Paper, Paragraph, Pen

MARGIN = 36.0
COLUMNS, ROWS = 2, 6
INSET = 10.0
LARGEST, SMALLEST = 30.0, 9.0
MOST_LINES = 3
A_PAGE = COLUMNS * ROWS


@dataclass(frozen=True)
class Label:
    """`name` is what it is called now, set large; `kind` what it is; `code` in groups; `address` what the QR opens."""

    name: str
    kind: str
    house: str
    code: str
    address: str


def labels_pdf(labels: Sequence[Label], title: str, paper: Paper) -> bytes:
    """The labels on as many pages as they need. The same labels give the same bytes."""
    pen = Pen(paper, title)
    width, height = (paper.width - 2 * MARGIN) / COLUMNS, (paper.height - 2 * MARGIN) / ROWS
    for index, label in enumerate(labels):
        row, column = divmod(index % A_PAGE, COLUMNS)
        if index and not index % A_PAGE:
            pen.next_page()
        _draw(pen, label, MARGIN + column * width, MARGIN + row * height, width, height)
    pen.next_page()
    return pen.finished()


def _draw(pen: Pen, label: Label, x: float, y: float, width: float, height: float) -> None:
    side = height - 2 * INSET
    room = width - side - 2 * INSET
    pen.box(x, y, width, height, weight=0.5)
    pen.code(x + width - side - INSET / 2, y + INSET, side, label.address)
    below = _name(label.name, room).draw(pen, x + INSET, y + INSET)
    small = Paragraph.of(label.house, 9.5, room)
    below = Paragraph(small.lines[:2], small.size).draw(pen, x + INSET, below + 4)
    Paragraph.of(label.kind, 8.5, room).draw(pen, x + INSET, below)
    Paragraph.of(label.code, 10, room, BOLD).draw(pen, x + INSET, y + height - INSET - 13)


def _name(name: str, room: float) -> Paragraph:
    """As large as it fits in few lines, without breaking a word while that is legible."""
    size = LARGEST
    while size > SMALLEST:
        text = Paragraph.of(name, size, room, BOLD)
        if len(text.lines) * size <= LARGEST * 1.4 and len(text.lines) <= MOST_LINES and _keeps_words(name, text):
            return text
        size -= 1.0
    text = Paragraph.of(name, SMALLEST, room, BOLD)
    return Paragraph(text.lines[:4], SMALLEST, BOLD)


def _keeps_words(name: str, text: Paragraph) -> bool:
    return " ".join(text.lines).split() == name.split()
