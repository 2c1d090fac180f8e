r"""The plan of a house to scale: its stage, its slots with both numbers, throws with their lengths, pools.

    HOUSE LEFT ·                 HOUSE RIGHT ·
    stage right                     stage left
              center line
              [  STAGE  ]
    plaster --+----x----+--
                  /|\          throws to their end points
                 / | \\
                o  o  o        slots, each with a leader to its tag
             (1)[3] (2)[2] (3)[1]
                  YOU

Seen from the stage it is turned by 180 degrees, never mirrored, and says so; the writing stays upright.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from venue.core.drawing.finishing import Content, finished
from venue.core.drawing.plane import Extent, Plane, Spot, View
from venue.core.drawing.racks import Rack, hang
from venue.core.drawing.records import BeamPool, PlanArea, PlanPlace, PlanWords, StageMarks
from venue.core.drawing.shapes import Bounds, Box, Drawing, Line, Shape
from venue.core.drawing.slots import around, clusters, slot_marks, tags_of, throw_lines
from venue.core.drawing.stage import center_line, stage_corners, stage_plan, target_cross
from venue.core.drawing.surfaces import area_names, area_shapes, pool_shapes, surface_corners, surface_key

WIDTH = 360.0
"""A phone's width, so that nothing shrinks there."""
TALLEST = 520.0
"""What is to scale gets no taller [drawing units]; tags and words come on top of it."""
LEAST_WIDTH = 340.0
_SIDE = 20.0
_EDGE = 8.0
_CENTER_WORD = 24.0


def house_plan(
    places: Sequence[PlanPlace],
    stage: StageMarks,
    words: PlanWords,
    view: View = "house",
    *,
    pools: Sequence[BeamPool] = (),
    areas: Sequence[PlanArea] = (),
    width: float = WIDTH,
    tallest: float = TALLEST,
) -> Drawing:
    """The plan; places without coordinates are left out and listed. At least `LEAST_WIDTH` wide."""
    plan = _Plan(places, stage, words, pools, areas, max(width, LEAST_WIDTH), tallest)
    return finished(plan.content, words.sides, plan.width, is_turned=view == "stage")


@dataclass(frozen=True)
class _Plan:
    """The plan as seen from the house."""

    places: Sequence[PlanPlace]
    stage: StageMarks
    words: PlanWords
    pools: Sequence[BeamPool]
    areas: Sequence[PlanArea]
    width: float
    tallest: float

    @property
    def content(self) -> Content:
        on_stage = stage_plan(self.stage, self.plane, self.width, self.words)
        names = area_names(self.areas, self.plane, self.width)
        racks = self._racks([text.bounds for text in (*on_stage.words, *names)])
        throws = self._throws()
        low, high = self._heights(on_stage.top, racks)
        ground = [*on_stage.shapes, *area_shapes(self.areas, self.plane), *pool_shapes(self.pools, self.plane), *throws]
        ground += [
            *center_line(self.plane, low, high, self.words.center_line),
            *self._target(),
            *on_stage.words,
            *names,
        ]
        key = self._key(bool(throws))
        numbers = [place.number for place in self.places]
        undrawn = tuple(index for index in range(len(self.places)) if index not in self.known)
        return Content(ground, slot_marks(self.spots.values()), racks, key, low, high, self.plane, numbers, undrawn)

    @cached_property
    def known(self) -> dict[int, Spot]:
        """The places that were measured [m]."""
        return {index: spot for index, place in enumerate(self.places) if (spot := place.spot) is not None}

    @cached_property
    def corners(self) -> list[Spot]:
        """Everything that has to be on the sheet [m]."""
        ends = [end for index in self.known if (end := self.places[index].end) is not None]
        return [*self.known.values(), *stage_corners(self.stage), *ends, *surface_corners(self.pools, self.areas)]

    @cached_property
    def plane(self) -> Plane:
        """The center line is in the middle of the sheet."""
        return Plane.fitted(Extent.of(self.corners).even_about(0.0), _SIDE, self.width - _SIDE, self.tallest)

    @cached_property
    def spots(self) -> dict[int, Spot]:
        return {index: self.plane.point(*spot) for index, spot in self.known.items()}

    def _racks(self, words: Sequence[Bounds]) -> list[Rack]:
        target = self.plane.point(self.stage.target.x_m, self.stage.target.y_m)
        tags = tags_of(self.places, [(place.throw,) for place in self.places])
        hung = clusters(self.places, tags, self.spots, target)
        return hang(hung, [*words, *map(around, [target, *self.spots.values()])], _EDGE, self.width - _EDGE)

    def _heights(self, top: float, racks: Sequence[Rack]) -> tuple[float, float]:
        """From the highest to the lowest thing on the plan."""
        boxes = [box for rack in racks for box in rack.boxes]
        ys = [y for _x, y in self.plane.points(self.corners)]
        low = min([top, *ys, *(box[1] for box in boxes)])
        return low - _CENTER_WORD, max([*ys, *(box[3] for box in boxes)]) + 8.0

    def _throws(self) -> list[Line | Box]:
        ends = ((index, self.places[index].end) for index in self.known)
        return throw_lines((self.spots[index], self.plane.point(*end)) for index, end in ends if end is not None)

    def _target(self) -> list[Shape]:
        return target_cross(*self.plane.point(self.stage.target.x_m, self.stage.target.y_m))

    def _key(self, has_throw: bool) -> list[tuple[str, str]]:
        found = [("throw", self.words.throw)] if has_throw else []
        found.append(("target", self.words.target))
        return found + surface_key(self.pools, self.areas, self.words.pool, self.words.reached)
