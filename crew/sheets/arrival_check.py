"""The arrival check as PDF: who signed, place after place with what was found, what was not looked at, the signatures.

+---------------------------------------------+
| Nine Paper Boats                            |
| Arrival check · Quillmark Hall · Mar 2 – 8  |
| [NOT SIGNED for the house ...]              |
| ( show )  +-house-+  Rear booth, place 2    |
| (   3  )  |   2   |  FAILS: headset         |
| item      found   by, when         note     |
| Strike    passes  Ada, Mar 2, ...           |
| ------------------------------------------- |
| page 1 of 3, printed, check code            |
+---------------------------------------------+
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cache

from django.utils.translation import gettext as _

from crew.core.arrival_paper import ArrivalPaper, PaperItem, PaperPlace, short_code
from crew.moments import moment
from crew.sheets.blocks import GAP, INSET, Block, framed_blocks, text_blocks, torn
from crew.sheets.call_sheet import MARGIN
from crew.sheets.flow import Cells, Columns, Piece, Stack, pages_of
from crew.sheets.head import LaterHead
from crew.sheets.lettering import BOLD, REGULAR, UNPRINTABLE, fitting_size, printable
from crew.sheets.light import TEXT_FROM, LightBlock, Mark
from crew.sheets.pen import Paper, Paragraph, Pen
from crew.wording import arrival_paper as words
from crew.wording.sheet import caution

FOOT = 34.0
ITEM_SHARES = (0.35, 0.085, 0.285, 0.28)
ITEM_SIZE, ITEM_PAD, TEXT_SIZE = 7.5, 1.0, 9.5
NO_NUMBER = "—"


def arrival_check_pdf(check: ArrivalPaper, paper: Paper) -> bytes:
    """The check on paper. The same records give the same bytes."""
    pen = Pen(paper, f"{words.title()}: {check.show}")
    room = paper.width - 2 * MARGIN
    head = _head(check, room)
    tallest = paper.height - 2 * MARGIN - FOOT - head.height
    pages = pages_of(_pieces(check, room, tallest), tallest)
    for number, blocks in enumerate(pages, start=1):
        y = head.draw(pen, MARGIN, MARGIN)
        for block in blocks:
            y = block.draw(pen, MARGIN, y)
        _draw_foot(pen, check, number, len(pages))
        pen.next_page()
    return pen.finished()


def _head(check: ArrivalPaper, room: float) -> LaterHead:
    which = f"{words.title()} · {check.house} · {check.days}"
    return LaterHead((Paragraph.of(check.show, 15, room, BOLD), Paragraph.of(which, TEXT_SIZE, room)), room)


def _pieces(check: ArrivalPaper, room: float, tallest: float) -> Iterator[Piece]:
    """Everything below the head, in its order."""
    within = room - 2 * INSET
    standing = [Paragraph.of(check.standing, 12, within, BOLD), Paragraph.of(check.answer, 10.5, within)]
    yield from map(Piece, framed_blocks(standing, room, tallest))
    for place in check.places:
        yield from _place(place, room, tallest)
    yield from _section(_("In the way tonight"), check.in_the_way or [_nothing_in_the_way()], room, tallest)
    yield from _section(_("Faults that this check opened"), check.faults or [_("None.")], room, tallest)
    yield from _section(_("Not checked"), check.not_checked or [_("Nothing is left.")], room, tallest)
    yield from _signatures(check, room, tallest)
    yield from map(Piece, text_blocks(_texts(_small_print(check), 8.5, room), room, tallest))


def _nothing_in_the_way() -> str:
    return _("Nothing is noted. That does not say that nothing is.")


def _place(place: PaperPlace, room: float, tallest: float) -> Iterator[Piece]:
    """One place in one piece where a page has room; else torn between items, its name again on each page."""
    head, again = _place_head(place, room, tallest), _again(place, room)
    rows = [*_items(place.items, room, tallest / 2)]
    rest = text_blocks(_texts([place.not_checked], ITEM_SIZE + 1, room, BOLD), room, tallest / 2)
    blocks: list[Block] = [*head, *rows, *rest]
    whole = Stack(tuple(blocks))
    if whole.height <= tallest:
        yield Piece(whole)
        return
    yield from (Piece(block, () if block in head else (again,)) for block in blocks)


def _place_head(place: PaperPlace, room: float, tallest: float) -> list[LightBlock]:
    number, label = Mark.of_number(place.number or NO_NUMBER), Mark.of_label(place.label)
    beside = room - TEXT_FROM
    texts = [
        Paragraph.of(place.where, 11, beside, BOLD),
        Paragraph.of(place.state, TEXT_SIZE, beside, BOLD),
        *_texts(place.told, TEXT_SIZE, beside),
        *_texts(place.cautions, 8.5, beside, BOLD),
    ]
    return [LightBlock(room, number, label, some) for some in torn(texts, tallest / 2 - 2 * GAP)]


def _again(place: PaperPlace, room: float) -> Cells:
    said = _("%(place)s, continued") % {"place": place.where}
    return Cells((Paragraph.of(said, TEXT_SIZE, room, BOLD),), (0.0,), room)


def _items(items: Sequence[PaperItem], room: float, tallest: float) -> Iterator[Cells]:
    """What was found item by item, under the columns' names; what fails in heavy type."""
    columns = Columns.of(ITEM_SHARES, room, ITEM_SIZE, cache(Paragraph.of))
    if items:
        yield replace(columns.row(words.item_columns(), (REGULAR,) * 4, rule=0.5), pad=ITEM_PAD)
    for item in items:
        font = BOLD if item.is_failed else REGULAR
        row = columns.row((item.title, item.result, item.who, item.note), (font, font, REGULAR, font))
        yield from replace(row, pad=ITEM_PAD).torn(tallest)


