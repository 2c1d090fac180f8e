"""Log entries as other things name them: by unit or accessory, time and kind, and which of several such."""

from collections import defaultdict
from collections.abc import Iterable

from venue.house_file.records.care import EntryName, LogRecord


class EntryNames:
    """The names of log entries, given in the file's order."""

    def __init__(self, entries: Iterable[LogRecord]) -> None:
        self._entries: dict[object, list[LogRecord]] = defaultdict(list)
        for entry in entries:
            self._entries[(*entry.about, entry.at, entry.kind)].append(entry)

    def name_of(self, entry: LogRecord) -> EntryName:
        """What names the entry."""
        alike = self._entries[(*entry.about, entry.at, entry.kind)]
        return EntryName(at=entry.at, kind=entry.kind, nth=next(n for n, e in enumerate(alike, 1) if e is entry))

    def entry(self, about: tuple[str, str], name: EntryName) -> LogRecord | None:
        """The entry of that name; None if there is none."""
        alike = self._entries[(*about, name.at, name.kind)]
        return alike[name.nth - 1] if name.nth <= len(alike) else None
