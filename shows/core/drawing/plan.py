"""The plan of a house with tonight's numbers and the house's labels, seen from the house or from the stage.

Seen from the stage is the plan turned by 180 degrees, never mirrored: who stands there sees house left at the
right hand.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from shows.core.drawing.ring import RingPlan, draw_ring
from shows.core.drawing.rows import draw_rows, height_of, row_plans, widest
from shows.core.numbering.order import is_end_stage
from shows.core.numbering.records import House, Pair
from venue.core.drawing.marks import Light
from venue.core.drawing.shapes import Drawing
from venue.core.drawing.surround import (
    KEY_HEIGHT,
    YOU_HEIGHT,
    KeyWords,
    edge_height,
    edge_lines,
    edge_words,
    number_key,
    viewer,
)

View = Literal["house", "stage"]

LEAST_WIDTH = 340.0


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
    left, right = (words.house_left, words.house_right)[:: -1 if is_turned else 1]
    top = edge_height(left, right)
    shapes, at = edge_words(left, right, width), top
    if ring:
        shapes += draw_ring(ring, width, at, is_turned, words.stage, words.stage_end)
        at += ring.height
    if rows:
        shapes += draw_rows(rows, width, at, is_turned, words.stage)
        at += height_of(rows)
    key = KeyWords(words.show_number, words.house_label, words.spare)
    shapes += edge_lines(width, top, at) + viewer(words.you, width, at)
    shapes += number_key(key, width, at + YOU_HEIGHT, has_spare=len(numbers) < len(lights))
    return Drawing(width, at + YOU_HEIGHT + KEY_HEIGHT, tuple(shapes), _undrawn(house, order, ring))


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
