"""What drawings of a house are made from: plain records in the house's frame, and every word that they carry.

Origin on the deck where the center line meets the plaster line; +x to stage left (house right), +y upstage, +z up;
meters and degrees. Each text comes as it is to be written.
"""

from dataclasses import dataclass
from typing import Literal

from venue.core.polygons import Polygon
from venue.core.throws import Point

Layout = Literal["proscenium", "thrust", "round", "bowl"]
FOOT_M = 0.3048
FACE = Point(0.0, 0.0, 1.5)
"""Of a performer in the middle of the plaster line."""


@dataclass(frozen=True)
class PlanPlace:
    """One place. `x_m`, `y_m` None: nobody measured it, a plan to scale leaves it out.

    `words` name both numbers and the position in full. `number` is the show number, None where no show has it.
    `end` is where the throw ends in plan, `throw` its length. `bearing_deg` is about the target, clockwise from the
    stage end; without it x and y say it. `bearing` is how it is written.
    """

    label: str
    position: str
    zone: str
    words: str
    x_m: float | None = None
    y_m: float | None = None
    bearing_deg: float | None = None
    number: str | None = None
    end: tuple[float, float] | None = None
    throw: str = ""
    bearing: str = ""

    @property
    def spot(self) -> tuple[float, float] | None:
        """Where it is in plan, if that was measured."""
        return None if self.x_m is None or self.y_m is None else (self.x_m, self.y_m)


@dataclass(frozen=True)
class StageMarks:
    """The set-up's stage. A length of None or 0 is not on file and is not drawn; `opening` is its text."""

    layout: Layout = "proscenium"
    opening_m: float | None = None
    depth_m: float | None = None
    apron_m: float | None = None
    target: Point = FACE
    twelve_deg: float = 0.0
    opening: str = ""

    @property
    def sides(self) -> tuple[float, float] | None:
        """The stage from house left to house right [m]; None where no opening is on file."""
        if not self.opening_m:
            return None
        middle = self.target.x_m if self.layout == "round" else 0.0
        return middle - self.opening_m / 2, middle + self.opening_m / 2

    @property
    def depths(self) -> tuple[float, float] | None:
        """The stage from its edge at the house to upstage [m]; in the round its depth lies about the target."""
        if self.layout == "round":
            return (self.target.y_m - self.depth_m / 2, self.target.y_m + self.depth_m / 2) if self.depth_m else None
        return -(self.apron_m or 0.0), self.depth_m or 0.0


@dataclass(frozen=True)
class BeamPool:
    """The ellipse of a beam on the deck: its middle, its axes, its long one along the pan."""

    x_m: float
    y_m: float
    length_m: float
    width_m: float
    pan_deg: float


@dataclass(frozen=True)
class PlanArea:
    """A part of the plan with its name; `reached` are convex pieces of it."""

    name: str
    corners: Polygon
    reached: tuple[Polygon, ...] = ()


@dataclass(frozen=True)
class SideWords:
    """What stands at the edges of a drawing and below it.

    `left` and `right` are the edges in whole words, a line each, landmarks among them: house left and house right of
    a plan as seen from the house, the house's end and the stage's of a section. `view` says from where it is seen,
    and that it is turned where it is; `you` is the viewer, "" where none is drawn. `scale` holds "{}" for the number
    of units of length on the bar, `unit_m` is that unit; `no_scale` is said where there is none.
    """

    left: tuple[str, ...]
    right: tuple[str, ...]
    view: str
    you: str
    show_number: str
    house_label: str
    spare: str
    scale: str
    no_scale: str = ""
    unit_m: float = FOOT_M


@dataclass(frozen=True)
class PlanWords:
    """What a plan says besides."""

    sides: SideWords
    stage: str
    stage_end: str
    plaster_line: str
    center_line: str
    lip: str
    target: str
    throw: str
    pool: str
    reached: str
    clock: str = ""


@dataclass(frozen=True)
class SectionPlace:
    """One place in a section: its lens and the end point of its throw [m], both numbers, the lines under them.

    `near_m` and `far_m` are the ends of its pool on the deck along the throw in plan, from under the lens;
    `full_deg` its full angle, which draws the edges of a cone that misses the deck. None: not known.
    """

    label: str
    words: str
    lens: Point
    end: Point
    number: str | None = None
    lines: tuple[str, ...] = ()
    near_m: float | None = None
    far_m: float | None = None
    full_deg: float | None = None
    has_glass: bool = False


@dataclass(frozen=True)
class SectionWords:
    """What a section says besides. `height` is the lens's, `near` and `far` say where the pool ends; "" is left out."""

    sides: SideWords
    lip: str
    plaster_line: str
    target: str
    throw: str
    cone: str
    pool: str
    person: str
    glass: str
    height: str = ""
    near: str = ""
    far: str = ""
