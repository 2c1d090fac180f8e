"""Areas of a set-up that lights have to reach: added, ended; a change goes by `change`."""

from datetime import datetime
from typing import Any

from django.db import transaction

from venue.history import Actor, record
from venue.models import Area, Setup
from venue.storing import end, store


@transaction.atomic
def add_area(*, actor: Actor, setup: Setup, name: str, **facts: Any) -> Area:
    """A named part of the set-up's plan. Raises AlreadyExists, Invalid."""
    area = store(Area(setup=setup, name=name, **facts))
    record(actor, "area.added", area, house=setup.house, name=name, setup=setup.name)
    return area


@transaction.atomic
def end_area(*, actor: Actor, area: Area, at: datetime, reason: str) -> None:
    """Nobody asks any more whether it is reached. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(area, at=at, reason=reason)
    facts = {"name": area.name, "setup": area.setup.name, "reason": reason}
    record(actor, "area.ended", area, house=area.setup.house, **facts)
