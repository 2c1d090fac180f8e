"""Where on the center line a throw ends, and whether a lens was placed by its throw."""

import math

from venue.core.throws import Point, throw_to
from venue.models import Place, Setup
from venue.models.places import ThrowEnd


def end_y_in(setup: Setup, end: str) -> float | None:
    """How far upstage of the plaster line the set-up has the point [m]; None where it does not say.

    Center stage is halfway from the plaster line to the depth of the stage (common practice, no source).
    """
    if end == ThrowEnd.PLASTER:
        return 0.0
    if end == ThrowEnd.LIP:
        return None if setup.apron_m is None else -setup.apron_m
    if end == ThrowEnd.CENTER:
        return None if setup.depth_m is None else setup.depth_m / 2
    return None


def is_placed_by_throw(place: Place) -> bool:
    """Whether the coordinates follow from the throw: nobody typed a distance from the plaster line, and they fit."""
    x, y, z, end_y, throw = place.x_m, place.y_m, place.z_m, place.throw_end_y_m, place.throw_m
    if x is None or y is None or z is None or end_y is None or throw is None or place.y_text:
        return False
    return math.isclose(throw_to(Point(x, y, z), end_y), throw, rel_tol=1e-9)


def computed_throw(place: Place) -> float | None:
    """The throw as the coordinates give it [m]; None where coordinates or the end point are not known."""
    x, y, z, end_y = place.x_m, place.y_m, place.z_m, place.throw_end_y_m
    if x is None or y is None or z is None or end_y is None:
        return None
    return throw_to(Point(x, y, z), end_y)
