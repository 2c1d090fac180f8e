"""The technical sheet as PDF: head, plan, tables of places and units, then position by position, at last the section.

+--------------------------------------------------+
| Quillmark Hall            Technical sheet: ...   |
| Set-up: ..., as on file Mar 2, 2026, 5:04 PM     |
| [ plan to scale ]                                |
| Places                                           |
| place  lens   throw    computed  below   circuit |
| Rear booth                                       |
| 1      ...                                       |
| ------------------------------------------------ |
| Quillmark Hall · ... · Mar 2, 2026 · page 1 of 4 |
+--------------------------------------------------+
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import zip_longest

from django.utils.translation import gettext as _

from crew.sheets.blocks import Block, framed_blocks, text_blocks
from crew.sheets.flow import Cells, Columns, Picture, Piece, Setter, Space, Stack, pages_of
from crew.sheets.lettering import BOLD, REGULAR, UNPRINTABLE, fitting_size, printable, width
from crew.sheets.pen import Paper, Paragraph, Pen
from crew.wording.tech_positions import Fact, ShownPosition
from crew.wording.tech_sheet import ShownSheet
from crew.wording.tech_tables import SheetTable
from venue.core.drawing.shapes import Drawing

MARGIN = 36.0
FOOT = 18.0
TABLE_SIZE, FACT_SIZE, TEXT_SIZE = 7.5, 8.0, 9.0
PLAN_SHARE = 0.55
"""Of a page's height that the plan takes at most, so that the table of places begins beneath it."""
WRITING = 1.3
"""How much larger than on a sheet the writing in a drawing is, which is made for a phone."""
INSET, ABOVE = 8.0, 8.0
FACT_SHARES = (1.0, 1.75, 1.0, 1.75)


@dataclass(frozen=True)
class _Setting:
    """How wide and how tall a page is between its margins [pt], and a setter that remembers what it has set."""

    room: float
    tallest: float
    setter: Setter = field(default_factory=lambda: cache(Paragraph.of))

    def texts(self, *texts: str, size: float = TEXT_SIZE, font: str = REGULAR) -> list[Paragraph]:
        return [self.setter(text, size, self.room, font) for text in texts]

    def blocks(self, texts: Iterable[Paragraph], rule: float = 0.0) -> Iterator[Piece]:
        return map(Piece, text_blocks(texts, self.room, self.tallest, rule))

    def title(self, text: str) -> Stack:
        return Stack((Space(ABOVE), *text_blocks(self.texts(text, size=12.0, font=BOLD), self.room, self.tallest)))

    def across(self, text: str, size: float, font: str) -> Cells:
        """One text across all columns."""
        return Cells((self.setter(text, size, self.room, font),), (0.0,), self.room, rule=0.0)

    def columns(self, shares: Sequence[float], size: float) -> Columns:
        return Columns.of(shares, self.room, size, self.setter)


def drawing_width(paper: Paper) -> float:
    """How wide to make a drawing, so that its writing has the size of a sheet's once it fits the paper."""
    return (paper.width - 2 * MARGIN) * WRITING


def tech_sheet_pdf(shown: ShownSheet, plan: Drawing | None, section: Drawing | None, paper: Paper) -> bytes:
    """The sheet on paper. The same records, drawings and time give the same bytes."""
    pen = Pen(paper, f"{shown.title}: {shown.sheet.house}")
    setting = _Setting(paper.width - 2 * MARGIN, paper.height - 2 * MARGIN - FOOT)
    pages = pages_of(_pieces(shown, plan, section, setting), setting.tallest)
    for number, blocks in enumerate(pages, start=1):
        y = MARGIN
        for block in blocks:
            y = block.draw(pen, MARGIN, y)
        _draw_foot(pen, shown, number, len(pages))
        pen.next_page()
    return pen.finished()


def _pieces(shown: ShownSheet, plan: Drawing | None, section: Drawing | None, setting: _Setting) -> Iterator[Piece]:
    """Everything on the sheet in its order."""
    yield from setting.blocks(_head(shown, setting), rule=1.5)
    if plan is not None:
        yield Piece(Picture.of(plan, setting.room, setting.tallest * PLAN_SHARE))
    yield from setting.blocks(setting.texts(shown.nothing))
    for table in shown.tables:
        yield from _table(table, setting)
    yield from setting.blocks(setting.texts(shown.explanation))
    yield from _note(shown.note, setting)
    yield from _facts(_("The set-up"), setting.title(_("The set-up")), shown.stage_facts, setting)
    for position in shown.positions:
        yield from _position(position, setting)
    if section is not None:
        picture = Picture.of(section, setting.room, setting.tallest - ABOVE)
        yield Piece(Stack((Space(ABOVE), picture)))
    yield from setting.blocks(setting.texts(*_small_print(shown)))


