"""What is written at a slot of a drawing to scale: both numbers side by side, lines of text under them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from venue.core.drawing.marks import SMALL, Light
from venue.core.drawing.plane import Spot
from venue.core.drawing.shapes import Bounds, Box, Mark, Text, shortened, text_width

LINE_SIZE, NOTE_SIZE = 12.0, 13.0
_LINE = 14.0
_BESIDE = 3.0
_LONGEST_LINE = 28


@dataclass(frozen=True)
class Tag:
    """Both numbers of one slot and the lines under them; without `has_number` the house label alone."""

    light: Light
    lines: tuple[str, ...]
    has_number: bool

    @classmethod
    def of(cls, slot: int, label: str, number: str | None, words: str, lines: Sequence[str], has_number: bool) -> "Tag":
        written = tuple(shortened(line, _LONGEST_LINE) for line in lines if line)
        return cls(Light(slot, label, number, words, SMALL), written, has_number)

    @cached_property
    def pill_room(self) -> float:
        return self.light.pill_width + _BESIDE if self.has_number else 0.0

    @cached_property
    def width(self) -> float:
        texts = [text_width(line, LINE_SIZE) for line in self.lines]
        return max([self.pill_room + self.light.label_width, *texts])

    @property
    def numbers_height(self) -> float:
        return SMALL.pill_height if self.has_number else SMALL.label_height

    @cached_property
    def height(self) -> float:
        return self.numbers_height + _LINE * len(self.lines)

    @cached_property
    def numbers_width(self) -> float:
        return self.pill_room + self.light.label_width

    def row(self, y: float) -> float:
        """The middle of both numbers, of a tag about y."""
        return y - self.height / 2 + self.numbers_height / 2

    def mark(self, x: float, y: float) -> Mark:
        """The tag about a point."""
        row, left = self.row(y), x - self.numbers_width / 2
        shapes: tuple[Box | Text, ...] = ()
        if self.has_number:
            shapes += self.light.pill(left + self.light.pill_width / 2, row)
        shapes += self.light.box(left + self.pill_room + self.light.label_width / 2, row)
        first = row + self.numbers_height / 2 + _LINE / 2
        texts = (Text(x, first + _LINE * i, line, LINE_SIZE, "tag-line") for i, line in enumerate(self.lines))
        return Mark(self.light.words, (*shapes, *texts), "light")

    def port(self, x: float, y: float, spot: Spot) -> Spot:
        """Where a leader from the spot meets the tag about (x, y): above its first number, below it, or beside."""
        if spot[1] < y - self.height / 2:
            first = self.light.pill_width if self.has_number else self.light.label_width
            return x - self.numbers_width / 2 + first / 2, y - self.height / 2
        if spot[1] > y + self.height / 2:
            return x, y + self.height / 2
        return x + (self.numbers_width if spot[0] > x else -self.numbers_width) / 2, self.row(y)


@dataclass(frozen=True)
class Note:
    """A line of text that is hung to a point as a tag is."""

    text: str

    @property
    def width(self) -> float:
        return text_width(self.text, NOTE_SIZE)

    @property
    def height(self) -> float:
        return NOTE_SIZE

    def row(self, y: float) -> float:
        return y

    def mark(self, x: float, y: float) -> Text:
        return Text(x, y, self.text, NOTE_SIZE, "note")

    def port(self, x: float, y: float, spot: Spot) -> Spot:
        """Above or below its middle, or at the end that is nearer."""
        if abs(spot[1] - y) > self.height / 2:
            return x, y + (self.height if spot[1] > y else -self.height) / 2
        return x + (self.width if spot[0] > x else -self.width) / 2, y


@dataclass(frozen=True)
class Hung:
    """A tag about (x, y) and the slot that it belongs to; a leader runs straight, or by a point of a channel."""

    tag: Tag | Note
    x: float
    y: float
    spot: Spot
    channel: Spot | None = None

    @cached_property
    def bounds(self) -> Bounds:
        half_width, half_height = self.tag.width / 2, self.tag.height / 2
        return (self.x - half_width, self.y - half_height, self.x + half_width, self.y + half_height)

    @cached_property
    def leader(self) -> tuple[Spot, ...]:
        """From the slot to the tag."""
        if self.channel is None:
            return self.spot, self.tag.port(self.x, self.y, self.spot)
        beside = self.channel[0], self.tag.row(self.y)
        return self.spot, self.channel, beside, self.tag.port(self.x, self.y, beside)

    def shifted(self, dx: float, dy: float) -> "Hung":
        """The tag and its channel elsewhere, led to the same slot."""
        channel = (self.channel[0] + dx, self.channel[1] + dy) if self.channel else None
        return Hung(self.tag, self.x + dx, self.y + dy, self.spot, channel)

    def moved(self, to: Callable[[float, float], Spot]) -> "Hung":
        """The tag, its slot and its channel where `to` puts them."""
        x, y = to(self.x, self.y)
        return Hung(self.tag, x, y, to(*self.spot), to(*self.channel) if self.channel else None)
