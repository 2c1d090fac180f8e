"""Names, labels and tags: each once, as people compare them; and each that is referred to is there."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from venue.core.labels import label_key, stored_sort_key
from venue.core.names import name_key
from venue.house_file.paths import Path, json_path
from venue.house_file.problems import Problem
from venue.house_file.sound import Entry, SoundPart, entries_of, place_key

USUAL_SETUP = "Usual"
"""The name of a house's own set-up where the file gives none."""


@dataclass(frozen=True)
class Naming:
    """How a kind of name is compared. `longest` are the room for the key and for its sort key."""

    code: str
    key: Callable[[str], str]
    longest: int
    longest_sort_key: int | None = None

    def fits(self, text: str) -> bool:
        """Whether the keys made from the text can be kept."""
        if len(self.key(text)) > self.longest:
            return False
        return self.longest_sort_key is None or len(stored_sort_key(text)) <= self.longest_sort_key


POSITION = Naming("duplicate-position", name_key, 160)
LABEL = Naming("duplicate-label", label_key, 80, 320)
TAG = Naming("duplicate-unit", name_key, 80)
SETUP = Naming("duplicate-setup", str.strip, 80)
LAMP_KIND = Naming("duplicate-lamp-kind", name_key, 160)
LAMP = Naming("duplicate-lamp", name_key, 160)

_OF_A_UNIT = ("placements", "meters", "readings", "hours_added", "faults", "log", "care_plans", "light_readings")
_PARTS_OF_A_UNIT = {"lamps": "fitted", "care_plans": "done"}


def name_problems(part: SoundPart) -> Iterator[Problem]:
    """Names that stand twice, or that leave nothing to tell them by."""
    yield from named_once(names_in(part.entries("positions"), "name"), POSITION)
    for path, position in part.entries("positions"):
        yield from named_once(names_in(entries_of(path, position, "slots"), "label"), LABEL)
    yield from named_once(names_in(part.entries("units"), "tag"), TAG)
    yield from named_once([_own_setup(part), *names_in(part.entries("setups"), "name")], SETUP)
    for path, setup in setups_in(part):
        zones = [((*path, "zones", name), name) for name in setup.get("zones", {})]
        yield from named_once(zones, POSITION)


def _own_setup(part: SoundPart) -> tuple[Path, str]:
    return ("house", "setup_name"), part.house.get("setup_name", USUAL_SETUP)


def setups_in(part: SoundPart) -> list[Entry]:
    """The house's usual set-up and the others."""
    return [(("house",), part.house), *part.entries("setups")]


def names_in(entries: Iterable[Entry], field: str) -> Iterator[tuple[Path, str]]:
    """What the entries have in the field, with its path."""
    return (((*path, field), entry[field]) for path, entry in entries if field in entry)


def named_once(named: Iterable[tuple[Path, str]], naming: Naming) -> Iterator[Problem]:
    """Names that leave nothing to tell by, that can't be kept, or that stand twice."""
    first: dict[str, Path] = {}
    for path, text in named:
        key = naming.key(text)
        if not key:
            yield Problem(path, "nothing-to-tell-by", {"value": text})
        elif not naming.fits(text):
            yield Problem(path, "too-long-written-out", {"value": text})
        elif key in first:
            yield Problem(path, naming.code, {"value": text, "first": json_path(first[key])})
        first.setdefault(key, path)


def reference_problems(part: SoundPart) -> Iterator[Problem]:
    """Names that stand for nothing in the file."""
    if part.is_complete_in_names:
        yield from _unknown_units(part)
        yield from _unknown_places(part)
        yield from _unknown_zones(part)
        yield from _unknown_lamp_kinds(part)


def _unknown_units(part: SoundPart) -> Iterator[Problem]:
    known = {name_key(unit["tag"]) for _path, unit in part.entries("units") if "tag" in unit}
    for path, entry in _naming_a_unit(part):
        if "unit" in entry and name_key(entry["unit"]) not in known:
            yield Problem((*path, "unit"), "unknown-unit", {"value": entry["unit"]})


def _naming_a_unit(part: SoundPart) -> Iterator[Entry]:
    yield from ((slot.path, slot.fields) for slot in part.slots())
    for section in _OF_A_UNIT:
        yield from part.entries(section)
    for section, inside in _PARTS_OF_A_UNIT.items():
        for path, entry in part.entries(section):
            yield from entries_of(path, entry, inside)


def _unknown_places(part: SoundPart) -> Iterator[Problem]:
    keys = {slot.key for slot in part.slots()}
    positions = _position_keys(part)
    for path, entry in _naming_a_place(part):
        key = place_key(entry.get("position"), entry.get("label"))
        if "position" in entry and name_key(entry["position"]) not in positions:
            yield Problem((*path, "position"), "unknown-position", {"value": entry["position"]})
        elif key is not None and key not in keys:
            facts = {"value": entry["label"], "position": entry["position"]}
            yield Problem((*path, "label"), "unknown-label", facts)


def _naming_a_place(part: SoundPart) -> Iterator[Entry]:
    yield from part.entries("placements")
    for slot in part.slots():
        if "operated_from" in slot.fields:
            yield (*slot.path, "operated_from"), slot.fields["operated_from"]


def _position_keys(part: SoundPart) -> set[str]:
    return {name_key(position["name"]) for _path, position in part.entries("positions") if "name" in position}


def _unknown_zones(part: SoundPart) -> Iterator[Problem]:
    known = _position_keys(part)
    for path, setup in setups_in(part):
        for name in setup.get("zones", {}):
            if name_key(name) not in known:
                yield Problem((*path, "zones", name), "unknown-position", {"value": name})


def _unknown_lamp_kinds(part: SoundPart) -> Iterator[Problem]:
    known = {name_key(kind["name"]) for _path, kind in part.entries("lamp_kinds") if "name" in kind}
    for path, lamp in part.entries("lamps"):
        if "kind" in lamp and name_key(lamp["kind"]) not in known:
            yield Problem((*path, "kind"), "unknown-lamp-kind", {"value": lamp["kind"]})
