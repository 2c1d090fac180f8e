"""Before a call: where it may begin, what a late cancellation costs, when somebody is late.

The half-hour grid, notice of 24 hours and 30 minutes of patience are common practice, no source.
"""

from datetime import datetime, timedelta
from typing import Literal
from zoneinfo import ZoneInfo

from crew.core.hours.records import Rules


def start_problem(start: datetime, rules: Rules, zone: ZoneInfo) -> Literal["off-grid-start"] | None:
    """What is wrong with a call's start: it is off the grid on which the house's calls begin, counted from midnight."""
    wall = start.astimezone(zone)
    is_off = rules.start_grid and (wall.second or (60 * wall.hour + wall.minute) % rules.start_grid)
    return "off-grid-start" if is_off else None


def cancel_pay(start: datetime, cancelled_at: datetime, rules: Rules) -> int:
    """The minutes due for a call that was cancelled then: none where the notice was long enough."""
    return rules.cancel_pay if start - cancelled_at < timedelta(minutes=rules.cancel_notice) else 0


def is_late(call_at: datetime, in_at: datetime, limit_min: int) -> bool:
    """Whether somebody who came at `in_at` came more than the limit after the call, and may be replaced."""
    return in_at - call_at > timedelta(minutes=limit_min)
