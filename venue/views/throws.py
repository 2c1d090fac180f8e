"""What each light can do: the throws of the house, one place's light, what a position reaches."""

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from venue.access import house_for, position_in, setup_named, standing_place_in
from venue.book import book_of_positions
from venue.house_drawings import as_figure, plan_drawing, throw_drawing
from venue.models import ColorFilter, House, Setup
from venue.place_light import (
    MOST_FILTERS,
    Aim,
    InFront,
    aims,
    beams,
    filters_named,
    in_front,
    is_near,
    light_at,
    size_rows,
)
from venue.reach_rows import (
    Areas,
    PlaceReach,
    areas_of,
    blockage_words,
    blockages_of,
    limit_facts,
    place_reaches,
    reach_table,
)
from venue.throw_book import PlaceLight, lights_in, lights_of
from venue.throw_rows import throw_groups, throw_row
from venue.wording_light import level_words, percent_words
from venue.wording_throws import BEAM_TITLES, line_facts, rules, takes_away, why_from_to


@require_safe
def throw_list(request: HttpRequest, slug: str) -> HttpResponse:
    """Every place of the house in its order: its throw as told, as computed, and to the set-up's target."""
    house, may_write = house_for(request.user, slug)
    setup = _setup_asked(request, house)
    is_on_camera = request.GET.get("camera") == "1"
    lights = lights_of(setup, timezone.now())
    groups = throw_groups(lights, house.unit_system, is_on_camera=is_on_camera)  # type: ignore[arg-type]
    context = {
        **_about(house, setup),
        "may_write": may_write,
        "groups": groups,
        "is_on_camera": is_on_camera,
        "odd_count": sum(bool(row.oddities) for group in groups for row in group.rows),
    }
    return render(request, "venue/throw_list.html", context)


@require_safe
def place_light(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """One place: its section, its lines, its beams and its sizes about a point, behind glass, age and filters."""
    house, may_write = house_for(request.user, slug)
    place, setup = standing_place_in(house, ref), _setup_asked(request, house)
    choices, is_on_camera = aims(setup, place), request.GET.get("camera") == "1"
    aim = _aim_asked(request, choices)
    light = light_at(place, setup, timezone.now(), aim.point)
    filters, left_out = filters_named(house, request.GET.getlist("filter"))
    front = in_front(filters, light.unit.cct_k if light.unit else None)
    context = {
        **_about(house, setup),
        **_shown_light(light, front, house.unit_system, is_on_camera=is_on_camera),
        "may_write": may_write and place.only_for is None,
        "place": place,
        "position": place.position,
        "aims": choices,
        "aim": aim,
        "is_other_aim": aim.key != request.GET.get("target", aim.key),
        **_filter_form(request, house, filters, left_out),
        "is_on_camera": is_on_camera,
        "picture": _throw_picture(light, setup),
    }
    return render(request, "venue/place_light.html", context)


@require_safe
def position_reach(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """The part of the stage and of each area that each place of a position reaches, by what is recorded."""
    house, may_write = house_for(request.user, slug)
    position, setup = position_in(house, ref), _setup_asked(request, house)
    now = timezone.now()
    lights = list(lights_in(book_of_positions(setup, [position], now), setup, now))
    areas, blockages = areas_of(setup), blockages_of(position)
    reaches = place_reaches(lights, areas, blockages)
    drawn = _drawn_place(request, reaches)
    context = {
        **_about(house, setup),
        "may_write": may_write and not position.has_ended and position.only_for is None,
        "position": position,
        "areas": areas,
        "has_limits": any(reach.limits.are_recorded for reach in reaches),
        "table": reach_table(reaches, areas),
        "reaches": reaches,
        "drawn": drawn,
        "limits": limit_facts(position, house.unit_system),  # type: ignore[arg-type]
        "blockages": [(each, blockage_words(each)) for each in blockages],
        "picture": _reach_picture(lights, setup, drawn, areas),
    }
    return render(request, "venue/position_reach.html", context)


def _setup_asked(request: HttpRequest, house: House) -> Setup:
    setup = setup_named(house, request.GET.get("setup", ""))
    setup.house = house
    return setup


def _about(house: House, setup: Setup) -> dict[str, Any]:
    return {"house": house, "setup": setup, "setups": house.setups.all()}


def _aim_asked(request: HttpRequest, choices: Sequence[Aim]) -> Aim:
    """The point named by `target`; the set-up's own where the house has none of this name."""
    named = request.GET.get("target", "")
    return next((aim for aim in choices if aim.key == named), choices[0])


def _shown_light(light: PlaceLight, front: InFront, system: Any, *, is_on_camera: bool) -> dict[str, Any]:
    """What the page says of the light; the rows without a unit or a lens are empty."""
    found = beams(light, system)
    return {
        "light": light,
        "unit": light.unit,
        "row": throw_row(light, system, is_on_camera=is_on_camera),
        "end_line": [] if light.end_line is None else line_facts(light.end_line, system),
        "beams": [(BEAM_TITLES[name], facts) for name, facts in found.items()],
        "sizes": size_rows(light, front, system),
        "is_near": is_near(light),
        "takes_away": takes_away(light),
        "why_from_to": why_from_to(light),
        "level": level_words(light.optics.percent),
        "front": front,
        "passes": "" if front.stack is None else percent_words(front.stack.transmission),
        "rules": rules(),
    }


def _filter_form(request: HttpRequest, house: House, chosen: Sequence[ColorFilter], left_out: int) -> dict[str, Any]:
    """The choice of filters; what the address asks for besides stays."""
    picked = [each.pk for each in chosen]
    return {
        "left_out": left_out,
        "filter_choices": house.color_filters.standing(),
        "filter_fields": [
            (number + 1, picked[number] if number < len(picked) else None) for number in range(MOST_FILTERS)
        ],
        "kept": [(name, request.GET[name]) for name in ("setup", "target", "camera") if name in request.GET],
    }


def _throw_picture(light: PlaceLight, setup: Setup) -> SafeString | None:
    if light.lens is None:
        return None
    title = _("Section along the throw of %(place)s") % {"place": light.place}
    return as_figure(throw_drawing(light, setup), title, "throw")


def _drawn_place(request: HttpRequest, reaches: Sequence[PlaceReach]) -> PlaceReach | None:
    """The place named by `place`, else the first whose reach is known, else the first whose lens is."""
    measured = [reach for reach in reaches if reach.reached]
    named = [reach for reach in measured if str(reach.place.ref) == request.GET.get("place")]
    known = [reach for reach in measured if reach.limits.are_recorded]
    return next(iter([*named, *known, *measured]), None)


def _reach_picture(
    lights: Sequence[PlaceLight], setup: Setup, drawn: PlaceReach | None, areas: Areas
) -> SafeString | None:
    """The plan with the place drawn alone, its reach hatched."""
    if drawn is None:
        return None
    title = _("Plan of what %(place)s reaches") % {"place": drawn.place}
    light = [light for light in lights if light.place == drawn.place]
    return as_figure(plan_drawing(setup, light, areas=drawn.plan_areas(areas)), title, "reach")
