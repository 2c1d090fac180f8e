"""A show on the house's drawings: plan and section with both numbers at every place in use."""

from dataclasses import dataclass

from django.utils.safestring import SafeString

from shows.models import Engagement
from shows.tonight import compared, numbers_at, numbers_of, places_tonight, show_instant
from venue.book import book_of_positions
from venue.core.drawing.plane import View
from venue.house_drawings import as_figure, plan_drawing, section_drawing
from venue.models import Place, Position
from venue.throw_book import lights_in
from venue.wording_drawings import plan_title, section_title


@dataclass(frozen=True)
class ShowDrawings:
    """Plan and section as SVG, every place in use with its show number (empty: none), and those not drawn."""

    plan: SafeString
    section: SafeString
    rows: tuple[tuple[str, Place], ...]
    undrawn: tuple[Place, ...]


def show_drawings(engagement: Engagement, view: View) -> ShowDrawings:
    """The drawings as things stand at the show, in a constant number of queries."""
    at, setup = show_instant(engagement), engagement.setup
    tonight = places_tonight(engagement, at)
    numbers = numbers_at(tonight, compared(engagement, tonight, numbers_of(engagement)))
    keys = {place.pk for place in tonight.places}
    positions = Position.objects.filter(places__in=keys).distinct().order_by("row_order", "pk")
    lights = [
        light for light in lights_in(book_of_positions(setup, positions, at), setup, at) if light.place.pk in keys
    ]
    plan = plan_drawing(setup, lights, view, numbers=numbers)
    section = section_drawing(setup, lights, numbers=numbers)
    return ShowDrawings(
        plan=as_figure(plan, plan_title(view), "show-plan"),
        section=as_figure(section, section_title(), "show-section"),
        rows=tuple((numbers.get(light.place.pk, ""), light.place) for light in lights),
        undrawn=tuple(lights[index].place for index in plan.undrawn),
    )
