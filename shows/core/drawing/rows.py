"""Rows of lights before, above and behind a stage, seen in plan from the house.

HOUSE LEFT                          HOUSE RIGHT
          [      STAGE       ]
Rail      (2)--------------(1)
Booth        (1)-(2)-(3)-(4)
                  YOU
"""

from collections.abc import Sequence
from dataclasses import dataclass

from shows.core.drawing.marks import GAP, LABEL_HEIGHT, PILL_HEIGHT, Light
from shows.core.drawing.shapes import CHAR_WIDTH, Box, Line, Mark, Shape, Text, shortened
from shows.core.drawing.spread import spread
from shows.core.numbering.records import House

CAPTION_SIZE = 15.0
BAND = CAPTION_SIZE + PILL_HEIGHT + GAP + LABEL_HEIGHT + 26.0
STAGE_HEIGHT = 44.0
SIDE = 14.0
_APART = 10.0


@dataclass(frozen=True)
class RowPlan:
    """One position: its lights from house left to house right, and how far across each belongs (None: even)."""

    name: str
    lights: tuple[Light, ...]
    across: tuple[float, ...] | None
    is_behind: bool


def row_plans(house: House, lights: Sequence[Light | None], order_of: Sequence[Sequence[int]]) -> list[RowPlan]:
    """The positions that are no bowl, from the stage out; those behind the stage edge come first.

    `order_of` gives for each position its slots from house left to house right, empty where that is not known.
    """
    found: list[tuple[float, RowPlan]] = []
    for index, slots in enumerate(order_of):
        position = house.positions[index]
        shown = tuple(light for slot in slots if (light := lights[slot]) is not None)
        if position.zone == "bowl" or not shown:
            continue
        depths = [y for slot in slots if (y := house.slots[slot].y) is not None]
        depth = sum(depths) / len(depths) if depths else None
        is_behind = position.zone == "rear" or (depth is not None and depth > 0)
        found.append(
            (depth if depth is not None else -1000.0 + index, _plan(house, position.name, slots, shown, is_behind))
        )
    found.sort(key=lambda each: -each[0])
    return sorted((plan for _depth, plan in found), key=lambda plan: not plan.is_behind)


def _plan(house: House, name: str, slots: Sequence[int], lights: tuple[Light, ...], is_behind: bool) -> RowPlan:
    measured = [x for slot in slots if (x := house.slots[slot].x) is not None]
    return RowPlan(name, lights, tuple(measured) if len(measured) == len(slots) else None, is_behind)


def widest(plans: Sequence[RowPlan]) -> float:
    """The width that the fullest row needs."""
    return max((len(plan.lights) * cell_width(plan) + 2 * SIDE for plan in plans), default=0.0)


def cell_width(plan: RowPlan) -> float:
    return max(max(light.pill_width, light.label_width) for light in plan.lights) + _APART


def height_of(plans: Sequence[RowPlan]) -> float:
    return BAND * len(plans) + STAGE_HEIGHT


def draw_rows(plans: Sequence[RowPlan], width: float, top: float, is_turned: bool, stage: str) -> list[Shape]:
    """The shapes of all rows and the stage between `top` and `top + height_of(plans)`.

    `is_turned` turns the plan by 180 degrees: every point goes to the opposite one, the writing stays upright.
    """
    height = height_of(plans)
    reach = max((abs(x) for plan in plans for x in plan.across or ()), default=0.0) or 1.0
    behind = sum(plan.is_behind for plan in plans)
    edge = behind * BAND + STAGE_HEIGHT
    shapes = _stage(width, top, height, edge, is_turned, stage)
    for index, plan in enumerate(plans):
        middle = (index + 0.5) * BAND + (0.0 if plan.is_behind else STAGE_HEIGHT)
        at = height - middle if is_turned else middle
        shapes += _row(plan, _places(plan, width, reach), top + at, width, is_turned)
    return shapes


def _stage(width: float, top: float, height: float, edge: float, is_turned: bool, stage: str) -> list[Shape]:
    def turned(y: float) -> float:
        return top + (height - y if is_turned else y)

    middle, word = turned(edge / 2), turned(edge - STAGE_HEIGHT / 2)
    return [
        Box(width / 2, middle, width * 0.72, edge, "stage"),
        Line(width * 0.14, turned(edge), width * 0.86, turned(edge), "stage-edge"),
        Text(width / 2, word, stage, 17.0, "stage-word"),
    ]


def _places(plan: RowPlan, width: float, reach: float) -> list[float]:
    """How far across [drawing units] each light stands, house left at 0."""
    half_cell = cell_width(plan) / 2
    low, high = SIDE + half_cell, width - SIDE - half_cell
    if plan.across is None:
        count = len(plan.lights)
        wanted = [width * (index + 0.5) / count for index in range(count)]
    else:
        wanted = [width / 2 + x / reach * (high - low) / 2 for x in plan.across]
    return spread(wanted, cell_width(plan), low, high)


def _row(plan: RowPlan, places: Sequence[float], middle: float, width: float, is_turned: bool) -> list[Shape]:
    caption = middle - BAND / 2 + CAPTION_SIZE / 2 + 6.0
    pill = caption + CAPTION_SIZE / 2 + 5.0 + PILL_HEIGHT / 2
    label = pill + PILL_HEIGHT / 2 + GAP + LABEL_HEIGHT / 2
    name = shortened(plan.name, int((width - 2 * SIDE) / (CAPTION_SIZE * CHAR_WIDTH)))
    xs = [width - x if is_turned else x for x in places]
    shapes: list[Shape] = [Text(SIDE, caption, name, CAPTION_SIZE, "caption", "start")]
    shapes.append(Line(min(xs), pill, max(xs), pill, "rail"))
    for light, x in zip(plan.lights, xs, strict=True):
        shapes.append(Mark(light.words, (*light.pill(x, pill), *light.box(x, label)), "light"))
    return shapes
