"""What differs between a house as it is stored and as a file has it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from django.utils.translation import gettext as _

from venue.core.labels import label_key
from venue.core.names import name_key
from venue.house_file.keys import Written, document_of, keys_of
from venue.house_file.overlay import overlaid
from venue.house_file.paths import Path
from venue.house_file.problems import Difference
from venue.house_file.records import BOOK, STOCK, Book, HouseFile
from venue.house_file.sound import place_key
from venue.house_file.writing import house_document

Entry = Mapping[str, Any]
Lists = Mapping[Path, Sequence[Difference]]
"""What differs in lists whose things are matched by their rows, by path."""
MOST_NAMED = 50
"""Of things that only one of the two has, of one list: a year of readings is not told one by one."""


def differences(stored: HouseFile, file: HouseFile) -> list[Difference]:
    """Each value that differs, section by section in the order of the file, and each thing that is only stored.

    A value that the file leaves out does not differ: it stays as it is stored.
    """
    zone, laid = file.house.time_zone, overlaid(stored, file)
    ours = house_document(replace(stored, book=Book()), zone)
    theirs = house_document(replace(laid, book=Book()), zone)
    lists = {path: list(_compared_records(path, *both, zone)) for path, both in _lists(stored, laid).items()}
    book = [
        difference
        for name in BOOK
        for difference in _compared_records((name,), getattr(stored.book, name), getattr(laid.book, name), zone)
    ]
    return [*_compared((), ours, theirs, lists), *book]


def _lists(stored: HouseFile, laid: HouseFile) -> dict[Path, tuple[Sequence[Written], Sequence[Written]]]:
    """The lists outside the book whose records know the rows that they are, by where they stand in the file."""
    sections = (*STOCK, "units")
    found: dict[Path, Any] = {(name,): (getattr(stored, name), getattr(laid, name)) for name in sections}
    found["house", "areas"] = stored.house.setup.areas, laid.house.setup.areas
    setups = {setup.name: setup.areas for setup in stored.setups}
    for index, setup in enumerate(laid.setups):
        found["setups", index, "areas"] = setups.get(setup.name, ()), setup.areas
    positions = {position.key: position.blocked for position in stored.positions}
    for index, position in enumerate(laid.positions):
        found["positions", index, "blocked"] = positions.get(position.key, ()), position.blocked
    return found


def _compared_records(
    path: Path, stored: Sequence[Written], file: Sequence[Written], zone: str
) -> Iterator[Difference]:
    """Records of one list, matched by their rows."""
    by_row, new = {each.row: each for each in stored}, list[Difference]()
    for index, record in enumerate(file):
        here = (*path, index)
        if record.row is None:
            new.append(Difference(here, None, document_of(record, zone)))
        else:
            yield from _compared_record(here, by_row.pop(record.row), record, zone)
    yield from _named(path, new, is_file=True)
    yield from _named(path, [Difference(path, document_of(each, zone), None) for each in by_row.values()])


def _named(path: Path, only: list[Difference], *, is_file: bool = False) -> Iterator[Difference]:
    yield from only[:MOST_NAMED]
    more = len(only) - MOST_NAMED
    if more > 0:
        words = _("and %(more)s more") % {"more": more}
        yield Difference(path, None, words) if is_file else Difference(path, words, None)


def _compared_record(path: Path, stored: Written, file: Written, zone: str) -> Iterator[Difference]:
    if stored == file:
        return
    ours, theirs = document_of(stored, zone), document_of(file, zone)
    lists = {each.name: each.field for each in keys_of(type(file)) if each.is_list}
    for key in dict.fromkeys([*theirs, *ours]):
        if key in lists:
            field = lists[key]
            yield from _compared_records((*path, key), getattr(stored, field), getattr(file, field), zone)
        elif ours.get(key) != theirs.get(key):
            yield Difference((*path, key), ours.get(key), theirs.get(key))


def _compared(path: Path, stored: Entry, file: Entry, lists: Lists) -> Iterator[Difference]:
    for key in dict.fromkeys([*file, *stored]):
        here, ours, theirs = (*path, key), stored.get(key), file.get(key)
        if here in lists:
            yield from lists[here]
        elif key in _KEYS and not isinstance(ours or theirs, str):
            yield from _compared_lists(here, ours or [], theirs or [], lists)
        elif isinstance(ours, dict) and isinstance(theirs, dict):
            yield from _compared(here, ours, theirs, lists)
        elif ours != theirs:
            yield Difference(here, ours, theirs)


def _compared_lists(path: Path, stored: Sequence[Entry], file: Sequence[Entry], lists: Lists) -> Iterator[Difference]:
    key_of = _KEYS[str(path[-1])]
    ours = {key_of(entry): entry for entry in stored}
    theirs = {key_of(entry): entry for entry in file}
    for index, (key, entry) in enumerate(theirs.items()):
        if key in ours:
            yield from _compared((*path, index), ours[key], entry, lists)
        else:
            yield Difference((*path, index), None, entry)
    yield from (Difference(path, entry, None) for key, entry in ours.items() if key not in theirs)
    if path == ("positions",):
        common = [key for key in ours if key in theirs]
        yield from _other_order(path, common, [key for key in theirs if key in ours])


def _other_order(path: Path, stored: list[Any], file: list[Any]) -> Iterator[Difference]:
    if stored != file:
        yield Difference(path, stored, file)


_KEYS: dict[str, Callable[[Entry], Any]] = {
    "setups": lambda setup: setup["name"],
    "positions": lambda position: name_key(position["name"]),
    "slots": lambda slot: label_key(slot["label"]),
    "placements": lambda stay: (
        name_key(stay["unit"]),
        stay.get("elsewhere") or place_key(stay["position"], stay["label"]),
        stay["from"],
    ),
}
"""What tells the entries of a list apart."""
