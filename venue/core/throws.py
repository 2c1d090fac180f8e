"""From a throw to the lens and back.

A throw runs straight from the lens to its end point, which lies on the center line on the deck. Seen from the
side, and from above:

    lens  o.                                house left
    |       ' . throw                         o lens  ^
  rise          ' .                           |  ' .  | from center
    |               ' .                       |     plan
    +--------plan-------x end point    -------+---------- x end point ---> upstage (+y)
                                        center line

plan = sqrt(throw^2 - rise^2), and along the center line sqrt(plan^2 - from_center^2): downstage of the end
point, or upstage of it for a position behind the stage. Meters; +x to stage left (house right), +y upstage
of the plaster line, +z up from the deck.
"""

import math
from dataclasses import dataclass
from typing import Literal

Side = Literal["house left", "center", "house right"]
Problem = Literal["too-high", "too-far-from-center"]

HIGHEST_DIFFERENCE = 0.05
"""Of the throw as computed; above it somebody is asked (common practice, no source)."""


@dataclass(frozen=True)
class Point:
    """A point of the house [m]."""

    x_m: float
    y_m: float
    z_m: float


class ThrowProblem(ValueError):
    """No lens has this throw; `code` says why."""

    def __init__(self, code: Problem) -> None:
        super().__init__(code)
        self.code = code


def signed_x(from_center_m: float, side: Side) -> float:
    """x of a distance from the center line [m]: house right is positive, house left negative, center 0."""
    return {"house left": -abs(from_center_m), "center": 0.0, "house right": abs(from_center_m)}[side]


def side_of(x_m: float) -> Side:
    """The side in words of an x."""
    if x_m == 0:
        return "center"
    return "house left" if x_m < 0 else "house right"


def plan_m(throw_m: float, rise_m: float) -> float:
    """The throw seen from above [m]. Raises ThrowProblem if the lens would be higher than the throw is long."""
    if abs(rise_m) > throw_m:
        raise ThrowProblem("too-high")
    return math.sqrt(throw_m**2 - rise_m**2)


def lens_by_throw(throw_m: float, height_m: float, x_m: float, end_y_m: float, *, is_upstage: bool = False) -> Point:
    """The lens of a throw to a point on the center line, on the deck, `end_y_m` upstage of the plaster line.

    `height_m` is the lens above the deck, `x_m` its signed distance from the center line, `is_upstage` whether
    the position stands behind the stage. Raises ThrowProblem.
    """
    plan = plan_m(throw_m, height_m)
    if abs(x_m) > plan:
        raise ThrowProblem("too-far-from-center")
    along = math.sqrt(max(0.0, throw_m**2 - height_m**2 - x_m**2))
    return Point(x_m, end_y_m + along if is_upstage else end_y_m - along, height_m)


def throw_to(lens: Point, end_y_m: float) -> float:
    """The throw from the lens to a point on the center line, on the deck [m]."""
    return math.dist((lens.x_m, lens.y_m, lens.z_m), (0.0, end_y_m, 0.0))


def is_far_off(throw_m: float, computed_m: float) -> bool:
    """Whether a throw as told and as computed differ by more than 5 % of the computed one."""
    return abs(throw_m - computed_m) > HIGHEST_DIFFERENCE * computed_m
