"""Faults, what was done, what is to be done and light readings as a file says them."""

from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal
from typing import Annotated

from venue.core.names import name_key
from venue.house_file.keys import ALWAYS, OURS, As, Ours, Written
from venue.house_file.records.hours import Entered

LIMIT_WORDS = {
    "blackout": "no full blackout",
    "iris": "fixed iris",
    "camera": "not on camera",
    "shutters": "shutters taped",
}
"""A limit of which nothing else is to be said, as a file writes it."""


@dataclass(frozen=True, kw_only=True)
class EntryName(Written):
    """What names a log entry of the same unit: when, what, and which of several such (counted from 1)."""

    at: datetime
    kind: str
    nth: Ours[int] = 1


@dataclass(frozen=True, kw_only=True)
class FaultRecord(Written):
    """A fault of a unit's part. `limit` is empty where `limit_kind` and `frames_out` say it all.

    `entry` is the log entry that closed it.
    """

    unit: str
    part: str = ""
    means: str
    limit: str = ""
    opened_at: Annotated[datetime, As("opened")]
    closed_at: Annotated[datetime | None, As("closed"), ALWAYS] = None
    danger: Ours[str] = ""
    limit_kind: Ours[str] = ""
    frames_out: Ours[str] = ""
    opened_by: Ours[str] = ""
    closed_by: Ours[str] = ""
    entry: Annotated[EntryName | None, OURS, As("closed_by_entry")] = None

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)

    @property
    def limit_words(self) -> str:
        """The limit in words where its kind says it all: "frames 2, 4 out"; empty for what only own words can say."""
        if self.limit_kind == "frames" and self.frames_out:
            noun = "frames" if "," in self.frames_out else "frame"
            return f"{noun} {self.frames_out} out"
        return LIMIT_WORDS.get(self.limit_kind, "")

    def as_written(self) -> "FaultRecord":
        """With its limit in words, for whoever reads no kinds."""
        return self if self.limit else replace(self, limit=self.limit_words)


@dataclass(frozen=True, kw_only=True)
class FittingName(Written):
    """The fitting of a relamp: the lamp's serial and when it was fitted."""

    lamp: str
    from_at: Annotated[datetime, As("from")]


@dataclass(frozen=True, kw_only=True)
class AnswersRecord(Written):
    """The questions of a relamp; None: not answered."""

    is_isolated: Annotated[bool | None, OURS, As("isolated")] = None
    is_cooled: Annotated[bool | None, OURS, As("cooled")] = None
    is_protected: Annotated[bool | None, OURS, As("protected")] = None
    is_aligned: Annotated[bool | None, OURS, As("aligned")] = None


@dataclass(frozen=True, kw_only=True)
class AttachmentRecord(Written):
    """A file that belongs to a log entry; its bytes stand in the house file as base64."""

    name: str
    content: bytes = field(repr=False)
    added_at: Annotated[datetime | None, OURS, As("added")] = None
    added_by: Ours[str] = ""


@dataclass(frozen=True, kw_only=True)
class LogRecord(Entered):
    """What was done to a unit, or to an accessory. `is_open`: a relamp that waits for its answers."""

    unit: str = ""
    accessory: Ours[str] = ""
    at: datetime
    kind: str = "other"
    by: str = ""
    text: str = ""
    meter_h: Ours[Decimal | None] = None
    parts: Ours[str] = ""
    before_lux: Ours[float | None] = None
    after_lux: Ours[float | None] = None
    fitting: Ours[FittingName | None] = None
    is_open: Annotated[bool, OURS, As("open")] = False
    answers: Ours[AnswersRecord] = AnswersRecord()
    attachments: Ours[tuple[AttachmentRecord, ...]] = ()

    @property
    def about(self) -> tuple[str, str]:
        """The unit or the accessory, as people compare them."""
        return name_key(self.unit), name_key(self.accessory)


@dataclass(frozen=True, kw_only=True)
class DoneRecord(Written):
    """When a plan was done last for a unit (empty: for its accessory), at so many unit hours, by which log entry.

    Those that have ended are earlier times.
    """

    unit: Ours[str] = ""
    last_done_at: Annotated[datetime | None, OURS, As("at")] = None
    last_done_h: Annotated[Decimal | None, OURS, As("unit_h")] = None
    entry: Ours[EntryName | None] = None
    ended_at: Annotated[datetime | None, OURS, As("ended")] = None

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)


@dataclass(frozen=True, kw_only=True)
class CarePlanRecord(Written):
    """What is to be done every so many lamp hours or days, for one unit, one source, all units or an accessory."""

    what: str
    covers: str
    unit: Ours[str] = ""
    source: Ours[str] = ""
    accessory: Ours[str] = ""
    every_h: Ours[Decimal | None] = None
    every_days: Ours[int | None] = None
    log_kind: Ours[str] = "inspect"
    done: Ours[tuple[DoneRecord, ...]] = ()
    ended_at: Annotated[datetime | None, OURS, As("ended")] = None
    ended_reason: Ours[str] = ""

    @property
    def about(self) -> tuple[str, str, str, str]:
        """What the plan covers, as people compare it."""
        return self.covers, name_key(self.unit), name_key(self.source), name_key(self.accessory)

    def about_of(self, done: DoneRecord) -> tuple[str, str]:
        """The unit or the accessory for which it was done, as a log entry has it."""
        return done.unit_key, name_key(self.accessory)


@dataclass(frozen=True, kw_only=True)
class LightRecord(Entered):
    """Illuminance at a distance and a setting. `entry` is the log entry that it was written with."""

    unit: str
    at: datetime
    lux: float
    distance_m: float
    distance_text: Ours[str] = ""
    setting: str
    entry: Ours[EntryName | None] = None

    @property
    def unit_key(self) -> str:
        return name_key(self.unit)
