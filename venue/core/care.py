"""When care of a light falls due: after so many hours or days, whichever comes first."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from math import ceil
from typing import Literal

from venue.core.local_time import wall_time

DueState = Literal["overdue", "due", "soon", "later", "unknown"]

SOON_DAYS = 7
SOON_SHARE = Decimal("0.1")
"""Within so many days, or in the last tenth of the hours, is soon (both practice)."""
_FARTHEST_DAYS = 36_500


@dataclass(frozen=True)
class Due:
    """The house's date on which care falls due, the hours at which, and which of both comes first.

    `on` is None where nobody can tell; for hours it follows from the usual use.
    """

    on: date | None
    at_h: Decimal | None
    by: Literal["hours", "days"] | None
    state: DueState


def due(
    every_h: Decimal | None,
    every_days: int | None,
    last_done_at: datetime | None,
    last_done_h: Decimal | None,
    hours_now: Decimal | None,
    per_day: float | None,
    now: datetime,
    zone: str,
) -> Due:
    """When care is due next. `per_day`: hours that the light burns a day, dark days counted.

    Hours come due on the first day by whose end they are burnt: 100 h at 9 h a day on the 12th day after. Care
    that was never done is due today; where it was done at hours that nobody noted, only days tell.
    """
    today = wall_time(now, zone).date()
    if every_h is None and every_days is None:
        return Due(None, None, None, "unknown")
    at_h = None if every_h is None or _is_lost(last_done_at, last_done_h) else every_h + (last_done_h or Decimal(0))
    if last_done_at is None:
        return Due(today, at_h, None, "due")
    left = at_h - hours_now if at_h is not None and hours_now is not None else None
    by_hours = _day_of_hours(left, per_day, today)
    by_days = None if every_days is None else wall_time(last_done_at, zone).date() + timedelta(days=every_days)
    on = min((day for day in (by_hours, by_days) if day is not None), default=None)
    by: Literal["hours", "days"] = "days" if on is not None and on != by_hours else "hours"
    return Due(on, at_h, by, _state(left, every_h, on, today))


def _is_lost(done_at: datetime | None, done_h: Decimal | None) -> bool:
    return done_at is not None and done_h is None


def _day_of_hours(left: Decimal | None, per_day: float | None, today: date) -> date | None:
    """The day by whose end the hours are burnt, by the usual use; a day that is over where they are burnt."""
    if left is None:
        return None
    if not per_day or per_day < 0:
        return today if left <= 0 else None
    days = float(left) / per_day
    return today + timedelta(days=ceil(days)) if abs(days) <= _FARTHEST_DAYS else None


def _state(left: Decimal | None, every_h: Decimal | None, on: date | None, today: date) -> DueState:
    """What is burnt counts before what is foretold."""
    days = (on - today).days if on is not None else None
    if (left is not None and left < 0) or (days is not None and days < 0):
        return "overdue"
    if left == 0 or days == 0:
        return "due"
    is_last_tenth = left is not None and every_h is not None and left <= SOON_SHARE * every_h
    if is_last_tenth or (days is not None and days <= SOON_DAYS):
        return "soon"
    return "unknown" if left is None and days is None else "later"
