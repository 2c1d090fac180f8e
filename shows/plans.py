"""The drawing of a comparison as a page shows it."""

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from shows.core.drawing.plan import View, draw_plan
from shows.core.numbering.records import Comparison
from shows.wording import plan_words
from venue.core.drawing.svg import as_svg
from venue.models import Setup

WIDE = 560.0
"""From here on [drawing units] the marks are small on a phone: the same stands below as a list."""


@dataclass(frozen=True)
class ShownPlan:
    """The drawing as SVG, the view, each light in words, and the places that could not be drawn."""

    svg: SafeString
    view: View
    is_wide: bool
    lights: list[str]
    undrawn: str


def shown_plan(comparison: Comparison, setup: Setup | None, view: View, identity: str = "plan") -> ShownPlan:
    """The plan of the comparison's house, seen from the house or from the stage."""
    words = plan_words.plan_words(setup, view)
    lights = plan_words.light_words(comparison)
    drawing = draw_plan(comparison.house, comparison.pairs, words, lights, view)
    svg = as_svg(drawing, title=plan_words.drawing_title(view), identity=identity)
    missing = plan_words.undrawn(drawing.undrawn, comparison.house) if drawing.undrawn else ""
    return ShownPlan(mark_safe(svg), view, drawing.width > WIDE, lights, missing)


def view_in(text: str) -> View:
    """The view that an address asks for."""
    return "stage" if text == "stage" else "house"
