"""For which booked events which units burn: from some time before an event's start until its end.

A unit burns at an event where it stands at a place that the show has a number on; at one of a show without numbers
wherever it stands in the house. Not at a place that somebody took out of use for the show, and not elsewhere.
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property

from django.db.models import Q

from shows.models import PlaceUse, ShowEvent, SpotPlace
from shows.models.events import EventKind
from venue.core.forecast import Burn, Calendar, burn_of
from venue.models import House, Placement

BURNING = (EventKind.FOCUS, EventKind.REHEARSAL, EventKind.SHOW)
"""A load-in and a load-out go without follow spots."""

Pattern = tuple[frozenset[int], frozenset[int]]
"""How a place differs from others: shows without numbers in which it is out of use, shows with a number on it."""
Stretch = tuple[Pattern, int, int]
"""A stay: its place's pattern, and from which event until before which one it lasts."""
NOWHERE = Calendar([])


@dataclass(frozen=True)
class Booked:
    """An event that lamps burn for."""

    key: int
    engagement: int
    starts_at: datetime
    burn: Burn


@dataclass(frozen=True)
class Uses:
    """Which shows have numbers, on which places, and which places they do not use; all by primary keys."""

    numbered: frozenset[int]
    shows_at: Mapping[int, frozenset[int]]
    unused_at: Mapping[int, frozenset[int]]

    def pattern(self, place: int) -> Pattern:
        """What tells the place's burns from those of others."""
        unused, none = self.unused_at.get(place, frozenset()), frozenset[int]()
        return unused - self.numbered, self.shows_at.get(place, none) - unused


class Bookings:
    """The house's burns from an instant on, added up for its units; those with the same burns share a calendar."""

    def __init__(self, house: House, since: datetime) -> None:
        self._events = _events(house, since)
        self._uses = _uses({event.engagement for event in self._events})
        self._since = since
        self._calendars: dict[tuple[Stretch, ...], Calendar] = {}
        self._of_pattern: dict[Pattern, list[int]] = {}

    @cached_property
    def _starts(self) -> list[datetime]:
        return [event.starts_at for event in self._events]

    def calendars(self, units: Collection[int]) -> dict[int, Calendar]:
        """The calendar of each unit, by primary keys. One query."""
        stretches: dict[int, list[Stretch]] = defaultdict(list)
        for unit, place, starts_at, ends_at in self._stays(units):
            first = bisect_left(self._starts, starts_at)
            last = len(self._starts) if ends_at is None else bisect_left(self._starts, ends_at)
            if first < last:
                stretches[unit].append((self._uses.pattern(place), first, last))
        return {unit: self._calendar(tuple(stretches[unit])) if unit in stretches else NOWHERE for unit in units}

    def _stays(self, units: Collection[int]) -> Iterable[tuple[int, int, datetime, datetime | None]]:
        if not self._events:
            return []
        open_then = Q(ends_at__isnull=True) | Q(ends_at__gt=min(self._since, self._starts[0]))
        stays = Placement.objects.filter(open_then, unit__in=units, place__isnull=False)
        stays = stays.filter(starts_at__lte=self._starts[-1]).order_by("starts_at")
        return stays.values_list("unit_id", "place_id", "starts_at", "ends_at")

    def _calendar(self, stretches: tuple[Stretch, ...]) -> Calendar:
        if stretches not in self._calendars:
            burns = [self._events[index].burn for stretch in stretches for index in self._indexes(stretch)]
            self._calendars[stretches] = Calendar(burns)
        return self._calendars[stretches]

    def _indexes(self, stretch: Stretch) -> Iterable[int]:
        """The events of a stay."""
        pattern, first, last = stretch
        if pattern not in self._of_pattern:
            unused, shows = pattern
            self._of_pattern[pattern] = [
                index
                for index, event in enumerate(self._events)
                if event.engagement in shows
                or (event.engagement not in self._uses.numbered and event.engagement not in unused)
            ]
        found = self._of_pattern[pattern]
        return found[bisect_left(found, first) : bisect_left(found, last)]


def _events(house: House, since: datetime) -> list[Booked]:
    """Events that lamps burn for at some time after the instant, by their start."""
    before, usual = timedelta(minutes=house.burn_before_min), timedelta(minutes=house.usual_event_min)
    not_over = Q(ends_at__gt=since) | Q(ends_at__isnull=True, starts_at__gt=since - usual)
    rows = ShowEvent.objects.standing().filter(not_over, kind__in=BURNING, engagement__house=house)
    rows = rows.filter(engagement__ended_at__isnull=True).order_by("starts_at", "pk")
    found = []
    for key, engagement, starts_at, ends_at in rows.values_list("pk", "engagement_id", "starts_at", "ends_at"):
        burn = Burn(*burn_of(starts_at, ends_at, before, usual), key)
        found.append(Booked(key, engagement, starts_at, burn))
    return found


def _uses(engagements: Collection[int]) -> Uses:
    """What the shows use of the house. Two queries."""
    bound = SpotPlace.objects.standing().filter(engagement__in=engagements, spot__ended_at__isnull=True).order_by()
    shows_at, unused_at = defaultdict(set), defaultdict(set)
    numbered = set()
    for engagement, place in bound.values_list("engagement_id", "place_id"):
        numbered.add(engagement)
        shows_at[place].add(engagement)
    unused = PlaceUse.objects.filter(engagement__in=engagements, in_use=False).order_by()
    for engagement, place in unused.values_list("engagement_id", "place_id"):
        unused_at[place].add(engagement)
    return Uses(frozenset(numbered), _frozen(shows_at), _frozen(unused_at))


def _frozen(found: Mapping[int, set[int]]) -> dict[int, frozenset[int]]:
    return {key: frozenset(values) for key, values in found.items()}
