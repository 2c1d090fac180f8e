"""Entries whose content never changes: a mistaken one is struck out, and another stands beside it."""

from collections.abc import Sequence
from typing import Any

from django.utils.translation import gettext as _

from venue.house_file.book.bulk import Bulk, Columns
from venue.house_file.records.hours import Entered
from venue.models.meters import Entry


def put_entries(
    bulk: Bulk, section: str, model: type[Entry], records: Sequence[Entered], columns: Columns, told: Sequence[str]
) -> None:
    """Bring the section's rows to the records. `told` are the fields that hold what was read."""
    before: dict[int | None, Any] = {each.row: each for each in getattr(bulk.stored, section)}
    new = []
    for record in records:
        if record.row is None:
            new.append(record)
        elif _is_replaced(before[record.row], record, told):
            _strike(bulk, model, record.row)
            new.append(record)
        else:
            _complete(bulk, model, columns(before[record.row]), record.row, columns(record))
    bulk.create(section, model, [(each, columns(each) | as_entered(bulk, each)) for each in new])


def as_entered(bulk: Bulk, record: Entered) -> dict[str, Any]:
    """When and by whom it was written into the book; from a file that does not say, now and by nobody."""
    return {"entered_at": record.entered_at or bulk.rows.now, "entered_by": record.entered_by}


def struck_columns(record: Entered) -> dict[str, Any]:
    """Whether, by whom and why the entry was struck out."""
    return {name: getattr(record, name) for name in ("struck_at", "struck_by", "struck_reason")}


def _is_replaced(before: Entered, record: Entered, told: Sequence[str]) -> bool:
    """Whether the file says something else; what was left open before is only filled in."""
    return before.counts and any(getattr(before, name) not in (None, getattr(record, name)) for name in told)


def _strike(bulk: Bulk, model: type[Entry], key: int) -> None:
    bulk.changed += 1
    reason = _("a house file says otherwise")
    values = {"struck_at": bulk.rows.now, "struck_by": bulk.rows.actor.name, "struck_reason": reason}
    model.objects.filter(pk=key).update(**values)


def _complete(bulk: Bulk, model: type[Entry], old: dict[str, Any], key: int, values: dict[str, Any]) -> None:
    """Fill in what the stored entry left open, or strike it out as the file has it."""
    different = {name: value for name, value in values.items() if value != old[name]}
    if different:
        bulk.changed += 1
        model.objects.filter(pk=key).update(**different)
