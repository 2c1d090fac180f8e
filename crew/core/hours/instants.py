"""A time as somebody wrote it, by a zone's clocks or with its offset, to the instant that is meant."""

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache

from crew.core.hours.rounding import whole_minute
from venue.core.local_time import possible_instants

FIRST_YEAR, LAST_YEAR = 1900, 2200
_WRITTEN = re.compile(
    r"(\d{4})-(\d\d?)-(\d\d?)(?:T| +)(\d\d?):(\d\d)(?::(\d\d)(?:[.,]\d{1,9})?)? *(Z|[+-]\d\d(?::?\d\d)?)?",
    re.ASCII | re.IGNORECASE,
)


@dataclass(frozen=True)
class Found:
    """The instant in UTC, to the minute; else `code` says what is wrong: no-time, bad-time, time-missing.

    `is_ambiguous` tells that clocks show the time twice, nobody wrote an offset, and the first was taken.
    """

    instant: datetime | None = None
    code: str = ""
    is_ambiguous: bool = False


@lru_cache(maxsize=4096)
def instant_written(text: str, zone: str) -> Found:
    """What the text means: 2026-03-02 08:00, 2026-03-02T08:00-06:00."""
    if not text:
        return Found(code="no-time")
    parts = _WRITTEN.fullmatch(text)
    if parts is None:
        return Found(code="bad-time")
    *numbers, offset = parts.groups()
    try:
        wall = datetime(*(int(number or 0) for number in numbers))  # type: ignore[arg-type]
        if not FIRST_YEAR <= wall.year <= LAST_YEAR:
            return Found(code="bad-time")
        found = (_at_offset(wall, offset),) if offset else possible_instants(wall, zone)
    except ValueError:
        return Found(code="bad-time")
    return Found(whole_minute(found[0]), is_ambiguous=len(found) > 1) if found else Found(code="time-missing")


def _at_offset(wall: datetime, offset: str) -> datetime:
    aware = f"{wall.isoformat()}{'+00:00' if offset in 'Zz' else offset}"
    return datetime.fromisoformat(aware).astimezone(UTC)
