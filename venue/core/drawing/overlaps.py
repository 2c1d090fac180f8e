"""Whether boxes cover one another and strokes run through them."""

from venue.core.drawing.plane import Spot
from venue.core.drawing.shapes import Bounds

HAIR = 0.01


def overlap(one: Bounds, other: Bounds) -> bool:
    """Whether two boxes cover a common part."""
    return (
        one[0] < other[2] - HAIR and other[0] < one[2] - HAIR and one[1] < other[3] - HAIR and other[1] < one[3] - HAIR
    )


def grown(box: Bounds, by: float) -> Bounds:
    """The box with room about it."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def crosses(start: Spot, end: Spot, box: Bounds) -> bool:
    """Whether a straight stroke runs through a box: the part of it within each pair of sides has to be one."""
    first, last = 0.0, 1.0
    for at, to, low, high in ((start[0], end[0], box[0], box[2]), (start[1], end[1], box[1], box[3])):
        if abs(to - at) < 1e-9:
            if not low < at < high:
                return False
            continue
        one, other = sorted(((low - at) / (to - at), (high - at) / (to - at)))
        first, last = max(first, one), min(last, other)
    return first < last - 1e-9
