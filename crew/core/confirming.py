"""Whether what somebody confirmed on one revision of a call sheet still holds on a later one.

What concerns a person is the own line and what everybody does: when, where, whether at all. What a sheet says of
others, of its notice's kind or of a landmark touches nobody's confirmation.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from crew.core.call_sheet import CallSheet, SheetLine

EVERYBODY = (
    *(
        "show",
        "event",
        "zone",
        "starts",
        "ends",
        "call",
        "released",
        "meal",
        "place",
        "talk",
        "talk_place",
        "notes",
        "weather",
        "notice",
        "called_off",
    ),
)
"""Facts of the sheet as a whole that concern everybody on it."""
Key = tuple[str, int]
"""Show number and seat of a line."""


@dataclass(frozen=True)
class Confirmed:
    """A confirmation of revision `n`, given by `by`."""

    n: int
    by: str


def concerns_alike(old: CallSheet, new: CallSheet, key: Key) -> bool:
    """Whether the person on the line reads the same on both sheets; False where the line is not on both."""
    before, after = line_of(old, key), line_of(new, key)
    if before is None or after is None:
        return False
    return _own(before) == _own(after) and all(getattr(old, name) == getattr(new, name) for name in EVERYBODY)


def _own(line: SheetLine) -> SheetLine:
    """The line without who is beside it and where a drawing puts it."""
    return replace(line, neighbors=(), position_zone="", house_side="", row=0, bearing_deg=0)


def line_of(sheet: CallSheet, key: Key) -> SheetLine | None:
    """The line of the number and seat."""
    return next((line for line in sheet.lines if line.key == key), None)


def touched(old: CallSheet, new: CallSheet) -> list[Key]:
    """The lines of the new sheet whose person has to look again, in its order."""
    return [line.key for line in new.lines if not concerns_alike(old, new, line.key)]


def still_confirmed(
    sheets: Mapping[int, CallSheet], confirmed: Iterable[tuple[Key, Confirmed]], latest: int
) -> dict[Key, Confirmed]:
    """The lines of the latest revision that are confirmed, by the last confirmation that holds for it.

    `sheets` are the revisions by number, at least those that were confirmed and the latest.
    """
    found: dict[Key, Confirmed] = {}
    for key, each in confirmed:
        is_later = key not in found or found[key].n <= each.n
        if is_later and concerns_alike(sheets[each.n], sheets[latest], key):
            found[key] = each
    return found
