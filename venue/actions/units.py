"""Units: added, placed, moved, taken away. A unit stands at one place at a time, a place holds one unit."""

from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.locking import lock
from venue.actions.moves import leave_all
from venue.actions.staying import begin_at_place, end_stay, next_start, stay_at
from venue.care import settle
from venue.errors import InUse, Invalid, NotFound, StaleVersion
from venue.history import Actor, record
from venue.models import House, Place, Placement, Unit
from venue.storing import end, store


@transaction.atomic
def add_unit(*, actor: Actor, house: House, tag: str, **facts: Any) -> Unit:
    """A unit of the house, under its tag. Raises AlreadyExists, Invalid."""
    unit = store(Unit(house=house, tag=tag, **facts))
    settle(unit)
    record(actor, "unit.added", unit, house=house, tag=tag)
    return unit


@transaction.atomic
def end_unit(*, actor: Actor, unit: Unit, at: datetime, reason: str, leaves: bool = False) -> None:
    """The unit is the house's no more; if it `leaves`, its stay ends then and its plans are taken back.

    Raises InUse if it is somewhere then or later and does not leave, AlreadyEnded, Invalid, StaleVersion.
    """
    lock(Unit, [unit])
    left = leave_all(unit, at) if leaves else []
    standing = unit.placements.real().not_over_by(at).first()
    if standing is not None:
        raise InUse(standing)
    end(unit, at=at, reason=reason)
    settle(unit, at)
    record(actor, "unit.ended", unit, house=unit.house, tag=unit.tag, reason=reason, left=left)


@transaction.atomic
def place_unit(
    *, actor: Actor, unit: Unit, place: Place, starts_at: datetime, ends_at: datetime | None = None
) -> Placement:
    """The unit stands at the place from an instant, past or future, until another or for good.

    Raises Overlap if the unit or the place is taken in that time, AlreadyEnded, WrongHouse, Invalid.
    """
    lock(Unit, [unit])
    lock(Place, [place])
    placement = begin_at_place(unit, place, starts_at, ends_at)
    facts = {"place": str(place), "starts_at": starts_at, "ends_at": ends_at}
    record(actor, "unit.placed", unit, house=unit.house, tag=unit.tag, **facts)
    return placement


@transaction.atomic
def end_placement(*, actor: Actor, placement: Placement, at: datetime) -> None:
    """The unit leaves the place at the instant; a plan that has not begun by then is taken back.

    Raises AlreadyEnded, StaleVersion.
    """
    end_stay(placement, at)
    unit = placement.unit
    record(actor, "unit.left", unit, house=unit.house, tag=unit.tag, place=placement.where, at=at)


@transaction.atomic
def move_unit(*, actor: Actor, unit: Unit, to: Place, at: datetime, shown: Placement | None = None) -> Placement:
    """The unit leaves where it is at the instant and stands at another place, until its stay was to end.

    From elsewhere it comes for good, or until its next stay.

    `shown` is the placement as the user saw it. Raises NotFound if the unit stands nowhere then, Invalid if it
    stands elsewhere than shown, StaleVersion, else as `place_unit`.
    """
    lock(Unit, [unit])
    before = _where_at(unit, at)
    if shown is not None:
        _require_as_shown(before, shown)
    lock(Place, _places(before, to))
    until = before.ends_at if before.place_id else next_start(unit, at)
    end_stay(before, at)
    return _moved(actor, before, to, at, until)


@transaction.atomic
def swap_units(*, actor: Actor, one: Unit, other: Unit, at: datetime) -> tuple[Placement, Placement]:
    """The two units change places at the instant: both leave first.

    Raises as `move_unit`, and NotFound if one of them stands at no place.
    """
    lock(Unit, [one, other])
    first, second = _where_at(one, at), _where_at(other, at)
    of_one, of_other = _place_of(first), _place_of(second)
    lock(Place, [of_one, of_other])
    first_until, second_until = first.ends_at, second.ends_at
    end_stay(first, at)
    end_stay(second, at)
    return (
        _moved(actor, first, of_other, at, first_until),
        _moved(actor, second, of_one, at, second_until),
    )


def _moved(actor: Actor, before: Placement, to: Place, at: datetime, until: datetime | None) -> Placement:
    placement = begin_at_place(before.unit, to, at, until)
    facts = {"from_place": before.where, "place": str(to), "at": at}
    record(actor, "unit.moved", before.unit, house=before.unit.house, tag=before.unit.tag, **facts)
    return placement


def _where_at(unit: Unit, at: datetime) -> Placement:
    placement = stay_at(unit, at)
    if placement is None:
        raise NotFound(_("place of"), unit.tag)
    return placement


def _places(before: Placement, to: Place) -> list[Place]:
    return [to] if before.place is None else [before.place, to]


def _place_of(placement: Placement) -> Place:
    if placement.place is None:
        raise NotFound(_("place of"), placement.unit.tag)
    return placement.place


def _require_as_shown(stored: Placement, shown: Placement) -> None:
    if stored.pk != shown.pk:
        raise Invalid({"at": [_("Then it is so: %(stored)s. Choose a time of this stay.") % {"stored": stored}]})
    if stored.version != shown.version:
        raise StaleVersion(stored=stored, submitted={})
