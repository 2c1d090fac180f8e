"""Plain shapes: what a drawing is made of, whoever writes it down.

Coordinates in drawing units, x to the right, y down, the origin at the top left. `kind` says what a shape
stands for; the writer gives each kind its look.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, hypot, radians, sin
from typing import Literal

CHAR_WIDTH = 0.62
"""Width of a character in sizes of its type, on the wide side: faces differ from screen to screen."""

Anchor = Literal["start", "middle", "end"]
Bounds = tuple[float, float, float, float]


@dataclass(frozen=True)
class Line:
    """A straight stroke."""

    x1: float
    y1: float
    x2: float
    y2: float
    kind: str


@dataclass(frozen=True)
class Box:
    """A rectangle about its middle; `radius` rounds its corners, half the height makes a pill."""

    x: float
    y: float
    width: float
    height: float
    kind: str
    radius: float = 0.0

    @property
    def bounds(self) -> Bounds:
        """Left, top, right, bottom."""
        half_width, half_height = self.width / 2, self.height / 2
        return (self.x - half_width, self.y - half_height, self.x + half_width, self.y + half_height)


@dataclass(frozen=True)
class Text:
    """One line of text; y is the middle of its height."""

    x: float
    y: float
    text: str
    size: float
    kind: str
    anchor: Anchor = "middle"

    @property
    def width(self) -> float:
        return text_width(self.text, self.size)

    @property
    def bounds(self) -> Bounds:
        """Left, top, right, bottom, as far as they can be told without the face."""
        before = {"start": 0.0, "middle": self.width / 2, "end": self.width}[self.anchor]
        left = self.x - before
        return (left, self.y - self.size / 2, left + self.width, self.y + self.size / 2)


@dataclass(frozen=True)
class Mark:
    """Shapes that are one thing, with its name in words."""

    words: str
    shapes: tuple[Box | Text, ...]
    kind: str


@dataclass(frozen=True)
class Trail:
    """A stroke through points, or with `is_closed` the surface inside them."""

    points: tuple[tuple[float, float], ...]
    kind: str
    is_closed: bool = False


@dataclass(frozen=True)
class Ellipse:
    """An ellipse about its middle: `along` and `across` are whole axes, the first `turn_deg` clockwise from +x."""

    x: float
    y: float
    along: float
    across: float
    turn_deg: float
    kind: str

    @property
    def bounds(self) -> Bounds:
        """Left, top, right, bottom: of a turned one too."""
        turn = radians(self.turn_deg)
        half_width = hypot(self.along * cos(turn), self.across * sin(turn)) / 2
        half_height = hypot(self.along * sin(turn), self.across * cos(turn)) / 2
        return (self.x - half_width, self.y - half_height, self.x + half_width, self.y + half_height)


Shape = Line | Box | Text | Mark | Trail | Ellipse


@dataclass(frozen=True)
class Drawing:
    """Shapes on a sheet of `width` by `height`; `undrawn` are slots whose place nobody has put on file."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    undrawn: tuple[int, ...] = ()

    def flat(self) -> Iterator[Line | Box | Text | Trail | Ellipse]:
        """Every single shape, those inside marks too."""
        for shape in self.shapes:
            yield from shape.shapes if isinstance(shape, Mark) else (shape,)


def text_width(text: str, size: float) -> float:
    return CHAR_WIDTH * size * len(text)


def shortened(text: str, most: int) -> str:
    """The text, or its beginning with a sign that there is more."""
    return text if len(text) <= most else text[: most - 1] + "…"


def wrapped(text: str, size: float, room: float) -> list[str]:
    """The text in lines no wider than the room, as far as that can be told; a longer word is cut."""
    most = max(1, int(room / text_width("0", size)))
    lines: list[str] = []
    for word in text.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and len(joined) <= most:
            lines[-1] = joined
        else:
            lines.append(shortened(word, most))
    return lines
