"""Readings from a file: all of them or none."""

from datetime import datetime

from django.db import transaction

from venue.actions.locking import lock
from venue.errors import ReadingsFileRefused
from venue.history import Actor, record
from venue.models import House, Reading, Unit
from venue.readings_file import JudgedFile, judge_file
from venue.tallies import retally_units

AT_ONCE = 2000


@transaction.atomic
def load_readings(*, actor: Actor, house: House, text: str, now: datetime, confirmed: bool = False) -> JudgedFile:
    """Store the readings that the text lists, judged under a lock on their units. Lines known already are left out.

    Raises ReadingsFileRefused with every problem, or with the questions unless `confirmed`; then nothing is
    stored.
    """
    lock(Unit, house.units.standing())
    judged = judge_file(house, text, now)
    if not judged.is_sound or (judged.questions and not confirmed):
        raise ReadingsFileRefused(judged)
    for reading in judged.readings:
        reading.entered_by = actor.name
    Reading.objects.bulk_create(judged.readings, batch_size=AT_ONCE)
    if judged.readings:
        tags = ", ".join(sorted(unit.tag for unit in judged.units.values())[:20])
        record(actor, "readings.loaded", house, house=house, count=len(judged.readings), tags=tags)
        retally_units(house, list(judged.units.values()))
    return judged
