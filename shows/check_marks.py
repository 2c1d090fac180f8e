"""The marks of an arrival check, from rows to what they add up to."""

from collections.abc import Iterable

from shows.core.checking import Mark, PlaceState, place_state
from shows.models import CheckMark, Engagement


def states_at(engagement: Engagement, places: Iterable[int]) -> dict[int, PlaceState]:
    """The state of each place that somebody marked, by primary keys. One query."""
    return states_of(engagement.check_marks.filter(place__in=list(places)))


def states_of(rows: Iterable[CheckMark]) -> dict[int, PlaceState]:
    """As `states_at`, of rows that were fetched already."""
    marks: dict[int, list[Mark]] = {}
    for row in rows:
        marks.setdefault(row.place_id, []).append(_mark(row))
    return {place: place_state(some) for place, some in marks.items()}


def _mark(row: CheckMark) -> Mark:
    return Mark(row.item, row.result, row.by, row.at, row.note, row.pk)  # type: ignore[arg-type]
