r"""The section of a house to scale: along its center line, or along one place's throw.

    HOUSE                                     STAGE
     (1)[4]
        o glass
        |' . ' .   cone
 height |    ' . '  .
        |        ' .   ' .  O  person
    - - + - - - - -====*====+---------------  deck
                  near lip far plaster line

Points are set down by how far they are along the line of the section, and by their height. Along the center line
that is y; what stands beside the line is seen against it, so only a place on it shows its true angle.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from venue.core.drawing.beam_lines import angle_arc, cone_edges, pane
from venue.core.drawing.cut import CENTER_LINE, Cut
from venue.core.drawing.figure import figure
from venue.core.drawing.finishing import Content, finished
from venue.core.drawing.plane import Extent, Plane, Spot
from venue.core.drawing.racks import Cluster, Rack, hang
from venue.core.drawing.records import SectionPlace, SectionWords, StageMarks
from venue.core.drawing.shapes import Bounds, Drawing, Line, Shape, Text, text_width
from venue.core.drawing.slots import around, slot_marks
from venue.core.drawing.stage import target_cross
from venue.core.drawing.tags import Note, Tag
from venue.core.throws import Point

WIDTH = 360.0
LEAST_WIDTH = 340.0
TALLEST = 320.0
PERSON_M = 1.75
"""A standing person; the caller may have another height."""
_SIDE, _EDGE = 24.0, 8.0
_SPARE_M = 2.0
"""What is shown upstage of everything else."""
_NOTE_SIZE = 13.0
_HAIR = 1e-6
_ROOM = 60.0
_HEADROOM = 28.0
"""What a beam may rise above the highest lens [drawing units]; its numbers take more."""


def center_section(
    places: Sequence[SectionPlace],
    stage: StageMarks,
    words: SectionWords,
    *,
    person_m: float = PERSON_M,
    width: float = WIDTH,
) -> Drawing:
    """All places against the center line, the house at the left."""
    return _drawn(_Section(tuple(places), stage, words, CENTER_LINE, stage.target, person_m, max(width, LEAST_WIDTH)))


def throw_section(
    place: SectionPlace,
    stage: StageMarks,
    words: SectionWords,
    *,
    person_m: float = PERSON_M,
    width: float = WIDTH,
) -> Drawing:
    """One place along its throw: true length and angle. Upstage is at the right, the lens too if it stands there."""
    cut = Cut.along_throw(place.lens, place.end)
    return _drawn(_Section((place,), stage, words, cut, place.end, person_m, max(width, LEAST_WIDTH)))


def _drawn(section: "_Section") -> Drawing:
    return finished(section.content, section.words.sides, section.width)


@dataclass(frozen=True)
class _Section:
    """What is to be drawn; `target` is where somebody stands."""

    places: tuple[SectionPlace, ...]
    stage: StageMarks
    words: SectionWords
    cut: Cut
    target: Point
    person_m: float
    width: float

    @property
    def content(self) -> Content:
        heights = list(self._heights())
        racks = self._racks([text.bounds for text in heights])
        boxes = [box for rack in racks for box in rack.boxes]
        ys = [y for _x, y in self.lenses] + [self.plane.point(0.0, z)[1] for z in (0.0, self.person_m)]
        low, high = min([*ys, *(box[1] for box in boxes)]) - _EDGE, max([*ys, *(box[3] for box in boxes)]) + _EDGE
        person = figure(*self._point(self.target, 0.0), self.person_m * self.plane.scale)
        ground = [*self._ground(), *self._beams(), *person, *target_cross(*self._point(self.target)), *heights]
        numbers = [place.number for place in self.places]
        return Content(ground, slot_marks(self.lenses), racks, self._key(), low, high, self.plane, numbers)

    def _along(self, point: Point) -> float:
        return self.cut.at(point.x_m, point.y_m)

    def _point(self, point: Point, z_m: float | None = None) -> Spot:
        return self.plane.point(self._along(point), point.z_m if z_m is None else z_m)

    @cached_property
    def lenses(self) -> list[Spot]:
        return [self._point(place.lens) for place in self.places]

    @cached_property
    def reach(self) -> tuple[float, float]:
        """From where to where the section goes [m]; a pool far beyond all else is cut off."""
        points = [self.target, *(place.lens for place in self.places), *(place.end for place in self.places)]
        found = [self._along(point) for point in points] + ([] if self.plaster is None else [self.plaster])
        found += [each for each in self.cut.deck(self.stage) or () if math.isfinite(each)]
        low, high = min(found), max(found)
        spare = max(_SPARE_M, 0.1 * (high - low))
        pools = [each for pool in map(self._pool, self.places) if pool for each in pool]
        return max(min([low, *pools]), low - spare), min(max([high + _SPARE_M, *pools]), high + spare)

    @cached_property
    def span(self) -> tuple[float, float]:
        """The lowest and the highest point [m]."""
        heights = [0.0, self.person_m, self.target.z_m, *(place.lens.z_m for place in self.places)]
        return min(heights), max(heights)

    @cached_property
    def plaster(self) -> float | None:
        """Where the plaster line is cut, if that is on the stage and not far from everything else [m]."""
        at, deck = self.cut.plaster_line(), self.cut.deck(self.stage)
        if at is None or deck is None or self.stage.layout == "round" or not deck[0] - _HAIR <= at <= deck[1] + _HAIR:
            return None
        ways = [self._along(self.target), *(self._along(place.lens) for place in self.places)]
        room = max(ways) - min(ways) + _SPARE_M
        return at if min(ways) - room <= at <= max(ways) + room else None

    @cached_property
    def plane(self) -> Plane:
        return Plane.fitted(Extent(*self.reach, *self.span), _SIDE, self.width - _SIDE, TALLEST)

    def _held(self, along: float) -> float:
        return min(max(along, self.reach[0]), self.reach[1])

    def _pool(self, place: SectionPlace) -> tuple[float, float] | None:
        """From where to where a place's pool lies on the deck."""
        if place.near_m is None or place.far_m is None:
            return None
        start, share = self._along(place.lens), self.cut.share(place.lens, place.end)
        return start + place.near_m * share, start + place.far_m * share

    def _ground(self) -> Iterator[Shape]:
        """The level of the deck, the deck itself, its edge and the plaster line."""
        low, high = self.reach
        yield Line(*self.plane.point(low, 0.0), *self.plane.point(high, 0.0), "level")
        deck = self.cut.deck(self.stage)
        if deck is not None:
            start, end = map(self._held, deck)
            yield Line(*self.plane.point(start, 0.0), *self.plane.point(end, 0.0), "deck")
        if self.plaster is not None:
            x, y = self.plane.point(self.plaster, 0.0)
            yield Line(x, y, x, self.plane.point(0.0, max(self.person_m, self._highest))[1], "plaster")

    @property
    def _highest(self) -> float:
        return max((place.lens.z_m for place in self.places), default=0.0)

    def _beams(self) -> Iterator[Shape]:
        for place in self.places:
            x, y = self._point(place.lens)
            yield from self._cone(place)
            yield Line(x, y, *self._point(place.end), "throw")
            if len(self.places) == 1:
                yield Line(x, y, x, self.plane.point(0.0, 0.0)[1], "measure")
                yield from angle_arc((x, y), self._point(place.end))
            if place.has_glass:
                yield from pane((x, y), self._point(place.end))

    def _cone(self, place: SectionPlace) -> Iterator[Shape]:
        """Its edges to the deck or to the end of the sheet, and the pool between them."""
        pool = self._pool(place)
        start, lens_z = self._along(place.lens), place.lens.z_m
        for along, z in cone_edges(place, pool, self.cut):
            share = self._share_on_sheet(start, along, lens_z, z - lens_z)
            end = self.plane.point(start + along * share, lens_z + (z - lens_z) * share)
            yield Line(*self._point(place.lens), *end, "cone")
        if pool is not None:
            near, far = map(self._held, sorted(pool))
            yield Line(*self.plane.point(near, 0.0), *self.plane.point(far, 0.0), "deck-pool")

    @property
    def _has_room_beside(self) -> bool:
        """Whether the one lens is so high on the sheet that words fit under its throw."""
        return self.places[0].lens.z_m * self.plane.scale > _ROOM

    def _share_on_sheet(self, start: float, along: float, z: float, up: float) -> float:
        """How much of a way stays between the ends of the sheet, and not far above its highest point."""
        share = 1.0
        heights = self.span[0], self.span[1] + _HEADROOM / self.plane.scale
        for at, way, (low, high) in ((start, along, self.reach), (z, up, heights)):
            limit = high if way > 0 else low
            if abs(way) > _HAIR:
                share = min(share, max(0.0, (limit - at) / way))
        return share

    def _heights(self) -> Iterator[Text]:
        """How high the lens is, under the throw of one place alone."""
        if len(self.places) == 1 and self._has_room_beside:
            x, y = self.lenses[0]
            foot = self.plane.point(0.0, 0.0)[1]
            room = text_width(self.words.height, _NOTE_SIZE) + 6.0 + _EDGE
            is_right = room > x or (self._point(self.places[0].end)[0] >= x and x + room < self.width)
            at = (x + 6.0 if is_right else x - 6.0), y + 0.72 * (foot - y)
            yield Text(*at, self.words.height, _NOTE_SIZE, "line-word", "start" if is_right else "end")

    def _racks(self, words: Sequence[Bounds]) -> list[Rack]:
        """The numbers above the lenses, what lies on the deck below it."""
        has_number = any(place.number is not None for place in self.places)
        tags = tuple(
            Tag.of(slot, place.label, place.number, place.words, place.lines, has_number)
            for slot, place in enumerate(self.places)
        )
        found = [Cluster("", tuple(self.lenses), tags, -1.0, may_stack=False)] if tags else []
        notes = [(self.plane.point(along, 0.0), Note(text)) for along, text in self._notes() if text]
        if notes:
            found.append(Cluster("", tuple(spot for spot, _ in notes), tuple(note for _, note in notes), 1.0, False))
        floor = self.plane.point(0.0, 0.0)[1]
        deck = (0.0, floor - 3.0, self.width, floor + 3.0)
        return hang(found, [*words, deck, *map(around, self.lenses)], _EDGE, self.width - _EDGE)

    def _notes(self) -> Iterator[tuple[float, str]]:
        deck = self.cut.deck(self.stage)
        if deck is not None and self.stage.apron_m and math.isfinite(deck[0]):
            yield deck[0], self.words.lip
        if self.plaster is not None:
            yield self.plaster, self.words.plaster_line
        if len(self.places) == 1 and not self._has_room_beside:
            yield self._along(self.places[0].lens), self.words.height
        if len(self.places) == 1 and (pool := self._pool(self.places[0])):
            yield from ((self._held(pool[0]), self.words.near), (self._held(pool[1]), self.words.far))

    def _key(self) -> list[tuple[str, str]]:
        places, words = self.places, self.words
        has_pool = any(self._pool(place) for place in places)
        has_cone = has_pool or any(place.full_deg for place in places)
        found = [("throw", words.throw, bool(places)), ("target", words.target, True), ("person", words.person, True)]
        found += [("cone", words.cone, has_cone), ("deck-pool", words.pool, has_pool)]
        found.append(("glass", words.glass, any(place.has_glass for place in places)))
        return [(kind, word) for kind, word, is_drawn in found if is_drawn]
