"""The heads of a call sheet: with the day's times on the first page, short on those that follow."""

from dataclasses import dataclass

from crew.core.call_sheet import CallSheet
from crew.sheets.lettering import BOLD, width
from crew.sheets.pen import Paragraph, Pen
from crew.wording import sheet as words

GAP = 6.0
TIME_WIDTH = 132.0


@dataclass(frozen=True)
class TimeBox:
    """One of the day's times: what, when, where."""

    what: Paragraph
    when: Paragraph
    where: Paragraph

    @classmethod
    def of(cls, what: str, when: str, where: str, room: float) -> "TimeBox":
        return cls(Paragraph.of(what, 9, room), Paragraph.of(when, 13, room, BOLD), Paragraph.of(where, 9, room))

    @property
    def height(self) -> float:
        return self.what.height + self.when.height + self.where.height

    def draw(self, pen: Pen, x: float, y: float) -> None:
        for paragraph in (self.what, self.when, self.where):
            y = paragraph.draw(pen, x, y)


@dataclass(frozen=True)
class FirstHead:
    """Show, house, day, times."""

    title: str
    room: float
    names: tuple[Paragraph, ...]
    boxes: tuple[TimeBox, ...]

    @classmethod
    def of(cls, sheet: CallSheet, title: str, room: float) -> "FirstHead":
        beside = room - width(title, BOLD, 10) - 12
        names = (
            Paragraph.of(sheet.show, 18, beside, BOLD),
            Paragraph.of(sheet.house, 12, room),
            Paragraph.of(f"{words.day(sheet.starts)} · {sheet.event}", 12, room, BOLD),
        )
        times = words.times(sheet)
        box_room = room / len(times) - 8
        return cls(title, room, names, tuple(TimeBox.of(*time, room=box_room) for time in times))

    @property
    def height(self) -> float:
        return _height(self.names) + GAP + max(box.height for box in self.boxes) + GAP

    def draw(self, pen: Pen, x: float, y: float) -> float:
        """Draw from the top at y; returns where the first block begins."""
        bottom = y + self.height
        pen.text_right(x + self.room, y + 14, self.title, 10, BOLD)
        y = _draw(self.names, pen, x, y) + GAP
        for index, box in enumerate(self.boxes):
            box.draw(pen, x + index * self.room / len(self.boxes), y)
        return bottom


@dataclass(frozen=True)
class LaterHead:
    """Which sheet this is, on the pages after the first."""

    lines: tuple[Paragraph, ...]
    room: float

    @classmethod
    def of(cls, sheet: CallSheet, title: str, room: float) -> "LaterHead":
        which = f"{sheet.house} · {words.day(sheet.starts)} · {sheet.event} · {title}"
        return cls((Paragraph.of(sheet.show, 12, room, BOLD), Paragraph.of(which, 9.5, room)), room)

    @property
    def height(self) -> float:
        return _height(self.lines) + 2 * GAP

    def draw(self, pen: Pen, x: float, y: float) -> float:
        """Draw from the top at y; returns where the first block begins."""
        bottom = _draw(self.lines, pen, x, y) + 2 * GAP
        pen.rule(x, bottom - GAP, self.room, 1.5)
        return bottom


def _height(paragraphs: tuple[Paragraph, ...]) -> float:
    return sum(paragraph.height for paragraph in paragraphs)


def _draw(paragraphs: tuple[Paragraph, ...], pen: Pen, x: float, y: float) -> float:
    for paragraph in paragraphs:
        y = paragraph.draw(pen, x, y)
    return y
