"""What a light can do from where it stands: its line to a target, the sizes that it reaches, its widest and
narrowest beam there.

Put together from sightlines, pick_ups, beams, pools and light; one call a place. Pages, sheets and commands show
what they need of it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from venue.core.beams import BeamAngle, Percent, diameter_m
from venue.core.light import illuminance_lx
from venue.core.pick_ups import SIZES, PickUp, Size, pick_up
from venue.core.pools import PersonPool, Pool, pool_on_deck, pool_on_person
from venue.core.sightlines import Sightline, sightline
from venue.core.throws import Point


@dataclass(frozen=True)
class Optics:
    """What a unit's data say: full angles [degrees] at `percent` of the peak, intensity on the axis [cd]."""

    narrow_deg: float | None = None
    wide_deg: float | None = None
    narrow_cd: float | None = None
    wide_cd: float | None = None
    percent: Percent | None = None


@dataclass(frozen=True)
class BeamAtTarget:
    """One end of the unit's range at the target.

    `diameter_m` across the beam; `lux` on the axis, on a surface that faces the lens, through clear air without
    glass or filter; `deck` the pool on the deck, `person` the one on somebody standing in the target. None each
    where the data, or the geometry, give none.
    """

    angle: BeamAngle | None
    diameter_m: float | None
    lux: float | None
    deck: Pool | None
    person: PersonPool | None


@dataclass(frozen=True)
class Ability:
    """All that follows for one place. `line` None: its lens is not known, and nothing but the sizes is."""

    line: Sightline | None
    pick_ups: tuple[PickUp, ...]
    narrow: BeamAtTarget | None
    wide: BeamAtTarget | None


NOTHING_KNOWN = Optics()


def ability(
    lens: Point | None, target: Point, optics: Optics = NOTHING_KNOWN, sizes: Sequence[Size] = SIZES
) -> Ability:
    """What a unit of these optics can do at the target from the lens."""
    line = None if lens is None else sightline(lens, target)
    throw = None if line is None else line.throw_m
    return Ability(
        line=line,
        pick_ups=tuple(pick_up(size, throw, optics.narrow_deg, optics.wide_deg) for size in sizes),
        narrow=_beam(lens, line, optics.narrow_deg, optics.narrow_cd, optics.percent),
        wide=_beam(lens, line, optics.wide_deg, optics.wide_cd, optics.percent),
    )


def _beam(
    lens: Point | None, line: Sightline | None, full_deg: float | None, candela: float | None, percent: Percent | None
) -> BeamAtTarget | None:
    if lens is None or line is None or (full_deg is None and candela is None):
        return None
    lux = None if candela is None else illuminance_lx(candela, line.throw_m)
    if full_deg is None:
        return BeamAtTarget(None, None, lux, None, None)
    return BeamAtTarget(
        angle=BeamAngle(full_deg, percent),
        diameter_m=diameter_m(full_deg, line.throw_m),
        lux=lux,
        deck=pool_on_deck(lens.z_m, line.angle_deg, full_deg),
        person=pool_on_person(lens.z_m, line, full_deg),
    )
