"""The drawings of a house from its rows, for pages and sheets alike.

lights --plan_drawing, throw_drawing, section_drawing--> Drawing --as_figure--> SVG for a page
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType
from typing import Literal

from django.utils.safestring import SafeString, mark_safe

from venue import wording_drawings as words
from venue.core.abilities import BeamAtTarget
from venue.core.bearings import bearing_about
from venue.core.drawing.bowl_plan import bowl_plan
from venue.core.drawing.cut import Cut
from venue.core.drawing.house_plan import house_plan
from venue.core.drawing.plane import View
from venue.core.drawing.records import BeamPool, PlanArea, PlanPlace, SectionPlace, StageMarks
from venue.core.drawing.section import center_section, throw_section
from venue.core.drawing.shapes import Drawing
from venue.core.drawing.svg import as_svg
from venue.core.lengths import UnitSystem, as_typed, written
from venue.core.light import PANES
from venue.core.pools import Pool, pool_center
from venue.core.throws import Point
from venue.models import Setup
from venue.models.positions import Zone
from venue.models.setups import Layout
from venue.throw_book import PlaceLight, target_of

WIDTH = 360.0
Beam = Literal["narrow", "wide"]
NO_NUMBERS: Mapping[int, str] = MappingProxyType({})


def plan_drawing(
    setup: Setup,
    lights: Sequence[PlaceLight],
    view: View = "house",
    *,
    areas: Sequence[PlanArea] = (),
    with_pools: Beam | bool = False,
    numbers: Mapping[int, str] = NO_NUMBERS,
    width: float = WIDTH,
    tallest: float | None = None,
) -> Drawing:
    """The plan in the set-up: to scale, a bowl with bearings and the clock; what is to scale is at most `tallest`.

    `numbers` are a show's, by the place's primary key.

    `with_pools` are those of the units that stand there, at their narrowest or their widest (True). A bowl that is
    known by bearings alone has no scale, and neither areas nor pools.
    """
    places = [replace(plan_place(light, setup), number=numbers.get(light.place.pk)) for light in lights]
    beam: Beam = "narrow" if with_pools == "narrow" else "wide"
    pools = list(_pools(lights, beam)) if with_pools else []
    said = words.plan_words(setup, view, words.pool_names()[beam])
    draw = bowl_plan if is_bowl(setup, lights) else house_plan
    limits = {"width": width} if tallest is None else {"width": width, "tallest": tallest}
    return draw(places, stage_marks(setup), said, view, pools=pools, areas=areas, **limits)


def throw_drawing(light: PlaceLight, setup: Setup, width: float = WIDTH, *, beam: Beam = "wide") -> Drawing:
    """One place's section along its throw to `light.target`, with one beam. Raises ValueError without a lens."""
    system, shown = words.system_of(setup), beam_of(light, beam)
    place = _thrown_place(light, shown, system)
    said = words.section_words(
        setup,
        words.throw_title(str(light.place)),
        Cut.along_throw(place.lens, place.end),
        cone="" if shown is None or shown.angle is None else words.cone_words(shown.angle),
        height=words.lens_height_words(place.lens.z_m, system),
        near=_pool_end(place.near_m, system, is_near=True),
        far=_pool_end(place.far_m, system, is_near=False),
    )
    return throw_section(place, stage_marks(setup), said, width=width)


def section_drawing(
    setup: Setup,
    lights: Iterable[PlaceLight],
    width: float = WIDTH,
    *,
    numbers: Mapping[int, str] = NO_NUMBERS,
) -> Drawing:
    """All places whose lens is known, with its height, against the center line; `numbers` as in `plan_drawing`."""
    system = words.system_of(setup)
    places = [
        replace(
            _section_place(light, light.lens, (words.lens_height(light.lens.z_m, system),)),
            number=numbers.get(light.place.pk),
        )
        for light in lights
        if light.lens is not None
    ]
    return center_section(places, stage_marks(setup), words.section_words(setup, words.section_title()), width=width)


def as_figure(drawing: Drawing, title: str, identity: str) -> SafeString:
    """The drawing as SVG for a page; `identity` is unique there."""
    return mark_safe(as_svg(drawing, title=title, identity=identity, family="draft"))  # text is escaped in it


