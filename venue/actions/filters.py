"""Filters: added, ended; a change goes by `change`."""

from datetime import datetime
from typing import Any

from django.db import transaction

from venue.history import Actor, record
from venue.models import ColorFilter, House
from venue.storing import end, store


@transaction.atomic
def add_filter(*, actor: Actor, house: House, code: str, **facts: Any) -> ColorFilter:
    """A color, a correction or a diffusion that the house has. Raises AlreadyExists, Invalid."""
    color = store(ColorFilter(house=house, code=code, **facts))
    record(actor, "colorfilter.added", color, house=house, name=str(color))
    return color


@transaction.atomic
def end_filter(*, actor: Actor, color: ColorFilter, at: datetime, reason: str) -> None:
    """The house has the filter no more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(color, at=at, reason=reason)
    record(actor, "colorfilter.ended", color, house=color.house, name=str(color), reason=reason)