def _head(shown: ShownSheet, setting: _Setting) -> list[Paragraph]:
    return [
        *setting.texts(shown.title, size=11.0),
        *setting.texts(shown.sheet.house, size=20.0, font=BOLD),
        *setting.texts(shown.setup, size=11.0, font=BOLD),
        *setting.texts(shown.moment, size=11.0),
        *setting.texts(shown.dimensions),
    ]


def _table(table: SheetTable, setting: _Setting) -> Iterator[Piece]:
    """The table; a row at the top of a page has the columns' names and its position's above it."""
    columns = setting.columns([share for _name, share in table.columns], TABLE_SIZE)
    bold, plain = (BOLD,) * len(table.columns), (BOLD, *(REGULAR,) * (len(table.columns) - 1))
    names = columns.row((name for name, _share in table.columns), bold, rule=1.0)
    first = Stack((setting.title(table.title), names))
    for index, group in enumerate(table.groups):
        heading = setting.across(group.heading, TABLE_SIZE + 1, BOLD)
        note = setting.across(group.note, TABLE_SIZE, REGULAR)
        most = setting.tallest - first.height - heading.height - note.height
        rows = [part for row in group.rows for part in columns.row(row, plain).torn(most)]
        opening = (heading, note, rows[0]) if index else (first, heading, note, rows[0])
        yield Piece(Stack(opening), (names,) if index else ())
        yield from (Piece(row, (names, heading)) for row in rows[1:])


def _facts(name: str, head: Block, facts: Sequence[Fact], setting: _Setting) -> Iterator[Piece]:
    """Two facts a row, what is known in heavy type; the head stays with the first of them, the name goes on."""
    columns, again = setting.columns(FACT_SHARES, FACT_SIZE), setting.across(name, FACT_SIZE + 1, BOLD)
    above: tuple[Block, ...] = (head,)
    half = (len(facts) + 1) // 2
    for one, other in zip_longest(facts[:half], facts[half:], fillvalue=Fact("", "")):
        fonts = (REGULAR, BOLD if one.is_known else REGULAR, REGULAR, BOLD if other.is_known else REGULAR)
        row = columns.row((one.name, one.value, other.name, other.value), fonts)
        for part in row.torn(setting.tallest - max(head.height, again.height)):
            yield Piece(Stack((*above, part)), () if above else (again,))
            above = ()


def _position(position: ShownPosition, setting: _Setting) -> Iterator[Piece]:
    name = setting.texts(position.name, size=12.0, font=BOLD)
    texts = [*name, *setting.texts(position.lead, *position.numbering)]
    *whole, last = text_blocks(texts, setting.room, setting.tallest / 2)
    yield from map(Piece, whole)
    yield from _facts(position.name, Stack((Space(ABOVE), last)), position.facts, setting)


def _note(note: Fact, setting: _Setting) -> Iterator[Piece]:
    within = _Setting(setting.room - 2 * INSET, setting.tallest, setting.setter)
    texts = [*within.texts(note.name, font=BOLD), *within.texts(note.value)]
    return map(Piece, framed_blocks(texts, setting.room, setting.tallest))


def _small_print(shown: ShownSheet) -> list[str]:
    legend = _("%(mark)s stands for a character that this print can't show; the page shows it.")
    lines = [legend % {"mark": UNPRINTABLE}] if _is_unprintable(shown) else []
    return [*lines, shown.caution]


def _is_unprintable(shown: ShownSheet) -> bool:
    """Whether anything on the sheet has a character that the fonts lack."""
    said = repr(shown.sheet)
    return not said.isascii() and UNPRINTABLE in printable(said)


def _draw_foot(pen: Pen, shown: ShownSheet, number: int, count: int) -> None:
    top = pen.paper.height - MARGIN - FOOT
    page = _("page %(number)s of %(count)s") % {"number": number, "count": count}
    room = pen.paper.width - 2 * MARGIN
    pen.rule(MARGIN, top + 4, room)
    pen.text_right(MARGIN + room, top + 16, page, 8.5)
    beside = room - width(page, REGULAR, 8.5) - 12
    pen.text(MARGIN, top + 16, shown.foot, fitting_size(shown.foot, REGULAR, 8.5, 3.0, beside))
