"""The slots of a plan and their throws: where they are marked, and which of them are tagged together."""

from collections.abc import Iterable, Mapping, Sequence
from math import dist

from venue.core.drawing.plane import Spot
from venue.core.drawing.racks import Cluster
from venue.core.drawing.records import PlanPlace
from venue.core.drawing.shapes import Bounds, Box, Line
from venue.core.drawing.tags import Tag

SLOT = 8.0
_END = 5.0
_KEPT_CLEAR = 3.0
_FAR = 30.0
"""So far above and below the target [drawing units] a position lies round it."""


def slot_marks(spots: Iterable[Spot]) -> list[Box]:
    """A dot at each slot."""
    return [Box(x, y, SLOT, SLOT, "slot", SLOT / 2) for x, y in spots]


def throw_lines(throws: Iterable[tuple[Spot, Spot]]) -> list[Line | Box]:
    """A line from each slot to the end of its throw, and a point at every end."""
    found = list(throws)
    ends = dict.fromkeys(end for _start, end in found)
    lines = [Line(*start, *end, "throw") for start, end in found]
    return [*lines, *(Box(x, y, _END, _END, "throw-end", _END / 2) for x, y in ends)]


def around(spot: Spot) -> Bounds:
    """What no tag may cover about a slot."""
    reach = SLOT / 2 + _KEPT_CLEAR
    return spot[0] - reach, spot[1] - reach, spot[0] + reach, spot[1] + reach


def tags_of(places: Sequence[PlanPlace], lines: Sequence[Sequence[str]]) -> list[Tag]:
    """A tag for each place with the lines under its numbers; no show at all, no show numbers."""
    has_number = any(place.number is not None for place in places)
    return [
        Tag.of(slot, place.label, place.number, place.words, texts, has_number)
        for slot, (place, texts) in enumerate(zip(places, lines, strict=True))
    ]


def clusters(
    places: Sequence[PlanPlace], tags: Sequence[Tag], spots: Mapping[int, Spot], target: Spot, *, may_stack: bool = True
) -> list[Cluster]:
    """The slots that are drawn, by position; the farthest from the target first.

    A position at both sides of the house is tagged at each, one that lies all round the target above and below it.
    """
    by_position: dict[tuple[str, bool], list[int]] = {}
    for index, (x, _y) in spots.items():
        is_right = places[index].zone == "side" and x > target[0]
        by_position.setdefault((places[index].position, is_right), []).append(index)
    found = []
    for (name, _is_right), group in by_position.items():
        for part in _parts(group, spots, target[1]):
            own = tuple(spots[index] for index in part)
            found.append(Cluster(name, own, tuple(tags[index] for index in part), _down(own, target[1]), may_stack))
    return sorted(found, key=lambda cluster: -dist(cluster.middle, target))


def _parts(group: Sequence[int], spots: Mapping[int, Spot], target: float) -> list[list[int]]:
    """The whole, or what is upstage and what is downstage of the target where both are far from it."""
    depths = [spots[index][1] - target for index in group]
    if not (min(depths) < -_FAR and max(depths) > _FAR):
        return [list(group)]
    return [[index for index in group if (spots[index][1] < target) is is_up] for is_up in (True, False)]


def _down(spots: Sequence[Spot], target: float) -> float:
    """Which way the house lies from there: 1 for down."""
    return -1.0 if sum(y for _x, y in spots) / len(spots) < target - 1.0 else 1.0
