"""Who stands where, when: no unit at two places at once, no place with two units."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from venue.core.names import name_key
from venue.house_file.paths import Path, json_path
from venue.house_file.problems import Problem
from venue.house_file.sound import Entry, SoundPart, place_key
from venue.house_file.times import read_instant

ALWAYS = datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True)
class Stay:
    """A unit stands at a place from `starts_at` until before `ends_at`."""

    path: Path
    unit: str
    place: tuple[str, str]
    starts_at: datetime
    ends_at: datetime


def stay_problems(part: SoundPart) -> Iterator[Problem]:
    """Placements that end before they begin, and those that overlap another of their unit or of their place."""
    for path, entry in (*part.entries("placements"), *_fittings(part)):
        if _ends_too_early(entry):
            facts = {"from": entry["from"], "until": entry["until"]}
            yield Problem((*path, "until"), "until-before-from", facts)
    stays = sorted(_placements(part), key=lambda stay: stay.starts_at)
    yield from _overlaps(stays, "unit")
    yield from _overlaps(stays, "place")
    yield from _standing_twice(part, stays)


def _fittings(part: SoundPart) -> Iterator[Entry]:
    for path, lamp in part.entries("lamps"):
        for index, fitting in enumerate(lamp.get("fitted") or ()):
            if fitting is not None:
                yield (*path, "fitted", index), fitting


def _ends_too_early(entry: dict[str, str]) -> bool:
    if "from" not in entry or entry.get("until") is None:
        return False
    return read_instant(entry["until"]) <= read_instant(entry["from"])


def _placements(part: SoundPart) -> Iterator[Stay]:
    for path, entry in part.entries("placements"):
        place = place_key(entry.get("position"), entry.get("label"))
        if place is None or not {"unit", "from"} <= entry.keys() or _ends_too_early(entry):
            continue
        until = entry.get("until")
        ends_at = ALWAYS if until is None else read_instant(until)
        yield Stay(path, name_key(entry["unit"]), place, read_instant(entry["from"]), ends_at)


def _overlaps(stays: list[Stay], by: str) -> Iterator[Problem]:
    """`stays` in the order of their start."""
    last: dict[object, Stay] = {}
    for stay in stays:
        before = last.get(getattr(stay, by))
        if before is not None and stay.starts_at < before.ends_at:
            yield Problem(stay.path, f"{by}-overlaps", {"other": json_path(before.path)})
        if before is None or stay.ends_at > before.ends_at:
            last[getattr(stay, by)] = stay


def _standing_twice(part: SoundPart, stays: list[Stay]) -> Iterator[Problem]:
    """`slots[].unit` is an open placement: the unit has no other one, and neither has the place."""
    at_place = {stay.place: stay for stay in stays if stay.ends_at == ALWAYS}
    of_unit = {stay.unit: stay for stay in stays if stay.ends_at == ALWAYS}
    units: dict[str, Path] = {}
    for slot in part.slots():
        if "unit" not in slot.fields or slot.key is None:
            continue
        unit, path = name_key(slot.fields["unit"]), (*slot.path, "unit")
        elsewhere = of_unit.get(unit)
        taken = at_place.get(slot.key)
        if unit in units:
            yield Problem(path, "unit-overlaps", {"other": json_path(units[unit])})
        elif elsewhere is not None and elsewhere.place != slot.key:
            yield Problem(path, "unit-overlaps", {"other": json_path(elsewhere.path)})
        elif taken is not None and taken.unit != unit:
            yield Problem(path, "place-overlaps", {"other": json_path(taken.path)})
        units.setdefault(unit, path)
