"""A bowl seen from above: the stage end at the top, house right at the right, numbers outside, labels inside."""

from dataclasses import dataclass
from math import cos, degrees, hypot, radians, sin

from venue.core.drawing.marks import LABEL_HEIGHT, PILL_HEIGHT, Light
from venue.core.drawing.shapes import CHAR_WIDTH, Box, Line, Mark, Shape, Text, shortened
from venue.core.drawing.spread import spread, spread_round

LEAST_RADIUS = 128.0
STRIP = 30.0  # above and below the ring, for the words at the stage end
SIDE = 12.0
STAGE_WIDTH, STAGE_HEIGHT = 96.0, 44.0


@dataclass(frozen=True)
class RingPlan:
    """The lights of a bowl in the order of their bearings [deg, clockwise seen from above, 0 = stage end]."""

    lights: tuple[Light, ...]
    bearings: tuple[float, ...]
    is_end_stage: bool

    @property
    def pill(self) -> float:
        """The room that one number takes, whichever way its neighbor lies."""
        widest = max(light.pill_width for light in self.lights)
        return PILL_HEIGHT + 5.0 if widest <= PILL_HEIGHT else hypot(widest, PILL_HEIGHT) + 4.0

    @property
    def inward(self) -> float:
        """From a number's middle to its label's."""
        widest = max(light.pill_width + light.label_width for light in self.lights) / 2
        return hypot((PILL_HEIGHT + LABEL_HEIGHT) / 2, widest) + 1.0

    @property
    def radius(self) -> float:
        """So large that numbers, labels and the stage keep clear of one another."""
        label = hypot(max(light.label_width for light in self.lights), LABEL_HEIGHT) + 3.0
        share = len(self.lights) * 1.02 / radians(self.arc)
        clear_of_stage = hypot(STAGE_WIDTH, STAGE_HEIGHT) / 2 + label / 2
        return max(LEAST_RADIUS, share * self.pill, self.inward + max(share * label, clear_of_stage))

    @property
    def arc(self) -> float:
        """How much of the ring [deg] the lights may take: with the stage at one end only the half that faces it."""
        return 180.0 if self.is_end_stage else 360.0

    @property
    def places(self) -> list[float]:
        """The bearings at which the lights are drawn [deg], moved apart where they would cover one another."""
        gap = degrees(self.pill / self.radius)
        if self.is_end_stage:
            return spread(self.bearings, gap, 90.0, 270.0)
        return spread_round(self.bearings, gap)

    @property
    def half_width(self) -> float:
        return max(light.pill_width for light in self.lights) / 2

    @property
    def width(self) -> float:
        return 2 * (self.radius + self.half_width + SIDE)

    @property
    def height(self) -> float:
        return 2 * (self.radius + PILL_HEIGHT / 2 + STRIP)


def draw_ring(plan: RingPlan, width: float, top: float, is_turned: bool, stage: str, stage_end: str) -> list[Shape]:
    """The shapes of the ring between `top` and `top + plan.height`; `is_turned` turns it by 180 degrees."""
    x, y = width / 2, top + plan.height / 2
    turn = 180.0 if is_turned else 0.0
    shapes = _stage(plan, x, y, -1.0 if is_turned else 1.0, stage, stage_end)
    for light, bearing in zip(plan.lights, plan.places, strict=True):
        outer = _point(x, y, plan.radius, bearing + turn)
        inner = _point(x, y, plan.radius - plan.inward, bearing + turn)
        shapes.append(Mark(light.words, (*light.pill(*outer), *light.box(*inner)), "light"))
    return shapes


def _point(x: float, y: float, radius: float, bearing: float) -> tuple[float, float]:
    return x + radius * sin(radians(bearing)), y - radius * cos(radians(bearing))


def _stage(plan: RingPlan, x: float, y: float, up: float, stage: str, stage_end: str) -> list[Shape]:
    """The stage in the middle, or at its end of the bowl, with its edge; `up` is -1 where the plan is turned."""
    end = plan.radius + PILL_HEIGHT / 2 + STRIP / 2
    middle = y - up * (plan.radius * 0.72 if plan.is_end_stage else 0.0)
    edge, half = middle + up * STAGE_HEIGHT / 2, STAGE_WIDTH / 2
    return [
        Text(x, y - up * end, shortened(stage_end, int(plan.width / (14.0 * CHAR_WIDTH))), 14.0, "stage-end"),
        Box(x, middle, STAGE_WIDTH, STAGE_HEIGHT, "stage"),
        Line(x - half, edge, x + half, edge, "stage-edge"),
        Text(x, middle, stage, 17.0, "stage-word"),
    ]