def _section(title: str, lines: Iterable[str], room: float, tallest: float) -> Iterator[Piece]:
    heading = Paragraph.of(title, 12, room, BOLD)
    return map(Piece, text_blocks([heading, *_texts(lines, TEXT_SIZE, room)], room, tallest, rule=0.5))


def _signatures(check: ArrivalPaper, room: float, tallest: float) -> Iterator[Piece]:
    lines = [Paragraph.of(_("Signatures"), 12, room, BOLD)]
    for each in check.signatures:
        font = REGULAR if each.is_signed else BOLD
        lines.append(Paragraph.of(f"{each.side}: {each.told}", 10.5, room, font))
    code = {"code": short_code(check.sha256), "hash": check.sha256}
    told = _("Check code of the marks as printed: %(code)s. SHA-256: %(hash)s") % code
    lines += _texts([words.about_signatures(), told], 8.5, room)
    return map(Piece, text_blocks(lines, room, tallest, rule=0.5))


def _texts(texts: Iterable[str], size: float, room: float, font: str = REGULAR) -> list[Paragraph]:
    return [Paragraph.of(text, size, room, font) for text in texts if text]


def _small_print(check: ArrivalPaper) -> Iterator[str]:
    said = repr(check)
    if not said.isascii() and UNPRINTABLE in printable(said):
        legend = _("%(mark)s stands for a character that this print can't show; the page shows it.")
        yield legend % {"mark": UNPRINTABLE}
    yield caution()


def _draw_foot(pen: Pen, check: ArrivalPaper, number: int, count: int) -> None:
    top, room = pen.paper.height - MARGIN - FOOT + 6, pen.paper.width - 2 * MARGIN
    page = _("page %(number)s of %(count)s") % {"number": number, "count": count}
    printed = _("printed %(at)s by the clocks of %(zone)s") % {"at": moment(check.printed_at), "zone": check.zone}
    code = _("check code %(code)s") % {"code": short_code(check.sha256)}
    pen.rule(MARGIN, top, room)
    for index, line in enumerate((f"{words.title()} · {page} · {code}", printed)):
        pen.text(MARGIN, top + 12 + index * 11, line, fitting_size(line, REGULAR, 8.5, 5.0, room))
