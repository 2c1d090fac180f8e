"""Kinds of lamps: their life, their waits, and the spares on the shelf."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from venue.actions.editing import change
from venue.errors import InUse
from venue.history import Actor, record
from venue.models import House, LampKind
from venue.storing import end, store, store_version
from venue.tallies import retally_lamps

LIFE = frozenset({"rated_h", "stop_at"})
"""What the hours left of a lamp follow from."""


@transaction.atomic
def add_lamp_kind(*, actor: Actor, house: House, name: str, **facts: Any) -> LampKind:
    """A kind of lamp that the house uses. Raises AlreadyExists, Invalid."""
    kind = store(LampKind(house=house, name=name, **facts))
    record(actor, "lampkind.added", kind, house=house, name=name)
    return kind


@transaction.atomic
def change_lamp_kind(*, actor: Actor, kind: LampKind, seen: int, values: Mapping[str, Any]) -> None:
    """Store new values; the hours left of its lamps follow. Raises StaleVersion, AlreadyExists, Invalid."""
    before = LampKind.objects.get(pk=kind.pk)
    change(actor=actor, row=kind, house=kind.house, seen=seen, values=values)
    if any(name in LIFE and getattr(before, name) != value for name, value in values.items()):
        retally_lamps(kind.lamps.select_related("kind"))


@transaction.atomic
def end_lamp_kind(*, actor: Actor, kind: LampKind, at: datetime, reason: str) -> None:
    """The house uses the kind no more. Raises InUse while it has a lamp of it, AlreadyEnded, Invalid, StaleVersion."""
    lamp = kind.lamps.standing().first()
    if lamp is not None:
        raise InUse(lamp)
    end(kind, at=at, reason=reason)
    record(actor, "lampkind.ended", kind, house=kind.house, name=kind.name, reason=reason)


@transaction.atomic
def count_spares(*, actor: Actor, kind: LampKind, seen: int, spares: int, on_order: int) -> None:
    """What was counted on the shelf without a serial, and what is on order. Raises StaleVersion, Invalid."""
    kind.spares, kind.on_order = spares, on_order
    store_version(kind, ["spares", "on_order"], seen)
    record(actor, "lampkind.counted", kind, house=kind.house, name=kind.name, spares=spares, on_order=on_order)
