"""Rounding, half up everywhere: of instants to minutes or a clock's step, of hours where they are shown."""

from datetime import datetime
from decimal import ROUND_HALF_UP, Decimal
from zoneinfo import ZoneInfo

from crew.core.hours.records import MINUTE, Stretch


def whole_minute(instant: datetime) -> datetime:
    """The instant to the nearest minute; half a minute goes up."""
    return (instant + MINUTE / 2).replace(second=0, microsecond=0)


def to_step(instant: datetime, step: int, zone: ZoneInfo) -> datetime:
    """The instant to the nearest `step` minutes of the clock: of a quarter hour 7 minutes go down, 8 go up.

    29 CFR 785.48(b) lets starting and stopping times be recorded so, to 5 minutes, a tenth or a quarter of an hour.
    """
    past = instant.astimezone(zone).minute % step
    return instant + MINUTE * (step - past if 2 * past >= step else -past)


def stretch_to_step(stretch: Stretch, step: int, zone: ZoneInfo) -> Stretch:
    """Both ends to the nearest `step` minutes; as it is where there is none."""
    if not step:
        return stretch
    return Stretch(to_step(stretch.start, step, zone), to_step(stretch.end, step, zone))


def minutes_in(hours: Decimal) -> int:
    """The hours in whole minutes, half a minute going up."""
    return int((hours * 60).quantize(Decimal(1), ROUND_HALF_UP))


def hours_in(minutes: Decimal | int) -> Decimal:
    """The minutes in hours, not rounded."""
    return Decimal(minutes) / 60


def two_places(hours: Decimal) -> Decimal:
    """The hours as they are shown: to two places, half up."""
    return hours.quantize(Decimal("0.01"), ROUND_HALF_UP)


def rate_words(rate: Decimal) -> str:
    """The rate with at least one place: 1.0, 1.5, 2.25."""
    text = f"{rate.normalize():f}"
    return text if "." in text else f"{text}.0"
