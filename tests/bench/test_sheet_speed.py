"""How long a call sheet takes as PDF, as a ratio to the same text drawn plainly on a canvas in the same fonts.

The plain sheet has the same lines of text in the same fonts and sizes at the same spots, read back from the real one
stroke by stroke. Nothing is wrapped, measured or made printable, and there are no frames, rules or code.
"""

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from io import BytesIO
from typing import Any
from unittest.mock import patch

import pytest
from reportlab.pdfgen.canvas import Canvas

from crew.sheets.call_sheet import Imprint, call_sheet_pdf
from crew.sheets.pen import LETTER
from tests.bench.measuring import report
from tests.crew.test_call_sheet_pdf import ISSUED, pages, sheet

pytestmark = pytest.mark.bench

Stroke = tuple[str, str, float, float, float, str]
DRAWING = ("drawString", "drawRightString", "drawCentredString")


@contextmanager
def recorded() -> Iterator[list[Stroke]]:
    """Every line of text that is drawn meanwhile: by which method, font, size, x, baseline, text."""
    strokes: list[Stroke] = []
    with ExitStack() as patches:
        for method in DRAWING:
            patches.enter_context(patch.object(Canvas, method, recording(method, strokes)))
        yield strokes


def recording(method: str, strokes: list[Stroke]) -> Callable[..., None]:
    draw = getattr(Canvas, method)

    def record(canvas: Any, x: float, y: float, text: str) -> None:
        strokes.append((method, canvas._fontname, canvas._fontsize, x, y, text))
        draw(canvas, x, y, text)

    return record


def plain(strokes: list[Stroke]) -> bytes:
    """The same text on one page, and nothing else."""
    target = BytesIO()
    canvas = Canvas(target, pagesize=(LETTER.width, LETTER.height), invariant=1, pageCompression=1)
    for method, font, size, x, y, text in strokes:
        canvas.setFont(font, size)
        getattr(canvas, method)(x, y, text)
    canvas.showPage()
    canvas.save()
    return target.getvalue()


@pytest.mark.parametrize(("name", "imprint"), [("with its code", ISSUED), ("without", replace(ISSUED, address=""))])
def test_a_call_sheet_of_one_page(name: str, imprint: Imprint) -> None:
    lights = sheet(4)
    with recorded() as strokes:
        content = call_sheet_pdf(lights, imprint, LETTER)
    assert len(pages(content)) == 1
    assert pages(plain(strokes))[0].split() == pages(content)[0].split()
    report(f"call sheet of one page, {name}", lambda: call_sheet_pdf(lights, imprint, LETTER), lambda: plain(strokes))
