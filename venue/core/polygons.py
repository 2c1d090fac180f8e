"""Plan polygons: cut by straight lines, taken away from one another, measured. Exact, corner by corner.

        o-----------o
       /     in    /|          a half plane keeps what lies to the left
      /     <-----/-+----      of a directed line
     o-----------o  |out

A polygon is a tuple of corners (x, y) in meters, not repeated at the end. Inside this module corners run
counterclockwise seen with +x to the right and +y up; every piece that comes out is convex.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

Corner = tuple[float, float]
Polygon = tuple[Corner, ...]
Problem = Literal["too-few-corners", "no-area", "crosses-itself"]
_SLIVER = 1e-12
"""Of the square of a polygon's extent: less area than this is rounding."""


class PolygonProblem(ValueError):
    """The corners are no area; `code` says why."""

    def __init__(self, code: Problem) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True)
class HalfPlane:
    """All points (x, y) with a * x + b * y <= c."""

    a: float
    b: float
    c: float

    def excess(self, corner: Corner) -> float:
        """Positive outside, negative inside, growing with the distance from the line."""
        return self.a * corner[0] + self.b * corner[1] - self.c

    def reversed(self) -> "HalfPlane":
        """The other side of the line."""
        return HalfPlane(-self.a, -self.b, -self.c)


