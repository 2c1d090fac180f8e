"""How long the plan of a house of 24 places takes with all that is derived for it, as a ratio to a floor.

In the page the floor takes the 24 throws and writes as many plain lines and texts as the plan has shapes; together
the derived values and the drawing stay within 30 ms. On paper it is the same text, lines and frames put on a canvas
directly, in the same fonts, with nothing measured, scaled or dashed.
"""

import math
from io import BytesIO
from itertools import pairwise

import pytest
from reportlab.pdfgen.canvas import Canvas

from crew.sheets.drawn import FACES, draw
from crew.sheets.pen import LETTER, Pen
from tests.bench.measuring import milliseconds, report
from tests.venue.drawn_houses import PLAN_WORDS, PROSCENIUM, feet
from venue.core.abilities import Optics, ability
from venue.core.drawing.house_plan import house_plan
from venue.core.drawing.records import BeamPool, PlanPlace
from venue.core.drawing.shapes import Box, Drawing, Line, Text, Trail
from venue.core.drawing.svg import as_svg
from venue.core.pools import pool_center
from venue.core.throws import Point

pytestmark = pytest.mark.bench

LENSES = [Point(-11.5 + number, -38.0 + number % 5, 14.0) for number in range(24)]
TARGET, OPTICS = Point(0.0, 0.0, 1.5), Optics(0.9, 7.0, 6.5e6, 9e5)


def plan() -> Drawing:
    """Everything from the coordinates on."""
    places, pools = [], []
    for number, lens in enumerate(LENSES, start=1):
        able = ability(lens, TARGET, OPTICS)
        assert able.line and able.narrow and able.narrow.deck
        throw = feet(able.line.throw_m)
        spot, shown = (lens.x_m, lens.y_m), str(number)
        words = f"show {shown} / house {shown}"
        places.append(PlanPlace(shown, "Booth", "front", words, *spot, number=shown, end=(0.0, 0.0), throw=throw))
        pool = able.narrow.deck
        x, y = pool_center(lens, able.line, pool)
        pools.append(BeamPool(x, y, pool.length_m, pool.width_m, able.line.pan_deg))
    return house_plan(places, PROSCENIUM, PLAN_WORDS, pools=pools)


def plain() -> str:
    """The throws, and the same count of elements written out."""
    lengths = [math.dist((lens.x_m, lens.y_m, lens.z_m), (0.0, 0.0, 1.5)) for lens in LENSES]
    return "".join(
        f'<line class="a" x1="{length:.1f}" y1="0.0" x2="{index:.1f}" y2="9.0"/><text x="1.0" y="1.0">{index}</text>'
        for index in range(7)
        for length in lengths
    )


def test_twenty_four_places_in_the_page() -> None:
    def work() -> str:
        return as_svg(plan(), title="Plan", family="draft")

    report("24 places: derived values, house plan, SVG", work, plain)
    assert milliseconds(work) < 30.0


def drawn(drawing: Drawing) -> bytes:
    pen = Pen(LETTER, "Plan")
    draw(pen, drawing, 36.0, 36.0, 540.0, 720.0)
    return pen.finished()


def direct(drawing: Drawing) -> bytes:
    """The same on one page, each shape by one call."""
    target = BytesIO()
    canvas = Canvas(target, pagesize=(LETTER.width, LETTER.height), invariant=1, pageCompression=1)
    for shape in drawing.flat():
        if isinstance(shape, Text):
            canvas.setFont(FACES[shape.kind].font, shape.size)
            canvas.drawString(shape.x, LETTER.height - shape.y, shape.text)
        elif isinstance(shape, Line):
            canvas.line(shape.x1, -shape.y1, shape.x2, -shape.y2)
        elif isinstance(shape, Trail):
            canvas.lines([(*one, *other) for one, other in pairwise(shape.points)])
        elif isinstance(shape, Box):
            canvas.roundRect(shape.x, -shape.y, shape.width, shape.height, shape.radius)
        else:
            canvas.ellipse(shape.x, -shape.y, shape.x + shape.along, shape.across - shape.y)
    canvas.showPage()
    canvas.save()
    return target.getvalue()


def test_twenty_four_places_on_paper() -> None:
    drawing = plan()
    report("24 places: the drawn plan as PDF", lambda: drawn(drawing), lambda: direct(drawing))
