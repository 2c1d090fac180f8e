"""The drawing of a comparison as a page shows it."""

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from shows.core.drawing.plan import View, draw_plan
from shows.core.drawing.svg import as_svg
from shows.core.numbering.records import Comparison
from shows.wording import plan_words
from venue.models import Setup

WIDE = 560.0
"""From here on [drawing units] a phone shows the drawing in parts instead of too small to read."""


@dataclass(frozen=True)
class ShownPlan:
    """The drawing as SVG, the view, and the places that could not be drawn, in words."""

    svg: SafeString
    view: View
    is_wide: bool
    undrawn: str


def shown_plan(comparison: Comparison, setup: Setup | None, view: View, identity: str = "plan") -> ShownPlan:
    """The plan of the comparison's house, seen from the house or from the stage."""
    words = plan_words.plan_words(setup, view)
    drawing = draw_plan(comparison.house, comparison.pairs, words, plan_words.light_words(comparison), view)
    svg = as_svg(drawing, title=plan_words.drawing_title(view), identity=identity)
    missing = plan_words.undrawn(drawing.undrawn, comparison.house) if drawing.undrawn else ""
    return ShownPlan(mark_safe(svg), view, drawing.width > WIDE, missing)


def view_in(text: str) -> View:
    """The view that an address asks for."""
    return "stage" if text == "stage" else "house"
