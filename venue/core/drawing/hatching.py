"""Surfaces filled with strokes, which any writer can draw and nobody takes for a color."""

from collections.abc import Sequence
from math import ceil, sqrt

from venue.core.drawing.plane import Spot
from venue.core.drawing.shapes import Line

STEP = 7.0
"""From one stroke to the next [drawing units], measured across them."""


def hatched(convex: Sequence[Spot], kind: str = "reached", step: float = STEP) -> list[Line]:
    """Strokes that rise to the right through a convex surface; those of neighboring surfaces meet."""
    sums = [x + y for x, y in convex]
    pitch = step * sqrt(2)
    strokes = []
    for index in range(ceil(min(sums) / pitch), ceil(max(sums) / pitch)):
        ends = sorted(_cuts(convex, index * pitch))
        if ends and ends[0] != ends[-1]:
            strokes.append(Line(*ends[0], *ends[-1], kind))
    return strokes


def _cuts(convex: Sequence[Spot], total: float) -> list[Spot]:
    """Where the line x + y = total meets the sides."""
    found = []
    for index, (x, y) in enumerate(convex):
        before_x, before_y = convex[index - 1]
        here, before = x + y - total, before_x + before_y - total
        if (here > 0) != (before > 0):
            share = before / (before - here)
            found.append((before_x + share * (x - before_x), before_y + share * (y - before_y)))
    return found
