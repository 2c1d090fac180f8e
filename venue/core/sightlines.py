"""The line from a lens to its target, and what is odd about it.

Seen from the side, and from above:

    lens o - - - - - - - - -                   +y upstage
         | ' .   angle below the horizontal     ^    x target
    rise |     ' .                              |pan/
         |         ' . throw                    |  / plan
         +-----plan----x target            lens o /- - - > +x stage left (house right)

throw = sqrt(plan^2 + rise^2), angle = atan(rise / plan), pan = atan2(dx, dy) from the lens. Meters and degrees.
"""

import math
from dataclasses import dataclass
from typing import Literal

from venue.core.bearings import bearing_about
from venue.core.ranges import ANGLE_DEG, HEIGHT_M, THROW_M, Range
from venue.core.throws import HIGHEST_DIFFERENCE, Point, is_far_off

Code = Literal[
    "too-steep",
    "too-flat",
    "too-steep-for-camera",
    "unlikely-throw",
    "impossible-throw",
    "unlikely-height",
    "impossible-height",
    "impossible-angle",
    "differs-from-stated",
]

CAMERA_RISE_SHARE = 0.5
"""Of the horizontal throw, 26.565 degrees: more shadows the eyes on camera (a broadcast lighting column)."""
CAMERA_LIMIT_DEG = math.degrees(math.atan(CAMERA_RISE_SHARE))
_SLACK = 1e-9  # what is at a limit is not past it, whatever the last bit says


@dataclass(frozen=True)
class Sightline:
    """From a lens to a target.

    `throw_m` slant, `plan_m` seen from above, `rise_m` the lens above the target (negative: below it).
    `angle_deg` below the horizontal. `pan_deg` from straight upstage, positive toward stage left, -180 to 180.
    `bearing_deg` of the lens about the target, clockwise from the stage end. Straight above the target pan and
    bearing are 0; in the target everything is 0.
    """

    throw_m: float
    plan_m: float
    rise_m: float
    angle_deg: float
    pan_deg: float
    bearing_deg: float


@dataclass(frozen=True)
class Finding:
    """What is odd, the value found and the limit that it passes, both in the unit of the code's measure."""

    code: Code
    value: float
    limit: float


def sightline(lens: Point, target: Point) -> Sightline:
    """The line from the lens to the target."""
    dx, dy, rise = target.x_m - lens.x_m, target.y_m - lens.y_m, lens.z_m - target.z_m
    plan = math.hypot(dx, dy)
    return Sightline(
        throw_m=math.hypot(plan, rise),
        plan_m=plan,
        rise_m=rise + 0.0,
        angle_deg=math.degrees(math.atan2(rise + 0.0, plan)),
        pan_deg=math.degrees(math.atan2(dx + 0.0, dy + 0.0)),
        bearing_deg=bearing_about(lens.x_m, lens.y_m, target.x_m, target.y_m),
    )


def findings(
    line: Sightline, lens_z_m: float, *, stated_m: float | None = None, is_on_camera: bool = False
) -> tuple[Finding, ...]:
    """What is odd about the line of a lens so high above the deck.

    `stated_m` is the throw as somebody told it, to the same target: over 5 % apart is a question. The camera's
    limit counts only for a show on camera.
    """
    found = [
        _past("throw", line.throw_m, THROW_M),
        _past("height", lens_z_m, HEIGHT_M),
        _angle_finding(line.angle_deg),
        _camera_finding(line) if is_on_camera else None,
        None if stated_m is None else _stated_finding(stated_m, line.throw_m),
    ]
    return tuple(each for each in found if each is not None)


def _past(measure: Literal["throw", "height"], value: float, usual: Range) -> Finding | None:
    judged = usual.judged(value)
    return None if judged is None else Finding(f"{judged}-{measure}", value, usual.limit_for(value))  # type: ignore[arg-type]


def _angle_finding(angle_deg: float) -> Finding | None:
    flat, steep = ANGLE_DEG.soft
    if ANGLE_DEG.judged(angle_deg) == "impossible":
        return Finding("impossible-angle", angle_deg, ANGLE_DEG.limit_for(angle_deg))
    if angle_deg > steep + _SLACK:
        return Finding("too-steep", angle_deg, steep)
    return Finding("too-flat", angle_deg, flat) if angle_deg < flat - _SLACK else None


def _camera_finding(line: Sightline) -> Finding | None:
    if line.angle_deg <= CAMERA_LIMIT_DEG + _SLACK:
        return None
    return Finding("too-steep-for-camera", line.angle_deg, CAMERA_LIMIT_DEG)


def _stated_finding(stated_m: float, computed_m: float) -> Finding | None:
    if not is_far_off(stated_m, computed_m):
        return None
    share = abs(stated_m - computed_m) / computed_m if computed_m else math.inf
    return Finding("differs-from-stated", share, HIGHEST_DIFFERENCE)
