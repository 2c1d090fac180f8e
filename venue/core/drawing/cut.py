"""An upright plane through a house, and what it cuts."""

import math
from dataclasses import dataclass

from venue.core.drawing.records import StageMarks
from venue.core.throws import Point


@dataclass(frozen=True)
class Cut:
    """The plane through (`x_m`, `y_m`), along a direction of length 1 in plan."""

    x_m: float
    y_m: float
    along_x: float
    along_y: float

    @classmethod
    def along_throw(cls, lens: Point, end: Point) -> "Cut":
        """Through the lens and the end of its throw, upstage; across the stage as the throw goes.

        Where one is straight above the other, straight upstage.
        """
        dx, dy = end.x_m - lens.x_m, end.y_m - lens.y_m
        plan = math.hypot(dx, dy)
        if plan <= 1e-9:
            return cls(lens.x_m, lens.y_m, 0.0, 1.0)
        way = -plan if dy < 0 else plan
        return cls(lens.x_m, lens.y_m, dx / way, dy / way)

    def at(self, x_m: float, y_m: float) -> float:
        """How far along the plane a point is [m]."""
        return (x_m - self.x_m) * self.along_x + (y_m - self.y_m) * self.along_y

    def share(self, start: Point, end: Point) -> float:
        """How much of a way in plan runs along the plane: 1 for one in it, 0 across it."""
        dx, dy = end.x_m - start.x_m, end.y_m - start.y_m
        plan = math.hypot(dx, dy)
        return (dx * self.along_x + dy * self.along_y) / plan if plan > 1e-9 else 1.0

    def plaster_line(self) -> float | None:
        """Where it crosses y = 0; None where it runs along it."""
        return -self.y_m / self.along_y if abs(self.along_y) > 1e-9 else None

    def deck(self, stage: StageMarks) -> tuple[float, float] | None:
        """Between which distances it runs over the stage; endless where nothing on file ends it, None beside it."""
        down, up = stage.depths or (-math.inf, math.inf)
        left, right = stage.sides or (-math.inf, math.inf)
        across = _between(self.x_m, self.along_x, left, right)
        along = _between(self.y_m, self.along_y, down, up if stage.depth_m else math.inf)
        low, high = max(across[0], along[0]), min(across[1], along[1])
        return (low, high) if low < high else None


CENTER_LINE = Cut(0.0, 0.0, 0.0, 1.0)
"""Upstage from the plaster line."""


def _between(start: float, step: float, low: float, high: float) -> tuple[float, float]:
    """From where to where a steady walk is between two values."""
    if abs(step) < 1e-9:
        return (-math.inf, math.inf) if low <= start <= high else (math.inf, -math.inf)
    one, other = (low - start) / step, (high - start) / step
    return min(one, other), max(one, other)
