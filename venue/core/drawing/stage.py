"""The stage on a plan: its surface and edge, plaster line, center line, opening and target.

         center line
       |<-- opening -->|
       +-------|-------+
       |    S T|A G E  |      depth
#######|- - - -x- - - -|#######   plaster line, target
       +-------|-------+      apron, its edge the lip
"""

from collections.abc import Iterator
from dataclasses import dataclass

from venue.core.drawing.plane import Plane, Spot
from venue.core.drawing.records import PlanWords, StageMarks
from venue.core.drawing.shapes import Box, Ellipse, Line, Shape, Text, Trail, text_width

TYPE = 13.0
ABOVE = 30.0
"""What the words of the opening take above the stage [drawing units]."""
_MARGIN = 6.0
_CROSS = 7.0


@dataclass(frozen=True)
class StagePlan:
    """The stage's shapes, the writing that stands over all lines, and where the highest of it is."""

    shapes: tuple[Shape, ...]
    words: tuple[Text, ...]
    top: float


def stage_corners(stage: StageMarks) -> list[Spot]:
    """Points that have to be on the plan [m]: the stage as far as it is on file, and the target."""
    xs, ys = stage.sides or (0.0, 0.0), stage.depths or (stage.target.y_m, stage.target.y_m)
    return [(x, y) for x in xs for y in ys] + [(stage.target.x_m, stage.target.y_m)]


def stage_plan(stage: StageMarks, plane: Plane, width: float, words: PlanWords) -> StagePlan:
    """The stage between the edges of a sheet so wide."""
    top = min(plane.point(*corner)[1] for corner in stage_corners(stage))
    shapes = [*stage_surface(stage, plane), *stage_edge(stage, plane, width)]
    if stage.layout != "round":
        shapes += _plaster_line(stage, plane, width)
    shapes += _opening(stage, plane, top)
    above = ABOVE if stage.sides and stage.opening else 0.0
    return StagePlan(tuple(shapes), tuple(_words(stage, plane, width, words, top)), top - above)


def center_line(plane: Plane, top: float, bottom: float, word: str) -> list[Shape]:
    """The line from top to bottom, its word above it."""
    x = plane.point(0.0, 0.0)[0]
    return [Line(x, top + TYPE + 4.0, x, bottom, "center"), Text(x, top + TYPE / 2, word, TYPE, "line-word")]


def target_cross(x: float, y: float) -> list[Shape]:
    """A cross in a ring."""
    return [
        Ellipse(x, y, 1.3 * _CROSS, 1.3 * _CROSS, 0.0, "target-ring"),
        Line(x - _CROSS, y, x + _CROSS, y, "target"),
        Line(x, y - _CROSS, x, y + _CROSS, "target"),
    ]


def stage_surface(stage: StageMarks, plane: Plane) -> Iterator[Shape]:
    """What people stand on; in the round without measures a sign for it."""
    if stage.sides and stage.depths:
        (left, right), (down, up) = stage.sides, stage.depths
        x, y = plane.point((left + right) / 2, (down + up) / 2)
        yield Box(x, y, (right - left) * plane.scale, (up - down) * plane.scale, "stage")
    elif stage.layout == "round":
        yield Ellipse(*plane.point(stage.target.x_m, stage.target.y_m), 72.0, 44.0, 0.0, "stage-about")


def stage_edge(stage: StageMarks, plane: Plane, width: float) -> Iterator[Shape]:
    """Where the stage meets the house: in front, round three sides of a thrust, round the whole in the round.

    Without an opening on file nobody knows its ends: it runs across the sheet.
    """
    if stage.depths is None:
        return
    down, up = stage.depths
    if stage.sides is None:
        y = plane.point(0.0, down)[1]
        yield Line(_MARGIN, y, width - _MARGIN, y, "stage-edge")
        return
    left, right = stage.sides
    back = {"thrust": [0.0], "round": [up]}.get(stage.layout, [])
    corners = [(left, y) for y in back] + [(left, down), (right, down)] + [(right, y) for y in back]
    if stage.layout == "round":
        corners.append(corners[0])
    yield Trail(plane.points(corners), "stage-edge")


def _plaster_line(stage: StageMarks, plane: Plane, width: float) -> Iterator[Shape]:
    """Broken where it is open, a wall beside the opening of a proscenium."""
    y = plane.point(0.0, 0.0)[1]
    yield Line(_MARGIN, y, width - _MARGIN, y, "plaster")
    if stage.layout == "proscenium" and stage.sides:
        left, right = (plane.point(x, 0.0)[0] for x in stage.sides)
        yield Line(_MARGIN, y, left, y, "wall")
        yield Line(right, y, width - _MARGIN, y, "wall")


def _opening(stage: StageMarks, plane: Plane, top: float) -> Iterator[Shape]:
    if stage.sides and stage.opening:
        left, right = (plane.point(x, 0.0)[0] for x in stage.sides)
        yield Line(left, top - 10.0, right, top - 10.0, "measure")
        yield from (Line(x, top - 14.0, x, top - 6.0, "measure") for x in (left, right))


def _words(stage: StageMarks, plane: Plane, width: float, words: PlanWords, top: float) -> Iterator[Text]:
    if stage.sides and stage.opening:
        yield Text(plane.point(sum(stage.sides) / 2, 0.0)[0], top - 22.0, stage.opening, TYPE, "line-word")
    if stage.layout != "round":
        yield Text(_MARGIN + 2.0, plane.point(0.0, 0.0)[1] - 12.5, words.plaster_line, TYPE, "line-word", "start")
        if stage.apron_m:
            yield _lip_word(stage, plane, width, words.lip)
    yield stage_word(stage, plane, words.stage)


def _lip_word(stage: StageMarks, plane: Plane, width: float, text: str) -> Text:
    """Beside the end of the edge at house right, where there is room, else in the corner of the sheet."""
    room = text_width(text, TYPE)
    right = width - _MARGIN if stage.sides is None else plane.point(stage.sides[1], 0.0)[0] + 8.0 + room
    y = plane.point(0.0, -(stage.apron_m or 0.0))[1] + 5.0
    return Text(min(right, width - _MARGIN - 2.0), y, text, TYPE, "line-word", "end")


def stage_word(stage: StageMarks, plane: Plane, text: str) -> Text:
    """On the surface, upstage of the target as far as there is room."""
    down, up = stage.depths or (stage.target.y_m, stage.target.y_m)
    x, y = plane.point(sum(stage.sides) / 2 if stage.sides else 0.0, up)
    at_target = plane.point(stage.target.x_m, stage.target.y_m)[1]
    y = min(max(y + 14.0, (y + at_target) / 2), plane.point(0.0, down)[1]) if up > down else y - 14.0
    return Text(x, y, text, 15.0, "stage-word")
