"""Two lights or more on one pick-up: from the places chosen to what each light has to do.

PlaceLight --matched--> Matched    two queries, for the house's sizes and its correction filters
"""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from venue.core.filters import Filter
from venue.core.lengths import UnitSystem
from venue.core.light import Span
from venue.core.matching import Light, Match, Part, match
from venue.core.pick_ups import Size
from venue.models import House
from venue.throw_book import PlaceLight, sizes_of


@dataclass(frozen=True)
class MatchedLight:
    """One of the places chosen; `part` None: no unit stands there. `lux` of the size, all open, as far as known."""

    name: str
    light: PlaceLight
    lux: Span | None
    part: Part | None


@dataclass(frozen=True)
class Matched:
    """The places chosen, and how the lights of those with a unit come together on the size."""

    lights: tuple[MatchedLight, ...]
    size: Size
    match: Match
    corrections: tuple[Filter, ...]
    tolerance_mired: float
    system: UnitSystem

    @property
    def with_unit(self) -> list[MatchedLight]:
        return [each for each in self.lights if each.part is not None]

    def named(self, name: str) -> MatchedLight:
        """The light of a name that the match tells of."""
        return next(each for each in self.lights if each.name == name)

    @property
    def dimmest(self) -> MatchedLight | None:
        """Who sets the level, behind the corrections; None where no light is known."""
        known = [
            (each.part.lux, index) for index, each in enumerate(self.lights) if each.part and each.part.lux is not None
        ]
        return self.lights[min(known)[1]] if known else None


def matched(
    house: House, lights: Sequence[PlaceLight], size_name: str, *, least_lux: float | None, tolerance_mired: float
) -> Matched:
    """The lights on the size of this name; the light counted is the least that may arrive."""
    size = next(size for size in sizes_of(house) if size.name == size_name)
    corrections, names = corrections_of(house), light_names(lights)
    lux = [light.lux_on(size) for light in lights]
    with_unit = [index for index, light in enumerate(lights) if light.unit is not None]
    as_core = [light_for_match(names[index], lights[index], lux[index]) for index in with_unit]
    found = match(as_core, size, corrections, least_lux=least_lux, tolerance_mired=tolerance_mired)
    parts = dict(zip(with_unit, found.parts, strict=True))
    shown = [MatchedLight(names[index], light, lux[index], parts.get(index)) for index, light in enumerate(lights)]
    return Matched(tuple(shown), size, found, corrections, tolerance_mired, house.unit_system)  # type: ignore[arg-type]


def corrections_of(house: House) -> tuple[Filter, ...]:
    """The house's filters that turn a color by a recorded shift; one that diffuses would change the pool too."""
    rows = house.color_filters.standing().filter(shift_mired__isnull=False, is_diffusion=False)
    return tuple(each for row in rows if (each := row.as_filter) is not None)


def light_for_match(name: str, light: PlaceLight, lux: Span | None) -> Light:
    """The light as core matches it, with the least of what may arrive."""
    return Light(
        name=name,
        throw_m=None if light.line is None else light.line.throw_m,
        lux=None if lux is None else lux.low,
        source=light.unit.source if light.unit else "",
        color_k=light.unit.cct_k if light.unit else None,
        narrow_deg=light.optics.narrow_deg,
        wide_deg=light.optics.wide_deg,
        percent=light.optics.percent,
    )


def light_names(lights: Sequence[PlaceLight]) -> list[str]:
    """Each light by its place and its unit; the position goes before where labels alone do not tell them apart."""
    labels = [light.place.label_key for light in lights]
    return [_name(light, is_alone=labels.count(light.place.label_key) == 1) for light in lights]


def _name(light: PlaceLight, *, is_alone: bool) -> str:
    place = _("place %(label)s") % {"label": light.place.label} if is_alone else str(light.place)
    return place if light.unit is None else _("%(place)s (%(unit)s)") % {"place": place, "unit": light.unit}
