"""The call sheet as PDF: a head, then a block a light, broken over pages with the head repeated.

+------------------------------------------+
| show, house                   revision 2 |
| day           times                      |
| [TELL ...]                               |
| ( show )  +-house-+  operator            |
| (   3  )  |   2   |  place, unit         |
|           +-------+  channel, frames ... |
| ---------------------------------------- |
| printed, code, page 1 of 2          [QR] |
+------------------------------------------+
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, canonical
from crew.moments import moment
from crew.sheets.blocks import INSET, Block, framed_blocks, text_blocks
from crew.sheets.head import FirstHead, LaterHead
from crew.sheets.lettering import BOLD, REGULAR, UNPRINTABLE, fitting_size, printable
from crew.sheets.light import light_blocks, talk_blocks
from crew.sheets.pen import Paper, Paragraph, Pen
from crew.wording import sheet as words

MARGIN = 36.0
FOOT = 64.0


@dataclass(frozen=True)
class Imprint:
    """What the print adds to the content. `revision` None is a draft, which has no code.

    `printed_at` and `issued_at` are what the house's clocks show; `address` is what the QR code opens.
    """

    printed_at: datetime
    revision: int | None = None
    issued_at: datetime | None = None
    issued_by: str = ""
    code: str = ""
    address: str = ""

    @property
    def title(self) -> str:
        """ "Call sheet, revision 2"."""
        if self.revision is None:
            return _("Call sheet, DRAFT, not issued")
        return _("Call sheet, revision %(n)s") % {"n": self.revision}


def call_sheet_pdf(sheet: CallSheet, imprint: Imprint, paper: Paper, contacts: Sequence[str] = ()) -> bytes:
    """The sheet on paper; `contacts` are lines for who may see them. The same records and print time give the same
    bytes.
    """
    pen = Pen(paper, f"{imprint.title}: {sheet.show}")
    room = paper.width - 2 * MARGIN
    first, later = FirstHead.of(sheet, imprint.title, room), LaterHead.of(sheet, imprint.title, room)
    height = paper.height - MARGIN - FOOT - MARGIN
    tallest = height - max(first.height, later.height)
    blocks = [*_blocks(sheet, room, tallest), *_contact_blocks(contacts, room, tallest)]
    pages = _pages(blocks, height, first.height, later.height)
    for number, on_page in enumerate(pages, start=1):
        head = first if number == 1 else later
        y = head.draw(pen, MARGIN, MARGIN)
        for block in on_page:
            y = block.draw(pen, MARGIN, y)
        draw_foot(pen, imprint, imprint.title, number, len(pages))
        pen.next_page()
    return pen.finished()


def _blocks(sheet: CallSheet, room: float, tallest: float) -> list[Block]:
    """Everything below the head, in blocks that are no taller than a page has room."""
    told = (words.filled(sheet), words.weather(sheet), sheet.notes, words.late_tell(sheet.late_tell))
    facts = [words.clocks(sheet), *words.landmarks(sheet), *told]
    return [
        *framed_blocks(_notice(sheet, room - 2 * INSET), room, tallest),
        *text_blocks((Paragraph.of(fact, 9.5, room) for fact in facts), room, tallest, rule=1.5),
        *(block for line in sheet.lines for block in light_blocks(line, sheet, room, tallest)),
        *talk_blocks(sheet, room, tallest),
        *text_blocks((Paragraph.of(line, 8.5, room) for line in _small_print(sheet)), room, tallest),
    ]


def _contact_blocks(contacts: Sequence[str], room: float, tallest: float) -> list[Block]:
    """How to reach the people, at the end, so that it can be cut off before the sheet is hung up."""
    if not contacts:
        return []
    lines = [
        Paragraph.of(_("Contacts, for dispatch alone: cut off before this is hung up"), 10.5, room, BOLD),
        *(Paragraph.of(line, 9.5, room) for line in contacts),
    ]
    return list(text_blocks(lines, room, tallest, rule=1.5))


def _notice(sheet: CallSheet, room: float) -> Iterator[Paragraph]:
    yield Paragraph.of(words.called_off(sheet), 13, room, BOLD)
    if sheet.notice:
        yield Paragraph.of(words.notice_heading(sheet.notice_kind), 10.5, room, BOLD)
        yield Paragraph.of(sheet.notice, 10, room)


def _small_print(sheet: CallSheet) -> Iterator[str]:
    if UNPRINTABLE in printable(canonical(sheet)):
        legend = _("%(mark)s stands for a character that this print can't show; the phone page shows it.")
        yield legend % {"mark": UNPRINTABLE}
    yield words.caution()


def _pages(blocks: Sequence[Block], room: float, first: float, later: float) -> list[list[Block]]:
    """The blocks page by page, none torn. A long head may leave the first page without any."""
    pages: list[list[Block]] = [[]]
    left = room - first
    for block in blocks:
        if block.height > left:
            pages.append([])
            left = room - later
        pages[-1].append(block)
        left -= block.height
    return pages


def draw_foot(pen: Pen, imprint: Imprint, title: str, number: int, count: int) -> None:
    """The foot of a page: which paper, which page, when printed, and the code to ask whether it is current."""
    top = pen.paper.height - MARGIN - FOOT + 8
    pen.rule(MARGIN, top, pen.paper.width - 2 * MARGIN)
    if imprint.address:
        pen.code(pen.paper.width - MARGIN - FOOT, top + 2, FOOT, imprint.address)
    for index, line in enumerate(_foot_lines(imprint, title, number, count)):
        room = pen.paper.width - 2 * MARGIN - FOOT - 12
        pen.text(MARGIN, top + 14 + index * 12, line, fitting_size(line, REGULAR, 8.5, 5.0, room))


def _foot_lines(imprint: Imprint, title: str, number: int, count: int) -> list[str]:
    page = _("page %(number)s of %(count)s") % {"number": number, "count": count}
    printed = _("printed %(at)s") % {"at": moment(imprint.printed_at)}
    lines = [f"{title} · {page} · {printed}"]
    if imprint.revision is None or imprint.issued_at is None:
        return [*lines, _("A draft: nobody can check it later. Issue it before it goes out.")]
    issued = {"at": moment(imprint.issued_at), "by": imprint.issued_by}
    code = {"code": words.code_in_groups(imprint.code), "address": imprint.address}
    return [
        *lines,
        _("Issued %(at)s by %(by)s") % issued,
        _("Still current? Code %(code)s") % code,
        _("%(address)s") % code,
    ]
