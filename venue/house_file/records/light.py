"""What light has to do with the house, as a file says it: circuits, filters, sizes, areas and what is in the way.

Volts, amperes, percent, mired, meters, degrees. Empty texts and None: not recorded.
"""

from dataclasses import dataclass
from datetime import date

from venue.core.names import name_key
from venue.core.polygons import Polygon
from venue.house_file.keys import Ours, Written


@dataclass(frozen=True, kw_only=True)
class CircuitRecord(Written):
    """A single-phase circuit: its voltage, its rating, what else hangs on it."""

    name: str
    volts: float | None = None
    rating_a: float | None = None
    other_a: float | None = None

    @property
    def key(self) -> str:
        return name_key(self.name)


@dataclass(frozen=True, kw_only=True)
class FilterRecord(Written):
    """A color, a correction or a diffusion; a positive shift is warmer."""

    code: str
    name: str = ""
    transmission_pct: float | None = None
    shift_mired: float | None = None
    is_near_neutral: bool | None = None
    is_diffusion: Ours[bool] = False

    @property
    def key(self) -> str:
        return name_key(self.code)


@dataclass(frozen=True, kw_only=True)
class SizeRecord(Written):
    """The house's own diameter of one of the usual sizes."""

    size: str
    diameter_m: float
    diameter_text: str = ""

    @property
    def key(self) -> str:
        return self.size


@dataclass(frozen=True, kw_only=True)
class AreaRecord(Written):
    """A named part of the plan of a set-up."""

    name: str
    kind: str = "house"
    corners: Polygon
    corners_text: str = ""

    @property
    def key(self) -> str:
        return name_key(self.name)


@dataclass(frozen=True, kw_only=True)
class BlockageRecord(Written):
    """What is in the way of a position, or of the one place that it names by its label: corners, pans, or words."""

    name: str
    place: str = ""
    corners: Polygon = ()
    corners_text: str = ""
    pan_from_deg: float | None = None
    pan_to_deg: float | None = None
    noted_on: date | None = None
