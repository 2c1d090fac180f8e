"""Which points of an advance were noted from what the book finds open, and who confirmed the house's answer.

Both are read from the history: a line says what a point was noted from, and what was confirmed by its hashes.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from shows.core.advance import OpenPoint, changed_parts
from shows.models import AdvanceItem, Engagement
from venue.models import Event

SHOWN_CONFIRMATIONS = 10


@dataclass(frozen=True)
class NotedPoints:
    """Points that stand, each with what it was noted from (nothing where somebody wrote it by himself)."""

    notes: tuple[tuple[AdvanceItem, Mapping[str, Any]], ...]

    def of(self, point: OpenPoint) -> AdvanceItem | None:
        """The point noted from this one, an open one first; one about fewer numbers leaves the others to be noted."""
        found = [item for item, data in self.notes if self._is_from(point, data)]
        return next((item for item in found if item.done_at is None), found[-1] if found else None)

    @staticmethod
    def _is_from(point: OpenPoint, data: Mapping[str, Any]) -> bool:
        return data.get("about") == point.key and set(point.names) <= set(data.get("names") or ())


def noted_points(engagement: Engagement, items: Iterable[AdvanceItem]) -> NotedPoints:
    """What the engagement's points were noted from. One query, and what `items` takes."""
    refs = engagement.advance_items.standing().values("ref")
    lines = Event.objects.filter(subject_kind="advanceitem", subject_ref__in=refs, verb="advance.added")
    data = dict(lines.values_list("subject_ref", "data"))
    return NotedPoints(tuple((item, data.get(item.ref, {})) for item in items))


@dataclass(frozen=True)
class Confirmation:
    """Somebody confirmed an answer: whether it stands, else which of its parts changed since."""

    name: str
    at: datetime
    changed: tuple[str, ...]

    @property
    def is_current(self) -> bool:
        return not self.changed


def confirmations_of(engagement: Engagement, digests: Mapping[str, str]) -> tuple[Confirmation, ...]:
    """The last ten confirmations, latest first, held against the answer as it is now. One query."""
    lines = Event.objects.about("engagement", engagement.ref).filter(verb="advance.confirmed")
    latest = lines.order_by("-at", "-pk").values_list("at", "data")[:SHOWN_CONFIRMATIONS]
    return tuple(Confirmation(data["name"], at, _changed(data["sha256"], digests)) for at, data in latest)


def _changed(before: Mapping[str, str], now: Mapping[str, str]) -> tuple[str, ...]:
    return () if before.get("whole") == now["whole"] else changed_parts(before, now)
