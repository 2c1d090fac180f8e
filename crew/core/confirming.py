"""Whether what somebody confirmed on one revision of a call sheet still holds on a later one.

What concerns a person is the own line, or without a number the own entry, and what everybody does: when, where,
whether at all. What a sheet says of others, of its notice's kind or of a landmark touches nobody's confirmation.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

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


@dataclass(frozen=True)
class Named:
    """Somebody without a number: a head spot, a spare, a runner, or an operator who hears it at the spot talk.

    A sheet knows them by name alone. Two of one name can't be told apart on it: they are one key, which is confirmed
    when each of them has, and both look again when one's entry changes.
    """

    name: str


NOT_OWN: Mapping[str, Any] = dict.fromkeys(
    ("neighbors", "position_zone", "house_side", "row", "bearing_deg", "tickets", "unit_source")
)
"""Facts of a line that send nobody back to it."""
Key = tuple[str, int] | Named
"""Show number and seat of a line, or who has no number."""


@dataclass(frozen=True)
class Confirmed:
    """A confirmation of revision `n`, given by `by`. `line` tells apart those of one name."""

    n: int
    by: str
    line: int = field(default=0, compare=False)


def concerns_alike(old: CallSheet, new: CallSheet, key: Key) -> bool:
    """Whether the person reads the same on both sheets; False where the key is not on both."""
    before, after = _own(old, key), _own(new, key)
    if not before or not after:
        return False
    return before == after and all(getattr(old, name) == getattr(new, name) for name in EVERYBODY)


def _own(sheet: CallSheet, key: Key) -> SheetLine | list[tuple[str, str]] | None:
    """What the sheet says of the key alone.

    Of a line without who is beside it, where a drawing puts it, and what its operator knows anyway: what they hold.
    """
    if isinstance(key, Named):
        return sorted((role, call) for name, role, call in bare_of(sheet) if name == key.name)
    line = line_of(sheet, key)
    return line and replace(line, **NOT_OWN)


def line_of(sheet: CallSheet, key: tuple[str, int]) -> SheetLine | None:
    """The line of the number and seat."""
    return next((line for line in sheet.lines if line.key == key), None)


def bare_of(sheet: CallSheet) -> list[tuple[str, str, str]]:
    """Name, role ("" for an operator) and own call time ("" where it is everybody's) of all without a number."""
    calls = sheet.talk_calls or ("",) * len(sheet.at_spot_talk)
    talk = [(name, "", call) for name, call in zip(sheet.at_spot_talk, calls, strict=True)]
    found = [*talk, *((hand.name, hand.role, hand.call) for hand in sheet.hands)]
    return [each for each in found if each[0]]


def keys_of(sheet: CallSheet) -> list[Key]:
    """Everybody who is to confirm the sheet, in its order: whoever is on a number, then those without one."""
    return [*(line.key for line in sheet.lines if line.operator), *(Named(name) for name, *_more in bare_of(sheet))]


def touched(old: CallSheet, new: CallSheet) -> list[Key]:
    """The lines of the new sheet, and those without a number, that read otherwise, in its order, each once."""
    keys: list[Key] = [*(line.key for line in new.lines), *(Named(name) for name, *_more in bare_of(new))]
    return [key for key in dict.fromkeys(keys) if not concerns_alike(old, new, key)]


def still_confirmed(
    sheets: Mapping[int, CallSheet], confirmed: Iterable[tuple[Key, Confirmed]], latest: int
) -> dict[Key, Confirmed]:
    """What of the latest revision is confirmed, by the last confirmation that holds for it.

    `sheets` are the revisions by number, at least those that were confirmed and the latest.
    """
    found: dict[Key, dict[int, Confirmed]] = defaultdict(dict)
    for key, each in confirmed:
        before = found[key].get(each.line)
        if (before is None or before.n <= each.n) and concerns_alike(sheets[each.n], sheets[latest], key):
            found[key][each.line] = each
    wanted = keys_of(sheets[latest])
    return {
        key: max(held.values(), key=lambda each: each.n)
        for key, held in found.items()
        if held and len(held) >= wanted.count(key)
    }
