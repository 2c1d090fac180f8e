"""Light readings: measured, written into the log."""

from datetime import datetime
from typing import Any

from django.db import transaction

from venue.actions.log import write_log
from venue.core.lengths import Length
from venue.errors import Invalid
from venue.history import Actor, record
from venue.models import LightReading, Unit
from venue.models.upkeep import LogKind
from venue.storing import store


@transaction.atomic
def measure_light(
    *, actor: Actor, unit: Unit, at: datetime, lux: float, distance: Length, setting: str, by: str = "", text: str = ""
) -> LightReading:
    """The light of the unit [lx] on its axis at a distance and a setting, with its log entry. Raises Invalid."""
    facts: dict[str, Any] = {"by": by, "text": text or setting, "after_lux": lux}
    try:
        entry = write_log(actor=actor, house=unit.house, unit=unit, kind=LogKind.LIGHT, at=at, **facts)
    except Invalid as refusal:
        raise Invalid(_at_lux(refusal.problems)) from refusal
    reading = LightReading(
        unit=unit,
        entry=entry,
        at=at,
        lux=lux,
        distance_m=distance.meters,
        distance_text=distance.text,
        setting=setting,
        entered_by=actor.name,
    )
    store(reading)
    record(actor, "light.measured", reading, house=unit.house, tag=unit.tag, lux=lux, setting=setting)
    return reading


def _at_lux(problems: dict[str, list[str]]) -> dict[str, list[str]]:
    return {"lux" if field == "after_lux" else field: messages for field, messages in problems.items()}
