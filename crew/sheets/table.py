"""A list on paper, across: the columns' names on every page, and which page of how many it is.

+--------------------------------------------------------+
| Inventory of follow spots               Quillmark Hall |
| unit    source   state   why              where   ...  |
| ------------------------------------------------------ |
| FS-01   short-arc ready                   at Rear booth|
| ------------------------------------------------------ |
| page 1 of 3 · printed Mar 2, 2026, 5:04 PM             |
+--------------------------------------------------------+
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.utils.translation import gettext as _

from crew.moments import moment
from crew.sheets.lettering import BOLD, REGULAR, UNPRINTABLE, printable
from crew.sheets.pen import Paper, Paragraph, Pen

MARGIN = 32.0
HEAD, FOOT = 24.0, 18.0
GUTTER = 5.0
PAD = 2.5
SIZE = 7.5


@dataclass(frozen=True)
class PrintedTable:
    """`columns` are name and share of the width; `rows` have a text a column. `printed_at` by the house's clocks."""

    title: str
    house: str
    columns: tuple[tuple[str, float], ...]
    rows: tuple[tuple[str, ...], ...]
    empty: str
    printed_at: datetime


@dataclass(frozen=True)
class _Row:
    """The cells of one row, set to their columns' widths."""

    cells: tuple[Paragraph, ...]

    @property
    def height(self) -> float:
        return max(cell.height for cell in self.cells) + 2 * PAD

    def draw(self, pen: Pen, y: float, lefts: Sequence[float]) -> float:
        for left, cell in zip(lefts, self.cells, strict=True):
            cell.draw(pen, left, y + PAD)
        pen.rule(MARGIN, y + self.height, pen.paper.width - 2 * MARGIN, 0.25)
        return y + self.height


def table_pdf(table: PrintedTable, paper: Paper) -> bytes:
    """The list on the paper turned on its side. The same records and print time give the same bytes."""
    across = Paper(paper.name, paper.height, paper.width)
    pen = Pen(across, f"{table.title}: {table.house}")
    widths = _widths(table, across.width - 2 * MARGIN)
    lefts = [MARGIN + sum(widths[:index]) for index in range(len(widths))]
    names = _set(tuple(name for name, _share in table.columns), widths, BOLD)
    room = across.height - 2 * MARGIN - HEAD - FOOT - names.height
    pages = _pages((_set(row, widths) for row in table.rows), room)
    foot = _foot_words(table)
    for number, rows in enumerate(pages, start=1):
        y = names.draw(pen, _draw_head(pen, table), lefts)
        for row in rows:
            y = row.draw(pen, y, lefts)
        if not table.rows:
            pen.text(MARGIN, y + 16, table.empty, 10)
        _draw_foot(pen, foot, number, len(pages))
        pen.next_page()
    return pen.finished()


def _widths(table: PrintedTable, room: float) -> list[float]:
    total = sum(share for _name, share in table.columns)
    return [room * share / total for _name, share in table.columns]


def _set(cells: Iterable[str], widths: Sequence[float], font: str = REGULAR) -> _Row:
    pairs = zip(cells, widths, strict=True)
    return _Row(tuple(Paragraph.of(text, SIZE, width - GUTTER, font) for text, width in pairs))


def _pages(rows: Iterable[_Row], room: float) -> list[list[_Row]]:
    """The rows page by page; a row taller than a page is torn between lines."""
    pages: list[list[_Row]] = [[]]
    left = room
    for whole in rows:
        for row in _torn(whole, room):
            if row.height > left and pages[-1]:
                pages.append([])
                left = room
            pages[-1].append(row)
            left -= row.height
    return pages


def _torn(row: _Row, room: float) -> Iterator[_Row]:
    most = int((room - 2 * PAD) / max(cell.size * 1.25 for cell in row.cells))
    longest = max(len(cell.lines) for cell in row.cells)
    for start in range(0, max(longest, 1), most):
        yield _Row(tuple(replace(cell, lines=cell.lines[start : start + most]) for cell in row.cells))


def _draw_head(pen: Pen, table: PrintedTable) -> float:
    pen.text(MARGIN, MARGIN + 12, table.title, 12, BOLD)
    pen.text_right(pen.paper.width - MARGIN, MARGIN + 12, table.house, 10)
    return MARGIN + HEAD


def _foot_words(table: PrintedTable) -> tuple[str, str]:
    """When it was printed, and what the mark for a character stands for where one was not printable."""
    legend = _("%(mark)s stands for a character that this print can't show; the CSV file has it.")
    printed = _("printed %(at)s") % {"at": moment(table.printed_at)}
    return printed, legend % {"mark": UNPRINTABLE} if _is_unprintable(table) else ""


def _draw_foot(pen: Pen, foot: tuple[str, str], number: int, count: int) -> None:
    printed, legend = foot
    page = _("page %(number)s of %(count)s") % {"number": number, "count": count}
    pen.text(MARGIN, pen.paper.height - MARGIN, f"{page} · {printed}", 8)
    pen.text_right(pen.paper.width - MARGIN, pen.paper.height - MARGIN, legend, 8)


def _is_unprintable(table: PrintedTable) -> bool:
    texts = (cell for row in table.rows for cell in row if not cell.isascii())
    return any(UNPRINTABLE in printable(text) for text in texts)
