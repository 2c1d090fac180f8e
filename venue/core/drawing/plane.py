"""From meters to drawing units, the same scale in both directions, and a drawing turned by 180 degrees.

+x of the house (stage left, house right) runs to the right and +y (upstage) to the top: the plan as seen from the
house. Seen from the stage it is turned about its middle, never mirrored; the writing stays upright.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from venue.core.drawing.axes import number_ticks
from venue.core.drawing.shapes import Anchor, Box, Ellipse, Line, Shape, Text, Trail

View = Literal["house", "stage"]
Spot = tuple[float, float]

_OTHER_END: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}
LEAST_EXTENT_M = 4.0
"""A drawing of less than this is drawn as if it were that large."""


@dataclass(frozen=True)
class Extent:
    """The part of a plane that has to be on the sheet [m]."""

    low_x: float
    high_x: float
    low_y: float
    high_y: float

    @classmethod
    def of(cls, points: Iterable[Spot]) -> "Extent":
        """Just around the points; about the origin without any."""
        found = list(points) or [(0.0, 0.0)]
        xs, ys = [x for x, _ in found], [y for _, y in found]
        return cls(min(xs), max(xs), min(ys), max(ys))

    @property
    def width(self) -> float:
        return max(self.high_x - self.low_x, LEAST_EXTENT_M)

    @property
    def height(self) -> float:
        return max(self.high_y - self.low_y, LEAST_EXTENT_M)

    def even_about(self, x_m: float) -> "Extent":
        """As wide on both sides of an x."""
        half = max(x_m - self.low_x, self.high_x - x_m)
        return replace(self, low_x=x_m - half, high_x=x_m + half)


@dataclass(frozen=True)
class Plane:
    """Where points of the house fall: (`x_m`, `y_m`) at (`x`, `y`), `scale` drawing units to the meter."""

    x_m: float
    y_m: float
    x: float
    y: float
    scale: float

    @classmethod
    def fitted(cls, extent: Extent, left: float, right: float, tallest: float) -> "Plane":
        """The extent in the middle between left and right and from 0 down, no taller than `tallest`."""
        scale = min((right - left) / extent.width, tallest / extent.height)
        middle = (extent.low_x + extent.high_x) / 2
        return cls(middle, extent.high_y, (left + right) / 2, 0.0, scale)

    def point(self, x_m: float, y_m: float) -> Spot:
        return self.x + (x_m - self.x_m) * self.scale, self.y - (y_m - self.y_m) * self.scale

    def points(self, spots: Iterable[Spot]) -> tuple[Spot, ...]:
        return tuple(self.point(*spot) for spot in spots)


@dataclass(frozen=True)
class Turn:
    """Moves what was drawn between `low` and `high` (y) to `top`; turned, every point goes to the opposite one."""

    width: float
    low: float
    high: float
    top: float
    is_turned: bool

    @property
    def bottom(self) -> float:
        return self.top + self.high - self.low

    def point(self, x: float, y: float) -> Spot:
        if self.is_turned:
            return self.width - x, self.top + self.high - y
        return x, self.top + y - self.low

    def shape(self, shape: Shape) -> Shape:
        """The shape where it belongs. A mark is made only afterwards: it would fall apart."""
        if isinstance(shape, Line):
            return Line(*self.point(shape.x1, shape.y1), *self.point(shape.x2, shape.y2), shape.kind)
        if isinstance(shape, Trail):
            return replace(shape, points=tuple(self.point(*each) for each in shape.points))
        if isinstance(shape, Box | Ellipse | Text):
            x, y = self.point(shape.x, shape.y)
            if isinstance(shape, Text) and self.is_turned:
                return replace(shape, x=x, y=y, anchor=_OTHER_END[shape.anchor])
            return replace(shape, x=x, y=y)
        raise TypeError("marks are made after turning")


def scale_bar(plane: Plane, unit_m: float, text: str, left: float, y: float, most: float = 110.0) -> list[Shape]:
    """A bar of a round number of units of length with its length written; `text` holds "{}" for the number."""
    steps = number_ticks(most / plane.scale / unit_m, "{:g}".format, 3)
    length = steps[-1].value
    end = left + length * unit_m * plane.scale
    shapes: list[Shape] = [Line(left, y, end, y, "scale")]
    for tick in steps:
        x = left + tick.value * unit_m * plane.scale
        shapes.append(Line(x, y - 4.0, x, y + 4.0, "scale-tick"))
    return [*shapes, Text(end + 8.0, y, text.replace("{}", steps[-1].text), 13.0, "scale-word", "start")]
