"""Holding rows while a verb decides.

Whoever needs several locks takes units first, then positions, then places, each in the order of their ids: two
who write at once then wait for one another and never deadlock. SQLite lets one write at a time anyway.
"""

from collections.abc import Iterable
from typing import TypeVar

from venue.errors import AlreadyEnded
from venue.models import Place, Position, Unit

Held = TypeVar("Held", Unit, Position, Place)


def lock(model: type[Held], rows: Iterable[Held]) -> None:
    """Hold the rows until the transaction ends. Raises AlreadyEnded if one of them has ended."""
    ids = {row.pk for row in rows}
    for row in model._base_manager.select_for_update().filter(pk__in=ids).order_by("pk"):
        if row.ended_at is not None:
            raise AlreadyEnded(row, row.ended_at)
