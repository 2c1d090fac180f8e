"""Every unit with its lamp, that lamp's hours and what is booked for it, now or as it was at an instant."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q

from shows.outlook import Forecast, LampCount, LampOutlook, forecast_outlooks
from venue.core.forecast import Calendar
from venue.ledgers import whole_book
from venue.models import Fitting, House, Lamp, LampTally, Unit
from venue.stays import units_known_on
from venue.tallies import AT_ONCE, lamp_tally


@dataclass(frozen=True)
class UnitLamp:
    """A unit, what is booked for it, and its lamp's outlook; None where it has no lamp."""

    unit: Unit
    calendar: Calendar
    lamp: LampOutlook | None


def unit_lamps(house: House, at: datetime, *, as_of: bool = False) -> list[UnitLamp]:
    """The units by tag. `as_of`: by the readings until the instant, else by all that is written."""
    units = list(units_known_on(house, at).order_by("tag_key"))
    counts = list(_counts_then(house, at) if as_of else _counts_now(house))
    forecast = Forecast(house, counts, at, other_units=[unit.pk for unit in units])
    by_unit = {each.count.unit_id: each for each in forecast_outlooks(forecast).values()}
    return [_unit_lamp(unit, forecast, by_unit) for unit in units]


def _unit_lamp(unit: Unit, forecast: Forecast, lamps: Mapping[int | None, LampOutlook]) -> UnitLamp:
    return UnitLamp(unit, forecast.calendars[unit.pk], lamps.get(unit.pk))


def _counts_now(house: House) -> Iterator[LampCount]:
    tallies = LampTally.objects.filter(house=house, unit__isnull=False, unit__ended_at__isnull=True)
    return map(LampCount.of, tallies.select_related("lamp__kind"))


def _counts_then(house: House, at: datetime) -> Iterator[LampCount]:
    """Counted from the book, some lamps at a time."""
    fitted = Fitting.objects.real().filter(Q(until_at__isnull=True) | Q(until_at__gt=at), from_at__lte=at)
    keys = list(fitted.filter(lamp__house=house).order_by("unit").values_list("lamp", flat=True))
    for start in range(0, len(keys), AT_ONCE):
        some = keys[start : start + AT_ONCE]
        book = whole_book([], some)
        for lamp in Lamp.objects.filter(pk__in=some).select_related("kind"):
            yield LampCount.of(lamp_tally(lamp, book, at))
