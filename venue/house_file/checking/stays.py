"""Who stands where, when: no unit at two places at once, no place with two units."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from venue.core.names import name_key
from venue.house_file.checking.spans import ALWAYS, Span, overlaps
from venue.house_file.paths import Path, json_path
from venue.house_file.problems import Problem
from venue.house_file.sound import Entry, SoundPart, entries_of, place_key
from venue.house_file.times import read_instant


@dataclass(frozen=True)
class Stay:
    """A unit stands at a place (None: it is elsewhere) from `starts_at` until before `ends_at`."""

    path: Path
    unit: str
    place: tuple[str, str] | None
    starts_at: datetime
    ends_at: datetime

    @property
    def span(self) -> Span:
        return Span(self.path, self.starts_at, self.ends_at)


def stay_problems(part: SoundPart) -> Iterator[Problem]:
    """Spans that end before they begin, placements nowhere, and those that overlap one of their unit or place."""
    for path, entry in _spans(part):
        if _ends_too_early(entry):
            facts = {"from": entry["from"], "until": entry["until"]}
            yield Problem((*path, "until"), "until-before-from", facts)
    yield from _nowhere(part)
    stays = list(_placements(part))
    yield from overlaps([(stay.unit, stay.span) for stay in stays], "unit-overlaps")
    yield from overlaps([(stay.place, stay.span) for stay in stays if stay.place], "place-overlaps")
    yield from _standing_twice(part, stays)


def _spans(part: SoundPart) -> Iterator[Entry]:
    yield from part.entries("placements")
    yield from part.entries("meters")
    for path, lamp in part.entries("lamps"):
        yield from entries_of(path, lamp, "fitted")


def _ends_too_early(entry: dict[str, str]) -> bool:
    if "from" not in entry or entry.get("until") is None:
        return False
    return read_instant(entry["until"]) <= read_instant(entry["from"])


def _nowhere(part: SoundPart) -> Iterator[Problem]:
    """A placement is at a position and label, or elsewhere."""
    for path, entry in part.entries("placements"):
        if path in part.hurt:
            continue
        at_place = {"position", "label"} & entry.keys()
        if "elsewhere" in entry and at_place:
            yield Problem((*path, "elsewhere"), "place-or-elsewhere")
        elif "elsewhere_words" in entry and "elsewhere" not in entry:
            yield Problem((*path, "elsewhere"), "goes-with", {"partner": "elsewhere_words"})
        elif "elsewhere" not in entry:
            for key in ("position", "label"):
                if key not in entry:
                    yield Problem((*path, key), "where-is-it", {"key": key})


def _placements(part: SoundPart) -> Iterator[Stay]:
    for path, entry in part.entries("placements"):
        place = place_key(entry.get("position"), entry.get("label"))
        is_told = place is not None or "elsewhere" in entry
        if not is_told or not {"unit", "from"} <= entry.keys() or _ends_too_early(entry):
            continue
        until = entry.get("until")
        ends_at = ALWAYS if until is None else read_instant(until)
        yield Stay(path, name_key(entry["unit"]), place, read_instant(entry["from"]), ends_at)


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
