"""The colors of a show: explained, explained anew, taken off the list."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from shows.actions.spots import lock_engagement
from shows.models import Engagement, ShowColor
from venue.actions import change
from venue.history import Actor, record
from venue.storing import end, store


@transaction.atomic
def add_color(*, actor: Actor, engagement: Engagement, code: str, **facts: Any) -> ShowColor:
    """A color by the code that frames name it with. Raises AlreadyExists, AlreadyEnded, Invalid."""
    lock_engagement(engagement)
    color = store(ShowColor(engagement=engagement, code=code, **facts))
    record(actor, "showcolor.added", color, house=engagement.house, name=str(color), show=engagement.name)
    return color


@transaction.atomic
def change_color(*, actor: Actor, color: ShowColor, seen: int, values: Mapping[str, Any]) -> None:
    """Change a color against the version that was shown. Raises AlreadyEnded, StaleVersion, AlreadyExists, Invalid."""
    lock_engagement(color.engagement)
    change(actor=actor, row=color, house=color.engagement.house, seen=seen, values=values)


@transaction.atomic
def end_color(*, actor: Actor, color: ShowColor, at: datetime, reason: str) -> None:
    """The show explains the code no more; frames that name it keep it. Raises AlreadyEnded, StaleVersion, Invalid."""
    engagement = color.engagement
    lock_engagement(engagement)
    end(color, at=at, reason=reason)
    said = {"name": str(color), "show": engagement.name, "reason": reason}
    record(actor, "showcolor.ended", color, house=engagement.house, **said)
