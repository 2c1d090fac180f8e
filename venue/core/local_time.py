"""Wall time, instants and the house day. Zones are IANA names; instants are aware datetimes in UTC.

A wall time names one instant, but none where clocks jump forward and two where they are set back (PEP 495).
"""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo


def possible_instants(wall: datetime, zone: str) -> tuple[datetime, ...]:
    """Each instant at which clocks in the zone show the wall time: none, one or two, earliest first."""
    here = ZoneInfo(zone)
    found = {
        instant
        for fold in (0, 1)
        if wall_time(instant := wall.replace(tzinfo=here, fold=fold).astimezone(UTC), zone) == wall.replace(fold=0)
    }
    return tuple(sorted(found))


def wall_time(instant: datetime, zone: str) -> datetime:
    """What clocks in the zone show at the instant: a datetime without a zone."""
    return instant.astimezone(ZoneInfo(zone)).replace(tzinfo=None, fold=0)


def house_day(instant: datetime, zone: str, turns_at: time) -> date:
    """The house's date at the instant: until the day turns, last night is still tonight."""
    wall = wall_time(instant, zone)
    return wall.date() if wall.time() >= turns_at else wall.date() - timedelta(days=1)


def house_day_starts(day: date, zone: str, turns_at: time) -> datetime:
    """The instant at which the house's day begins; where clocks jump over that time, when they have jumped."""
    wall = datetime.combine(day, turns_at)
    return next(iter(possible_instants(wall, zone)), None) or wall.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)


def shown(instant: datetime, zone: str) -> str:
    """The instant as the house writes it: 2026-02-01 23:10."""
    return f"{wall_time(instant, zone):%Y-%m-%d %H:%M}"
