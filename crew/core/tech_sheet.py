"""What a house tells a tour of its follow-spot positions, as plain records.

Lengths are in meters beside the text that somebody typed; angles are degrees. None and "" are not recorded, which the
sheet says in words. No record has a place for a person, a lamp's serial number, or whom a unit is hired from.
"""

import math
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from venue.core.bearings import wrapped
from venue.core.labels import is_name, sort_key
from venue.core.lengths import Length, UnitSystem
from venue.core.rows import Basis
from venue.core.throws import is_far_off

Run = Literal["none", "single", "unordered", "up", "down", "mixed"]
Walk = Literal["walked", "contradicted", "not-walked"]
HALF_HOUR_DEG = 15.0


@dataclass(frozen=True)
class Numbering:
    """The labels of one position in the house's order: from house left to house right, in zone side from nearest the
    audience, in a bowl clockwise from the stage end.

    `basis` is what that order follows; "label" means that no order is on file. `walk` says whether somebody stood there
    and found what the book says, `walked_on` when.
    """

    labels: tuple[str, ...] = ()
    zone: str = "front"
    basis: Basis = "label"
    walk: Walk = "not-walked"
    walked_on: date | None = None

    @property
    def run(self) -> Run:
        """Whether the labels rise along the order, or against it; names (Left, Center) rise nowhere."""
        if len(self.labels) < 2:
            return "single" if self.labels else "none"
        if self.basis == "label":
            return "unordered"
        keys = [sort_key(label) for label in self.labels]
        if any(map(is_name, self.labels)):
            return "mixed"
        if keys == sorted(keys):
            return "up"
        return "down" if keys == sorted(keys, reverse=True) else "mixed"


@dataclass(frozen=True)
class SheetPoint:
    """A point in the frame of the set-up: `x` positive toward house right, `y` upstage, `z` up from the deck.

    `y_is_computed`: nobody recorded that distance, it follows from the throw.
    """

    x: Length
    y: Length
    z: Length
    y_is_computed: bool = False


@dataclass(frozen=True)
class SheetThrow:
    """A throw: as somebody told it, with the point that it goes to (`end` by its code, `mark` in the house's words);
    `same_end_m` as the coordinates give it to that point, `target_m` to the set-up's target.
    """

    told: Length | None = None
    end: str = ""
    mark: str = ""
    same_end_m: float | None = None
    target_m: float | None = None

    @property
    def is_far_off(self) -> bool:
        """Whether what was told and what the coordinates give are over 5 % apart."""
        return self.told is not None and self.same_end_m is not None and is_far_off(self.told.meters, self.same_end_m)


@dataclass(frozen=True)
class SheetUnit:
    """What stands at a place. `percent` of the peak is where the full angles end; candela are the maker's.

    `limits` are what it can't do now, a sentence each; `is_out`: it is out of service now.
    """

    tag: str
    source: str = ""
    watts: float | None = None
    frames: int | None = None
    frame_1_end: str = ""
    magazine: str = ""
    narrow_deg: float | None = None
    wide_deg: float | None = None
    percent: Literal[50, 10] | None = None
    narrow_cd: float | None = None
    wide_cd: float | None = None
    cct_k: float | None = None
    limits: tuple[str, ...] = ()
    is_out: bool = False


@dataclass(frozen=True)
class SheetCircuit:
    """A circuit [V, A]."""

    name: str
    volts: float | None = None
    rating_a: float | None = None


@dataclass(frozen=True)
class SheetPlace:
    """One place. `angle_deg` is below the horizontal, computed from the lens to the set-up's target.

    `bearing_deg` is about the target, clockwise from the stage end, in a bowl alone; `bearing_is_computed` from the
    lens. `unit` None: nothing stands there. `run_from` is the place from which a remote-run unit is operated.
    """

    label: str
    lens: SheetPoint | None = None
    throw: SheetThrow = field(default_factory=SheetThrow)
    angle_deg: float | None = None
    bearing_deg: float | None = None
    bearing_is_computed: bool = False
    unit: SheetUnit | None = None
    circuit: SheetCircuit | None = None
    run_from: str = ""


@dataclass(frozen=True)
class SheetBlockage:
    """Something in the way of a position, or of one `place` of it. Pans from straight upstage, positive toward
    stage left; `has_zone`: a part of the plan is on file for it.
    """

    name: str
    place: str = ""
    pans: tuple[float, float] | None = None
    has_zone: bool = False


@dataclass(frozen=True)
class SheetPosition:
    """One position with all that the house records of it, in codes as it is stored.

    `sees_upstage` and `sees_downstage` are upstage of the plaster line. `has_rescue_plan` says that one is on file,
    never what it says; `checked_on` when, never by whom.
    """

    name: str
    kind: str = ""
    zone: str = "front"
    level: float | None = None
    numbering: Numbering = field(default_factory=Numbering)
    places: tuple[SheetPlace, ...] = ()
    access: str = ""
    access_min: int | None = None
    passage: Length | None = None
    load_limit_kg: float | None = None
    power: str = ""
    switched_at: str = ""
    intercom: str = ""
    glass: str = ""
    glass_loss_pct: float | None = None
    sees_upstage: Length | None = None
    sees_downstage: Length | None = None
    pans: tuple[float, float] | None = None
    blockages: tuple[SheetBlockage, ...] = ()
    needs: str = ""
    fall_protection: str = ""
    show_exit: str = ""
    show_exit_words: str = ""
    who_may_operate: str = ""
    seats_lost: int | None = None
    has_rescue_plan: bool = False
    checked_on: date | None = None


@dataclass(frozen=True)
class SheetStage:
    """The set-up: its stage, what stands at its sides, the target that angles and bearings are about."""

    name: str
    layout: str = "proscenium"
    opening: Length | None = None
    depth: Length | None = None
    apron: Length | None = None
    prompt_side: str = ""
    target: SheetPoint | None = None
    twelve_deg: float = 0.0
    house_left: str = ""
    house_right: str = ""
    stage_end: str = ""


@dataclass(frozen=True)
class TechSheet:
    """The whole sheet; `note` is what the house wants a tour to know."""

    house: str
    stage: SheetStage
    system: UnitSystem = "imperial"
    note: str = ""
    positions: tuple[SheetPosition, ...] = ()

    @property
    def has_bowl(self) -> bool:
        """Whether any position is told by bearings."""
        return any(position.zone == "bowl" for position in self.positions)

    @property
    def places(self) -> list[SheetPlace]:
        return [place for position in self.positions for place in position.places]


def clock_of(bearing_deg: float, twelve_deg: float = 0.0) -> tuple[int, int]:
    """The hour and minute, to the half hour, at which a bearing lies on a dial whose 12 is at `twelve_deg`.

    Both clockwise from the stage end. 12 o'clock is (12, 0), 15 degrees after it (12, 30).
    """
    halves = math.floor(wrapped(bearing_deg - twelve_deg) / HALF_HOUR_DEG + 0.5) % 24
    return halves // 2 or 12, halves % 2 * 30