def left_of(start: Corner, end: Corner) -> HalfPlane:
    """What lies to the left of the line from start to end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return HalfPlane(dy, -dx, dy * start[0] - dx * start[1])


def signed_area(polygon: Polygon) -> float:
    """The area [m2], positive for corners that run counterclockwise."""
    if not polygon:
        return 0.0
    x0, y0 = polygon[0]  # measured from a corner, so that a small area far away stays exact
    moved = [(x - x0, y - y0) for x, y in polygon]
    return sum(_cross(one, two) for one, two in _edges(moved)) / 2


def area(polygon: Polygon) -> float:
    """The area of a polygon that does not cross itself [m2]."""
    return abs(signed_area(polygon))


def clipped(piece: Polygon, half_plane: HalfPlane) -> Polygon:
    """The part of a convex polygon in the half plane; empty where nothing is left."""
    kept: list[Corner] = []
    excesses = [half_plane.excess(corner) for corner in piece]
    for index, (corner, excess) in enumerate(zip(piece, excesses, strict=True)):
        before, before_excess = piece[index - 1], excesses[index - 1]
        if (excess > 0) != (before_excess > 0):
            kept.append(_between(before, corner, before_excess / (before_excess - excess)))
        if excess <= 0:
            kept.append(corner)
    return _without_sliver(kept, piece)


def intersected(piece: Polygon, half_planes: Sequence[HalfPlane]) -> Polygon:
    """The part of a convex polygon in all the half planes."""
    for half_plane in half_planes:
        piece = clipped(piece, half_plane)
    return piece


def subtracted(piece: Polygon, half_planes: Sequence[HalfPlane]) -> Iterator[Polygon]:
    """The part of a convex polygon outside the convex region of the half planes, in pieces that do not overlap."""
    rest = piece
    for half_plane in half_planes:
        outside = clipped(rest, half_plane.reversed())
        if outside:
            yield outside
        rest = clipped(rest, half_plane)


def sides_of(convex: Polygon) -> tuple[HalfPlane, ...]:
    """The half planes whose common part is the convex polygon, its corners counterclockwise."""
    return tuple(left_of(start, end) for start, end in _edges(convex))


def contains(half_planes: Sequence[HalfPlane], corner: Corner) -> bool:
    """Whether the point lies in all the half planes, borders included."""
    return all(half_plane.excess(corner) <= 0 for half_plane in half_planes)


def convex_pieces(polygon: Polygon) -> tuple[Polygon, ...]:
    """The polygon itself if it is convex, else triangles that fill it. Corners counterclockwise.

    Raises PolygonProblem for fewer than three corners, no area, or sides that cross or touch.
    """
    corners = _checked(polygon)
    if all(_turn(*three) > 0 for three in _threes(corners)):
        return (tuple(corners),)
    return tuple(_ears(corners))


def _checked(polygon: Polygon) -> list[Corner]:
    corners = [corner for index, corner in enumerate(polygon) if corner != polygon[index - 1]]
    if len(corners) < 3:
        raise PolygonProblem("too-few-corners")
    corners = [here for before, here, after in _threes(corners) if _turn(before, here, after) != 0]
    if abs(signed_area(tuple(corners))) <= _SLIVER * _extent(polygon) ** 2:
        raise PolygonProblem("no-area")
    if len(set(corners)) < len(corners) or any(_meet(one, two) for one, two in combinations(_edges(corners), 2)):
        raise PolygonProblem("crosses-itself")
    return corners if signed_area(tuple(corners)) > 0 else corners[::-1]


def _ears(corners: list[Corner]) -> Iterator[Polygon]:
    """Cut one triangle off at a time that holds no other corner."""
    rest = list(corners)
    while len(rest) > 3:
        ear = next((i for i, three in enumerate(_threes(rest)) if _is_ear(three, rest)), None)
        if ear is None:  # only rounding is left
            return
        yield rest[ear - 1], rest[ear], rest[(ear + 1) % len(rest)]
        del rest[ear]
        rest = [here for before, here, after in _threes(rest) if _turn(before, here, after) != 0]
    if len(rest) == 3:
        yield rest[0], rest[1], rest[2]


def _is_ear(three: tuple[Corner, Corner, Corner], corners: Sequence[Corner]) -> bool:
    if _turn(*three) <= 0:
        return False
    inside = sides_of(three)
    return not any(contains(inside, corner) for corner in corners if corner not in three)


def _meet(one: tuple[Corner, Corner], two: tuple[Corner, Corner]) -> bool:
    """Whether two sides cross or touch, other than at a corner that they share as neighbors."""
    if one[1] == two[0] or two[1] == one[0]:
        return False
    turns = _turn(*one, two[0]), _turn(*one, two[1]), _turn(*two, one[0]), _turn(*two, one[1])
    if turns[0] * turns[1] < 0 and turns[2] * turns[3] < 0:
        return True
    ends = zip(turns, (two[0], two[1], one[0], one[1]), (one, one, two, two), strict=True)
    return any(turn == 0 and _is_within(corner, side) for turn, corner, side in ends)


def _is_within(corner: Corner, side: tuple[Corner, Corner]) -> bool:
    (x1, y1), (x2, y2) = side
    return min(x1, x2) <= corner[0] <= max(x1, x2) and min(y1, y2) <= corner[1] <= max(y1, y2)


def _without_sliver(corners: Sequence[Corner], origin: Polygon) -> Polygon:
    kept = tuple(corner for index, corner in enumerate(corners) if corner != corners[index - 1])
    if len(kept) < 3 or area(kept) <= _SLIVER * _extent(origin) ** 2:
        return ()
    return kept


def _extent(polygon: Polygon) -> float:
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    return max(max(xs) - min(xs), max(ys) - min(ys), 0.0) if polygon else 0.0


def _between(one: Corner, two: Corner, share: float) -> Corner:
    return one[0] + share * (two[0] - one[0]), one[1] + share * (two[1] - one[1])


def _turn(one: Corner, two: Corner, three: Corner) -> float:
    """Positive for a left turn at `two`, 0 for none."""
    return _cross((two[0] - one[0], two[1] - one[1]), (three[0] - one[0], three[1] - one[1]))


def _cross(one: Corner, two: Corner) -> float:
    return one[0] * two[1] - one[1] * two[0]


def _edges(corners: Sequence[Corner]) -> Iterator[tuple[Corner, Corner]]:
    for index, corner in enumerate(corners):
        yield corner, corners[(index + 1) % len(corners)]


def _threes(corners: Sequence[Corner]) -> Iterator[tuple[Corner, Corner, Corner]]:
    for index, corner in enumerate(corners):
        yield corners[index - 1], corner, corners[(index + 1) % len(corners)]
