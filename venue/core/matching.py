"""Two lights or more on one performer: they match in size, level and color, or it reads as two lights.

The dimmest sets the level, since a douser only takes away; the color of the dimmest is the one to come to, since
every filter costs light. A filter that brings a brighter light to that color may make it the dimmest in turn.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from venue.core.beams import diameter_m
from venue.core.color import Correction, nearest_correction, shift_mired
from venue.core.filters import Filter
from venue.core.names import name_key
from venue.core.pick_ups import PickUp, Size, pick_up
from venue.core.sources import source_of

Code = Literal[
    "sources-differ",
    "levels-differ",
    "level-too-low",
    "colors-differ",
    "no-correction",
    "size-out-of-reach",
    "no-size-in-common",
    "levels-of-angles-differ",
]

HIGHEST_LEVEL_DIFFERENCE = 0.15
"""Of the brightest (common practice, no source)."""
COLOR_TOLERANCE_MIRED = 15.0
"""What is nearer than this is taken as the same color (common practice, no source)."""


_SLACK = 1e-9  # 85 of 100 is not more than 15 % apart, whatever the last bit says


@dataclass(frozen=True)
class Light:
    """A light on the pick-up, as far as it is known.

    `throw_m` None: where its lens is is not recorded. `lux` on the performer at the wanted size, all open; `source` the
    kind of source in words; full angles in degrees at `percent` of the peak.
    """

    name: str
    throw_m: float | None
    lux: float | None = None
    source: str = ""
    color_k: float | None = None
    narrow_deg: float | None = None
    wide_deg: float | None = None
    percent: int | None = None


@dataclass(frozen=True)
class Part:
    """What one light has to do.

    `correction` brings it to the color of the reference, None where a color temperature is not known or it is the
    reference itself; `off_mired` how far its own color is from the reference's. `share` is how far the douser or
    dimmer stays open, behind the correction, for the level of the dimmest: a share of the light, not of the
    lever's way; None where its lux is not known.
    """

    name: str
    pick_up: PickUp
    off_mired: float | None
    correction: Correction | None
    lux: float | None
    share: float | None


@dataclass(frozen=True)
class Finding:
    """What can't be brought together, or must be: the lights concerned, a value and the limit that it passes.

    Value and limit are a share for levels, mired for colors, lux for a level that is too low, else None.
    """

    code: Code
    names: tuple[str, ...]
    value: float | None = None
    limit: float | None = None


@dataclass(frozen=True)
class Match:
    """All lights together. `diameters_m` is from the smallest to the largest pool that all of them can make.

    None where an angle is not known or they have none in common. `reference` is whose color the others come to.
    """

    parts: tuple[Part, ...]
    diameters_m: tuple[float, float] | None
    reference: str | None
    lux: float | None
    findings: tuple[Finding, ...]


def match(
    lights: Sequence[Light],
    size: Size,
    corrections: Sequence[Filter] = (),
    *,
    least_lux: float | None = None,
    tolerance_mired: float = COLOR_TOLERANCE_MIRED,
) -> Match:
    """How the lights come together on the size; `corrections` are the filters that the house has.

    Lights without lux or color temperature take no part in those judgements.
    """
    reference = _reference(lights)
    parts = [_part(light, size, reference, corrections, tolerance_mired) for light in lights]
    level = min((part.lux for part in parts if part.lux is not None), default=None)
    parts = [_with_share(part, level) for part in parts]
    found = (
        *_size_findings(lights, parts),
        *_source_findings(lights),
        *_level_findings(lights, level, least_lux),
        *_color_findings(parts, tolerance_mired),
    )
    return Match(tuple(parts), _common_diameters(lights), reference.name if reference else None, level, found)


def level_difference(lux: Sequence[float]) -> float:
    """How far the dimmest lies below the brightest, as a share of the brightest; 0 for fewer than two or no light."""
    return 1 - min(lux) / max(lux) if len(lux) > 1 and max(lux) > 0 else 0.0


def _reference(lights: Sequence[Light]) -> Light | None:
    """The dimmest of those whose color is known; one without lux only if none has any."""
    known = [light for light in lights if light.color_k is not None]
    return min(known, key=lambda light: (light.lux is None, light.lux or 0.0), default=None)


def _part(light: Light, size: Size, reference: Light | None, corrections: Sequence[Filter], tolerance: float) -> Part:
    wanted = pick_up(size, light.throw_m, light.narrow_deg, light.wide_deg)
    if reference is None or light.color_k is None or reference.color_k is None or light is reference:
        off = 0.0 if light is reference else None
        return Part(light.name, wanted, off, None, light.lux, None)
    shift = shift_mired(light.color_k, reference.color_k)
    correction = nearest_correction(shift, corrections, tolerance)
    lux = None if light.lux is None else light.lux * correction.stack.transmission
    return Part(light.name, wanted, -shift, correction, lux, None)


def _with_share(part: Part, level: float | None) -> Part:
    if level is None or not part.lux:
        return part
    return Part(part.name, part.pick_up, part.off_mired, part.correction, part.lux, level / part.lux)


def _common_diameters(lights: Sequence[Light]) -> tuple[float, float] | None:
    ends = [
        (diameter_m(light.narrow_deg, light.throw_m), diameter_m(light.wide_deg, light.throw_m))
        for light in lights
        if light.throw_m is not None and light.narrow_deg is not None and light.wide_deg is not None
    ]
    if not ends or len(ends) < len(lights):
        return None
    smallest, largest = max(low for low, _ in ends), min(high for _, high in ends)
    return (smallest, largest) if smallest <= largest else None


def _size_findings(lights: Sequence[Light], parts: Sequence[Part]) -> Iterator[Finding]:
    out = tuple(part.name for part in parts if part.pick_up.reach not in ("ok", None))
    if out:
        yield Finding("size-out-of-reach", out)
    every = tuple(light.name for light in lights)
    are_known = all(None not in (light.throw_m, light.narrow_deg, light.wide_deg) for light in lights)
    if lights and are_known and _common_diameters(lights) is None:
        yield Finding("no-size-in-common", every)
    if len({light.percent for light in lights if light.narrow_deg is not None or light.wide_deg is not None}) > 1:
        yield Finding("levels-of-angles-differ", every)


def _source_findings(lights: Sequence[Light]) -> Iterator[Finding]:
    known = [light for light in lights if light.source]
    if len({source_of(light.source) or name_key(light.source) for light in known}) > 1:
        yield Finding("sources-differ", tuple(light.name for light in known))


def _level_findings(lights: Sequence[Light], level: float | None, least_lux: float | None) -> Iterator[Finding]:
    known = [(light.name, light.lux) for light in lights if light.lux is not None]
    names, difference = tuple(name for name, _ in known), level_difference([lux for _, lux in known])
    if difference > HIGHEST_LEVEL_DIFFERENCE + _SLACK:
        yield Finding("levels-differ", names, difference, HIGHEST_LEVEL_DIFFERENCE)
    if level is not None and least_lux is not None and level < least_lux:
        yield Finding("level-too-low", names, level, least_lux)


def _color_findings(parts: Sequence[Part], tolerance: float) -> Iterator[Finding]:
    for part in parts:
        if part.correction is None or part.off_mired is None or abs(part.off_mired) <= tolerance:
            continue
        yield Finding("colors-differ", (part.name,), part.off_mired, tolerance)
        if abs(part.correction.off_mired) > tolerance:
            yield Finding("no-correction", (part.name,), part.correction.off_mired, tolerance)
