"""The plan of a house with tonight's numbers and the house's labels, seen from the house or from the stage.

Seen from the stage is the plan turned by 180 degrees, never mirrored: who stands there sees house left at the
right hand.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from shows.core.drawing.marks import Light
from shows.core.drawing.ring import RingPlan, draw_ring
from shows.core.drawing.rows import draw_rows, height_of, row_plans, widest
from shows.core.numbering.order import is_end_stage
from shows.core.numbering.records import House, Pair
from venue.core.drawing.shapes import Box, Drawing, Line, Shape, Text, shortened, text_width

View = Literal["house", "stage"]

LEAST_WIDTH = 340.0
_LINE = 18.0
_MARGIN = 10.0
_WORD = 15.0
_YOU, _LEGEND = 40.0, 44.0


@dataclass(frozen=True)
class PlanWords:
    """Every word that the drawing carries. A side comes as two lines: the house's name for it, the stage's."""

    house_left: tuple[str, ...]
    house_right: tuple[str, ...]
    stage: str
    stage_end: str
    you: str
    show_number: str
    house_label: str
    spare: str


def draw_plan(
    house: House, pairs: Sequence[Pair], words: PlanWords, light_words: Sequence[str], view: View = "house"
) -> Drawing:
    """The drawing; `light_words` name each slot in words. Slots that nothing puts anywhere are left out and listed.

    Works from order alone: what is known by its order only stands evenly.
    """
    numbers = {pair.slot: pair.number for pair in pairs}
    lights = [Light(i, slot.label, numbers.get(i), light_words[i]) for i, slot in enumerate(house.slots)]
    order = [across(house, index) for index in range(len(house.positions))]
    rows, ring = row_plans(house, lights, order), ring_plan(house, lights)
    is_turned = view == "stage"
    width = max(LEAST_WIDTH, widest(rows), ring.width if ring else 0.0)
    top = _MARGIN + _LINE * max(len(words.house_left), len(words.house_right)) + 6.0
    shapes, at = _edge_words(words, width, is_turned), top
    if ring:
        shapes += draw_ring(ring, width, at, is_turned, words.stage, words.stage_end)
        at += ring.height
    if rows:
        shapes += draw_rows(rows, width, at, is_turned, words.stage)
        at += height_of(rows)
    shapes += (
        _edges(width, top, at)
        + _you(words.you, width, at)
        + _legend(words, width, at + _YOU, len(numbers) < len(lights))
    )
    return Drawing(width, at + _YOU + _LEGEND, tuple(shapes), _undrawn(house, order, ring))


def across(house: House, index: int) -> tuple[int, ...]:
    """The slots of a row from house left to house right: by x, else by order; empty where neither is on file."""
    slots = house.slots_at[index]
    if house.positions[index].zone == "bowl":
        return ()
    if all(house.slots[slot].x is not None for slot in slots):
        return tuple(sorted(slots, key=lambda slot: (house.slots[slot].x or 0.0, house.slots[slot].y or 0.0)))
    if all(house.slots[slot].order is not None for slot in slots):
        return tuple(sorted(slots, key=lambda slot: house.slots[slot].order or 0))
    return ()


def ring_plan(house: House, lights: Sequence[Light]) -> RingPlan | None:
    """The bowl's lights by bearing, else evenly by order; None without a bowl or without either."""
    bowl = [slot for i, slots in enumerate(house.slots_at) if house.positions[i].zone == "bowl" for slot in slots]
    known = {slot: bearing for slot in bowl if (bearing := house.bearings[slot]) is not None}
    if bowl and len(known) < len(bowl) and all(house.slots[slot].order is not None for slot in bowl):
        ring = sorted(bowl, key=lambda slot: house.slots[slot].order or 0)
        known = {slot: 360.0 * (index + 0.5) / len(ring) for index, slot in enumerate(ring)}
    if not bowl or len(known) < len(bowl):
        return None
    in_order = sorted(known, key=lambda slot: known[slot])
    bearings = tuple(known[slot] for slot in in_order)
    return RingPlan(tuple(lights[slot] for slot in in_order), bearings, is_end_stage(house))


def _undrawn(house: House, order: Sequence[Sequence[int]], ring: RingPlan | None) -> tuple[int, ...]:
    drawn = {slot for slots in order for slot in slots} | {light.slot for light in (ring.lights if ring else ())}
    return tuple(slot for slot in range(len(house.slots)) if slot not in drawn)


def _edge_words(words: PlanWords, width: float, is_turned: bool) -> list[Shape]:
    """Whole words at both edges, in the view's own order."""
    left, right = (words.house_left, words.house_right)[:: -1 if is_turned else 1]
    shapes: list[Shape] = []
    for index, text in enumerate(left):
        shapes.append(Text(_MARGIN, _MARGIN + _LINE * (index + 0.5), _short(text), _size(index), _kind(index), "start"))
    for index, text in enumerate(right):
        y = _MARGIN + _LINE * (index + 0.5)
        shapes.append(Text(width - _MARGIN, y, _short(text), _size(index), _kind(index), "end"))
    return shapes


def _short(text: str) -> str:
    """Half of the narrowest drawing is all there is for a landmark."""
    return shortened(text, 17)


def _size(index: int) -> float:
    return _WORD if index == 0 else _WORD - 1.0


def _kind(index: int) -> str:
    return "edge-house" if index == 0 else "edge-more"


def _edges(width: float, top: float, bottom: float) -> list[Shape]:
    return [Line(x, top, x, bottom, "edge") for x in (2.0, width - 2.0)]


def _you(text: str, width: float, top: float) -> list[Shape]:
    """The viewer, at the bottom of either view."""
    return [Box(width / 2, top + 10.0, 12.0, 12.0, "you-mark", 6.0), Text(width / 2, top + 28.0, text, 15.0, "you")]


def _legend(words: PlanWords, width: float, top: float, has_spare: bool) -> list[Shape]:
    """Each shape with its meaning written inside: the pill is the show's, the box the house's."""
    pieces = [(words.show_number, 16.0, 30.0, "number-shape"), (words.house_label, 13.0, 22.0, "label-shape")]
    pieces += [(words.spare, 13.0, 26.0, "spare-shape")] if has_spare else []
    widths = [text_width(text, size) + 16.0 for text, size, _height, _kind in pieces]
    x = (width - sum(widths) - _MARGIN * (len(pieces) - 1)) / 2
    shapes: list[Shape] = []
    for own, (text, size, height, kind) in zip(widths, pieces, strict=True):
        radius = 2.0 if kind == "label-shape" else height / 2
        shapes += [Box(x + own / 2, top + 22.0, own, height, kind, radius)]
        shapes += [Text(x + own / 2, top + 22.0, text, size, "legend")]
        x += own + _MARGIN
    return shapes
