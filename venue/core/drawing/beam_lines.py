"""What a section shows of one beam: where its edges go, its angle, the glass before it."""

import math
from collections.abc import Iterator

from venue.core.drawing.cut import Cut
from venue.core.drawing.plane import Spot
from venue.core.drawing.records import SectionPlace
from venue.core.drawing.shapes import Line, Shape, Trail

_ARC, _PANE_AT, _PANE = 48.0, 15.0, 9.0
_BEYOND = 16.0
"""The sheet goes on farther than this beyond everything in it."""
_FAR_M = 500.0
"""Farther than any sheet shows."""


def cone_edges(place: SectionPlace, pool: tuple[float, float] | None, cut: Cut) -> Iterator[Spot]:
    """Where the cone's edges go: so far along from the lens, at that height [m]."""
    if pool is not None:
        start = cut.at(place.lens.x_m, place.lens.y_m)
        yield from ((end - start, 0.0) for end in pool)
    elif place.full_deg is not None:
        plan = math.hypot(place.end.x_m - place.lens.x_m, place.end.y_m - place.lens.y_m)
        share = cut.share(place.lens, place.end)
        below = math.degrees(math.atan2(place.lens.z_m - place.end.z_m, plan))
        for angle in (below + place.full_deg / 2, below - place.full_deg / 2):
            yield _far_along(angle, place.lens.z_m, share)


def _far_along(angle_deg: float, lens_z_m: float, share: float) -> Spot:
    """Along a ray so far below the horizontal: to the deck where it meets it, else very far."""
    drop = math.tan(math.radians(min(angle_deg, 89.9)))
    far = lens_z_m / drop if drop > 1e-9 and lens_z_m > 0 and lens_z_m / drop < _FAR_M else _FAR_M
    return far * share, lens_z_m - far * drop


def angle_arc(lens: Spot, end: Spot) -> Iterator[Shape]:
    """The horizontal from the lens, and the arc from it down to the throw."""
    dx = end[0] - lens[0]
    way, below = (1.0 if dx >= 0 else -1.0), math.atan2(end[1] - lens[1], abs(dx))
    level = min(1.5 * _ARC, abs(dx) + _BEYOND)
    radius = min(_ARC, level)
    yield Line(*lens, lens[0] + way * level, lens[1], "horizon")
    turns = [below * step / 12 for step in range(13)]
    points = tuple((lens[0] + way * radius * math.cos(turn), lens[1] + radius * math.sin(turn)) for turn in turns)
    yield Trail(points, "angle")


def pane(lens: Spot, end: Spot) -> Iterator[Shape]:
    """Two strokes across the throw, before the lens."""
    length = math.dist(lens, end) or 1.0
    along = (end[0] - lens[0]) / length, (end[1] - lens[1]) / length
    for away in (_PANE_AT, _PANE_AT + 4.0):
        x, y = lens[0] + away * along[0], lens[1] + away * along[1]
        across = -along[1] * _PANE, along[0] * _PANE
        yield Line(x - across[0], y - across[1], x + across[0], y + across[1], "glass")
