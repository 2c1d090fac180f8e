"""A show on the house's drawings: plan and section with both numbers at every place in use."""

from dataclasses import dataclass

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from shows.models import Engagement
from shows.tonight import Tonight, compared, numbers_of, places_tonight, show_instant
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
    numbers = _numbers_at(engagement, tonight)
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


def _numbers_at(engagement: Engagement, tonight: Tonight) -> dict[int, str]:
    """Show number by the place's primary key."""
    comparison = compared(engagement, tonight, numbers_of(engagement))
    return {tonight.places[pair.slot].pk: pair.number for pair in comparison.pairs}


def light_words(number: str, place: Place) -> str:
    """One place in words: "show 3 / house 2, Rear booth"."""
    values = {"number": number, "label": place.label, "position": place.position.name}
    if number:
        return _("show %(number)s / house %(label)s, %(position)s") % values
    return _("no show number / house %(label)s, %(position)s") % values
