"""Somebody who stands there, drawn to scale."""

from venue.core.drawing.shapes import Ellipse, Shape, Trail

_HEAD = 0.13
"""Of the height, from crown to chin."""
_SIDE = ((0.05, 0.87), (0.12, 0.83), (0.13, 0.50), (0.08, 0.50), (0.08, 0.0), (0.01, 0.0), (0.0, 0.46))
"""Down one side from the neck: out from the middle, above the floor; parts of the height."""


def figure(x: float, floor: float, height: float) -> list[Shape]:
    """A figure so high whose feet are at (x, floor)."""
    right = [(x + out * height, floor - up * height) for out, up in _SIDE]
    left = [(2 * x - each_x, y) for each_x, y in reversed(right[:-1])]
    head = _HEAD * height
    return [
        Trail((*right, *left), "person", is_closed=True),
        Ellipse(x, floor - height + head / 2, 0.75 * head, head, 0.0, "person"),
    ]
