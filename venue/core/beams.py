"""A beam as a cone about its axis: diameter, full angle, and the level at which the angle is told.

    lens o--------------------------- axis
          ' .   half the full angle      |
               ' .                       | half the diameter
                    '  .                 |
          <----------- throw ----------->

diameter = 2 * throw * tan(angle / 2), across the axis. A full angle means nothing without its level: the *beam
angle* ends where the intensity is 50 % of its peak, the *field angle* where it is 10 % (CIE S 017 e-ILV 17-27-077;
ANSI E1.9 2.15 measures the 10 % on illuminance). The two are never turned into one another in silence.
"""

import math
from dataclasses import dataclass
from typing import Literal

Percent = Literal[50, 10]
"""Of the peak intensity."""


@dataclass(frozen=True)
class BeamAngle:
    """A full angle [degrees] and the percentage of the peak at which it ends; None: not recorded."""

    full_deg: float
    percent: Percent | None = None


def diameter_m(full_deg: float, throw_m: float) -> float:
    """Across the beam at the throw [m], at the level of the angle. The angle is below 180 degrees."""
    return 2 * throw_m * math.tan(math.radians(full_deg) / 2)


def full_angle_deg(diameter_m: float, throw_m: float) -> float:
    """The full angle that makes the diameter at the throw [degrees]; 180 at a throw of 0, 0 for no diameter."""
    return 2 * math.degrees(math.atan2(diameter_m / 2, throw_m))


def cosine_power(angle: BeamAngle) -> float | None:
    """The exponent m of a beam of the form I = I0 * cos(t)^m that has this angle; None without its level.

    A model, not a measurement: a spot with a flat field or a hard edge is not of this form.
    """
    if angle.percent is None or not 0 < angle.full_deg < 180:
        return None
    return math.log(angle.percent / 100) / math.log(math.cos(math.radians(angle.full_deg) / 2))


def at_level_by_cosine_power(angle: BeamAngle, percent: Percent) -> BeamAngle | None:
    """The angle at the other level, if the beam were of the form I0 * cos(t)^m; None without its level.

    full angle = 2 * acos(share^(1/m)). The angle itself where its level is the one asked for.
    """
    if angle.percent == percent:
        return angle
    power = cosine_power(angle)
    if power is None:
        return None
    half = math.acos((percent / 100) ** (1 / power))
    return BeamAngle(math.degrees(2 * half), percent)


def cosine_flux_lm(peak_cd: float, power: float) -> float:
    """The luminous flux of a beam I0 * cos(t)^m over the half space [lm]: 2 pi I0 / (m + 1)."""
    return 2 * math.pi * peak_cd / (power + 1)
