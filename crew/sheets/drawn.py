"""A drawing on paper: the same shapes as on a page, in ink.

Every kind has its width, gray and dashes here, so that it can be told apart in black and white. Text is no wider than
the drawing left room for: a face that runs wider is set smaller.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from crew.sheets.lettering import BOLD, REGULAR, fitting_size, printable, width
from crew.sheets.pen import Pen
from venue.core.drawing.shapes import Box, Drawing, Ellipse, Line, Text, Trail

_BASELINE = 0.35  # from the middle of a line of text down to its baseline, in sizes
BLACK, DARK, MIDDLE, LIGHT, PALE, WHITE = 0.0, 0.3, 0.5, 0.7, 0.92, 1.0


@dataclass(frozen=True)
class Look:
    """Ink: the stroke's width and the dashes [drawing units], grays from 0 for black; `fill` None leaves it open."""

    weight: float = 1.0
    gray: float | None = BLACK
    dash: tuple[float, ...] = ()
    fill: float | None = None


@dataclass(frozen=True)
class Face:
    """Writing; `is_clear` puts white under it where strokes run."""

    font: str = REGULAR
    gray: float = BLACK
    is_clear: bool = False


Faces = Mapping[str, Face]
PLAIN, WRITING = Look(), Face()
"""For a kind without a look of its own."""

LOOKS = {
    # the stage
    "stage": Look(0.75, LIGHT, fill=PALE),
    "stage-about": Look(1.0, MIDDLE, (3.0, 4.0)),
    "stage-edge": Look(3.5),
    "wall": Look(5.0, DARK),
    "plaster": Look(1.25, DARK, (8.0, 4.0)),
    "center": Look(0.75, MIDDLE, (14.0, 4.0, 2.0, 4.0)),
    "measure": Look(0.75, DARK),
    "target": Look(1.25),
    "target-ring": Look(1.25),
    "edge": Look(1.5, LIGHT),
    "rail": Look(1.5, MIDDLE),
    # slots, throws and light
    "throw": Look(0.9, DARK),
    "throw-end": Look(0.0, None, fill=BLACK),
    "slot": Look(2.0, fill=WHITE),
    "leader": Look(0.75, MIDDLE),
    "pool": Look(1.25, BLACK, (5.0, 3.0)),
    "area": Look(1.0, MIDDLE, (2.0, 3.0)),
    "reached": Look(0.6, MIDDLE),
    "reached-edge": Look(0.6, MIDDLE),
    # both numbers
    "number-shape": Look(2.25, fill=WHITE),
    "spare-shape": Look(1.0, MIDDLE, (4.0, 4.0), fill=WHITE),
    "label-shape": Look(1.0, DARK, fill=WHITE),
    "you-mark": Look(0.0, None, fill=BLACK),
    "plate": Look(0.0, None, fill=WHITE),
    # a bowl's clock
    "dial": Look(1.0, LIGHT),
    "hour-tick": Look(1.0, MIDDLE),
    # the section
    "deck": Look(3.5),
    "level": Look(1.0, LIGHT, (2.0, 4.0)),
    "cone": Look(0.9, DARK, (6.0, 3.0)),
    "deck-pool": Look(7.0, MIDDLE),
    "horizon": Look(0.75, DARK, (3.0, 3.0)),
    "angle": Look(1.0),
    "glass": Look(1.5),
    "person": Look(1.0, fill=WHITE),
    "scale": Look(1.25),
    "scale-tick": Look(1.25),
    # charts
    "base": Look(1.25, DARK),
    "hours": Look(2.25),
    "light": Look(2.25),
    "change": Look(0.9, MIDDLE),
    "ahead": Look(1.75, DARK, (1.0, 5.0)),
    "dot": Look(1.75, fill=WHITE),
    "warn": Look(1.25, DARK, (8.0, 4.0)),
    "stop": Look(2.75),
    "mates": Look(1.25, DARK, (2.0, 3.0)),
    "use": Look(0.0, None, fill=0.85),
    "use-edge": Look(1.25),
}

