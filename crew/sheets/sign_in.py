"""The sheet on which everybody of a call signs in and out by hand; what is written already is printed.

+------------------------------------------------------------+
| The Weathervane Revue                        Sign-in sheet |
| Lantern Street · Tuesday, March 3, 2026 · Show             |
| name             no. house call    in  meal from until out |
| ---------------------------------------------------------- |
| Ada Quillfeather  1    4   6:30 PM                         |
| ---------------------------------------------------------- |
| page 1 of 2 · printed ...                             [QR] |
+------------------------------------------------------------+
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from crew.moments import moment
from crew.sheets.blocks import Block, TextBlock, text_blocks
from crew.sheets.call_sheet import FOOT, MARGIN, Imprint, draw_foot
from crew.sheets.flow import Cells, Columns, Piece, Stack, pages_of
from crew.sheets.lettering import BOLD, REGULAR
from crew.sheets.pen import Paper, Paragraph, Pen

SHARES = (0.3, 0.07, 0.08, 0.11, 0.11, 0.11, 0.11, 0.11)
SIZE = 10.0
ROW = 30.0
"""High enough to write by hand [pt]."""
FONTS = (BOLD, BOLD, REGULAR, REGULAR, REGULAR, REGULAR, REGULAR, REGULAR)


@dataclass(frozen=True)
class SignInRow:
    """Somebody: number and label as far as there are any; call time; what is written already, else empty."""

    name: str
    number: str
    label: str
    call: str
    came: str = ""
    meal_from: str = ""
    meal_until: str = ""
    left: str = ""


@dataclass(frozen=True)
class SignIn:
    """The sheet. `standing` says which issued call sheet it goes with, and whether that is still current."""

    show: str
    which: str
    times: str
    standing: str
    clocks: str
    rows: tuple[SignInRow, ...]
    imprint: Imprint


@dataclass(frozen=True)
class Ruled:
    """A row to write in: its cells with lines between them."""

    cells: Cells

    @property
    def height(self) -> float:
        return max(self.cells.height, ROW)

    def draw(self, pen: Pen, x: float, y: float) -> float:
        for left in self.cells.lefts[4:]:
            pen.box(x + left - 4, y, 0, self.height, 0.25)
        for left, text in zip(self.cells.lefts, self.cells.texts, strict=True):
            text.draw(pen, x + left, y + (self.height - text.height) / 2)
        pen.rule(x, y + self.height, self.cells.room, 0.5)
        return y + self.height


def sign_in_pdf(sheet: SignIn, paper: Paper) -> bytes:
    """The sheet on paper. The same records and print time give the same bytes."""
    pen = Pen(paper, f"{_title()}: {sheet.show}")
    room = paper.width - 2 * MARGIN
    head = _head(sheet, room)
    columns = Columns.of(SHARES, room, SIZE)
    names = columns.row(_names(), (BOLD,) * len(SHARES), rule=1.5)
    height = paper.height - 2 * MARGIN - FOOT - head.height - names.height
    pages = pages_of(_pieces(sheet, columns, room, height), height)
    for number, blocks in enumerate(pages, start=1):
        y = names.draw(pen, MARGIN, head.draw(pen, MARGIN, MARGIN))
        for block in blocks:
            y = block.draw(pen, MARGIN, y)
        _foot(pen, sheet, number, len(pages))
        pen.next_page()
    return pen.finished()


def _title() -> str:
    return _("Sign-in sheet")


def _names() -> Sequence[str]:
    return (
        *(_("Name"), _("Show no."), _("House label"), _("Call")),
        *(_("In"), _("Meal from"), _("Meal until"), _("Out")),
    )


def _head(sheet: SignIn, room: float) -> Block:
    texts = (
        Paragraph.of(sheet.show, 15, room, BOLD),
        Paragraph.of(f"{_title()} · {sheet.which}", 10, room),
        Paragraph.of(sheet.times, 10, room, BOLD),
        Paragraph.of(f"{sheet.standing} {sheet.clocks}", 8.5, room),
    )
    return TextBlock(tuple(text for text in texts if text.lines), room)


def _pieces(sheet: SignIn, columns: Columns, room: float, height: float) -> Iterator[Piece]:
    if not sheet.rows:
        yield Piece(TextBlock((Paragraph.of(_("Nobody is on the call yet."), 11, room),), room))
    for row in sheet.rows:
        texts = (row.name, row.number, row.label, row.call, row.came, row.meal_from, row.meal_until, row.left)
        for part in columns.row(texts, FONTS).torn(height):
            yield Piece(Ruled(part))
    for _nth in range(_spare(len(sheet.rows), height)):
        yield Piece(Ruled(columns.row(("",) * len(SHARES), FONTS)))
    note = _("Write the time by the house's clocks. Empty lines are for extra hands.")
    yield Piece(Stack(tuple(text_blocks((Paragraph.of(note, 8.5, room),), room, height))))


def _spare(rows: int, height: float) -> int:
    """Empty lines for extra hands: up to four, where the last page has room for them."""
    most = max(1, int((height - 30) // ROW))
    return min(4, most - rows % most)


def _foot(pen: Pen, sheet: SignIn, number: int, count: int) -> None:
    if sheet.imprint.revision is not None:
        draw_foot(pen, sheet.imprint, _title(), number, count)
        return
    top = pen.paper.height - MARGIN - FOOT + 8
    pen.rule(MARGIN, top, pen.paper.width - 2 * MARGIN)
    told = {"number": number, "count": count, "at": moment(sheet.imprint.printed_at)}
    page = _("page %(number)s of %(count)s · printed %(at)s") % told
    pen.text(MARGIN, top + 14, f"{_title()} · {page}", 8.5)
