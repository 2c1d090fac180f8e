"""Whom a new revision of a call sheet concerns: those whose own part, or what everybody does, reads differently."""

from collections.abc import Iterable
from dataclasses import dataclass

from crew.core.call_sheet import CallSheet
from crew.core.confirming import Key, Named, bare_of, touched


@dataclass(frozen=True)
class Concerned:
    """Lines by show number and seat; people without a number by their names."""

    keys: frozenset[tuple[str, int]]
    names: frozenset[str]


def concerned(old: CallSheet | None, new: CallSheet) -> Concerned:
    """Who has to look at the new revision; everybody where it is the first."""
    if old is None:
        return Concerned(frozenset(line.key for line in new.lines), frozenset(name for name, *_more in bare_of(new)))
    return _split(touched(old, new))


def _split(keys: Iterable[Key]) -> Concerned:
    found = list(keys)
    names = frozenset(key.name for key in found if isinstance(key, Named))
    return Concerned(frozenset(key for key in found if not isinstance(key, Named)), names)
