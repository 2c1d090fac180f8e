"""Whom a new revision of a call sheet concerns: those whose own part, or what everybody does, reads differently."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from crew.core.call_sheet import CallSheet
from crew.core.confirming import EVERYBODY, Key, touched


@dataclass(frozen=True)
class Concerned:
    """Lines by show number and seat; people without a number by their names."""

    keys: frozenset[Key]
    names: frozenset[str]


def concerned(old: CallSheet | None, new: CallSheet) -> Concerned:
    """Who has to look at the new revision; everybody where it is the first."""
    if old is None or any(getattr(old, name) != getattr(new, name) for name in EVERYBODY):
        return Concerned(frozenset(line.key for line in new.lines), frozenset(name for name, *_ in _bare(new)))
    others = Counter(_bare(new)) - Counter(_bare(old))
    return Concerned(frozenset(touched(old, new)), frozenset(name for name, *_ in others))


def _bare(sheet: CallSheet) -> Iterator[tuple[str, str, str]]:
    """Name, role and own call time of everybody without a number."""
    calls = sheet.own_calls
    yield from ((name, "", calls.get(name, "")) for name in sheet.at_spot_talk)
    yield from ((hand.name, hand.role, hand.call) for hand in sheet.hands)
