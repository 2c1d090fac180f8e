"""Places, stages and words for drawings, and how to read a drawing back."""

import math
from collections.abc import Sequence
from itertools import combinations, pairwise
from xml.etree import ElementTree

from venue.core.drawing.overlaps import overlap
from venue.core.drawing.records import PlanPlace, PlanWords, SideWords, StageMarks
from venue.core.drawing.shapes import Bounds, Box, Drawing, Ellipse, Line, Mark, Text, Trail
from venue.core.throws import Point

SIDES = SideWords(
    left=("HOUSE LEFT ·", "stage right", "river side"),
    right=("HOUSE RIGHT ·", "stage left", "street side"),
    view="Seen from the house",
    you="YOU, facing the stage",
    show_number="show number",
    house_label="house label",
    spare="spare",
    scale="{} m",
    no_scale="not to scale",
    unit_m=1.0,
)
PLAN_WORDS = PlanWords(
    sides=SIDES,
    stage="STAGE",
    stage_end="stage end · north gate",
    plaster_line="plaster line",
    center_line="center line",
    lip="lip",
    target="target",
    throw="throw",
    pool="beam pool",
    reached="reached",
    clock="o'clock",
)
PROSCENIUM = StageMarks("proscenium", 14.0, 11.0, 1.5, opening="opening 14.0 m")
THRUST = StageMarks("thrust", 9.0, 6.0, 7.0, Point(0.0, -3.5, 1.5))
ROUND = StageMarks("round", 8.0, 6.0, None, Point(0.0, -10.0, 1.5))
HAIR, TOUCH = 0.01, 1.5


def feet(length_m: float) -> str:
    inches = round(length_m / 0.0254)
    return f"{inches // 12}' {inches % 12}\""


def place(label: str, x: float | None, y: float | None, number: str | None = None, **more: object) -> PlanPlace:
    """A place of the booth whose throw ends in the middle of the plaster line."""
    given = {"position": "Booth", "zone": "front", "end": (0.0, 0.0), "throw": f"{label} thrown"} | more
    return PlanPlace(label=label, words=f"house {label}", x_m=x, y_m=y, number=number, **given)  # type: ignore[arg-type]


def row(count: int, y: float = -30.0, half: float = 5.0, **more: object) -> list[PlanPlace]:
    """So many places from house left to house right, with the labels and the show numbers 1, 2, 3."""
    xs = [-half + 2 * half * index / max(1, count - 1) for index in range(count)]
    return [place(str(index), x, y, str(index), **more) for index, x in enumerate(xs, start=1)]


def of_kind(drawing: Drawing, kind: str) -> list:
    """Every single shape of the kind, the samples below the drawing too."""
    return [shape for shape in drawing.flat() if shape.kind == kind]


def texts(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.flat() if isinstance(shape, Text)]


def units_per_m(drawing: Drawing) -> float:
    """The scale as the bar says it, of a bar in meters."""
    (bar,) = of_kind(drawing, "scale")
    (word,) = of_kind(drawing, "scale-word")
    return (bar.x2 - bar.x1) / float(word.text.split()[0])


def tags(drawing: Drawing) -> dict[str, Bounds]:
    """What each tag covers, by its words."""
    found = {}
    for mark in drawing.shapes:
        if isinstance(mark, Mark):
            boxes = [shape.bounds for shape in mark.shapes]
            edges = list(zip(*boxes, strict=True))
            found[mark.words] = (min(edges[0]), min(edges[1]), max(edges[2]), max(edges[3]))
    return found


def leaders(drawing: Drawing) -> dict[str, tuple[tuple[float, float], ...]]:
    """The points of each tag's leader, from the slot on, by the tag's words: the leader that ends at it."""
    trails = [shape.points for shape in drawing.shapes if isinstance(shape, Trail) and shape.kind == "leader"]
    found = {}
    for words, box in tags(drawing).items():
        own = [points for points in trails if is_at(points[-1], box)]
        assert len(own) == 1, (words, own)
        found[words] = own[0]
    return found


def slots(drawing: Drawing) -> dict[str, tuple[float, float]]:
    """Where each slot is drawn, as its leader says."""
    return {words: points[0] for words, points in leaders(drawing).items()}


def is_at(point: tuple[float, float], box: Bounds) -> bool:
    """Whether a point is at the edge of a box, as far as an eye can tell, or in it."""
    x, y = point
    return box[0] - TOUCH <= x <= box[2] + TOUCH and box[1] - TOUCH <= y <= box[3] + TOUCH


def collisions(drawing: Drawing) -> list[tuple[str, str]]:
    """Tags that cover one another, or the writing on the plan."""
    boxes = list(tags(drawing).items())
    kinds = ("caption", "line-word", "area-name", "you", "view", "edge-house", "edge-more", "note", "stage-end")
    boxes += [(shape.text, shape.bounds) for shape in drawing.shapes if isinstance(shape, Text) and shape.kind in kinds]
    return [(one, other) for (one, box), (other, its) in combinations(boxes, 2) if overlap(box, its)]


def outside(drawing: Drawing) -> list[object]:
    """What is not on the sheet."""
    found = []
    for shape in drawing.flat():
        left, top, right, bottom = bounds(shape)
        if left < -HAIR or top < -HAIR or right > drawing.width + HAIR or bottom > drawing.height + HAIR:
            found.append(shape)
    return found


def bounds(shape: Line | Box | Text | Trail | Ellipse) -> Bounds:
    if isinstance(shape, Line):
        return min(shape.x1, shape.x2), min(shape.y1, shape.y2), max(shape.x1, shape.x2), max(shape.y1, shape.y2)
    if isinstance(shape, Trail):
        xs, ys = zip(*shape.points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)
    return shape.bounds


def classes(svg: str) -> set[str]:
    """Every class in an SVG, which has to be well formed and without style."""
    assert "style" not in svg
    return {name for element in ElementTree.fromstring(svg).iter() if (name := element.get("class"))}


def ways(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The way from each point to the next."""
    return [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in pairwise(points)]


def length(line: Line) -> float:
    return math.hypot(line.x2 - line.x1, line.y2 - line.y1)
