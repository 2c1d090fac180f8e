r"""The plan of a bowl: every place by its bearing about the target, with the clock; the stage end at the top.

    HOUSE LEFT ·   stage end    HOUSE RIGHT ·
         (6)[6]                 (1)[1]
            '--o      12      o--'
             o   9    x    3    o
            .--o       6      o--.
         (4)[4]                 (3)[3]
                      YOU

To scale where every place is measured; else all stand on one ring, which is said. Seen from the stage it is turned
by 180 degrees, never mirrored.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import cos, dist, radians, sin

from venue.core.bearings import bearing_about, wrapped
from venue.core.drawing.finishing import Content, finished
from venue.core.drawing.plane import Extent, Plane, Spot, View
from venue.core.drawing.racks import Rack, hang
from venue.core.drawing.records import BeamPool, PlanArea, PlanPlace, PlanWords, StageMarks
from venue.core.drawing.shapes import Bounds, Box, Drawing, Ellipse, Line, Shape, Text, shortened, text_width
from venue.core.drawing.slots import around, clusters, slot_marks, tags_of, throw_lines
from venue.core.drawing.stage import stage_corners, stage_edge, stage_surface, target_cross
from venue.core.drawing.surfaces import area_names, area_shapes, pool_shapes, surface_corners, surface_key

WIDTH = 360.0
TALLEST = 420.0
LEAST_WIDTH = 340.0
_SIDE, _EDGE = 24.0, 8.0
_HOUR_SIZE, _WORD_SIZE = 13.0, 14.0
_LEAST_DIAL, _WIDE_DIAL = 48.0, 80.0
_SIGN = 30.0
_DIAL_SHARE = 0.62
_LONGEST_NAME = 12
_CLEAR = 0.7
"""Of the dial's radius: the corners of a square lie on its ring."""


