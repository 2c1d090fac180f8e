"""The order of the places in one position, and the place at the end that a person standing there is asked for.

         house left   o   o   o   house right          front: the left end, facing the stage
                                                       rear:  the same row seen from behind the stage
house left  |  o           side: the end nearest the audience
            |  o
                            bowl: from the stage end clockwise, seen from above
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from venue.core.bearings import FULL_TURN, bearing_about
from venue.core.labels import sort_key

Basis = Literal["measured", "order", "label"]
"""What the order follows: coordinates or bearings, the order as recorded, or nothing but the labels."""

ROW_TOLERANCE_M = 0.3
RING_TOLERANCE_DEG = 2.0


@dataclass(frozen=True)
class Standing:
    """Where a place is, as far as it is known: coordinates [m], bearing [deg], order."""

    label: str
    x_m: float | None = None
    y_m: float | None = None
    bearing_deg: float | None = None
    order: int | None = None


@dataclass(frozen=True)
class Row:
    """Indices of the places in the house's order, what that follows, and which may be at the end asked for.

    `ends` is empty where nothing orders the places, and holds several that stand too close to tell.
    """

    places: tuple[int, ...]
    basis: Basis
    ends: frozenset[int]


def row_of(places: Sequence[Standing], zone: str, target: tuple[float, float] = (0.0, 0.0)) -> Row:
    """The row of one position: by x, in zone side by y (downstage first), in a bowl by bearing about the target.

    If one place lacks the measure, the recorded order decides for all; if one lacks that too, labels do, and
    nobody knows the end.
    """
    measures = [_measure(place, zone, target) for place in places]
    if all(measure is not None for measure in measures):
        known = [measure or 0.0 for measure in measures]
        tolerance = RING_TOLERANCE_DEG if zone == "bowl" else ROW_TOLERANCE_M
        return _row(known, "measured", zone, tolerance)
    orders = [place.order for place in places]
    if all(order is not None for order in orders) and len(set(orders)) == len(orders):
        return _row([float(order or 0) for order in orders], "order", zone, 0.0)
    keys = [sort_key(place.label) for place in places]
    return Row(tuple(sorted(range(len(places)), key=keys.__getitem__)), "label", frozenset())


def _measure(place: Standing, zone: str, target: tuple[float, float]) -> float | None:
    if zone != "bowl":
        return place.y_m if zone == "side" else place.x_m
    bearing = place.bearing_deg
    if bearing is None and place.x_m is not None and place.y_m is not None:
        bearing = bearing_about(place.x_m, place.y_m, *target)
    return None if bearing is None else _after_stage_end(bearing)


def _after_stage_end(bearing_deg: float) -> float:
    """Degrees clockwise after the stage end; a lens within the tolerance before it counts as at it."""
    after = bearing_deg % FULL_TURN
    return after - FULL_TURN if after >= FULL_TURN - RING_TOLERANCE_DEG else after


def _row(measures: Sequence[float], basis: Basis, zone: str, tolerance: float) -> Row:
    order = sorted(range(len(measures)), key=measures.__getitem__)
    from_end = list(reversed(order)) if zone == "rear" else order
    ends: list[int] = []
    for index in from_end:
        if ends and abs(measures[index] - measures[ends[-1]]) >= max(tolerance, 1e-9):
            break
        ends.append(index)
    return Row(tuple(order), basis, frozenset(ends))
