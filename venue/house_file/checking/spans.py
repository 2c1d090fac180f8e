"""Spans of time of one thing that must not overlap."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from venue.house_file.paths import Path, json_path
from venue.house_file.problems import Problem

ALWAYS = datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True)
class Span:
    """From an instant until before another (None: no end), at a path; what is only stored has an empty one."""

    path: Path
    starts_at: datetime
    ends_at: datetime | None

    @property
    def end(self) -> datetime:
        return ALWAYS if self.ends_at is None else self.ends_at


def overlaps(spans: Iterable[tuple[object, Span]], code: str) -> Iterator[Problem]:
    """Each span that overlaps an earlier one of the same thing; of two of which one is stored, the file's."""
    last: dict[object, Span] = {}
    for thing, span in sorted(spans, key=lambda each: each[1].starts_at):
        before = last.get(thing)
        if before is not None and span.starts_at < before.end:
            mine, other = (span, before) if span.path else (before, span)
            if mine.path:
                yield Problem(mine.path, code, {"other": where(other.path)})
        if before is None or span.end > before.end:
            last[thing] = span


def where(path: Path) -> str:
    """The path, or "" for what is only stored."""
    return json_path(path) if path else ""