def stage_marks(setup: Setup) -> StageMarks:
    """The set-up's stage as drawings take it."""
    return StageMarks(
        layout=setup.layout,  # type: ignore[arg-type]
        opening_m=setup.opening_m,
        depth_m=setup.depth_m,
        apron_m=setup.apron_m,
        target=target_of(setup),
        twelve_deg=setup.twelve_deg,
        opening=words.opening_words(setup),
    )


def is_bowl(setup: Setup, lights: Iterable[PlaceLight]) -> bool:
    """Whether the plan shows bearings and the clock: in a bowl, and round a stage that a bowl's places stand about."""
    if setup.layout == Layout.ROUND:
        return any(light.entry.zone == Zone.BOWL for light in lights)
    return setup.layout == Layout.BOWL


def bearing_of(light: PlaceLight) -> float | None:
    """Of the place about the target [degrees]: from its coordinates, else as recorded."""
    if light.lens is not None:
        return bearing_about(light.lens.x_m, light.lens.y_m, light.target.x_m, light.target.y_m)
    return light.place.bearing_deg


def beam_at(light: PlaceLight, beam: Beam) -> BeamAtTarget | None:
    """The unit's beam at one end of its range."""
    return light.ability.narrow if beam == "narrow" else light.ability.wide


def beam_of(light: PlaceLight, beam: Beam) -> BeamAtTarget | None:
    """The same, or what is known of the other end."""
    return beam_at(light, beam) or beam_at(light, "wide" if beam == "narrow" else "narrow")


def drawn_pool(light: PlaceLight, beam: Beam) -> Pool | None:
    """The pool on the deck about the target; None where it is not known or runs so far that nothing else fits.

    It may end as far behind the target as the lens is before it or above the deck.
    """
    found = beam_at(light, beam)
    if found is None or found.deck is None or light.lens is None or light.line is None:
        return None
    farthest = light.line.plan_m + max(light.line.plan_m, light.lens.z_m)
    return found.deck if found.deck.far_m <= farthest else None


def plan_place(light: PlaceLight, setup: Setup) -> PlanPlace:
    """The place as plans take it. Its throw ends where it was told to, or in the target where nobody knows."""
    place, bearing = light.place, bearing_of(light)
    end = light.end or light.target
    return PlanPlace(
        label=place.label,
        position=light.entry.position.name,
        zone=light.entry.zone,
        words=str(place),
        x_m=place.x_m,
        y_m=place.y_m,
        bearing_deg=bearing,
        end=None if light.lens is None else (end.x_m, end.y_m),
        throw=throw_text(light, words.system_of(setup)),
        bearing="" if bearing is None else words.bearing_text(bearing, setup.twelve_deg),
    )


def throw_text(light: PlaceLight, system: UnitSystem) -> str:
    """The throw as told where it is drawn to its end point, else as computed to the target; "" without a lens."""
    place = light.place
    if light.end is not None and place.throw_m is not None:
        return as_typed(place.throw_m, place.throw_text, system)
    line = light.end_line or light.line
    return "" if line is None else written(line.throw_m, system)


def _pools(lights: Iterable[PlaceLight], beam: Beam) -> Iterator[BeamPool]:
    for light in lights:
        deck = drawn_pool(light, beam)
        if deck is not None and light.lens is not None and light.line is not None:
            x, y = pool_center(light.lens, light.line, deck)
            yield BeamPool(x, y, deck.length_m, deck.width_m, light.line.pan_deg)


def _thrown_place(light: PlaceLight, beam: BeamAtTarget | None, system: UnitSystem) -> SectionPlace:
    if light.lens is None or light.line is None:
        raise ValueError("a section along a throw needs the lens")
    deck = None if beam is None else beam.deck
    return replace(
        _section_place(light, light.lens, words.line_words(light.line, system)),
        near_m=None if deck is None else deck.near_m,
        far_m=None if deck is None else deck.far_m,
        full_deg=None if beam is None or beam.angle is None else beam.angle.full_deg,
    )


def _section_place(light: PlaceLight, lens: Point, lines: tuple[str, ...]) -> SectionPlace:
    return SectionPlace(
        label=light.place.label,
        words=str(light.place),
        lens=lens,
        end=light.target,
        lines=lines,
        has_glass=light.entry.position.glass in PANES,
    )


def _pool_end(length_m: float | None, system: UnitSystem, *, is_near: bool) -> str:
    return "" if length_m is None else words.pool_end_words(is_near=is_near, length_m=length_m, system=system)
