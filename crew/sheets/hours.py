"""Hours on paper, across: each person's calls with a total, then the shows. No money.

+--------------------------------------------------------------------+
| Hours, week of Monday, March 2, 2026              Quillmark Hall   |
| call                  work           meals  worked paid  counted … |
| ------------------------------------------------------------------ |
| Ada Quillfeather                                                   |
| Mar 3, Show, …        7:00 – 9:40 PM         2.67  3.50   2.67   … |
| total                                        2.67  3.50   2.67   … |
| ------------------------------------------------------------------ |
| page 1 of 2 · printed Mar 9, 2026, 9:00 AM                         |
+--------------------------------------------------------------------+
"""

from collections.abc import Iterator, Sequence
from datetime import datetime

from django.utils import dateformat
from django.utils.translation import gettext as _

from crew.core.hours.records import Tally
from crew.core.hours_report import Group, HoursLine, HoursReport
from crew.moments import moment
from crew.sheets.blocks import Block, TextBlock, text_blocks
from crew.sheets.flow import Cells, Columns, Piece, Stack, pages_of
from crew.sheets.lettering import BOLD, REGULAR
from crew.sheets.pen import Paper, Paragraph, Pen
from crew.wording.hour_values import flags_words, hours_words, rates_words

MARGIN, FOOT = 32.0, 20.0
SHARES = (0.245, 0.14, 0.12, 0.07, 0.06, 0.08, 0.075, 0.12, 0.09)
SIZE = 8.0
PLAIN, STRONG = (REGULAR,) * len(SHARES), (BOLD,) * len(SHARES)


def hours_pdf(report: HoursReport, paper: Paper) -> bytes:
    """The report on the paper turned on its side. The same records and print time give the same bytes."""
    across = Paper(paper.name, paper.height, paper.width)
    pen = Pen(across, f"{report.title}: {report.roster}")
    room = across.width - 2 * MARGIN
    columns = Columns.of(SHARES, room, SIZE)
    names = columns.row(_names(), STRONG, rule=1.5)
    head = TextBlock((Paragraph.of(f"{report.title} · {report.roster}", 12, room, BOLD),), room)
    height = across.height - 2 * MARGIN - FOOT - head.height - names.height
    pages = pages_of(_pieces(report, columns, room, height), height)
    for number, blocks in enumerate(pages, start=1):
        y = names.draw(pen, MARGIN, head.draw(pen, MARGIN, MARGIN))
        for block in blocks:
            y = block.draw(pen, MARGIN, y)
        told = {"number": number, "count": len(pages), "at": moment(report.printed_at)}
        foot = _("page %(number)s of %(count)s · printed %(at)s · hours, not money") % told
        pen.text(MARGIN, across.height - MARGIN, foot, 8)
        pen.next_page()
    return pen.finished()


def _names() -> Sequence[str]:
    return (
        *(_("Call"), _("Work"), _("Meals"), _("Worked h"), _("Paid h"), _("Counted h"), _("Straight h")),
        *(_("By rate"), _("To know")),
    )


def _pieces(report: HoursReport, columns: Columns, room: float, height: float) -> Iterator[Piece]:
    if not report.lines:
        yield Piece(_text(_("No hours are counted here."), room))
    for person in report.people:
        yield from _person(person, columns, room, height)
    if report.lines:
        yield from _shows(report.shows, columns, room, height)
    if report.waiting:
        told = [Paragraph.of(_("Not counted: these days have no end yet."), 9, room, BOLD)]
        told += [Paragraph.of(line, SIZE, room) for line in report.waiting]
        yield from (Piece(block) for block in text_blocks(told, room, height))


def _person(person: Group, columns: Columns, room: float, height: float) -> Iterator[Piece]:
    """The name with the first call, the total with the last; the name again on each page."""
    head = _text(person.name, room, BOLD)
    rows = [part for line in person.lines for part in columns.row(_cells(line), PLAIN).torn(height / 2)]
    total = columns.row(_totals(_("total"), person.total), STRONG, rule=1.0)
    blocks: list[Block] = [*rows[:-1], Stack((rows[-1], total))]
    yield Piece(Stack((head, blocks[0])))
    yield from (Piece(block, (head,)) for block in blocks[1:])


def _shows(shows: Sequence[Group], columns: Columns, room: float, height: float) -> Iterator[Piece]:
    head = _text(_("By show"), room, BOLD)
    rows: list[Cells] = []
    for show in shows:
        rows += columns.row(_totals(show.name, show.total), PLAIN).torn(height / 2)
    yield Piece(Stack((head, rows[0])))
    yield from (Piece(row, (head,)) for row in rows[1:])


def _text(text: str, room: float, font: str = REGULAR) -> TextBlock:
    return TextBlock((Paragraph.of(text, 10, room, font),), room)


def _cells(line: HoursLine) -> tuple[str, ...]:
    call = f"{dateformat.format(line.came, 'D, M j')} · {line.show}, {line.event} · {line.house}"
    meals = ", ".join(_span(*meal) for meal in line.meals)
    return (call, _span(line.came, line.left), meals, *_hours(line.tally), flags_words(line.flags))


def _span(starts: datetime, ends: datetime) -> str:
    return f"{dateformat.format(starts, 'g:i A')} – {dateformat.format(ends, 'g:i A')}"


def _totals(name: str, tally: Tally) -> tuple[str, ...]:
    return (name, "", "", *_hours(tally), "")


def _hours(tally: Tally) -> tuple[str, ...]:
    values = (tally.worked, tally.paid, tally.counted, tally.straight)
    return (*(hours_words(value) for value in values), rates_words(tally.by_rate))
