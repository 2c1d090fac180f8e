r"""What a lens can reach of the stage, the pit, the aisles and the house, by the sightline limits recorded for it.

Seen from above:

         \ . . . . . . . /   <- farthest upstage
          \  reached    /
        ___\___________/__   <- farthest downstage
            \  pan    /
             \ limits/       zones and pans that are blocked are taken out
              \     /
               lens            pan: 0 straight upstage, positive toward stage left (+x)

Only what somebody recorded is looked at; where nothing is recorded, nothing is said. The plan is exact: straight
lines clip polygons. Height is not looked at: a zone is blocked for the deck as a whole.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import Literal

from venue.core.bearings import FULL_TURN, wrapped
from venue.core.polygons import (
    Corner,
    HalfPlane,
    Polygon,
    area,
    contains,
    convex_pieces,
    intersected,
    left_of,
    sides_of,
    subtracted,
)

HALF_TURN = FULL_TURN / 2

Reason = Literal["too-far-downstage", "too-far-upstage", "pan", "blocked"]
Region = tuple[HalfPlane, ...]
"""The common part of its half planes, which is convex."""


@dataclass(frozen=True)
class PanRange:
    """From the first pan to the second, clockwise seen from above [degrees]: (-30, 40) goes through upstage.

    The same pan twice is all the way round.
    """

    start_deg: float
    end_deg: float

    @property
    def width_deg(self) -> float:
        """How far it turns, above 0 to 360."""
        return wrapped(self.end_deg - self.start_deg) or FULL_TURN


@dataclass(frozen=True)
class Zone:
    """A part of the plan, by its name and its corners (x, y) in meters."""

    name: str
    corners: Polygon


@dataclass(frozen=True)
class Limits:
    """What is recorded of a lens's view: y in meters, upstage of the plaster line. None: not recorded."""

    farthest_downstage_m: float | None = None
    farthest_upstage_m: float | None = None
    pan: PanRange | None = None
    blocked_zones: tuple[Zone, ...] = ()
    blocked_pans: tuple[PanRange, ...] = ()

    @property
    def are_recorded(self) -> bool:
        """Whether anything is."""
        return self != Limits()


@dataclass(frozen=True)
class Reached:
    """How much of an area a lens reaches: its share, and the part in convex pieces that do not overlap.

    `share` is None, and `pieces` empty, where no limit is recorded: that is no promise of a free view.
    """

    name: str
    share: float | None
    pieces: tuple[Polygon, ...]


def rectangle(name: str, across: tuple[float, float], along: tuple[float, float]) -> Zone | None:
    """The zone between two x and between two y [m], as a stage is; None where it has no area."""
    (left, right), (down, up) = sorted(across), sorted(along)
    if left == right or down == up:
        return None
    return Zone(name, ((left, down), (right, down), (right, up), (left, up)))


def reached(lens: Corner, limits: Limits, areas: Iterable[Zone]) -> tuple[Reached, ...]:
    """The part of each area that the lens at x, y [m] reaches. Raises PolygonProblem for corners that are no area."""
    if not limits.are_recorded:
        return tuple(Reached(zone.name, None, ()) for zone in areas)
    within, without = _allowed(lens, limits), _blocked(lens, limits)
    return tuple(_reached_of(zone, within, without) for zone in areas)


def _reached_of(zone: Zone, within: Sequence[Region], without: Sequence[Region]) -> Reached:
    whole = convex_pieces(zone.corners)
    pieces = [part for piece in whole for region in within if (part := intersected(piece, region))]
    for region in without:
        pieces = list(chain.from_iterable(subtracted(piece, region) for piece in pieces))
    share = sum(map(area, pieces)) / sum(map(area, whole))
    return Reached(zone.name, min(share, 1.0), tuple(pieces))


def why_not(lens: Corner, limits: Limits, point: Corner) -> tuple[tuple[Reason, str], ...]:
    """The recorded limits that keep the lens from a point (x, y) [m], each with the name of the zone or "".

    Empty where none does. A border counts as reached on the side of a limit, as blocked in a blocked zone.
    """
    y, low, high = point[1], limits.farthest_downstage_m, limits.farthest_upstage_m
    found: list[tuple[Reason, str]] = []
    if low is not None and y < low:
        found.append(("too-far-downstage", ""))
    if high is not None and y > high:
        found.append(("too-far-upstage", ""))
    is_outside = limits.pan is not None and not _is_in_any(_wedges(lens, limits.pan), point)
    if is_outside or any(_is_in_any(_wedges(lens, each), point) for each in limits.blocked_pans):
        found.append(("pan", ""))
    blocking = (zone for zone in limits.blocked_zones if _is_in_any(map(sides_of, convex_pieces(zone.corners)), point))
    return (*found, *(("blocked", zone.name) for zone in blocking))


def _is_in_any(regions: Iterable[Region], point: Corner) -> bool:
    return any(contains(region, point) for region in regions)


def _allowed(lens: Corner, limits: Limits) -> list[Region]:
    """Regions that do not overlap and together are what the limits in y and pan leave."""
    strip: list[HalfPlane] = []
    if limits.farthest_downstage_m is not None:
        strip.append(HalfPlane(0.0, -1.0, -limits.farthest_downstage_m))
    if limits.farthest_upstage_m is not None:
        strip.append(HalfPlane(0.0, 1.0, limits.farthest_upstage_m))
    wedges: Iterable[Region] = [()] if limits.pan is None else _wedges(lens, limits.pan)
    return [(*strip, *wedge) for wedge in wedges]


def _blocked(lens: Corner, limits: Limits) -> list[Region]:
    zones = (sides_of(piece) for zone in limits.blocked_zones for piece in convex_pieces(zone.corners))
    return [*zones, *(wedge for pans in limits.blocked_pans for wedge in _wedges(lens, pans))]


def _wedges(lens: Corner, pans: PanRange) -> tuple[Region, ...]:
    """The part of the plan within the pans, in convex parts: one up to a half turn, else two."""
    width = pans.width_deg
    if width >= FULL_TURN:
        return ((),)
    if width > HALF_TURN:
        middle = pans.start_deg + width / 2
        return (_wedge(lens, pans.start_deg, middle), _wedge(lens, middle, pans.end_deg))
    return (_wedge(lens, pans.start_deg, pans.end_deg),)


def _wedge(lens: Corner, start_deg: float, end_deg: float) -> Region:
    """Right of the ray at the first pan and left of the ray at the second, at most a half turn apart."""
    return left_of(_toward(lens, start_deg), lens), left_of(lens, _toward(lens, end_deg))


def _toward(lens: Corner, pan_deg: float) -> Corner:
    pan = math.radians(pan_deg)
    return lens[0] + math.sin(pan), lens[1] + math.cos(pan)
