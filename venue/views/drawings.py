"""The house drawn: its plan, its section along the center line, the true section along one place's throw."""

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from venue.access import house_for, own_position_in, setup_named
from venue.core.drawing.plane import View
from venue.drawing_rows import WITH_BEARINGS, ShownAreas, by_bearing_alone, drawn_rows, plain_areas, reached_areas
from venue.house_drawings import Beam, as_figure, beam_at, beam_of, plan_drawing, section_drawing, throw_drawing
from venue.models import House, Position, Setup
from venue.reach_rows import areas_of, blockages_of, place_reaches
from venue.throw_book import PlaceLight, lights_of
from venue.wording_drawings import plan_title, section_title, system_of, throw_title
from venue.wording_throws import BEAM_TITLES, beam_facts, line_facts


@require_safe
def house_plan(request: HttpRequest, slug: str) -> HttpResponse:
    """The plan of a set-up, seen from the house or the stage, with pools and what a position reaches where asked."""
    house, may_write = house_for(request.user, slug)
    setup = _setup_asked(request, house)
    lights = lights_of(setup, timezone.now())
    view: View = "stage" if request.GET.get("view") == "stage" else "house"
    beam, position = _beam_asked(request), _position_asked(request, house)
    shown = _areas_shown(request, setup, position, lights)
    drawing = plan_drawing(setup, lights, view, areas=shown.areas, with_pools=beam or False)
    context = {
        **_about(house, setup, lights),
        "may_write": may_write,
        "view": view,
        "beam": beam,
        "has_areas": bool(shown.areas),
        "reaching": position,
        "nothing_reached": shown.nothing,
        "picture": as_figure(drawing, plan_title(view), "house-plan"),
        "rows": drawn_rows(lights, setup, beam),
        "undrawn": [lights[index].place for index in drawing.undrawn],
        "by_bearing": by_bearing_alone(lights, setup),
    }
    return render(request, "venue/house_plan.html", context)


@require_safe
def house_section(request: HttpRequest, slug: str) -> HttpResponse:
    """The section along the center line, or of one place along its throw."""
    house, may_write = house_for(request.user, slug)
    setup = _setup_asked(request, house)
    lights = lights_of(setup, timezone.now())
    light, beam = _light_asked(request, lights), _beam_asked(request) or "wide"
    context = {
        **_about(house, setup, lights),
        "may_write": may_write,
        "light": light,
        "beam": beam,
        **_section_shown(light, setup, lights, beam),
        "rows": drawn_rows(lights, setup),
        "undrawn": [each.place for each in lights if each.lens is None],
    }
    return render(request, "venue/house_section.html", context)


def _setup_asked(request: HttpRequest, house: House) -> Setup:
    setup = setup_named(house, request.GET.get("setup", ""))
    setup.house = house
    return setup


def _about(house: House, setup: Setup, lights: Sequence[PlaceLight]) -> dict[str, Any]:
    return {
        "house": house,
        "setup": setup,
        "setups": house.setups.all(),
        "positions": list(dict.fromkeys(light.entry.position for light in lights)),
        "has_bearings": setup.layout in WITH_BEARINGS,
        "beams": BEAM_TITLES,
    }


def _beam_asked(request: HttpRequest) -> Beam | None:
    return {"narrow": "narrow", "wide": "wide"}.get(request.GET.get("pools", ""))  # type: ignore[return-value]


def _position_asked(request: HttpRequest, house: House) -> Position | None:
    """The house's position named by `position`; None where none is. Raises Http404."""
    ref = request.GET.get("position", "")
    return own_position_in(house, _uuid(ref)) if ref else None


def _light_asked(request: HttpRequest, lights: Sequence[PlaceLight]) -> PlaceLight | None:
    """The light of the place named by `place`; None where none is. Raises Http404."""
    ref = request.GET.get("place", "")
    if not ref:
        return None
    found = {light.place.ref: light for light in lights}.get(_uuid(ref))
    if found is None:
        raise Http404
    return found


def _uuid(text: str) -> UUID:
    try:
        return UUID(text)
    except ValueError as error:
        raise Http404 from error


def _areas_shown(
    request: HttpRequest, setup: Setup, position: Position | None, lights: Sequence[PlaceLight]
) -> ShownAreas:
    """The areas of the set-up where they or what a position reaches are asked for."""
    if position is not None:
        areas, own = areas_of(setup), [light for light in lights if light.entry.position == position]
        return reached_areas(place_reaches(own, areas, blockages_of(position)), areas, position.name)
    return plain_areas(areas_of(setup)) if request.GET.get("areas") == "1" else ShownAreas()


def _section_shown(light: PlaceLight | None, setup: Setup, lights: Sequence[PlaceLight], beam: Beam) -> dict[str, Any]:
    """The place's own section with its figures, else that of the house."""
    if light is None or light.line is None:
        return {"picture": as_figure(section_drawing(setup, lights), section_title(), "house-section")}
    system, shown = system_of(setup), beam_of(light, beam)
    title = throw_title(str(light.place))
    return {
        "picture": as_figure(throw_drawing(light, setup, beam=beam), title, "throw-section"),
        "line": line_facts(light.line, system),
        "shown": [] if shown is None else beam_facts(shown, system),
        "is_other_beam": shown is not None and shown != beam_at(light, beam),
    }
