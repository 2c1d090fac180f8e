"""From the bytes of a house file to its records; needs no database."""

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any, TypeVar

from django.utils.text import slugify

from venue.house_file.book.completing import Completed, completed
from venue.house_file.book.reading import book_in
from venue.house_file.checking import problems_in, warnings_in
from venue.house_file.checking.names import USUAL_SETUP
from venue.house_file.keys import read_all, read_record
from venue.house_file.parsing import parsed
from venue.house_file.paths import Path
from venue.house_file.problems import HouseFileRefused, first_at_each_path
from venue.house_file.records import (
    STOCK,
    AreaRecord,
    BlockageRecord,
    ElsewhereRecord,
    HouseFile,
    HouseRecord,
    PlacementRecord,
    PlaceName,
    PositionRecord,
    SetupRecord,
    SlotRecord,
    UnitRecord,
)
from venue.house_file.shape import is_too_large, shape_problems
from venue.house_file.sound import SoundPart, default_zone, sound_part
from venue.house_file.times import read_day, read_instant, read_wall_time

AnyRecord = TypeVar("AnyRecord", HouseRecord, SetupRecord, PositionRecord, SlotRecord, PlacementRecord)


def read_house_file(data: bytes) -> HouseFile:
    """The house that the file describes, with warnings. Raises HouseFileRefused with every problem."""
    document, found = parsed(data)
    found = first_at_each_path([*found, *shape_problems(document)])
    if is_too_large(found):
        raise HouseFileRefused(found)
    part = sound_part(document, found)
    book = completed(book_in(part))
    found = first_at_each_path([*found, *problems_in(part, book)])
    if found:
        raise HouseFileRefused(found)
    return _house_file(part, book)


def _house_file(part: SoundPart, book: Completed) -> HouseFile:
    document = part.document
    house = _house(document["house"])
    return HouseFile(
        house=house,
        positions=_all(lambda entry: _position(entry, house.setup.layout), document, "positions"),
        setups=_all(_setup, document, "setups"),
        **{name: read_all(kind, document, name) for name, kind in STOCK.items()},  # type: ignore[arg-type]
        units=read_all(UnitRecord, document, "units"),
        placements=tuple(_placement(path, entry) for path, entry in part.entries("placements") if "label" in entry),
        elsewhere=tuple(
            read_record(ElsewhereRecord, entry, path)
            for path, entry in part.entries("placements")
            if "elsewhere" in entry
        ),
        book=book.book,
        warnings=tuple(warnings_in(part, book)),
    )


def _all(make: Callable[[dict[str, Any]], AnyRecord], parent: Mapping[str, Any], section: str) -> tuple[AnyRecord, ...]:
    return tuple(make(entry) for entry in parent.get(section, ()))


def _record(kind: type[AnyRecord], entry: Mapping[str, Any], **made: Any) -> AnyRecord:
    """A record of the entry's own values, with those in `made` instead where they are named."""
    names = {each.name for each in fields(kind)} & entry.keys() - made.keys()
    return kind(**{name: _kept(name, entry[name]) for name in names}, **made, given=frozenset(entry))


def _kept(name: str, value: Any) -> Any:
    if isinstance(value, str):
        return value.strip()
    return int(value) if name in _WHOLE_NUMBERS else float(value) + 0.0


_WHOLE_NUMBERS = {"order", "access_min", "seats_lost", "burn_before_min", "usual_event_min", "use_window_days"}


def _house(entry: dict[str, Any]) -> HouseRecord:
    made: dict[str, Any] = {"slug": entry.get("slug") or slug_of(entry["name"])}
    if "day_turns_at" in entry:
        made["day_turns_at"] = read_wall_time(entry["day_turns_at"])
    return _record(HouseRecord, entry, setup=_own_setup(entry), **made)


def _own_setup(house: dict[str, Any]) -> SetupRecord:
    entry = {key: value for key, value in house.items() if key != "name"}
    if "setup_name" in entry:
        return _setup({**entry, "name": entry["setup_name"]})
    return _setup(entry, name=USUAL_SETUP)


def slug_of(name: str) -> str:
    """The short name of a house that gives none: letters a to z, digits and hyphens."""
    return slugify(name)[:60].strip("-_") or "house"


def _setup(entry: dict[str, Any], **made: Any) -> SetupRecord:
    made["areas"] = read_all(AreaRecord, entry, "areas")
    if "target" in entry:
        made["target"] = tuple(float(each) + 0.0 for each in entry["target"])
    if "zones" in entry:
        made["zones"] = tuple((name.strip(), zone) for name, zone in entry["zones"].items())
    return _record(SetupRecord, entry, **made)


def _position(entry: dict[str, Any], layout: str) -> PositionRecord:
    made: dict[str, Any] = {"zone": entry.get("zone", default_zone(layout)), "slots": _all(_slot, entry, "slots")}
    made["blocked"] = read_all(BlockageRecord, entry, "blocked")
    if "checked_on" in entry:
        made["checked_on"] = read_day(entry["checked_on"])
    return _record(PositionRecord, entry, **made)


def _slot(entry: dict[str, Any]) -> SlotRecord:
    elsewhere = entry.get("operated_from")
    operated_from = _place_name(elsewhere) if elsewhere else None
    return _record(SlotRecord, entry, operated_from=operated_from)


def _place_name(entry: dict[str, Any]) -> PlaceName:
    return PlaceName(entry["position"].strip(), entry["label"].strip())


def _placement(path: Path, entry: dict[str, Any]) -> PlacementRecord:
    until = entry.get("until")
    return _record(
        PlacementRecord,
        entry,
        place=_place_name(entry),
        starts_at=read_instant(entry["from"]),
        ends_at=None if until is None else read_instant(until),
        path=path,
    )
