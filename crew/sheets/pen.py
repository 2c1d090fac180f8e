"""A pen over the PDF canvas that measures downward from the top of the page, in points."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from itertools import groupby

import segno
from reportlab.pdfgen.canvas import Canvas

from crew.sheets.lettering import REGULAR, printable, wrapped

LEADING = 1.25
"""From one line of text to the next, as a multiple of the type size."""


OVERLAP = 1.04
"""Rows of a code reach a little into one another: no white seam on screens and printers that soften edges."""
QUIET = 4
"""So many light modules all round it (ISO/IEC 18004)."""
MASK = 0
"""A checkerboard over the code: no large patch stays dark or light."""


@dataclass(frozen=True)
class Paper:
    """A sheet of paper, portrait [pt]."""

    name: str
    width: float
    height: float


LETTER = Paper("letter", 612.0, 792.0)
A4 = Paper("a4", 595.2756, 841.8898)
HALF = Paper("half", 396.0, 612.0)
"""Half a Letter sheet, for a card at the lamp."""
PAPERS = {paper.name: paper for paper in (LETTER, A4)}


class Pen:
    """Black on white. Coordinates run from the paper's top left corner, y downward."""

    def __init__(self, paper: Paper, title: str) -> None:
        self.paper = paper
        self._bytes = BytesIO()
        self._canvas = Canvas(self._bytes, pagesize=(paper.width, paper.height), invariant=1, pageCompression=1)
        self._canvas.setTitle(title)
        self._canvas.setCreator("Throwbook")

    @property
    def canvas(self) -> Canvas:
        """For a drawing, which needs more than these strokes; y upward from the paper's bottom left corner."""
        return self._canvas

    def text(self, x: float, y: float, text: str, size: float, font: str = REGULAR) -> None:
        """One line whose baseline is at y."""
        self._canvas.setFont(font, size)
        self._canvas.drawString(x, self.paper.height - y, printable(text, font))

    def text_right(self, x: float, y: float, text: str, size: float, font: str = REGULAR) -> None:
        """One line that ends at x."""
        self._canvas.setFont(font, size)
        self._canvas.drawRightString(x, self.paper.height - y, printable(text, font))

    def text_centered(self, x: float, y: float, text: str, size: float, font: str = REGULAR) -> None:
        """One line centered on x."""
        self._canvas.setFont(font, size)
        self._canvas.drawCentredString(x, self.paper.height - y, printable(text, font))

    def rule(self, x: float, y: float, length: float, weight: float = 0.5) -> None:
        """A level line to the right of x."""
        self._canvas.setLineWidth(weight)
        self._canvas.line(x, self.paper.height - y, x + length, self.paper.height - y)

    def box(self, x: float, y: float, width: float, height: float, weight: float = 1.0, radius: float = 0.0) -> None:
        """A frame whose top left corner is (x, y)."""
        self._canvas.setLineWidth(weight)
        self._canvas.roundRect(x, self.paper.height - y - height, width, height, radius)

    def code(self, x: float, y: float, side: float, address: str) -> None:
        """A QR code of the address with its quiet zone, in a square of the side [pt].

        The mask is always the same: readers find it in the code (ISO/IEC 18004), and to weigh all eight takes longer
        than the rest of a page. All runs of dark modules are one stroke of the pen, in modules from the top left.
        """
        matrix = list(segno.make(address, error="m", micro=False, mask=MASK).matrix_iter(border=QUIET))
        module = side / len(matrix)
        runs = (f"{at} {row} {length} {OVERLAP} re" for row, cells in enumerate(matrix) for at, length in _dark(cells))
        self._canvas.saveState()
        self._canvas.transform(module, 0, 0, -module, x, self.paper.height - y)
        self._canvas.addLiteral("\n".join([*runs, "f"]))
        self._canvas.restoreState()

    def next_page(self) -> None:
        self._canvas.showPage()

    def finished(self) -> bytes:
        """The PDF; the same bytes for the same strokes."""
        self._canvas.save()
        return self._bytes.getvalue()


def _dark(cells: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Where each run of dark modules in a row starts, and how long it is."""
    column = 0
    for is_dark, run in groupby(cells, key=bool):
        length = len(list(run))
        if is_dark:
            yield column, length
        column += length


@dataclass(frozen=True)
class Paragraph:
    """A text wrapped to its room, ready to be measured and drawn."""

    lines: tuple[str, ...]
    size: float
    font: str = REGULAR

    @classmethod
    def of(cls, text: str, size: float, room: float, font: str = REGULAR) -> "Paragraph":
        return cls(tuple(wrapped(text, font, size, room)), size, font)

    @property
    def height(self) -> float:
        """From the top of the first line to the top of what follows [pt]."""
        return len(self.lines) * self.size * LEADING

    def draw(self, pen: Pen, x: float, y: float) -> float:
        """Draw from the top at y; returns where the next may begin."""
        for index, line in enumerate(self.lines):
            pen.text(x, y + self.size + index * self.size * LEADING, line, self.size, self.font)
        return y + self.height
