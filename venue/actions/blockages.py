"""What is in the way of a position's lights: noted, cleared away; a change goes by `change`."""

from datetime import datetime
from typing import Any

from django.db import transaction

from venue.actions.locking import lock
from venue.history import Actor, record
from venue.models import Blockage, Position
from venue.storing import end, store


@transaction.atomic
def add_blockage(*, actor: Actor, position: Position, name: str, **facts: Any) -> Blockage:
    """Something is in the way of the position, or of one of its places. Raises AlreadyEnded, Invalid."""
    lock(Position, [position])
    blockage = store(Blockage(position=position, name=name, **facts))
    record(actor, "blockage.added", blockage, house=position.house, name=name, position=position.name)
    return blockage


@transaction.atomic
def end_blockage(*, actor: Actor, blockage: Blockage, at: datetime, reason: str) -> None:
    """It is in the way no more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(blockage, at=at, reason=reason)
    facts = {"name": blockage.name, "position": blockage.position.name, "reason": reason}
    record(actor, "blockage.ended", blockage, house=blockage.position.house, **facts)
