r"""The pool of a beam: the ellipse in which a plane cuts the cone about the beam's axis.

Seen in the plane of the axis and of the plane's normal, the lens above the foot of its perpendicular:

    lens o
         |\ ' .
         | \    ' .                distance  lens to the plane, along the normal
         |  \       ' .            incidence axis against the normal, i
         |   \          ' .        half the full angle, h
    -----+----x-----x-------x----- plane
        foot near  axis    far

near = distance * tan(i - h), far = distance * tan(i + h): the ends of the ellipse's axis in this view, measured
from the foot; length = far - near; width = 2 * distance * sin(h) / sqrt(cos(i + h) * cos(i - h)), the other axis.
Derived from the cone; at i = 0 a circle, at i + h = 90 degrees the cone reaches the plane's horizon and there is
no ellipse.
"""

import math
from dataclasses import dataclass

from venue.core.sightlines import Sightline
from venue.core.throws import Point


@dataclass(frozen=True)
class Pool:
    """An ellipse on a plane [m]: the ends of one axis from the foot of the lens, and the lengths of both axes.

    A negative `near_m` lies on the other side of the foot.
    """

    near_m: float
    far_m: float
    length_m: float
    width_m: float


@dataclass(frozen=True)
class PersonPool:
    """The pool on somebody who stands in the target facing the lens [m]: top and bottom above the deck."""

    top_z_m: float
    bottom_z_m: float
    height_m: float
    width_m: float


def pool_on_plane(distance_m: float, incidence_deg: float, full_deg: float) -> Pool | None:
    """The ellipse on a plane so far from the lens; None if the lens is not before it or the cone misses a part."""
    half_deg = full_deg / 2
    if distance_m <= 0 or abs(incidence_deg) + half_deg >= 90:
        return None
    tilt, half = math.radians(incidence_deg), math.radians(half_deg)
    cosines = math.cos(tilt + half) * math.cos(tilt - half)
    if cosines <= 0:  # a last bit short of the horizon
        return None
    return Pool(
        near_m=distance_m * math.tan(tilt - half),
        far_m=distance_m * math.tan(tilt + half),
        length_m=distance_m * math.sin(2 * half) / cosines,
        width_m=2 * distance_m * math.sin(half) / math.sqrt(cosines),
    )


def pool_on_deck(lens_z_m: float, angle_deg: float, full_deg: float) -> Pool | None:
    """The cone cut by the deck z = 0, along the axis's plan line from under the lens.

    `angle_deg` is the axis below the horizontal. None where the cone reaches the horizon or the lens is not
    above the deck.
    """
    return pool_on_plane(lens_z_m, 90 - angle_deg, full_deg)


def pool_center(lens: Point, line: Sightline, pool: Pool) -> tuple[float, float]:
    """x and y of the middle of a pool on the deck [m]; its long axis lies along the line's pan."""
    away, pan = (pool.near_m + pool.far_m) / 2, math.radians(line.pan_deg)
    return lens.x_m + away * math.sin(pan), lens.y_m + away * math.cos(pan)


def pool_on_person(lens_z_m: float, line: Sightline, full_deg: float) -> PersonPool | None:
    """The cone cut by the upright plane through the target that faces the lens as seen from above.

    None where a part of the cone runs past the plane: straight above the target there is no such plane.
    """
    pool = pool_on_plane(line.plan_m, line.angle_deg, full_deg)
    if pool is None:
        return None
    return PersonPool(lens_z_m - pool.near_m, lens_z_m - pool.far_m, pool.length_m, pool.width_m)
