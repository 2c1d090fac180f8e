"""What stands beneath the drawings of a house: each place in words, what is not drawn and why, what is reached."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from venue.core.drawing.records import PlanArea
from venue.core.lengths import UnitSystem
from venue.core.polygons import Polygon
from venue.house_drawings import Beam, beam_at, bearing_of, drawn_pool, is_bowl
from venue.models import Place, Setup, Unit
from venue.models.setups import Layout
from venue.reach_rows import Areas, PlaceReach
from venue.throw_book import PlaceLight
from venue.wording_drawings import angle_text, clock_text, pool_text, system_of
from venue.wording_light import both_words, degrees_words, height_words
from venue.wording_throws import told_words

WITH_BEARINGS = (Layout.BOWL, Layout.ROUND)


@dataclass(frozen=True)
class DrawnRow:
    """One place in words; "" where something is not known.

    `told` is the throw as told with its end point, `throw` the one to the target and `angle` its angle. `pool` is the
    pool that the plan shows, with the angle of its beam.
    """

    place: Place
    unit: Unit | None
    height: str
    told: str
    throw: str
    angle: str
    bearing: str
    clock: str
    pool: str


@dataclass(frozen=True)
class ShownAreas:
    """What a plan shows of areas; `nothing` says why nothing is hatched, "" where something is or was not asked."""

    areas: Sequence[PlanArea] = ()
    nothing: str = ""


def drawn_rows(lights: Iterable[PlaceLight], setup: Setup, beam: Beam | None = None) -> list[DrawnRow]:
    """The lights in their order, with the pools of one end of their range."""
    return [_drawn_row(light, setup, beam) for light in lights]


def _drawn_row(light: PlaceLight, setup: Setup, beam: Beam | None) -> DrawnRow:
    system, line, bearing = system_of(setup), light.line, bearing_of(light)
    return DrawnRow(
        place=light.place,
        unit=light.unit,
        height="" if light.lens is None else height_words(light.lens.z_m, system),
        told=told_words(light.place, system),
        throw="" if line is None else both_words(line.throw_m, system),
        angle="" if line is None else angle_text(line),
        bearing="" if bearing is None else degrees_words(bearing),
        clock="" if bearing is None else clock_text(bearing, setup.twelve_deg),
        pool="" if beam is None else _pool_text(light, beam, system),
    )


def _pool_text(light: PlaceLight, beam: Beam, system: UnitSystem) -> str:
    """How large it is, and that it is not drawn where it runs too far."""
    found = beam_at(light, beam)
    text = pool_text(found, system)
    if found is None or found.deck is None or drawn_pool(light, beam) is not None:
        return text
    return _("%(pool)s; runs too far to be drawn") % {"pool": text}


def by_bearing_alone(lights: Sequence[PlaceLight], setup: Setup) -> list[Place]:
    """The places of a bowl that keep its plan from being to scale."""
    if not is_bowl(setup, lights):
        return []
    return [light.place for light in lights if light.lens is None and light.place.bearing_deg is not None]


def plain_areas(areas: Areas) -> ShownAreas:
    """The set-up's own areas with nothing hatched; its stage is drawn in any case."""
    return ShownAreas([PlanArea(area.name, area.corners) for area in areas.own])


def reached_areas(reaches: Sequence[PlaceReach], areas: Areas, name: str) -> ShownAreas:
    """The areas, hatched what any place of the position reaches, and what is in the way."""
    nothing = _why_nothing(reaches, areas, name)
    if nothing:
        return ShownAreas(plain_areas(areas).areas, nothing)
    pieces: dict[tuple[str, Polygon], dict[Polygon, None]] = {}
    for area in (area for reach in reaches if reach.reached for area in reach.plan_areas(areas)):
        pieces.setdefault((area.name, area.corners), {}).update(dict.fromkeys(area.reached))
    return ShownAreas([PlanArea(name, corners, tuple(parts)) for (name, corners), parts in pieces.items()])


def _why_nothing(reaches: Sequence[PlaceReach], areas: Areas, name: str) -> str:
    if not areas.all:
        return _("The set-up records no stage with its opening and depth and no area: there is nothing to reach.")
    if not any(reach.reached for reach in reaches):
        return _("No lens of %(position)s is recorded, so nobody can tell what it reaches.") % {"position": name}
    if not any(reach.limits.are_recorded for reach in reaches):
        return _("No limit of the view is recorded for %(position)s: nothing is promised.") % {"position": name}
    return ""
