"""What the quick entry of a reading shows: the last one, the likely next, what lies between, what may be undone."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from django.utils.translation import gettext as _

from venue.actions.readings import may_undo
from venue.core.hours import likely_next
from venue.core.local_time import house_day
from venue.ledgers import mark_of, run_of
from venue.models import Meter, Reading, Unit
from venue.wording_hours import ago_words, hours_words, since_words, when_words

RECENT = 12
A_NIGHT = Decimal("3.5")
"""Hours of a show day where the readings tell none (common practice, no source)."""


@dataclass(frozen=True)
class Quick:
    """The unit's meter now (None: it has none), what it showed last and when, and what it likely shows now [h].

    `to_undo` is the reading just made, if this person may take it back; `following` the unit to read next.
    """

    meter: Meter | None
    last_h: Decimal | None
    last_at: datetime | None
    last_words: str
    likely: Decimal | None
    to_undo: Reading | None
    following: Unit | None


def quick_of(unit: Unit, name: str, now: datetime) -> Quick:
    """What the page shows to the person of this name."""
    meter = unit.meters.still_open().first()
    following = _following(unit)
    if meter is None:
        return Quick(None, None, None, "", None, None, following)
    readings = list(Reading.objects.counting().filter(meter=meter).order_by("-at", "-hours")[:RECENT])
    marks = [mark_of(reading) for reading in reversed(readings)] or [run_of(meter).start]
    last = marks[-1]
    newest = max(readings, key=lambda reading: reading.entered_at, default=None)
    to_undo = newest if newest is not None and may_undo(newest, unit, name, now) else None
    words = _("%(hours)s h, %(ago)s (%(when)s)") % {
        "hours": hours_words(last.hours),
        "ago": ago_words(_days(last.at, now, unit)),
        "when": when_words(last.at, unit.house.time_zone),
    }
    return Quick(meter, last.hours, last.at, words, likely_next(marks, now, A_NIGHT), to_undo, following)


def since_question(quick: Quick, shown: Any, now: datetime, unit: Unit) -> str:
    """What the value on the form comes to: "3.2 h since last night: right?"; empty where it is no number."""
    if quick.last_h is None or quick.last_at is None:
        return ""
    try:
        change = Decimal(str(shown)) - quick.last_h
    except InvalidOperation:
        return ""
    if not change.is_finite() or change < 0:
        return ""
    return since_words(change, _days(quick.last_at, now, unit))


def _days(at: datetime, now: datetime, unit: Unit) -> int:
    """How many of the house's days lie between."""
    house = unit.house
    zone, turns_at = house.time_zone, house.day_turns_at
    return (house_day(now, zone, turns_at) - house_day(at, zone, turns_at)).days


def _following(unit: Unit) -> Unit | None:
    """The next unit of the house by its tag, for somebody who reads them all."""
    units = Unit.objects.standing().filter(house=unit.house_id, tag_key__gt=unit.tag_key)
    return units.order_by("tag_key", "pk").first()
