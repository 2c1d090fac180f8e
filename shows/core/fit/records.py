"""What a show asks of one spot, what a place with its unit offers for it, and what is found between the two.

None, "" and empty sets are not recorded: never taken for "no".
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from venue.core.light import Span
from venue.core.pick_ups import PickUp

Gravity = Literal["stops", "limits", "note"]
"""Stops: not ready until it is gone or decided. Limits: the show is other than asked for. Note: good to know."""
Decider = Literal["house", "road", "electrician", "rigger"]
End = Literal["lens", "lamp", ""]
Magazine = Literal["front", "between", ""]
Fall = Literal["none", "restraint", "harness", ""]

NO_FACTS: Mapping[str, object] = MappingProxyType({})


@dataclass(frozen=True)
class Color:
    """One color of a frame: what it lets through (0 to 1) and whether it diffuses, None where nobody said."""

    code: str
    transmission: float | None = None
    is_diffusion: bool | None = None


@dataclass(frozen=True)
class Frame:
    """Frame `number` of the magazine and what is in it; several colors are one behind the other."""

    number: int
    colors: tuple[Color, ...]


@dataclass(frozen=True)
class Ask:
    """What the show asks of one number. `frame_1_end` is the end from which the show counts its frames."""

    number: str
    frames: tuple[Frame, ...] = ()
    frame_1_end: End = ""
    least_lux: float | None = None
    sizes: tuple[str, ...] = ()
    on_camera: bool | None = None
    full_blackout: bool | None = None
    strip_out: bool | None = None
    matches: str = ""


@dataclass(frozen=True)
class LampEnd:
    """When the lamp in the unit passes its stop: `is_past` already, else in the event named, with the hour then."""

    serial: str
    is_past: bool = False
    event: str = ""
    event_key: str = ""


@dataclass(frozen=True)
class UnitOffer:
    """The unit that stands there for the show. `limits` are codes: blackout, camera, shutters, iris, other.

    `stops` are sentences why it is out of service, `is_dangerous` whether one of them is a danger. `other_limits`
    are limits in the house's own words.
    """

    tag: str
    source: str = ""
    frames: int | None = None
    frame_1_end: End = ""
    magazine: Magazine = ""
    frames_out: frozenset[int] = frozenset()
    limits: frozenset[str] = frozenset()
    other_limits: tuple[str, ...] = ()
    stops: tuple[str, ...] = ()
    is_dangerous: bool = False
    lamp: LampEnd | None = None


@dataclass(frozen=True)
class Offer:
    """A place for the spot. `unit` None: none stands there then; `away` is where the one that belongs there is.

    `lux` arrives on somebody at the largest size asked for; `pick_ups` are all usual sizes; `is_steep_for_camera`
    whether the throw is steeper than the camera's limit; `circuit` is "" or the verdict on its circuit, with the
    amperes over. `blockages` stand in the way, in words. `failed` are the items that the arrival check found failing
    there, each with its note.
    """

    label: str
    position: str
    unit: UnitOffer | None = None
    away: str = ""
    pick_ups: tuple[PickUp, ...] = ()
    lux: Span | None = None
    is_steep_for_camera: bool | None = None
    fall_protection: Fall = ""
    has_rescue_plan: bool = False
    is_up_high: bool = False
    show_exit: Literal["yes", "no", ""] = ""
    who_may_operate: str = ""
    needs: str = ""
    circuit: str = ""
    circuit_over_a: float | None = None
    blockages: tuple[str, ...] = ()
    failed: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class Finding:
    """Something between ask and offer. `about` tells it from others of its code on the same number.

    `ways` are codes of what can be done. `may_be_decided`: a named person may decide to go on with it, by one of the
    ways; otherwise it has to go away. `facts` are what a sentence needs.
    """

    code: str
    gravity: Gravity
    number: str
    about: str = ""
    ways: tuple[str, ...] = ()
    decider: Decider = "house"
    may_be_decided: bool = True
    facts: Mapping[str, object] = field(default_factory=lambda: NO_FACTS)

    @property
    def key(self) -> tuple[str, str, str]:
        return self.number, self.code, self.about
