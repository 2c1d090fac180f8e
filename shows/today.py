"""What the head of a house has to know today: of the lights, and of the next shows that rely on them."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Exists, OuterRef, QuerySet

from shows.conditions import units_at
from shows.lines import show_lines
from shows.models import ShowEvent, SpotPlace
from shows.outlook import LampOutlook, lamps_that_will_not_last
from shows.wording.limits import unit_sentences
from venue.condition import conditions_of
from venue.models import Fault, House, LampTally, Placement, Unit
from venue.models.faults import Means
from venue.stays import house_day_span
from venue.today import HouseToday, Part, part_of

SHOWS_TOLD = 2
"""Today's and the next."""
NUMBERS_READ = 60
"""Numbers of one show on lights with something wrong; a show has no more lights than that."""


@dataclass(frozen=True)
class Relied:
    """A show number of an event whose unit is out of service, or limited."""

    event: ShowEvent
    number: str
    sentences: tuple[str, ...]
    is_stopped: bool


@dataclass(frozen=True)
class Ending:
    """A unit whose lamp passes its stop at a booked event."""

    unit: Unit
    outlook: LampOutlook


@dataclass(frozen=True)
class Today:
    """The house's day, and the numbers of the next shows that stand on a unit out of service, or on a limited one.

    `ending` are the lamps that will not last until the end of what is booked.
    """

    house: HouseToday
    stopped: Part[Relied]
    limited: Part[Relied]
    ending: Part[Ending]


def today_of(house: House, now: datetime) -> Today:
    """The day as it stands at the instant; the number of queries depends on the next shows alone, of which few are
    told.
    """
    found = HouseToday(house, now)
    relied = list(_relied(house, house_day_span(house, found.day)[0]))
    stopped = [each for each in relied if each.is_stopped]
    limited = [each for each in relied if not each.is_stopped]
    return Today(found, part_of(stopped), part_of(limited), lamps_ending(house, now))


def lamps_ending(house: House, now: datetime) -> Part[Ending]:
    """The lamps that will not last a booked event; those past their stop already are told with what is out."""
    lamps = lamps_that_will_not_last(house, now)
    units = house.units.standing().in_bulk({each.count.unit_id for each in lamps})
    return part_of([Ending(units[each.count.unit_id], each) for each in lamps if each.count.unit_id in units])


def _relied(house: House, since: datetime) -> Iterator[Relied]:
    events = ShowEvent.objects.standing().filter(kind="show", starts_at__gte=since, engagement__ended_at__isnull=True)
    own = events.filter(engagement__house=house).select_related("engagement__house", "engagement__setup")
    for event in own.order_by("starts_at", "pk")[:SHOWS_TOLD]:
        yield from _relied_in(event, house)


def _relied_in(event: ShowEvent, house: House) -> Iterator[Relied]:
    """The show's numbers on lights that can't do everything; those bound to places, or, before any is, those that
    its paperwork puts there.
    """
    if SpotPlace.objects.standing().filter(engagement=event.engagement).exists():
        yield from _bound_in(event, house)
        return
    if not event.engagement.spots.standing().exists():
        return
    for line in show_lines(event.engagement, event.starts_at):
        if line.unit_sentences:
            yield Relied(event, line.number, tuple(line.unit_sentences), bool(line.stops))


def _bound_in(event: ShowEvent, house: House) -> Iterator[Relied]:
    """By the bindings alone, whatever else stands in the house."""
    bound = list(_on_such_lights(event, house)[:NUMBERS_READ])
    units = units_at([each.place for each in bound], event.starts_at)
    conditions = conditions_of(units.values(), event.starts_at)
    for each in bound:
        unit = units[each.place_id]
        stops, limits = conditions[unit.pk].stops, conditions[unit.pk].limits
        sentences = tuple(unit_sentences(unit.tag, stops, limits))
        if sentences:
            yield Relied(event, each.spot.number, sentences, bool(stops))


def _on_such_lights(event: ShowEvent, house: House) -> QuerySet[SpotPlace]:
    """The places of the show's numbers where a light with a fault stands then, or one whose lamp is past its stop."""
    standing = Placement.objects.at(event.starts_at).filter(place=OuterRef("place"), unit__ended_at__isnull=True)
    faults = Fault.objects.standing().filter(unit__house=house, means__in=[Means.OUT, Means.LIMITED])
    past = LampTally.objects.filter(house=house, unit__isnull=False, left_h__lte=0)
    is_faulty = Exists(standing.filter(unit__in=faults.values("unit")))
    is_past = Exists(standing.filter(unit__in=past.values("unit")))
    bound = SpotPlace.objects.standing().filter(is_faulty | is_past, engagement=event.engagement)
    return bound.select_related("spot", "place").order_by("spot__sort_key", "team_order")
