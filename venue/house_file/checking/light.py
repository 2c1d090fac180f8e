"""Circuits, filters, sizes, areas, what is in the way and what a position sees: names once, names known, real areas."""

from collections.abc import Iterator
from typing import Any

from venue.core.labels import label_key
from venue.core.names import name_key
from venue.core.polygons import PolygonProblem, convex_pieces
from venue.house_file.checking.names import Naming, named_once, names_in, setups_in
from venue.house_file.paths import Path
from venue.house_file.problems import Problem
from venue.house_file.sound import SoundPart, entries_of

CIRCUIT = Naming("duplicate-circuit", name_key, 120)
FILTER = Naming("duplicate-filter", name_key, 80)
SIZE = Naming("duplicate-size", str, 20)
AREA = Naming("duplicate-area", name_key, 120)
MOST_CIRCUITS_NAMED = 20
"""Of those that are known, where one is not."""


def light_problems(part: SoundPart) -> Iterator[Problem]:
    """Everything that is wrong with them."""
    yield from named_once(names_in(part.entries("circuits"), "name"), CIRCUIT)
    yield from named_once(names_in(part.entries("filters"), "code"), FILTER)
    yield from named_once(names_in(part.entries("sizes"), "size"), SIZE)
    for path, setup in setups_in(part):
        yield from named_once(names_in(entries_of(path, setup, "areas"), "name"), AREA)
        for area_path, area in entries_of(path, setup, "areas"):
            yield from _outline_problems(area_path, area, is_needed=True)
    for path, position in part.entries("positions"):
        yield from _view_problems(path, position)
        for blockage_path, blockage in entries_of(path, position, "blocked"):
            yield from _outline_problems(blockage_path, blockage)
    if part.is_complete_in_names:
        yield from _unknown_circuits(part)
        yield from _unknown_places(part)


def _outline_problems(path: Path, entry: dict[str, Any], *, is_needed: bool = False) -> Iterator[Problem]:
    """Corners that are no area; what is in the way may have none."""
    corners = entry.get("corners")
    if corners is None or (not corners and not is_needed) or None in corners or any(None in each for each in corners):
        return
    try:
        convex_pieces(tuple((float(x), float(y)) for x, y in corners))
    except PolygonProblem as problem:
        yield Problem((*path, "corners"), problem.code)


def _view_problems(path: Path, position: dict[str, Any]) -> Iterator[Problem]:
    """A view that ends upstage before it begins downstage."""
    down, up = position.get("farthest_downstage_m"), position.get("farthest_upstage_m")
    if down is not None and up is not None and down >= up:
        facts = {"downstage": down, "upstage": up}
        yield Problem((*path, "farthest_downstage_m"), "downstage-past-upstage", facts)


def _unknown_circuits(part: SoundPart) -> Iterator[Problem]:
    names = [circuit["name"] for _path, circuit in part.entries("circuits") if "name" in circuit]
    known = {name_key(name) for name in names}
    for slot in part.slots():
        circuit = slot.fields.get("circuit")
        if circuit is not None and name_key(circuit) not in known:
            facts = {"value": circuit, "circuits": tuple(names[:MOST_CIRCUITS_NAMED])}
            yield Problem((*slot.path, "circuit"), "unknown-circuit", facts)


def _unknown_places(part: SoundPart) -> Iterator[Problem]:
    for path, position in part.entries("positions"):
        labels = {label_key(slot["label"]) for _path, slot in entries_of(path, position, "slots") if "label" in slot}
        for blockage_path, blockage in entries_of(path, position, "blocked"):
            if "place" in blockage and label_key(blockage["place"]) not in labels:
                facts = {"value": blockage["place"], "position": position.get("name", "")}
                yield Problem((*blockage_path, "place"), "unknown-label", facts)
