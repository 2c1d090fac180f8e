"""After the show: which of its units burned at which day's events, what is booked for them, what was entered.

A constant number of queries, however many days, units and entries there are.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import TypeVar

from django.db.models import OuterRef, Q, QuerySet, Subquery

from shows.burning import BURNING
from shows.core.after import LONGEST, Played, ShowDay, booked, days_of, left
from shows.models import Engagement, PlaceUse, ShowEvent, SpotPlace
from venue.core.forecast import Burn, burn_of
from venue.core.local_time import house_day
from venue.models import Fault, HoursAdded, House, Meter, Placement, Reading, Unit

LAST_OF_ALL = "~"
"""Sorts after every show number."""
Entry = HoursAdded | Reading
Row = TypeVar("Row")


@dataclass(frozen=True)
class UnitDay:
    """A unit that stood at the show's places on a day. `where` are those places, `numbers` the show's numbers there.

    `entries` count for the day; `left` are events that none of them covers, with what is booked for them. `meter` is
    the one that counted then, `last` what it showed last. `faults` stand on the unit now.
    """

    unit: Unit
    where: tuple[str, ...]
    numbers: tuple[str, ...]
    sort_key: str
    meter: Meter | None
    last: Reading | None
    entries: tuple[Entry, ...]
    left: tuple[Played, ...]
    booked_h: Decimal
    booked_strikes: int
    faults: tuple[Fault, ...]

    @property
    def is_entered(self) -> bool:
        return not self.left

    @property
    def is_over(self) -> bool:
        """Whether the unit was taken off the books since: nothing can be entered for it."""
        return self.unit.has_ended


@dataclass(frozen=True)
class Night:
    """One of the show's days with its events and units."""

    span: ShowDay
    events: tuple[ShowEvent, ...]
    units: tuple[UnitDay, ...]
    until: datetime

    @property
    def day(self) -> date:
        return self.span.day

    @property
    def entered(self) -> int:
        return sum(each.is_entered for each in self.units)

    @property
    def is_entered(self) -> bool:
        return all(each.is_entered or each.is_over for each in self.units)


@dataclass(frozen=True)
class _Stay:
    """A unit's stay at one of the show's places."""

    unit: Unit
    where: str
    number: str
    sort_key: str
    starts_at: datetime
    ends_at: datetime | None

    def has(self, played: Played) -> bool:
        return self.starts_at <= played.starts_at and (self.ends_at is None or played.starts_at < self.ends_at)


@dataclass(frozen=True)
class _Book:
    """What is written of the units, by the unit's primary key; `last` by the meter's."""

    meters: Mapping[int, list[Meter]]
    readings: Mapping[int, list[Reading]]
    last: Mapping[int, Reading]
    added: Mapping[int, list[HoursAdded]]
    faults: Mapping[int, list[Fault]]

    def entries(self, unit: int, span: ShowDay) -> list[Entry]:
        """Those of the day; where no reading closed it, the first later one, which counted it too."""
        own: list[Entry] = [each for each in self.added.get(unit, []) if span.is_own(each.at)]
        read = [each for each in self.readings.get(unit, []) if span.is_own(each.at)]
        later = [each for each in self.readings.get(unit, []) if each.at > span.closes_at]
        if not any(each.at > span.last_at for each in read):
            read += later[:1]
        return sorted([*own, *read], key=lambda each: (each.at, each.entered_at))


def nights_of(engagement: Engagement, now: datetime) -> list[Night]:
    """The show's days on which something began that lights burn for, the first one first."""
    events = list(_events(engagement, now))
    if not events:
        return []
    house = engagement.house
    played = {event.pk: _played(event, house) for event in events}
    starts = _starts_after(engagement, events[0].starts_at, events[-1].starts_at)
    spans = days_of(played.values(), lambda at: house_day(at, house.time_zone, house.day_turns_at), starts)
    stays = _stays(engagement, spans)
    book = _book({stay.unit.pk for stays_of in stays.values() for stay in stays_of}, spans)
    return [_night(span, events, stays, book, now) for span in spans]


def night_of(nights: Sequence[Night], text: str) -> Night | None:
    """The night of the day that the text names; without one the first that is not entered, else the last."""
    found = next((night for night in nights if night.day.isoformat() == text), None)
    waiting = next((night for night in nights if not night.is_entered), None)
    return found or waiting or (nights[-1] if nights else None)


def _events(engagement: Engagement, now: datetime) -> QuerySet[ShowEvent]:
    events = engagement.events.standing().filter(kind__in=BURNING, starts_at__lt=now)
    return events.order_by("starts_at", "pk")


def _played(event: ShowEvent, house: House) -> Played:
    before, usual = timedelta(minutes=house.burn_before_min), timedelta(minutes=house.usual_event_min)
    return Played(event.starts_at, Burn(*burn_of(event.starts_at, event.ends_at, before, usual), event.pk))


