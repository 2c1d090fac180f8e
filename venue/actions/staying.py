"""One stay of a unit, begun or ended. The verb that calls holds the unit, and then the places."""

from datetime import datetime

from venue.errors import AlreadyEnded, WrongHouse
from venue.models import Place, Placement, Unit
from venue.models.units import Elsewhere
from venue.storing import store


def begin_at_place(unit: Unit, place: Place, starts_at: datetime, ends_at: datetime | None) -> Placement:
    """The unit stands at the place. Raises Overlap, WrongHouse, Invalid."""
    if unit.house_id != place.position.house_id:
        raise WrongHouse(unit, place)
    return store(Placement(unit=unit, place=place, starts_at=starts_at, ends_at=ends_at))


def begin_elsewhere(
    unit: Unit, where: Elsewhere, words: str, starts_at: datetime, ends_at: datetime | None
) -> Placement:
    """The unit is at no place. Raises Overlap, Invalid."""
    span = {"starts_at": starts_at, "ends_at": ends_at}
    return store(Placement(unit=unit, elsewhere=where, elsewhere_words=words, **span))


def end_stay(stay: Placement, at: datetime) -> None:
    """The stay ends at the instant; a plan that has not begun by then is taken back. Raises AlreadyEnded."""
    if stay.ends_at is not None and stay.ends_at <= at:
        raise AlreadyEnded(stay, stay.ends_at)
    stay.ends_at = max(at, stay.starts_at)
    store(stay)


def stay_at(unit: Unit, at: datetime) -> Placement | None:
    """Where the unit is at the instant; None where no stay is on file."""
    return unit.placements.at(at).select_related("place__position", "unit__house").first()


def next_start(unit: Unit, after: datetime) -> datetime | None:
    """When the unit's next stay begins; None where none is planned."""
    later = unit.placements.real().filter(starts_at__gt=after).order_by("starts_at")
    return later.values_list("starts_at", flat=True).first()
