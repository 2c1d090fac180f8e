"""Log entries with their attachments as rows."""

from typing import Any

from venue.core.attached import clean_name, type_of
from venue.core.names import name_key
from venue.house_file.book.bulk import Bulk
from venue.house_file.book.entries import as_entered
from venue.house_file.book.naming import EntryNames
from venue.house_file.keys import columns_of
from venue.house_file.records.care import AttachmentRecord, EntryName, LogRecord
from venue.house_file.records.file import Book
from venue.models import Attachment, LogEntry


class Entries:
    """The stored log entries, as other records name them."""

    def __init__(self, bulk: Bulk, book: Book) -> None:
        self._bulk, self._names = bulk, EntryNames(book.log)
        self._before = EntryNames(bulk.stored.log)

    def key_of(self, about: tuple[str, str], name: EntryName | None, *, is_stored: bool) -> int | None:
        """The primary key of the entry of that name; one that stood before counts among those that did."""
        if name is None:
            return None
        names = self._before if is_stored else self._names
        return self._bulk.key_of(names.entry(about, name))


def load_log(bulk: Bulk, book: Book, fittings: dict[Any, int | None]) -> Entries:
    """Bring the log to what the book says."""
    units, house = bulk.rows.units, bulk.rows.house

    def fitting(entry: LogRecord) -> int | None:
        if entry.fitting is None:
            return None
        return fittings.get((name_key(entry.fitting.lamp), name_key(entry.unit), entry.fitting.from_at))

    def columns(entry: LogRecord) -> dict[str, Any]:
        own = columns_of(entry, "unit", "entered_at", "entered_by")
        unit_id = units[name_key(entry.unit)].pk if entry.unit else None
        return {
            **own,
            **columns_of(entry.answers),
            "house_id": house.pk,
            "unit_id": unit_id,
            "fitting_id": fitting(entry),
        }

    before = {each.row: each for each in bulk.stored.log}
    bulk.put_among("log", LogEntry, before, [each for each in book.log if each.row is not None], columns)
    new = [each for each in book.log if each.row is None]
    bulk.create("log", LogEntry, [(each, columns(each) | as_entered(bulk, each)) for each in new])
    _load_attachments(bulk, book)
    return Entries(bulk, book)


def _load_attachments(bulk: Bulk, book: Book) -> None:
    new = [
        (each, {"entry_id": bulk.key_of(entry), **_attachment(bulk, each)})
        for entry in book.log
        for each in entry.attachments
        if each.row is None
    ]
    bulk.create("attachments", Attachment, new)


def _attachment(bulk: Bulk, attached: AttachmentRecord) -> dict[str, Any]:
    """The columns; the type is told by the first bytes."""
    content_type = type_of(attached.content) or ""
    return {
        "name": clean_name(attached.name, content_type),
        "content_type": content_type,
        "size": len(attached.content),
        "content": attached.content,
        "added_at": attached.added_at or bulk.rows.now,
        "added_by": attached.added_by,
    }
