"""Tapes for the lights: the show number two inches high, the rest small beside it, to be cut out along the frame.

+---------------------------------+
|  ####     house 22              |
|     #     FS-03                 |
|  ####     Channel B             |
|     #     Home: down center     |
|  ####     Ada                   |
+---------------------------------+
"""

from collections.abc import Iterator

from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.moments import moment
from crew.sheets.call_sheet import Imprint
from crew.sheets.lettering import BOLD, REGULAR, printable, width
from crew.sheets.pen import Paper, Paragraph, Pen
from crew.wording import papers as words
from crew.wording import sheet as sheet_words

MARGIN, INSET = 36.0, 12.0
A_PAGE = 4
CAP = 0.729
"""How high a figure of the bold font is, as a share of its size (measured: 1493 of 2048 units)."""
LEAST_HIGH = 144.0
SIZE = LEAST_HIGH / CAP + 1.0
NUMBER_ROOM = 330.0
NARROWEST = 0.4
"""A long number is drawn narrower down to this, and only then less high."""


def tapes_pdf(sheet: CallSheet, imprint: Imprint, paper: Paper) -> bytes:
    """A tape for every light of the sheet, in its order. The same records give the same bytes."""
    title = words.revision(_("Tapes"), imprint.revision)
    pen = Pen(paper, f"{title}: {sheet.show}")
    if not sheet.lines:
        pen.text(MARGIN, MARGIN + 14, _("No light is on this sheet."), 11)
    for index, line in enumerate(sheet.lines):
        if index and not index % A_PAGE:
            pen.next_page()
        _draw(pen, line, _mark(sheet, imprint), index % A_PAGE)
    pen.next_page()
    return pen.finished()


def _mark(sheet: CallSheet, imprint: Imprint) -> str:
    """By which revision the tape was made, and what to ask whether it still holds."""
    said = {"show": sheet.show, "n": imprint.revision, "code": sheet_words.code_in_groups(imprint.code)}
    printed = _("printed %(at)s") % {"at": moment(imprint.printed_at)}
    return _("%(show)s · revision %(n)s · code %(code)s") % said + f" · {printed}"


def _draw(pen: Pen, line: SheetLine, mark: str, at: int) -> None:
    height = (pen.paper.height - 2 * MARGIN) / A_PAGE
    top, room = MARGIN + at * height, pen.paper.width - 2 * MARGIN
    pen.box(MARGIN, top, room, height, weight=0.5)
    _draw_number(pen, line.number, MARGIN + INSET, top + height / 2 + LEAST_HIGH / 2)
    left = MARGIN + INSET + NUMBER_ROOM + INSET
    rest = room - NUMBER_ROOM - 3 * INSET
    below = top + INSET
    for text, size, font in _texts(line):
        paragraph = Paragraph.of(text, size, rest, font)
        below = Paragraph(paragraph.lines[:2], size, font).draw(pen, left, below)
    small = Paragraph.of(mark, 6.0, rest)
    small.draw(pen, left, top + height - 6 - small.height)


def _draw_number(pen: Pen, number: str, x: float, baseline: float) -> None:
    """Two inches high; narrower, and at last smaller, where it is long."""
    text = printable(number, BOLD)
    natural = max(width(text, BOLD, SIZE), 1.0)
    narrow = max(NARROWEST, min(1.0, NUMBER_ROOM / natural))
    size = min(SIZE, SIZE * NUMBER_ROOM / (natural * narrow))
    pen.canvas.saveState()
    pen.canvas.translate(x, pen.paper.height - baseline)
    pen.canvas.scale(narrow, 1.0)
    pen.canvas.setFont(BOLD, size)
    pen.canvas.drawString(0, 0, text)
    pen.canvas.restoreState()


def _texts(line: SheetLine) -> Iterator[tuple[str, float, str]]:
    looks = ((16, BOLD), (20, BOLD), (13, REGULAR), (12, REGULAR))
    yield from ((text, size, font) for text, (size, font) in zip(words.on_tape(line), looks, strict=True))
