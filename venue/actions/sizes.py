"""The house's own sizes of pick-ups."""

from django.db import transaction

from venue.core.lengths import Length
from venue.history import Actor, record
from venue.models import PickUpSize
from venue.sizes import default_of
from venue.storing import store, store_version


@transaction.atomic
def set_size(*, actor: Actor, row: PickUpSize, seen: int, diameter: Length | None) -> None:
    """The house means this diameter by the size; None: the default again, which is stored.

    `row` may be new, `seen` counts for a stored one. Nothing is stored if nothing differs. Raises StaleVersion,
    AlreadyExists if somebody was faster, Invalid.
    """
    before = (row.diameter_m, row.diameter_text)
    meters, text = (default_of(row.size), "") if diameter is None else (diameter.meters, diameter.text)
    if (meters, text) == before and row.version == seen:
        return
    row.diameter_m, row.diameter_text = meters, text
    if row._state.adding:
        store(row)
    else:
        store_version(row, ["diameter_m", "diameter_text"], seen)
    facts = {"size": row.size, "before": before[0], "diameter": f"{meters:.10g}"}
    record(actor, "size.set", row.house, house=row.house, **facts)
