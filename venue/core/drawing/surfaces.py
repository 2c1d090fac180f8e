"""What lies on the deck of a plan to scale: the pools of beams, named areas, what of them is reached."""

from collections.abc import Iterator, Sequence

from venue.core.drawing.hatching import hatched
from venue.core.drawing.plane import Plane, Spot
from venue.core.drawing.records import BeamPool, PlanArea
from venue.core.drawing.shapes import Bounds, Ellipse, Shape, Text, Trail, shortened, text_width

_EDGE = 8.0
_NAME_SIZE = 13.0


def surface_corners(pools: Sequence[BeamPool], areas: Sequence[PlanArea]) -> list[Spot]:
    """Everything that has to be on the sheet [m]."""
    found = [corner for area in areas for corner in area.corners]
    return found + [corner for pool in pools for corner in _corners_of(pool)]


def pool_shapes(pools: Sequence[BeamPool], plane: Plane) -> Iterator[Shape]:
    """An ellipse for each pool."""
    for pool in pools:
        axes = pool.length_m * plane.scale, pool.width_m * plane.scale
        yield Ellipse(*plane.point(pool.x_m, pool.y_m), *axes, pool.pan_deg - 90.0, "pool")


def area_shapes(areas: Sequence[PlanArea], plane: Plane) -> Iterator[Shape]:
    """What is reached of them, then their edges."""
    for area in areas:
        for piece in area.reached:
            yield from hatched(plane.points(piece))
    for area in areas:
        yield Trail(plane.points(area.corners), "area", is_closed=True)


def area_names(areas: Sequence[PlanArea], plane: Plane, width: float) -> list[Text]:
    """In the middle of each area's box, which is inside of most, on a sheet so wide."""
    found = []
    for area in areas:
        if area.corners and area.name:
            left, top, right, bottom = _box(plane.points(area.corners))
            room = max(1, int((width - 2 * _EDGE) / text_width("0", _NAME_SIZE)))
            text = shortened(area.name, room)
            half = text_width(text, _NAME_SIZE) / 2 + _EDGE
            x = min(max((left + right) / 2, half), width - half)
            found.append(Text(x, (top + bottom) / 2, text, _NAME_SIZE, "area-name"))
    return found


def surface_key(pools: Sequence[BeamPool], areas: Sequence[PlanArea], pool: str, reached: str) -> list[tuple[str, str]]:
    """What of it is drawn, for the key: samples with the words for them."""
    found = [("pool", pool)] if pools else []
    return found + ([("reached", reached)] if any(area.reached for area in areas) else [])


def _box(points: Sequence[Spot]) -> Bounds:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _corners_of(pool: BeamPool) -> list[Spot]:
    """The corners of the box around the ellipse [m]."""
    left, top, right, bottom = Ellipse(pool.x_m, -pool.y_m, pool.length_m, pool.width_m, pool.pan_deg - 90.0, "").bounds
    return [(left, -bottom), (right, -top)]
