"""What is left of a document once every faulty value is taken out: the rest can still be checked."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from venue.core.bearings import bearing_about
from venue.core.labels import label_key
from venue.core.names import name_key
from venue.house_file.paths import Path
from venue.house_file.problems import Problem

Entry = tuple[Path, dict[str, Any]]
"""An object of the document with its path."""

DEFAULT_TARGET = (0.0, 0.0, 1.5)
_NAMING = {"name", "tag", "label", "positions", "slots", "units", "lamp_kinds", "circuits"}


@dataclass(frozen=True)
class SoundPart:
    """A document in which each value that is there has the format's shape; anything may be missing.

    `hurt` are the paths of objects that lost a value; `is_complete_in_names` whether every name, tag and label
    that the file gives could be read, so that one not found is really not there.
    """

    document: dict[str, Any]
    hurt: frozenset[Path]
    is_complete_in_names: bool

    @property
    def house(self) -> dict[str, Any]:
        found = self.document.get("house", {})
        return found if isinstance(found, dict) else {}

    @property
    def target(self) -> tuple[float, ...]:
        """The usual set-up's target [m]."""
        given = self.house.get("target", DEFAULT_TARGET)
        return DEFAULT_TARGET if None in given else tuple(given)

    @property
    def time_zone(self) -> str:
        return str(self.house.get("time_zone", "UTC"))

    def is_whole(self, *sections: str) -> bool:
        """Whether no value of the sections was taken out."""
        return not any(not path or path[0] in sections for path in self.hurt)

    def entries(self, section: str) -> Iterator[Entry]:
        """The objects of a section."""
        return entries_of((), self.document, section)

    def slots(self) -> Iterator["Slot"]:
        """Every slot of every position, in the order of the file."""
        for path, position in self.entries("positions"):
            for slot_path, slot in entries_of(path, position, "slots"):
                yield Slot(slot_path, slot, path, position)

    def zone_of(self, position: dict[str, Any]) -> str:
        """The position's zone in the usual set-up."""
        changed = {name_key(name): zone for name, zone in self.house.get("zones", {}).items()}
        given = changed.get(name_key(position.get("name", "")), position.get("zone"))
        return given or default_zone(self.house.get("layout", ""))


@dataclass(frozen=True)
class Slot:
    """A slot with its path, its position and the position's path."""

    path: Path
    fields: dict[str, Any]
    position_path: Path
    position: dict[str, Any]

    @property
    def key(self) -> tuple[str, str] | None:
        """What tells the place from all others; None if the file does not say."""
        return place_key(self.position.get("name"), self.fields.get("label"))

    @property
    def has_coordinates(self) -> bool:
        return {"x_m", "y_m", "z_m"} <= self.fields.keys()

    @property
    def is_nowhere(self) -> bool:
        """Whether the slot says nothing of where it is."""
        return not self.has_coordinates and not {"bearing_deg", "order"} & self.fields.keys()

    def bearing(self, target: tuple[float, ...]) -> float | None:
        """The bearing as given, else from x and y about the target [degrees]."""
        if "bearing_deg" in self.fields:
            return float(self.fields["bearing_deg"])
        if self.has_coordinates:
            return bearing_about(self.fields["x_m"], self.fields["y_m"], target[0], target[1])
        return None


def default_zone(layout: str) -> str:
    """The zone of a position that names none."""
    return "bowl" if layout == "bowl" else "front"


def place_key(position: str | None, label: str | None) -> tuple[str, str] | None:
    """What two ways to write one place share: its position's name and its label, each as people compare them."""
    if position is None or label is None:
        return None
    return name_key(position), label_key(label)


def entries_of(path: Path, parent: dict[str, Any], section: str) -> Iterator[Entry]:
    """The objects of the list `section` of the object `parent`, which stands at `path`."""
    for index, entry in enumerate(parent.get(section) or ()):
        if entry is not None:
            yield (*path, section, index), entry


def sound_part(document: Any, problems: Iterable[Problem]) -> SoundPart:
    """The document without the values that the problems name. The document itself is changed."""
    paths = [problem.path for problem in problems]
    for path in paths:
        _take_out(document, path)
    whole = document if isinstance(document, dict) and () not in paths else {}
    complete = not any(path and (path[-1] in _NAMING or isinstance(path[-1], int)) for path in paths)
    return SoundPart(whole, frozenset(path[:-1] for path in paths if path), complete)


def _take_out(document: Any, path: Path) -> None:
    if not path:
        return
    *way, last = path
    parent = document
    for step in way:
        parent = _child(parent, step)
    if isinstance(parent, dict):
        parent.pop(last, None)
    elif isinstance(parent, list):
        parent[int(last)] = None


def _child(parent: Any, step: str | int) -> Any:
    if isinstance(parent, dict):
        return parent.get(step)
    return parent[int(step)] if isinstance(parent, list) else None
