"""The book's sections as records, in our words: the waits, kinds and limits that we know."""

import re
from dataclasses import replace

from venue.core.names import name_key
from venue.house_file.book.limits import with_known_limit
from venue.house_file.keys import read_all
from venue.house_file.records.care import EntryName, LogRecord
from venue.house_file.records.file import BOOK, Book
from venue.house_file.records.hours import LampKindRecord, LampRecord
from venue.house_file.sound import SoundPart

LOG_KINDS = ("clean", "align", "relamp", "repair", "inspect", "electrical-test", "light-reading", "other")
WARN_AT = 0.8
"""Share of the rated hours, as warned of unless a house says otherwise."""


def book_in(part: SoundPart) -> Book:
    """What the file says; entries that lost a value are passed over."""
    found = {name: read_all(kind, part.document, name, hurt=part.hurt) for name, kind in BOOK.items()}
    book = Book(**found)  # type: ignore[arg-type]
    return replace(
        book,
        lamp_kinds=tuple(map(_lamp_kind, book.lamp_kinds)),
        lamps=tuple(map(_lamp, book.lamps)),
        faults=tuple(replace(with_known_limit(each), entry=_named(each.entry)) for each in book.faults),
        log=tuple(map(_log_entry, book.log)),
        care_plans=tuple(
            replace(plan, done=tuple(replace(each, entry=_named(each.entry)) for each in plan.done))
            for plan in book.care_plans
        ),
        light_readings=tuple(replace(each, entry=_named(each.entry)) for each in book.light_readings),
    )


def _lamp_kind(kind: LampKindRecord) -> LampKindRecord:
    """Where only the stop is given the warning comes no later."""
    return kind if "warn_at" in kind.given else replace(kind, warn_at=min(WARN_AT, kind.stop_at))


def _lamp(lamp: LampRecord) -> LampRecord:
    return replace(lamp, fitted=tuple(replace(each, lamp=lamp.serial) for each in lamp.fitted))


def _log_entry(entry: LogRecord) -> LogRecord:
    """A kind that we don't know is kept as something else, its word before the text."""
    kind = known_kind(entry.kind)
    if kind is not None:
        return replace(entry, kind=kind)
    text = f"{entry.kind}: {entry.text}" if entry.text else entry.kind
    return replace(entry, kind="other", text=text, given=entry.given | {"text"})


def _named(entry: EntryName | None) -> EntryName | None:
    return None if entry is None else replace(entry, kind=known_kind(entry.kind) or "other")


def known_kind(text: str) -> str | None:
    """The kind of log entry that the text names, however it is spelled; None for another."""
    kind = re.sub(r"[\s_-]+", "-", name_key(text))
    return kind if kind in LOG_KINDS else None
