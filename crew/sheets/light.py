"""The lights of a call sheet, a block each, and the operators who hear their number at the spot talk."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, SheetLine
from crew.sheets.blocks import GAP, TextBlock, text_blocks, torn
from crew.sheets.lettering import BOLD, fitting_size
from crew.sheets.pen import LEADING, Paragraph, Pen
from crew.wording import sheet as words

NUMBER_WIDTH, LABEL_WIDTH = 62.0, 52.0
TEXT_FROM = NUMBER_WIDTH + LABEL_WIDTH + 24.0
NUMBER_HEIGHT = 46.0
LABEL_DOWN = 8.0
WORD_HEIGHT = 12.0


@dataclass(frozen=True)
class Mark:
    """A word over a number or label in a frame, which grows where the text is long; `radius` rounds it [pt]."""

    word: str
    text: Paragraph
    width: float
    least_height: float
    weight: float
    radius: float = 0.0

    @classmethod
    def of_number(cls, number: str) -> "Mark":
        """The show number: large, in a heavy round frame."""
        text = _fitted(number, 26.0, NUMBER_WIDTH - 18)
        return cls(_("show"), text, NUMBER_WIDTH, NUMBER_HEIGHT, weight=2.0, radius=NUMBER_HEIGHT / 2)

    @classmethod
    def of_label(cls, label: str) -> "Mark":
        """The house label: small, in a thin tag with square corners."""
        return cls(_("house"), _fitted(label, 13.0, LABEL_WIDTH - 8), LABEL_WIDTH, 30.0, weight=0.75)

    @property
    def height(self) -> float:
        return max(self.least_height, WORD_HEIGHT + self.text.height + 3)

    def draw(self, pen: Pen, x: float, y: float) -> None:
        middle = x + self.width / 2
        pen.box(x, y, self.width, self.height, self.weight, self.radius)
        pen.text_centered(middle, y + WORD_HEIGHT - 2, self.word, 7.5)
        top = y + WORD_HEIGHT + (self.height - WORD_HEIGHT - self.text.height) / 2 - 1
        for index, line in enumerate(self.text.lines):
            baseline = top + self.text.size * (0.95 + index * LEADING)
            pen.text_centered(middle, baseline, line, self.text.size, BOLD)


def _fitted(text: str, largest: float, room: float) -> Paragraph:
    """On one line as large as it fits; where that is too small to read, on several."""
    return Paragraph.of(text, fitting_size(text, BOLD, largest, 7.0, room), room, BOLD)


@dataclass(frozen=True)
class LightBlock:
    """Show number and house label, both worded, different in shape and size; beside them all the rest."""

    room: float
    number: Mark
    label: Mark
    texts: tuple[Paragraph, ...]

    @property
    def height(self) -> float:
        texts = sum(text.height for text in self.texts)
        return max(self.number.height, LABEL_DOWN + self.label.height, texts) + 2 * GAP

    def draw(self, pen: Pen, x: float, y: float) -> float:
        below = y + GAP
        self.number.draw(pen, x, below)
        self.label.draw(pen, x + NUMBER_WIDTH + 10, below + LABEL_DOWN)
        for text in self.texts:
            below = text.draw(pen, x + TEXT_FROM, below)
        pen.rule(x, y + self.height, self.room)
        return y + self.height


def light_blocks(line: SheetLine, sheet: CallSheet, room: float, tallest: float) -> Iterator[LightBlock]:
    """The light in one block; in several, each with its number and label, where one would be taller than a page."""
    number, label = Mark.of_number(line.number), Mark.of_label(words.house_label(line))
    for texts in torn(_texts(line, sheet, room - TEXT_FROM), tallest - 2 * GAP):
        yield LightBlock(room, number, label, texts)


def _texts(line: SheetLine, sheet: CallSheet, room: float) -> Iterator[Paragraph]:
    yield Paragraph.of(words.on_line(line, sheet), 12, room, BOLD)
    yield Paragraph.of(words.own_call(line.own_call, sheet), 10, room, BOLD)
    yield Paragraph.of(words.place_words(line), 10, room)
    yield Paragraph.of(words.needs(line), 9.5, room, BOLD)
    yield Paragraph.of(words.tickets(line), 9.5, room)
    yield Paragraph.of(" · ".join(words.spoken(line)), 9.5, room)
    for text in words.frames_and_notes(line):
        yield Paragraph.of(text, 9, room)
    for sentence in words.unit_state(line):
        yield Paragraph.of(sentence, 9, room, BOLD)
    for caution in line.cautions:
        yield Paragraph.of(_("CAUTION: %(what)s") % {"what": caution}, 9, room, BOLD)


def talk_blocks(sheet: CallSheet, room: float, tallest: float) -> Iterator[TextBlock]:
    """Everybody without a number, by what they are there for; nothing where there is nobody."""
    for what, group in groupby(words.without_number(sheet), key=lambda bare: bare.what):
        heading = Paragraph.of(capfirst(what), 10, room, BOLD)
        names = (Paragraph.of(_bare(each, sheet), 12, room) for each in group)
        yield from text_blocks((heading, *names), room, tallest, rule=0.5)


def _bare(each: words.Bare, sheet: CallSheet) -> str:
    return " · ".join(filter(None, (words.operator(each.name, sheet), each.own_call)))
