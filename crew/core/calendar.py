"""Calls as entries of a calendar: RFC 5545, with RFC 5546 for what was called off and RFC 7986 for identifiers.

Times are instants in UTC (3.3.5, form 2), which every reader shows right by its own clocks: no VTIMEZONE can be read
wrongly or grow old, and the second of two equal wall times can be said, which a TZID can not: it means the first.
The house's wall times are told in words.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Literal
from uuid import UUID, uuid5

Method = Literal["PUBLISH", "CANCEL"]

CALLS = UUID("5d3c1e0a-4f0b-4b62-9d3a-6a0f0c1e7b21")
"""Within it the identifiers of calls are reckoned. It never changes: every calendar would have all calls twice."""
LINE_BREAKS = re.compile("\r\n|[\r\v\f\x1c-\x1e\x85\u2028\u2029]")
NOT_TEXT = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True)
class Organizer:
    """Who called: the roster, by its reference, which names neither user nor host nor domain."""

    ref: UUID
    name: str

    @property
    def address(self) -> str:
        return self.ref.urn


@dataclass(frozen=True)
class Entry:
    """One call of one person, or of a house. A later state of it has the same `uid` and a higher `sequence`."""

    uid: UUID
    sequence: int
    summary: str
    starts: datetime
    ends: datetime
    location: str
    description: tuple[str, ...]
    is_cancelled: bool
    changed_at: datetime
    organizer: Organizer

    @property
    def status(self) -> str:
        return "CANCELLED" if self.is_cancelled else "CONFIRMED"

    @property
    def transparency(self) -> str:
        """What was called off keeps nobody busy."""
        return "TRANSPARENT" if self.is_cancelled else "OPAQUE"

    @property
    def method(self) -> Method:
        """What a file of this entry alone asks for: RFC 5546, 3.2.1 and 3.2.5. A feed only ever publishes."""
        return "CANCEL" if self.is_cancelled else "PUBLISH"


def entry_uid(*refs: UUID) -> UUID:
    """The identifier that stands for these rows together for good, and tells nothing of them (RFC 7986, 5.3)."""
    return uuid5(CALLS, "/".join(map(str, refs)))


def sequence_of(*versions: int) -> int:
    """A number that rises whenever one of the versions does. Rows only ever come to it."""
    return sum(versions)


def last_change(times: Iterable[datetime | None], otherwise: datetime) -> datetime:
    """The latest of the times that are known."""
    return max((at for at in times if at is not None), default=otherwise)


def plain(text: str) -> str:
    """The text with line feeds for all line breaks, and without characters that TEXT may not hold."""
    return NOT_TEXT.sub("", LINE_BREAKS.sub("\n", text))


def escaped(text: str) -> str:
    r"""The text as TEXT: `\`, `;` and `,` with a `\` before them, a line break as `\n`, a colon bare (3.3.11)."""
    return re.sub(r"([\\;,])", r"\\\1", plain(text)).replace("\n", r"\n")
