"""Instants, wall times and zones as a house file writes them."""

from datetime import UTC, date, datetime, time
from functools import lru_cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

FIRST_YEAR, LAST_YEAR = 1900, 2200


class NotATime(ValueError):
    """The text names no instant; `code` says what it lacks."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


def read_instant(text: str) -> datetime:
    """The instant in ISO 8601 with its offset, in UTC. Raises NotATime."""
    try:
        written = datetime.fromisoformat(text)
    except ValueError as error:
        raise NotATime("not-a-time") from error
    if written.tzinfo is None:
        raise NotATime("time-without-offset")
    if not FIRST_YEAR <= written.year <= LAST_YEAR:
        raise NotATime("time-out-of-range")
    return written.astimezone(UTC)


def written_instant(instant: datetime, zone: str) -> str:
    """The instant as clocks in the zone show it, with the offset."""
    return instant.astimezone(ZoneInfo(zone)).isoformat()


def read_wall_time(text: str) -> time:
    """The time of day. Raises NotATime."""
    try:
        written = time.fromisoformat(text)
    except ValueError as error:
        raise NotATime("not-a-wall-time") from error
    if written.tzinfo is not None:
        raise NotATime("not-a-wall-time")
    return written


def read_day(text: str) -> date:
    """The day, written year, month, day: 2026-02-28. Raises NotATime."""
    try:
        written = date.fromisoformat(text)
    except ValueError as error:
        raise NotATime("not-a-day") from error
    if written.isoformat() != text or not FIRST_YEAR <= written.year <= LAST_YEAR:
        raise NotATime("not-a-day")
    return written


@lru_cache(maxsize=64)
def is_zone(name: str) -> bool:
    """Whether the name is one of the IANA time zone database."""
    if name.partition("/")[0] in _FOLDERS_AND_LINKS:
        return False
    try:
        return ZoneInfo(name).key == name
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False


_FOLDERS_AND_LINKS = {"posix", "right", "localtime", "posixrules", "Factory"}
"""What stands beside the zones on many systems."""
