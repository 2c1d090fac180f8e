"""Walking a position: what somebody saw there, and turning round a row that the book has the wrong way."""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from venue.actions.editing import change
from venue.actions.locking import lock
from venue.book import BookPosition, book_of_positions
from venue.errors import NothingToTurn, StaleVersion, WrongHouse
from venue.history import Actor, record
from venue.models import OrderWalk, Place, Position, Setup
from venue.storing import end, store


@transaction.atomic
def confirm_walk(
    *, actor: Actor, setup: Setup, position: Position, left_end: Place, walked_by: str, walked_at: datetime
) -> OrderWalk:
    """Somebody stood at the position and found the place at the end asked for. The walk before this one ends.

    It is kept whether or not it fits the book. Raises WrongHouse, AlreadyEnded, Invalid.
    """
    if setup.house_id != position.house_id:
        raise WrongHouse(setup, position)
    lock(Position, [position])
    lock(Place, [left_end])
    before = position.walks.standing().filter(setup=setup).first()
    if before is not None:
        end(before, at=walked_at, reason=_("walked again"))
    seen = {"label_seen": left_end.label, "walked_at": walked_at, "walked_by": walked_by, "actor_name": actor.name}
    walk = store(OrderWalk(setup=setup, position=position, left_end=left_end, **seen))
    fits = not book_of_positions(setup, [position])[0].is_contradicted
    facts = {"setup": setup.name, "position": position.name, "label": left_end.label, "fits": fits}
    record(actor, "walk.confirmed", walk, house=setup.house, walked_by=walked_by, **facts)
    return walk


@transaction.atomic
def turn_row(*, actor: Actor, setup: Setup, position: Position, walk: OrderWalk, seen: int) -> None:
    """Turn the whole row round, since the walk (as shown in version `seen`) found it the other way.

    Measured places change sides, house left for house right; others are counted from the other end. Raises
    NothingToTurn if the walk does not say so any more, StaleVersion, AlreadyEnded.
    """
    lock(Position, [position])
    entry = book_of_positions(setup, [position])[0]
    if entry.walk is None or entry.walk.pk != walk.pk or entry.walk.version != seen:
        raise StaleVersion(stored=entry.walk or walk, submitted={})
    if not entry.can_be_turned:
        raise NothingToTurn(position)
    for place, values in _turned(entry):
        change(actor=actor, row=place, house=setup.house, seen=place.version, values=values)
    facts = {"position": position.name, "setup": setup.name}
    record(actor, "position.turned", position, house=setup.house, **facts)


def _turned(entry: BookPosition) -> list[tuple[Place, dict[str, float | int | None]]]:
    if entry.row.basis == "measured":
        return [(place, {"x_m": -(place.x_m or 0.0) + 0.0}) for place in entry.places]
    orders = [place.row_order for place in entry.places]
    return [(place, {"row_order": order}) for place, order in zip(entry.places, reversed(orders), strict=True)]
