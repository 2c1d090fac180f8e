"""From a wall time that somebody wrote to the one instant that is meant."""

from datetime import datetime

from venue.core.local_time import possible_instants
from venue.errors import LocalTimeMissing, LocalTimeTwice


def the_instant(wall: datetime, zone: str, *, fold: int | None = None) -> datetime:
    """The instant at which clocks in the zone show the wall time; `fold` 0 or 1 picks among two.

    Raises LocalTimeMissing where there is none, LocalTimeTwice where there are two and nobody picked.
    """
    found = possible_instants(wall, zone)
    if not found:
        raise LocalTimeMissing(wall, zone)
    if len(found) == 1:
        return found[0]
    if fold is None:
        raise LocalTimeTwice(wall, zone, *found)
    return found[fold]