def bowl_plan(
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
    """The plan; places with neither bearing nor coordinates are left out and listed.

    Pools and areas are drawn where it is to scale.
    """
    plan = _Bowl(places, stage, words, pools, areas, max(width, LEAST_WIDTH), tallest)
    return finished(plan.content, words.sides, plan.width, is_turned=view == "stage")


@dataclass(frozen=True)
class _Bowl:
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
        racks = self._racks()
        low, high = self._heights(racks)
        throws = throw_lines((spot, self._end(index)) for index, spot in self.spots.items())
        ground = [*self._stage(), *self._surfaces(), *self._dial(), *throws, *target_cross(*self.center)]
        ground += [*self._hours(), *self._stage_word(), self._stage_end(low), *self._names()]
        key = [("throw", self.words.throw), ("target", self.words.target), ("clock", self.words.clock), *self._key()]
        numbers = [place.number for place in self.places]
        undrawn = tuple(index for index in range(len(self.places)) if index not in self.bearings)
        return Content(ground, slot_marks(self.spots.values()), racks, key, low, high, self.plane, numbers, undrawn)

    @cached_property
    def bearings(self) -> dict[int, float]:
        """About the target, of every place that has one [deg]."""
        found: dict[int, float] = {}
        for index, place in enumerate(self.places):
            if place.bearing_deg is not None:
                found[index] = wrapped(place.bearing_deg)
            elif place.spot is not None:
                found[index] = bearing_about(*place.spot, self.stage.target.x_m, self.stage.target.y_m)
        return found

    @property
    def radius(self) -> float:
        """Of the ring without a scale."""
        return self.width / 2 - _SIDE

    @cached_property
    def plane(self) -> Plane | None:
        """The target in the middle; None where a place is known by its bearing only."""
        known = [spot for index in self.bearings if (spot := self.places[index].spot) is not None]
        if not known or len(known) < len(self.bearings):
            return None
        ends = [end for index in self.bearings if (end := self.places[index].end) is not None]
        surfaces = surface_corners(self.pools, self.areas)
        extent = Extent.of([*known, *ends, *stage_corners(self.stage), *surfaces]).even_about(self.stage.target.x_m)
        return Plane.fitted(extent, _SIDE, self.width - _SIDE, self.tallest)

    @property
    def center(self) -> Spot:
        return self._at(self.stage.target.x_m, self.stage.target.y_m)

    def _at(self, x_m: float, y_m: float) -> Spot:
        """A point of the house; without a scale there is only the middle."""
        return (self.width / 2, 0.0) if self.plane is None else self.plane.point(x_m, y_m)

    @cached_property
    def spots(self) -> dict[int, Spot]:
        if self.plane is None:
            return {index: self._round(bearing, self.radius) for index, bearing in self.bearings.items()}
        return {index: self._at(*spot) for index in self.bearings if (spot := self.places[index].spot) is not None}

    def _round(self, bearing_deg: float, radius: float) -> Spot:
        x, y = self.center
        return x + radius * sin(radians(bearing_deg)), y - radius * cos(radians(bearing_deg))

    def _end(self, index: int) -> Spot:
        end = self.places[index].end
        return self.center if end is None else self._at(*end)

    def _racks(self) -> list[Rack]:
        """Throw and bearing under the numbers, above the bowl and below it; of several positions each one's name."""
        positions = {place.position for place in self.places}
        lines: list[tuple[str, ...]] = [(place.throw, place.bearing) for place in self.places]
        places = self.places
        if len(positions) > 1:  # rings inside of rings: one order for all keeps leaders off others' tags
            lines = [
                (shortened(place.position, _LONGEST_NAME), *more) for place, more in zip(places, lines, strict=True)
            ]
            places = [replace(place, position="") for place in places]
        hung = clusters(places, tags_of(places, lines), self.spots, self.center, may_stack=False)
        written = [text.bounds for text in self._names()]
        return hang(hung, [self._clock, *written, *map(around, self.spots.values())], _EDGE, self.width - _EDGE)

    def _heights(self, racks: Sequence[Rack]) -> tuple[float, float]:
        reach = self.radius if self.plane is None else max(self.dial, self._hours_radius + _HOUR_SIZE)
        stage = [self._at(*corner)[1] for corner in stage_corners(self.stage)]
        ys = [*stage, self.center[1] - reach, self.center[1] + reach, *(y for _x, y in self.spots.values())]
        if self.plane is not None:
            ys += [self._at(*corner)[1] for corner in surface_corners(self.pools, self.areas)]
        ys.append(self._stage_word_y - _WORD_SIZE)
        boxes = [box for rack in racks for box in rack.boxes]
        low, high = min([*ys, *(box[1] for box in boxes)]), max([*ys, *(box[3] for box in boxes)])
        return low - 2 * _WORD_SIZE, high + _WORD_SIZE

    def _surfaces(self) -> Iterator[Shape]:
        if self.plane is not None:
            yield from area_shapes(self.areas, self.plane)
            yield from pool_shapes(self.pools, self.plane)

    def _names(self) -> list[Text]:
        return [] if self.plane is None else area_names(self.areas, self.plane, self.width)

    def _key(self) -> list[tuple[str, str]]:
        words = self.words
        return [] if self.plane is None else surface_key(self.pools, self.areas, words.pool, words.reached)

    @cached_property
    def dial(self) -> float:
        """The clock's radius, inside of the places."""
        nearest = min((dist(spot, self.center) for spot in self.spots.values()), default=self.radius)
        return max(_LEAST_DIAL, min(_DIAL_SHARE * nearest, self.radius))

    def _dial(self) -> Iterator[Shape]:
        yield Ellipse(*self.center, 2 * self.dial, 2 * self.dial, 0.0, "dial")
        for hour in range(12):
            bearing = self.stage.twelve_deg + 30.0 * hour
            yield Line(*self._round(bearing, self.dial), *self._round(bearing, self.dial + 6.0), "hour-tick")

    def _hours(self) -> Iterator[Shape]:
        for hour in range(1, 13):
            x, y = self._round(self.stage.twelve_deg + 30.0 * hour, self._hours_radius)
            yield Text(x, y, str(hour), _HOUR_SIZE, "hour")

    @property
    def _clock(self) -> Bounds:
        """The box in the middle of the dial, where the stage is."""
        (x, y), half = self.center, _CLEAR * self.dial
        return x - half, y - half, x + half, y + half

    @property
    def _hours_radius(self) -> float:
        """Inside the dial; outside of a small one, where the stage needs the room."""
        return self.dial - _HOUR_SIZE if self.dial >= _WIDE_DIAL else self.dial + _HOUR_SIZE + 2.0

    def _stage(self) -> Iterator[Shape]:
        """To scale as far as it is on file, else a sign for it."""
        if self.plane is not None and self.stage.sides and self.stage.depths:
            yield from stage_surface(self.stage, self.plane)
            yield from stage_edge(self.stage, self.plane, self.width)
        else:
            x, low, high = self.center[0], self.center[1] + self._sign[0], self.center[1] + self._sign[1]
            yield Box(x, (low + high) / 2, 2 * _SIGN, high - low, "stage-about")
            yield Line(x - _SIGN, high, x + _SIGN, high, "stage-edge")

    @property
    def _sign(self) -> tuple[float, float]:
        """Where the sign for a stage begins and ends: at an end stage upstage of the target."""
        is_end = all(90.0 <= bearing <= 270.0 for bearing in self.bearings.values())
        return (-_SIGN, 0.0) if is_end else (-_SIGN / 2, _SIGN / 2)

    def _stage_word(self) -> list[Shape]:
        """On a plate over the throws, upstage of the stage."""
        y = self._stage_word_y
        width = text_width(self.words.stage, _WORD_SIZE) + 12.0
        return [
            Box(self.center[0], y, width, _WORD_SIZE + 4.0, "plate"),
            Text(self.center[0], y, self.words.stage, _WORD_SIZE, "stage-word"),
        ]

    @property
    def _stage_word_y(self) -> float:
        """Above the stage, and above the clock's hours where it would cover them."""
        known = self.plane is not None and self.stage.sides and self.stage.depths
        ys = [self._at(*corner)[1] for corner in stage_corners(self.stage)]
        y = (min(ys) if known else self.center[1] + self._sign[0]) - _WORD_SIZE
        above = self.center[1] - self._hours_radius - 1.5 * _HOUR_SIZE
        return above if above < y < above + 3 * _HOUR_SIZE else y

    def _stage_end(self, low: float) -> Text:
        most = int((self.width - 2 * _EDGE) / text_width("0", _WORD_SIZE))
        return Text(self.width / 2, low + _WORD_SIZE, shortened(self.words.stage_end, most), _WORD_SIZE, "stage-end")
