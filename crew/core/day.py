"""The day of a call: which time a time of day means, who is here, who is late."""

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from typing import Literal

from crew.core.hours.notice import is_late
from crew.core.hours.records import minutes_between

State = Literal["expected", "in", "meal", "out", "no-show", "sent-home"]
HALF_DAY = timedelta(hours=12)
LONGEST = timedelta(hours=24)
"""From one's call on; longer than any call. From memory, no source."""


@dataclass(frozen=True)
class Presence:
    """Where somebody of a call stands; `late_min` is how many minutes past the call, 0 within the limit."""

    state: State
    late_min: int = 0


def wall_of(clock: time, call: datetime) -> datetime:
    """The wall time that a time of day means for a call: of its day, or of the day after if over 12 h earlier."""
    wall = datetime.combine(call.date(), clock)
    return wall + timedelta(days=1) if call - wall > HALF_DAY else wall


def is_far(at: datetime, call_at: datetime) -> bool:
    """Whether the instant is too far from the call to belong to it: over 12 h before, over a day after."""
    return not -HALF_DAY <= at - call_at <= LONGEST


def presence(
    *,
    call_at: datetime,
    in_at: datetime | None,
    out_at: datetime | None,
    is_at_meal: bool,
    absence: str,
    now: datetime,
    late_after: int,
) -> Presence:
    """Where somebody stands now; who has not come counts as late by what the clock says. `late_after` in minutes."""
    if absence == "no-show":
        return Presence("no-show")
    came = in_at or now
    late_min = minutes_between(call_at, came) if is_late(call_at, came, late_after) else 0
    return Presence(_state(in_at, out_at, is_at_meal, absence), late_min)


def _state(in_at: datetime | None, out_at: datetime | None, is_at_meal: bool, absence: str) -> State:
    if in_at is None:
        return "expected"
    if absence == "sent-home":
        return "sent-home"
    if out_at is not None:
        return "out"
    return "meal" if is_at_meal else "in"
