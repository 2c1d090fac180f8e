"""Changing what a form shows, against the version that it showed."""

from collections.abc import Mapping
from typing import Any

from django.db import transaction

from venue.care import settle, settle_house
from venue.history import Actor, record
from venue.models import House, Unit, Versioned
from venue.storing import store_version


@transaction.atomic
def change(*, actor: Actor, row: Versioned, house: House | None, seen: int, values: Mapping[str, Any]) -> None:
    """Store new values in a row that the user was shown in version `seen`.

    The history keeps the old and the new of each. Nothing is stored if nothing differs. Raises StaleVersion,
    Invalid, AlreadyExists, Overlap.
    """
    stored = type(row)._base_manager.get(pk=row.pk)
    for field, value in values.items():
        setattr(row, field, value)
    changed = [field for field in values if getattr(stored, field) != getattr(row, field)]
    if not changed and stored.version == seen:
        return
    store_version(row, changed or list(values), seen)
    if isinstance(row, Unit) and "source" in changed:
        settle(row)  # care plans are for all units of one source
    if isinstance(row, House) and "use_window_days" in changed:
        settle_house(row)  # care is due by the usual use
    record(actor, f"{row._meta.model_name}.changed", row, house=house, **_old_and_new(stored, row, changed))


def _old_and_new(stored: Versioned, row: Versioned, changed: list[str]) -> dict[str, Any]:
    return {
        "subject": str(row),
        "changed": {field: [_plain(stored, field), _plain(row, field)] for field in changed},
    }


def _plain(row: Versioned, field: str) -> Any:
    value = getattr(row, field)
    return str(value) if hasattr(value, "pk") else value
