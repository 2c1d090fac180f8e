"""A house file as text: the same records give the same bytes."""

import json
from collections.abc import Iterable
from dataclasses import fields
from datetime import datetime, time
from typing import Any

from venue.core.names import name_key
from venue.house_file.checking.names import USUAL_SETUP
from venue.house_file.keys import Written, as_json, document_of
from venue.house_file.records import (
    BOOK,
    STOCK,
    ElsewhereRecord,
    HouseFile,
    HouseRecord,
    PlacementRecord,
    PositionRecord,
    SetupRecord,
    SlotRecord,
)
from venue.house_file.times import written_instant

WIDTH = 120
"""Characters of a line, where what stands on it can be broken up."""

_LEFT_OUT_IF: dict[str, Any] = {
    "day_turns_at": time(5),
    "burn_before_min": 30,
    "usual_event_min": 180,
    "use_window_days": 28,
    "twelve_deg": 0.0,
    "setup_name": USUAL_SETUP,
}
"""Keys that are written only where they say something else."""
_BEFORE_PLACEMENTS = ("lamp_kinds", "lamps", "meters", "readings", "hours_added")


def house_text(house_file: HouseFile) -> str:
    """The file: UTF-8 text with a line feed at its end."""
    return laid_out(house_document(house_file)) + "\n"


def house_document(house_file: HouseFile, zone: str = "") -> dict[str, Any]:
    """The file as JSON values, keys in the format's order, nothing written that says nothing.

    Times as clocks show them in the zone, by default the house's.
    """
    zone = zone or house_file.house.time_zone
    book = {name: [document_of(each, zone) for each in getattr(house_file.book, name)] for name in BOOK}
    sections = {
        "setups": [_setup(setup) for setup in house_file.setups],
        "positions": [_position(position) for position in house_file.positions],
        **{name: [document_of(each, zone) for each in getattr(house_file, name)] for name in STOCK},
        "units": [document_of(unit, zone) for unit in house_file.units],
        **{name: book[name] for name in _BEFORE_PLACEMENTS},
        "placements": placement_documents(house_file, zone),
        **book,
    }
    return {
        "format": "throwbook-house",
        "version": 1,
        "house": _house(house_file.house),
        **{name: entries for name, entries in sections.items() if entries or name == "positions"},
    }


def laid_out(value: Any, indent: str = "") -> str:
    """JSON text: what fits on a line stands on it, the rest an entry a line."""
    line = json.dumps(value, ensure_ascii=False, allow_nan=False)
    if len(indent) + len(line) <= WIDTH or not isinstance(value, dict | list) or not value:
        return line
    inner = indent + "  "
    if isinstance(value, dict):
        entries = [f"{json.dumps(key, ensure_ascii=False)}: {laid_out(each, inner)}" for key, each in value.items()]
        return "{\n" + ",\n".join(inner + entry for entry in entries) + "\n" + indent + "}"
    return "[\n" + ",\n".join(inner + laid_out(each, inner) for each in value) + "\n" + indent + "]"


def _house(house: HouseRecord) -> dict[str, Any]:
    named = {"name": house.name, "slug": house.slug, "time_zone": house.time_zone, "units": house.units}
    burns = ("burn_before_min", "usual_event_min", "use_window_days")
    more = {"day_turns_at": house.day_turns_at, **{name: getattr(house, name) for name in burns}}
    more |= {"tech_note": house.tech_note, "setup_name": house.setup.name}
    return {**named, **_said(more.items()), **_layout(house.setup)}


def _setup(setup: SetupRecord) -> dict[str, Any]:
    return {"name": setup.name, **_layout(setup)}


def _layout(setup: SetupRecord) -> dict[str, Any]:
    names = [each.name for each in fields(setup) if each.name not in ("name", "given", "zones", "areas")]
    said = _said((name, getattr(setup, name)) for name in names)
    return {**said, **({"zones": dict(setup.zones)} if setup.zones else {}), **_listed("areas", setup.areas)}


def _position(position: PositionRecord) -> dict[str, Any]:
    names = [each.name for each in fields(position) if each.name not in ("slots", "blocked", "given")]
    said = _said((name, getattr(position, name)) for name in names)
    return {**said, **_listed("blocked", position.blocked), "slots": [_slot(slot) for slot in position.slots]}


def _listed(name: str, records: Iterable[Written]) -> dict[str, Any]:
    """The records under their key; nothing where there are none."""
    documents = [document_of(each, "UTC") for each in records]
    return {name: documents} if documents else {}


def _slot(slot: SlotRecord) -> dict[str, Any]:
    names = [each.name for each in fields(slot) if each.name not in ("operated_from", "given")]
    said = _said((name, getattr(slot, name)) for name in names)
    if slot.operated_from is not None:
        said["operated_from"] = {"position": slot.operated_from.position, "label": slot.operated_from.label}
    return said


def placement_documents(house_file: HouseFile, zone: str) -> list[dict[str, Any]]:
    """The placements at places and elsewhere: as they stand in their file, what is only stored by time."""
    at_places = [(_order(each), _placement(each, zone)) for each in house_file.placements]
    elsewhere = [(_order(each), document_of(each, zone)) for each in house_file.elsewhere]
    return [document for _place, document in sorted([*at_places, *elsewhere], key=lambda each: each[0])]


def _order(stay: PlacementRecord | ElsewhereRecord) -> tuple[int, datetime, str]:
    index = stay.path[-1] if stay.path else -1
    return int(index), stay.starts_at, name_key(stay.unit)


def _placement(placement: PlacementRecord, zone: str) -> dict[str, Any]:
    where = {"unit": placement.unit, "position": placement.place.position, "label": placement.place.label}
    until = None if placement.ends_at is None else written_instant(placement.ends_at, zone)
    return {**where, "from": written_instant(placement.starts_at, zone), **_said([("until", until)])}


def _said(values: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    return {
        name: _json(name, value)
        for name, value in values
        if value not in (None, "") and value != _LEFT_OUT_IF.get(name)
    }


def _json(name: str, value: Any) -> Any:
    return as_json(name, value, "UTC")