def _starts_after(engagement: Engagement, first: datetime, last: datetime) -> list[datetime]:
    """When events of all the house's shows start, from the first on, in order."""
    of_others = Q(engagement__ended_at__isnull=True) | Q(engagement=engagement)
    rows = ShowEvent.objects.standing().filter(of_others, kind__in=BURNING, engagement__house=engagement.house_id)
    rows = rows.filter(starts_at__gt=first, starts_at__lte=last + LONGEST)
    return list(rows.order_by("starts_at").values_list("starts_at", flat=True))


def _stays(engagement: Engagement, spans: Sequence[ShowDay]) -> dict[int, list[_Stay]]:
    """Stays at places that the show used, by the unit's primary key; without numbers it used all. Three queries."""
    rows = SpotPlace.objects.standing().filter(engagement=engagement, spot__ended_at__isnull=True)
    spots = {row.place_id: row.spot for row in rows.select_related("spot").order_by("pk")}
    unused = set(PlaceUse.objects.filter(engagement=engagement, in_use=False).values_list("place", flat=True))
    stays = Placement.objects.real().filter(Q(ends_at__isnull=True) | Q(ends_at__gt=spans[0].opens_at))
    stays = stays.filter(starts_at__lte=spans[-1].last_at, place__isnull=False, unit__house=engagement.house_id)
    if spots:
        stays = stays.filter(place__in=spots)
    found: dict[int, list[_Stay]] = defaultdict(list)
    for stay in stays.select_related("unit", "place__position").order_by("starts_at", "pk"):
        if stay.place_id not in unused:
            stay.unit.house = engagement.house
            spot = spots.get(stay.place_id or 0)
            number, key = ("", LAST_OF_ALL) if spot is None else (spot.number, spot.sort_key)
            found[stay.unit_id].append(_Stay(stay.unit, str(stay.place), number, key, stay.starts_at, stay.ends_at))
    return found


def _book(units: Iterable[int], spans: Sequence[ShowDay]) -> _Book:
    """What is written of the units about these days. Five queries."""
    keys, first, last = list(units), spans[0].opens_at, spans[-1].closes_at
    meters = list(Meter.objects.filter(unit__in=keys).order_by("starts_at"))
    unit_of = {meter.pk: meter.unit_id for meter in meters}
    counting = Reading.objects.counting()
    own = counting.filter(meter=OuterRef("pk")).order_by("-at", "-hours")
    ends = Meter.objects.filter(pk__in=unit_of).order_by().annotate(last=Subquery(own.values("pk")[:1])).values("last")
    during = Q(meter__in=unit_of, at__gt=first, at__lte=last)
    readings = list(counting.filter(during | Q(pk__in=ends)).order_by("at", "pk"))
    added = HoursAdded.objects.counting().filter(unit__in=keys, at__gt=first, at__lte=last).order_by("at", "pk")
    faults = Fault.objects.standing().filter(unit__in=keys)
    return _Book(
        _grouped((meter.unit_id, meter) for meter in meters),
        _grouped((unit_of[each.meter_id], each) for each in readings),
        {each.meter_id: each for each in readings},
        _grouped((each.unit_id, each) for each in added),
        _grouped((each.unit_id, each) for each in faults),
    )


def _grouped(pairs: Iterable[tuple[int, Row]]) -> dict[int, list[Row]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for key, row in pairs:
        found[key].append(row)
    return dict(found)


def _night(
    span: ShowDay, events: Sequence[ShowEvent], stays: Mapping[int, list[_Stay]], book: _Book, now: datetime
) -> Night:
    keys, until = {each.burn.key for each in span.played}, span.until(now)
    units = [_unit_day(span, own, book, until) for own in stays.values()]
    there = sorted((each for each in units if each is not None), key=lambda each: (each.sort_key, each.unit.tag_key))
    return Night(span, tuple(event for event in events if event.pk in keys), tuple(there), until)


def _unit_day(span: ShowDay, stays: Sequence[_Stay], book: _Book, until: datetime) -> UnitDay | None:
    """The unit on the day; None where it stood at none of the show's places at any event."""
    there = [stay for stay in stays if any(map(stay.has, span.played))]
    if not there:
        return None
    unit = there[0].unit
    entries = book.entries(unit.pk, span)
    burned = [each for each in span.played if any(stay.has(each) for stay in there)]
    open_events = left(burned, (entry.at for entry in entries))
    hours, strikes = booked(open_events, until)
    meter = next((each for each in book.meters.get(unit.pk, []) if _counts_at(each, until)), None)
    return UnitDay(
        unit=unit,
        where=tuple(dict.fromkeys(stay.where for stay in there)),
        numbers=tuple(dict.fromkeys(stay.number for stay in there if stay.number)),
        sort_key=min(stay.sort_key for stay in there),
        meter=meter,
        last=None if meter is None else book.last.get(meter.pk),
        entries=tuple(entries),
        left=open_events,
        booked_h=hours,
        booked_strikes=strikes,
        faults=tuple(book.faults.get(unit.pk, [])),
    )


def _counts_at(meter: Meter, at: datetime) -> bool:
    return meter.starts_at <= at and (meter.ends_at is None or at < meter.ends_at)
