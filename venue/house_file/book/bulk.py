"""Rows of the book while a file is loaded into them: new ones in bulk, changed ones singly, each with its history."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db import IntegrityError, models, transaction

from venue.errors import AlreadyEnded
from venue.history import record as record_event
from venue.house_file.keys import Written, keys_of
from venue.house_file.records.file import Book
from venue.house_file.rows import Rows
from venue.storing import store, store_version

Columns = Callable[[Any], dict[str, Any]]
AT_ONCE = 1000
_ENDS = ("ends_at", "until_at", "closed_at", "ended_at")


@dataclass
class Bulk:
    """Writes records as rows. `stored` is what was in the book before; `made` counts what is new, by section."""

    rows: Rows
    stored: Book
    made: Counter[str] = field(default_factory=Counter)
    changed: int = 0
    _keys: dict[int, int] = field(default_factory=dict)
    _kept: list[Written] = field(default_factory=list)

    def key_of(self, record: Written | None) -> int | None:
        """The primary key of the record's row; None where it could not be stored."""
        return None if record is None else self._keys.get(id(record), record.row)

    def put(self, section: str, model: type[models.Model], records: Sequence[Written], columns: Columns) -> None:
        """Bring the section's rows to the records: what changes first, so that an end makes room."""
        before = {each.row: each for each in getattr(self.stored, section)}
        self.put_among(section, model, before, records, columns)

    def put_among(
        self,
        section: str,
        model: type[models.Model],
        before: Mapping[int | None, Written],
        records: Sequence[Written],
        columns: Columns,
    ) -> None:
        """As `put`; `before` holds the stored records by primary key."""
        for record in records:
            if record.row is not None:
                self._change(model, before[record.row], record, columns)
        self.create(section, model, [(each, columns(each)) for each in records if each.row is None])

    def create(self, section: str, model: type[models.Model], new: Sequence[tuple[Written, dict[str, Any]]]) -> None:
        """Add a row for each record."""
        if not new:
            return
        made = [model(**values) for _record, values in new]
        try:
            with transaction.atomic():
                model._base_manager.bulk_create(made, batch_size=AT_ONCE)
        except IntegrityError:
            self._create_one_by_one(model, new)
            return
        self.made[section] += len(made)
        self._keys |= {id(record): row.pk for (record, _values), row in zip(new, made, strict=True)}
        self._kept += [record for record, _values in new]  # an id is unique only while its object lives

    def _create_one_by_one(self, model: type[models.Model], new: Sequence[tuple[Written, dict[str, Any]]]) -> None:
        """Find out which of them the table refuses, and why."""
        for record, values in new:
            with self.rows.at(record.path):
                store(model(**values))

    def _change(self, model: type[models.Model], before: Written, record: Written, columns: Columns) -> None:
        values, old = columns(record), columns(before)
        different = {name: value for name, value in values.items() if value != old[name]}
        if not different:
            return
        self.changed += 1
        row: Any = model._base_manager.get(pk=record.row)
        again = next((name for name in _ENDS if name in different and values[name] is None), None)
        if again is not None:
            self.rows.refuse(_path_of(record, again), AlreadyEnded(row, old[again]))
            return
        with self.rows.at(record.path):
            self._correct(row, different, old)

    def _correct(self, row: Any, different: Mapping[str, Any], old: Mapping[str, Any]) -> None:
        for name, value in different.items():
            setattr(row, name, value)
        store_version(row, different, row.version)
        changed = {name: [old[name], value] for name, value in different.items() if not name.endswith("_id")}
        house = self.rows.house
        record_event(self.rows.actor, "book.corrected", row, house=house, subject=str(row), changed=changed)


def _path_of(record: Written, name: str) -> tuple[str | int, ...]:
    key = next(each.name for each in keys_of(type(record)) if each.field == name)
    return (*record.path, key)
