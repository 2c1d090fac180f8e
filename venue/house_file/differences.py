"""What differs between a house as it is stored and as a file has it."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from venue.core.labels import label_key
from venue.core.names import name_key
from venue.house_file.overlay import overlaid
from venue.house_file.paths import Path
from venue.house_file.problems import Difference
from venue.house_file.records import HouseFile
from venue.house_file.sound import place_key
from venue.house_file.writing import house_document

Entry = Mapping[str, Any]


def differences(stored: HouseFile, file: HouseFile) -> list[Difference]:
    """Each value that differs, section by section in the order of the file, and each thing that is only stored.

    A value that the file leaves out does not differ: it stays as it is stored.
    """
    zone = file.house.time_zone
    ours, theirs = house_document(stored, zone), house_document(overlaid(stored, file), zone)
    return list(_compared((), ours, theirs))


def _compared(path: Path, stored: Entry, file: Entry) -> Iterator[Difference]:
    for key in dict.fromkeys([*file, *stored]):
        ours, theirs = stored.get(key), file.get(key)
        if key in _KEYS and not isinstance(ours or theirs, str):
            yield from _compared_lists((*path, key), ours or [], theirs or [])
        elif isinstance(ours, dict) and isinstance(theirs, dict):
            yield from _compared((*path, key), ours, theirs)
        elif ours != theirs:
            yield Difference((*path, key), ours, theirs)


def _compared_lists(path: Path, stored: Sequence[Entry], file: Sequence[Entry]) -> Iterator[Difference]:
    key_of = _KEYS[str(path[-1])]
    ours = {key_of(entry): entry for entry in stored}
    theirs = {key_of(entry): entry for entry in file}
    for index, (key, entry) in enumerate(theirs.items()):
        if key in ours:
            yield from _compared((*path, index), ours[key], entry)
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
    "units": lambda unit: name_key(unit["tag"]),
    "placements": lambda stay: (
        name_key(stay["unit"]),
        place_key(stay["position"], stay["label"]),
        stay["from"],
    ),
}
"""What tells the entries of a list apart."""