FACES = {
    "view": Face(BOLD),
    "edge-house": Face(BOLD),
    "edge-more": Face(gray=DARK),
    "you": Face(BOLD),
    "caption": Face(BOLD, is_clear=True),
    "number": Face(BOLD),
    "spare": Face(gray=DARK),
    "label": WRITING,
    "legend": WRITING,
    "key-word": WRITING,
    "scale-word": WRITING,
    "note": WRITING,
    "tag-line": Face(is_clear=True),
    "line-word": Face(gray=DARK, is_clear=True),
    "area-name": Face(is_clear=True),
    "stage-word": Face(gray=DARK),
    "stage-end": Face(gray=DARK),
    "hour": Face(gray=DARK, is_clear=True),
    "warn-word": Face(is_clear=True),
    "stop-word": Face(BOLD, is_clear=True),
    "mates-word": Face(is_clear=True),
}

CHART_FACES = FACES | {"number": Face(gray=DARK), "caption": Face(gray=DARK)}
"""Numbers along an axis are no show numbers."""


def draw(pen: Pen, drawing: Drawing, x: float, y: float, width: float, height: float, *, faces: Faces = FACES) -> float:
    """The drawing as large as it fits a box whose top left corner is (x, y), in its middle [pt].

    A chart is written with `CHART_FACES`. Returns where the next thing may begin.
    """
    scale = min(width / drawing.width, height / drawing.height)
    canvas = pen.canvas
    canvas.saveState()
    canvas.translate(x + (width - drawing.width * scale) / 2, pen.paper.height - y)
    canvas.scale(scale, scale)
    canvas.setLineJoin(1)
    for shape in drawing.flat():
        if isinstance(shape, Text):
            _write(canvas, shape, faces.get(shape.kind, WRITING))
        else:
            _stroke(canvas, shape)
    canvas.restoreState()
    return y + drawing.height * scale


def _stroke(canvas: Canvas, shape: Line | Box | Ellipse | Trail) -> None:
    """One shape, y upward from the top of the drawing."""
    look = LOOKS.get(shape.kind, PLAIN)
    _take_ink(canvas, look)
    stroke, fill = int(look.gray is not None), int(look.fill is not None)
    if isinstance(shape, Line):
        canvas.line(shape.x1, -shape.y1, shape.x2, -shape.y2)
    elif isinstance(shape, Box):
        left, _top, _right, bottom = shape.bounds
        radius = min(shape.radius, shape.width / 2, shape.height / 2)
        canvas.roundRect(left, -bottom, shape.width, shape.height, radius, stroke=stroke, fill=fill)
    elif isinstance(shape, Ellipse):
        _ellipse(canvas, shape, stroke, fill)
    else:
        _trail(canvas, shape, stroke, fill)


def _take_ink(canvas: Canvas, look: Look) -> None:
    canvas.setLineWidth(look.weight)
    canvas.setDash(*([list(look.dash)] if look.dash else []))
    canvas.setStrokeGray(look.gray or BLACK)
    canvas.setFillGray(BLACK if look.fill is None else look.fill)


def _ellipse(canvas: Canvas, ellipse: Ellipse, stroke: int, fill: int) -> None:
    canvas.saveState()
    canvas.translate(ellipse.x, -ellipse.y)
    canvas.rotate(-ellipse.turn_deg)
    half, other = ellipse.along / 2, ellipse.across / 2
    canvas.ellipse(-half, -other, half, other, stroke=stroke, fill=fill)
    canvas.restoreState()


def _trail(canvas: Canvas, trail: Trail, stroke: int, fill: int) -> None:
    if not trail.points:
        return
    path = canvas.beginPath()
    (x, y), *others = trail.points
    path.moveTo(x, -y)
    for x, y in others:
        path.lineTo(x, -y)
    if trail.is_closed:
        path.close()
    canvas.drawPath(path, stroke=stroke, fill=fill if trail.is_closed else 0)


def _write(canvas: Canvas, text: Text, face: Face) -> None:
    """One line of text in the room that the drawing left for it."""
    said = printable(text.text, face.font)
    size = fitting_size(said, face.font, text.size, 0.0, text.width)
    length = width(said, face.font, size)
    left = text.x - {"start": 0.0, "middle": length / 2, "end": length}[text.anchor]
    if face.is_clear:
        canvas.setFillGray(WHITE)
        canvas.rect(left - 1.0, -text.y - size / 2, length + 2.0, size, stroke=0, fill=1)
    canvas.setFillGray(face.gray)
    canvas.setFont(face.font, size)
    canvas.drawString(left, -text.y - _BASELINE * size, said)
