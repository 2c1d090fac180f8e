"""How long the technical sheet of a house of 24 places takes as PDF, as a ratio to the same strokes put on a canvas.

The floor has the same lines of text in the same fonts and sizes at the same spots, the same rules and frames, page by
page, read back from the real sheet stroke by stroke. Nothing is worded, wrapped, measured, made printable, scaled or
dashed. The sheet is to stay within twice that.
"""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from io import BytesIO
from typing import Any
from unittest.mock import patch

import pytest
from reportlab.pdfgen.canvas import Canvas

from crew.sheets.pen import LETTER
from crew.sheets.tech_sheet import tech_sheet_pdf
from tests.bench.measuring import report
from tests.crew.teched import a_sheet, shown
from tests.crew.test_call_sheet_pdf import text
from tests.crew.test_tech_sheet_pdf import PLAN, SECTION

pytestmark = pytest.mark.bench

Stroke = tuple[str, tuple[Any, ...], tuple[Any, ...]]
TEXTS = ("drawString", "drawRightString")
STROKES = (*TEXTS, "line", "roundRect", "showPage")


@contextmanager
def recorded() -> Iterator[list[Stroke]]:
    """Every text, line, frame and end of page that is drawn meanwhile, with the font that was set."""
    strokes: list[Stroke] = []
    with ExitStack() as patches:
        for method in STROKES:
            patches.enter_context(patch.object(Canvas, method, recording(method, strokes)))
        yield strokes


def recording(method: str, strokes: list[Stroke]) -> Any:
    draw = getattr(Canvas, method)

    def record(canvas: Any, *values: Any, **options: Any) -> None:
        font = (canvas._fontname, canvas._fontsize) if method in TEXTS else ()
        strokes.append((method, font, values))
        draw(canvas, *values, **options)

    return record


def plain(strokes: list[Stroke]) -> bytes:
    """The same strokes and nothing else."""
    target = BytesIO()
    canvas = Canvas(target, pagesize=(LETTER.width, LETTER.height), invariant=1, pageCompression=1)
    for method, font, values in strokes:
        if font:
            canvas.setFont(*font)
        getattr(canvas, method)(*values)
    canvas.save()
    return target.getvalue()


@pytest.mark.parametrize("name", ["with both drawings", "tables and positions alone"])
def test_a_house_of_twenty_four_places_at_eight_positions(name: str) -> None:
    sheet = a_sheet(8, 3)
    drawings = (PLAN, SECTION) if name == "with both drawings" else (None, None)

    def work() -> bytes:
        return tech_sheet_pdf(shown(sheet), *drawings, LETTER)

    with recorded() as strokes:
        content = work()
    assert sorted(text(plain(strokes)).split()) == sorted(text(content).split())
    report(f"technical sheet of 24 places, {name}", work, lambda: plain(strokes), rounds=12)
