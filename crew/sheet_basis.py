"""Which rows, in which versions, a call's sheet is made from: one short text for all of them.

A sheet whose basis still stands says what would be issued now, and need not be made anew to know it. Whatever changes
a row raises its `version`, and no key is given twice: the same rows in the same versions say the same.
"""

import hashlib
from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import chain

from django.db import connection

from crew.models import Call
from venue.models import Versioned

EDITION = 4
"""Raised when a sheet says something else, or more, of the same rows."""

_SETS_OF_ROWS = """
          SELECT 'house', house_id, 'position', id, version FROM venue_position WHERE house_id IN ({houses})
UNION ALL SELECT 'house', position.house_id, 'place', place.id, place.version FROM venue_place place
          JOIN venue_position position ON position.id = place.position_id WHERE position.house_id IN ({houses})
UNION ALL SELECT 'house', house_id, 'unit', id, version FROM venue_unit WHERE house_id IN ({houses})
UNION ALL SELECT 'house', house_id, 'past its stop', lamp_id, CAST(hours * 100 AS bigint) FROM venue_lamptally
          WHERE house_id IN ({houses}) AND unit_id IS NOT NULL AND left_h <= 0
UNION ALL SELECT 'house', house_id, 'past its stop in', lamp_id, unit_id FROM venue_lamptally
          WHERE house_id IN ({houses}) AND unit_id IS NOT NULL AND left_h <= 0
UNION ALL SELECT 'house', tally.house_id, 'lamp', lamp.id, lamp.version FROM venue_lamp lamp
          JOIN venue_lamptally tally ON tally.lamp_id = lamp.id
          WHERE tally.house_id IN ({houses}) AND tally.unit_id IS NOT NULL AND tally.left_h <= 0
UNION ALL SELECT 'house', tally.house_id, 'decision', decision.id, 1 FROM venue_lampdecision decision
          JOIN venue_lamptally tally ON tally.lamp_id = decision.lamp_id
          WHERE tally.house_id IN ({houses}) AND tally.unit_id IS NOT NULL AND tally.left_h <= 0
UNION ALL SELECT 'setup', setup_id, 'zone', id, version FROM venue_setupzone WHERE setup_id IN ({setups})
UNION ALL SELECT 'show', engagement_id, 'use', id, version FROM shows_placeuse WHERE engagement_id IN ({shows})
UNION ALL SELECT 'show', engagement_id, 'spot', id, version FROM shows_showspot WHERE engagement_id IN ({shows})
UNION ALL SELECT 'show', engagement_id, 'binding', id, version FROM shows_spotplace WHERE engagement_id IN ({shows})
UNION ALL SELECT 'show', engagement_id, 'choice', id, version FROM shows_choice WHERE engagement_id IN ({shows})
UNION ALL SELECT 'call', call_id, 'line', id, version FROM crew_callline WHERE call_id IN ({calls})
UNION ALL SELECT 'call', line.call_id, 'person', person.id, person.version FROM crew_person person
          JOIN crew_callline line ON line.person_id = person.id WHERE line.call_id IN ({calls})
UNION ALL SELECT 'call', line.call_id, 'held', held.id, held.version FROM crew_certification held
          JOIN crew_callline line ON line.person_id = held.person_id WHERE line.call_id IN ({calls})
UNION ALL SELECT 'call', call.id, 'kind', kind.id, kind.version FROM crew_certificationkind kind
          JOIN crew_call call ON call.roster_id = kind.roster_id WHERE call.id IN ({calls})
UNION ALL SELECT 'call', call.id, 'roster', roster.id, roster.version FROM crew_roster roster
          JOIN crew_call call ON call.roster_id = roster.id WHERE call.id IN ({calls})
UNION ALL SELECT 'event', event.id, 'placement', stay.id, stay.version FROM shows_showevent event
          JOIN shows_engagement engagement ON engagement.id = event.engagement_id
          JOIN venue_unit unit ON unit.house_id = engagement.house_id
          JOIN venue_placement stay ON stay.unit_id = unit.id AND stay.starts_at <= event.starts_at
          AND (stay.ends_at IS NULL OR stay.ends_at > event.starts_at) WHERE event.id IN ({events})
UNION ALL SELECT 'event', event.id, 'fault', fault.id, fault.version FROM shows_showevent event
          JOIN shows_engagement engagement ON engagement.id = event.engagement_id
          JOIN venue_unit unit ON unit.house_id = engagement.house_id
          JOIN venue_fault fault ON fault.unit_id = unit.id
          AND (fault.closed_at IS NULL OR fault.closed_at > event.starts_at) WHERE event.id IN ({events})
"""
"""More rows than a sheet reads where that is simpler, never less: all that the house has, ended or not.

Each row begins with what it belongs to, of which the calls in question may share one: the house, its set-up, the show,
the event, the call. In SQL as it goes to the database: put together from querysets, it would take longer than the
sheet itself.
"""
Owner = tuple[str, int]
"""What rows belong to, by its sort and key."""


def basis_of(call: Call) -> str:
    """SHA-256, in hexadecimal, of the keys and versions of all rows that the sheet reads. One query.

    `call` comes with its event, engagement, house and set-up as they are now.
    """
    return bases_of([call])[call.pk]


def bases_of(calls: Sequence[Call]) -> dict[int, str]:
    """The basis of each call by its primary key, as `basis_of`. One query, however many."""
    owners = {call.pk: _owners(call) for call in calls}
    sets = _digests(set(chain.from_iterable(owners.values()))) if owners else {}
    return {
        call.pk: _digest([EDITION, _single_rows(call), [sets[owner] for owner in owners[call.pk]]]) for call in calls
    }


def _owners(call: Call) -> tuple[Owner, ...]:
    show = call.engagement
    return (
        ("house", show.house_id),
        ("setup", show.setup_id),
        ("show", show.pk),
        ("event", call.event_id),
        ("call", call.pk),
    )


def _single_rows(call: Call) -> list[tuple[str | None, int, int]]:
    engagement = call.engagement
    rows: tuple[Versioned, ...] = (call, call.event, engagement, engagement.house, engagement.setup)
    return [(row._meta.model_name, row.pk, row.version) for row in rows]


def _digests(owners: set[Owner]) -> dict[Owner, str]:
    """The rows of each owner as a digest; of one without rows too."""
    rows: dict[Owner, list[tuple[str, int, int]]] = defaultdict(list)
    for sort, key, *row in _rows(owners):
        rows[sort, key].append(tuple(row))  # type: ignore[arg-type]
    return {owner: _digest(sorted(rows[owner])) for owner in owners}


def _rows(owners: Iterable[Owner]) -> list[tuple[str, int, str, int, int]]:
    keys: dict[str, list[int]] = defaultdict(list)
    for sort, key in sorted(owners):
        keys[f"{sort}s"].append(key)
    named = {name: ", ".join(f"%({name}{index})s" for index in range(len(found))) for name, found in keys.items()}
    values = {f"{name}{index}": key for name, found in keys.items() for index, key in enumerate(found)}
    with connection.cursor() as cursor:
        cursor.execute(_SETS_OF_ROWS.format(**named), values)
        return cursor.fetchall()


def _digest(said: object) -> str:
    return hashlib.sha256(repr(said).encode()).hexdigest()
