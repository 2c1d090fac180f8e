"""What the head of a house has to know today: of the lights, and of the next shows that rely on them."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from shows.lines import ShowLine, show_lines
from shows.models import ShowEvent
from shows.outlook import LampOutlook, lamps_that_will_not_last
from venue.models import House, Unit
from venue.stays import house_day_span
from venue.today import HouseToday, Part, part_of, today_in

SHOWS_TOLD = 2
"""Today's and the next."""


@dataclass(frozen=True)
class Relied:
    """A show number of an event whose unit is out of service, or limited."""

    event: ShowEvent
    line: ShowLine


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
    found = today_in(house, now)
    relied = list(_relied(house, house_day_span(house, found.day)[0]))
    stopped = [each for each in relied if each.line.stops]
    limited = [each for each in relied if not each.line.stops]
    return Today(found, part_of(stopped), part_of(limited), part_of(_ending(house, now)))


def _ending(house: House, now: datetime) -> list[Ending]:
    """Those past their stop already are told with what is out of service."""
    lamps = [each for each in lamps_that_will_not_last(house, now) if each.stops_in and each.outlook.state != "stop"]
    units = house.units.standing().in_bulk({each.count.unit_id for each in lamps})
    return [Ending(units[each.count.unit_id], each) for each in lamps if each.count.unit_id in units]


def _relied(house: House, since: datetime) -> Iterator[Relied]:
    events = ShowEvent.objects.standing().filter(kind="show", starts_at__gte=since, engagement__ended_at__isnull=True)
    own = events.filter(engagement__house=house).select_related("engagement__house", "engagement__setup")
    for event in own.order_by("starts_at", "pk")[:SHOWS_TOLD]:
        for line in show_lines(event.engagement, event.starts_at):
            if line.unit_sentences:
                yield Relied(event, line)
