"""Rows of lights before, above and behind a stage, seen in plan from the house.

HOUSE LEFT                          HOUSE RIGHT
          [      STAGE       ]
Rail      (2)--------------(1)
Booth        (1)-(2)-(3)-(4)
                  YOU

A row with more places than a phone can show side by side is drawn zigzag, with a line from each to the next:

Rail      (1)  (4)  (7)
            (2)  (5)
              (3)  (6)
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil

from shows.core.numbering.records import House
from venue.core.drawing.marks import GAP, LABEL_HEIGHT, PILL_HEIGHT, Light
from venue.core.drawing.shapes import CHAR_WIDTH, Box, Line, Mark, Shape, Text, shortened
from venue.core.drawing.spread import spread

CAPTION_SIZE = 15.0
STAGE_HEIGHT = 44.0
SIDE = 14.0
MOST_WIDE = 430.0
"""As wide as a row gets before it goes zigzag [drawing units]: a phone still shows its labels to be read."""

_LINE_HEIGHT = PILL_HEIGHT + GAP + LABEL_HEIGHT
_BELOW_CAPTION = 5.0
_BETWEEN = 8.0
_PADDING = 21.0
_APART = 10.0


@dataclass(frozen=True)
class RowPlan:
    """One position: its lights from house left to house right, and how far across each belongs (None: even)."""

    name: str
    lights: tuple[Light, ...]
    across: tuple[float, ...] | None
    is_behind: bool

    @cached_property
    def cell(self) -> float:
        """The room that one light takes beside others of its line."""
        return max(max(light.pill_width, light.label_width) for light in self.lights) + _APART

    @cached_property
    def lines(self) -> int:
        """In how many lines the row goes zigzag; 1 where all stand side by side."""
        across = max(1, int((MOST_WIDE - 2 * SIDE) / self.cell))
        return ceil(len(self.lights) / across)

    @property
    def gap(self) -> float:
        """From one light to the next across; with every `lines`-th on one line none covers another."""
        return self.cell / self.lines

    @property
    def width(self) -> float:
        return (len(self.lights) - 1) * self.gap + self.cell + 2 * SIDE

    @property
    def height(self) -> float:
        return CAPTION_SIZE + _BELOW_CAPTION + self.lines * _LINE_HEIGHT + (self.lines - 1) * _BETWEEN + _PADDING


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
    return max((plan.width for plan in plans), default=0.0)


def height_of(plans: Sequence[RowPlan]) -> float:
    return sum(plan.height for plan in plans) + STAGE_HEIGHT


def draw_rows(plans: Sequence[RowPlan], width: float, top: float, is_turned: bool, stage: str) -> list[Shape]:
    """The shapes of all rows and the stage between `top` and `top + height_of(plans)`.

    `is_turned` turns the plan by 180 degrees: every point goes to the opposite one, the writing stays upright.
    """
    height = height_of(plans)
    reach = max((abs(x) for plan in plans for x in plan.across or ()), default=0.0) or 1.0
    edge = sum(plan.height for plan in plans if plan.is_behind) + STAGE_HEIGHT
    shapes = _stage(width, top, height, edge, is_turned, stage)
    above = 0.0
    for plan in plans:
        start = above + (0.0 if plan.is_behind else STAGE_HEIGHT)
        at = height - start - plan.height if is_turned else start
        shapes += _row(plan, _places(plan, width, reach), top + at, width, is_turned)
        above += plan.height
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
    half_cell = plan.cell / 2
    low, high = SIDE + half_cell, width - SIDE - half_cell
    if plan.across is None:
        count = len(plan.lights)
        wanted = [width * (index + 0.5) / count for index in range(count)]
    else:
        wanted = [width / 2 + x / reach * (high - low) / 2 for x in plan.across]
    return spread(wanted, plan.gap, low, high)


def _row(plan: RowPlan, places: Sequence[float], top: float, width: float, is_turned: bool) -> list[Shape]:
    caption = top + CAPTION_SIZE / 2 + 6.0
    name = shortened(plan.name, int((width - 2 * SIDE) / (CAPTION_SIZE * CHAR_WIDTH)))
    xs = [width - x if is_turned else x for x in places]
    ys = _pill_heights(plan, caption + CAPTION_SIZE / 2 + _BELOW_CAPTION + PILL_HEIGHT / 2, is_turned)
    points = list(zip(xs, ys, strict=True))
    rail = [Line(x1, y1, x2, y2, "rail") for (x1, y1), (x2, y2) in pairwise(points)]
    shapes: list[Shape] = [Text(SIDE, caption, name, CAPTION_SIZE, "caption", "start"), *rail]
    down = PILL_HEIGHT / 2 + GAP + LABEL_HEIGHT / 2
    for light, (x, y) in zip(plan.lights, points, strict=True):
        shapes.append(Mark(light.words, (*light.pill(x, y), *light.box(x, y + down)), "light"))
    return shapes


def _pill_heights(plan: RowPlan, first: float, is_turned: bool) -> list[float]:
    """How far down each number stands: on the lines in turn, the first line nearest the stage in both views."""
    lines = [index % plan.lines for index in range(len(plan.lights))]
    step = _LINE_HEIGHT + _BETWEEN
    return [first + step * (plan.lines - 1 - line if is_turned else line) for line in lines]
