"""Which rows, in which versions, a call's sheet is made from: one short text for all of them.

A sheet whose basis still stands says what would be issued now, and need not be made anew to know it. Whatever changes
a row raises its `version`, and no key is given twice: the same rows in the same versions say the same.
"""

import hashlib

from django.db import connection

from crew.models import Call
from venue.models import Versioned

EDITION = 2
"""Raised when a sheet says something else, or more, of the same rows."""

_SETS_OF_ROWS = """
          SELECT 'position', id, version FROM venue_position WHERE house_id = %(house)s
UNION ALL SELECT 'place', place.id, place.version FROM venue_place place
          JOIN venue_position position ON position.id = place.position_id WHERE position.house_id = %(house)s
UNION ALL SELECT 'unit', id, version FROM venue_unit WHERE house_id = %(house)s
UNION ALL SELECT 'placement', stay.id, stay.version FROM venue_placement stay
          JOIN venue_unit unit ON unit.id = stay.unit_id WHERE unit.house_id = %(house)s
          AND stay.starts_at <= %(at)s AND (stay.ends_at IS NULL OR stay.ends_at > %(at)s)
UNION ALL SELECT 'fault', fault.id, fault.version FROM venue_fault fault
          JOIN venue_unit unit ON unit.id = fault.unit_id WHERE unit.house_id = %(house)s
          AND (fault.closed_at IS NULL OR fault.closed_at > %(at)s)
UNION ALL SELECT 'past its stop', lamp_id, CAST(hours * 100 AS bigint) FROM venue_lamptally
          WHERE house_id = %(house)s AND unit_id IS NOT NULL AND left_h <= 0
UNION ALL SELECT 'past its stop in', lamp_id, unit_id FROM venue_lamptally
          WHERE house_id = %(house)s AND unit_id IS NOT NULL AND left_h <= 0
UNION ALL SELECT 'lamp', lamp.id, lamp.version FROM venue_lamp lamp
          JOIN venue_lamptally tally ON tally.lamp_id = lamp.id
          WHERE tally.house_id = %(house)s AND tally.unit_id IS NOT NULL AND tally.left_h <= 0
UNION ALL SELECT 'decision', decision.id, 1 FROM venue_lampdecision decision
          JOIN venue_lamptally tally ON tally.lamp_id = decision.lamp_id
          WHERE tally.house_id = %(house)s AND tally.unit_id IS NOT NULL AND tally.left_h <= 0
UNION ALL SELECT 'zone', id, version FROM venue_setupzone WHERE setup_id = %(setup)s
UNION ALL SELECT 'use', id, version FROM shows_placeuse WHERE engagement_id = %(engagement)s
UNION ALL SELECT 'spot', id, version FROM shows_showspot WHERE engagement_id = %(engagement)s
UNION ALL SELECT 'binding', id, version FROM shows_spotplace WHERE engagement_id = %(engagement)s
UNION ALL SELECT 'choice', id, version FROM shows_choice WHERE engagement_id = %(engagement)s
UNION ALL SELECT 'line', id, version FROM crew_callline WHERE call_id = %(call)s
UNION ALL SELECT 'person', person.id, person.version FROM crew_person person
          JOIN crew_callline line ON line.person_id = person.id WHERE line.call_id = %(call)s
"""
"""More rows than a sheet reads where that is simpler, never less: all that the house has, ended or not.

In SQL as it goes to the database: put together from querysets, it would take longer than the sheet itself.
"""


def basis_of(call: Call) -> str:
    """SHA-256, in hexadecimal, of the keys and versions of all rows that the sheet reads. One query.

    `call` comes with its event, engagement, house and set-up as they are now.
    """
    rows = [(row._meta.model_name, row.pk, row.version) for row in _single_rows(call)]
    return hashlib.sha256(repr([EDITION, rows, sorted(_rows_in_sets(call))]).encode()).hexdigest()


def _single_rows(call: Call) -> tuple[Versioned, ...]:
    engagement = call.engagement
    return (call, call.event, engagement, engagement.house, engagement.setup)


def _rows_in_sets(call: Call) -> list[tuple[str, int, int]]:
    engagement = call.engagement
    keys = {"house": engagement.house_id, "setup": engagement.setup_id, "engagement": engagement.pk, "call": call.pk}
    at = connection.ops.adapt_datetimefield_value(call.event.starts_at)
    with connection.cursor() as cursor:
        cursor.execute(_SETS_OF_ROWS, {**keys, "at": at})
        return cursor.fetchall()
