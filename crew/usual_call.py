"""What a new call begins with: a template of the roster, or what is usual; and on which day a time lies."""

from datetime import date, datetime, time, timedelta
from typing import Any

from crew.actions.calls import RELEASED_AFTER, expected_end
from crew.models import CallTemplate
from shows.models import ShowEvent
from venue.core.local_time import wall_time

USUAL = CallTemplate(call_before_min=90, talk_before_min=45, ends_after_min=RELEASED_AFTER // timedelta(minutes=1))
"""An hour and a half before the event, the spot talk 45 minutes before (common practice, no source)."""
COPIED = ("place", "talk_place", "notes", "head_spots", "spares", "runners")


def beginning(event: ShowEvent, template: CallTemplate | None) -> dict[str, Any]:
    """The values of a form for a new call, by the house's clocks; the usual ones without a template."""
    told = template or USUAL
    call_at = event.starts_at - timedelta(minutes=told.call_before_min)
    ends_at = expected_end(event, call_at, timedelta(minutes=told.ends_after_min))
    call, ends = wall_time(call_at, event.zone), wall_time(ends_at, event.zone)
    values = {name: getattr(told, name) for name in COPIED}
    values |= {"call_date": call.date(), "call_time": call.time(), "ends_time": ends.time()}
    if day_of_time(call, ends.time()) != ends:
        values["ends_date"] = ends.date()
    if told.talk_before_min is not None:
        values["talk_time"] = wall_time(event.starts_at - timedelta(minutes=told.talk_before_min), event.zone).time()
    if told.meal_after_min is not None:
        values["meal_time"] = wall_time(call_at + timedelta(minutes=told.meal_after_min), event.zone).time()
    return {**values, "roster": template.roster_id} if template else values


def day_of_time(call: datetime, at: time | None, day: date | None = None) -> datetime | None:
    """The wall time on its day: the call's, or the day after where the time is earlier than the call's."""
    if at is None:
        return None
    return datetime.combine(day or call.date() + timedelta(days=at < call.time()), at)
