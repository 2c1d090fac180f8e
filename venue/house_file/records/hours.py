"""Lamps, meters and hours as a file says them. A unit is named by its tag, a lamp by its serial."""

from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Annotated

from venue.core.names import name_key
from venue.house_file.keys import APART, OURS, ZERO, As, Ours, Written
from venue.house_file.paths import Path


@dataclass(frozen=True, kw_only=True)
class Entered(Written):
    """Something written into the book, by whom and when where a person did; struck out with a reason."""

    entered_at: Annotated[datetime | None, OURS, As("entered")] = None
    entered_by: Ours[str] = ""
    struck_at: Annotated[datetime | None, OURS, As("struck")] = None
    struck_by: Ours[str] = ""
    struck_reason: Ours[str] = ""

    @property
    def counts(self) -> bool:
        return self.struck_at is None


@dataclass(frozen=True, kw_only=True)
class LampKindRecord(Written):
    """A kind of lamp. Waits in minutes, None: the maker's is not recorded."""

    name: str
    source: str = ""
    rated_h: float | None = None
    warn_at: float = 0.8
    stop_at: float = 1.0
    warm_up_min: Ours[float | None] = None
    run_down_min: Ours[float | None] = None
    restrike_min: Ours[float | None] = None
    opening_min: Ours[float | None] = None
    least_burn_min: Ours[float | None] = None
    longest_burn_min: Ours[float | None] = None
    spares: Ours[int] = 0
    on_order: Ours[int] = 0
    lead_days: Ours[int | None] = None
    keep_at_least: Ours[int | None] = None
    ended_at: Annotated[datetime | None, OURS, As("ended")] = None
    ended_reason: Ours[str] = ""

    @property
    def key(self) -> str:
        return name_key(self.name)


@dataclass(frozen=True, kw_only=True)
class FittingRecord(Written):
    """A lamp in a unit. `from_h` and `until_h` are what the unit's meter showed; `lamp` is the lamp's serial."""

    unit: str
    from_at: Annotated[datetime, As("from")]
    from_h: Annotated[Decimal | None, As("meter_h")] = None
    until_at: Annotated[datetime | None, As("until")] = None
    until_h: Annotated[Decimal | None, As("meter_out_h")] = None
    reason: Ours[str] = ""
    out_reason: Ours[str] = ""
    fate: Ours[str] = ""
    lamp: Annotated[str, APART] = field(default="", compare=False, repr=False)

    @property
    def lamp_key(self) -> str:
        return name_key(self.lamp)

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)


@dataclass(frozen=True, kw_only=True)
class DecisionRecord(Written):
    """A named person's decision to burn a lamp past its stop, until so many lamp hours."""

    at: datetime
    by: str
    makers_source: str
    reason: str
    until_h: Decimal


@dataclass(frozen=True, kw_only=True)
class LampRecord(Written):
    """A lamp by its serial, of the kind of a name, with its fittings by time."""

    serial: str
    kind: str
    came_with_h: Ours[Decimal] = ZERO
    came_with_strikes: Ours[int] = 0
    fitted: tuple[FittingRecord, ...] = ()
    decisions: Ours[tuple[DecisionRecord, ...]] = ()
    ended_at: Annotated[datetime | None, OURS, As("ended")] = None
    ended_reason: Ours[str] = ""

    @property
    def key(self) -> str:
        return name_key(self.serial)


@dataclass(frozen=True, kw_only=True)
class MeterRecord(Written):
    """An hour meter. Without an end it counts until its unit's next one begins.

    `is_implied`: the file names no meter of the unit, so that one counts from the first reading.
    """

    unit: str
    counts: str = "lamp"
    starts_at: Annotated[datetime, As("from")]
    starts_h: Decimal = ZERO
    ends_at: Annotated[datetime | None, OURS, As("until")] = None
    note: Ours[str] = ""
    is_implied: Annotated[bool, APART] = field(default=False, compare=False, repr=False)

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)


@dataclass(frozen=True, kw_only=True)
class ReadingRecord(Entered):
    """What the unit's meter showed. `closes_meter`: of the meter that ends then, not of the one that begins.

    `is_implied`: told by a fitting, whose hours stand at `path`. `meter` is the primary key of a stored one's meter.
    """

    unit: str
    at: datetime
    hours: Annotated[Decimal, As("meter_h")]
    strikes: int | None = None
    cause: Ours[str] = "file"
    closes_meter: Ours[bool] = False
    is_implied: Annotated[bool, APART] = field(default=False, compare=False, repr=False)
    meter: Annotated[int | None, APART] = field(default=None, compare=False, repr=False)

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)

    @property
    def hours_path(self) -> Path:
        """Where the hours stand; empty for what is only stored."""
        return (*self.path, "meter_h") if self.path and not self.is_implied else self.path


@dataclass(frozen=True, kw_only=True)
class AddedRecord(Entered):
    """Hours that a unit burned without a meter to tell them, up to an instant."""

    unit: str
    at: datetime
    hours: Decimal
    strikes: int | None = None
    why: Ours[str] = ""

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)
