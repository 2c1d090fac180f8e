"""What a house's technical sheet says now, made from the rows with the same number of queries however many places.

Only the house's own is told: what a tour brought along is no part of the house. No person, no lamp, nobody from whom
a unit is hired gets into the records.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from crew.core.tech_sheet import (
    Numbering,
    SheetBlockage,
    SheetCircuit,
    SheetPlace,
    SheetPoint,
    SheetPosition,
    SheetStage,
    SheetThrow,
    SheetUnit,
    TechSheet,
    Walk,
)
from venue.book import BookPosition, book_of
from venue.condition import Condition, conditions_of
from venue.core.lengths import Length
from venue.core.local_time import wall_time
from venue.models import Blockage, Circuit, Place, Position, Setup, Unit
from venue.models.positions import Zone
from venue.throw_book import PlaceLight, lights_in
from venue.throw_ends import computed_throw, is_placed_by_throw


@dataclass(frozen=True)
class _Rows:
    """What the sheet reads besides the book, each by its primary key; blockages by their position's."""

    conditions: Mapping[int, Condition]
    circuits: Mapping[int, Circuit]
    operated_from: Mapping[int, Place]
    blockages: Mapping[int, Sequence[Blockage]]


@dataclass(frozen=True)
class TechContent:
    """The sheet with the lights that its drawings are made from."""

    setup: Setup
    sheet: TechSheet
    lights: tuple[PlaceLight, ...]


def tech_content(setup: Setup, now: datetime) -> TechContent:
    """The house in the set-up as it stands at the instant; the set-up comes with its house."""
    entries = book_of(setup, now)
    lights = tuple(light for light in lights_in(entries, setup, now) if light.place.only_for is None)
    sheet = TechSheet(
        house=setup.house.name,
        stage=_stage(setup),
        system=setup.house.unit_system,  # type: ignore[arg-type]
        note=setup.house.tech_note,
        positions=_positions(entries, lights, _rows(entries, lights, now)),
    )
    return TechContent(setup, sheet, lights)


def _rows(entries: Iterable[BookPosition], lights: Iterable[PlaceLight], now: datetime) -> _Rows:
    places = [light.place for light in lights]
    blockages: dict[int, list[Blockage]] = defaultdict(list)
    standing = Blockage.objects.standing().of_house().select_related("place")
    for row in standing.filter(position__in=[entry.position.pk for entry in entries]):
        blockages[row.position_id].append(row)
    elsewhere = {place.operated_from_id for place in places} - {None}
    return _Rows(
        conditions=conditions_of([light.unit for light in lights if light.unit], now),
        circuits=Circuit.objects.standing().in_bulk({place.circuit_id for place in places} - {None}),
        operated_from=Place.objects.of_house().select_related("position").in_bulk(elsewhere),
        blockages=blockages,
    )


def _stage(setup: Setup) -> SheetStage:
    return SheetStage(
        name=setup.name,
        layout=setup.layout,
        opening=_length(setup.opening_m, setup.opening_text),
        depth=_length(setup.depth_m, setup.depth_text),
        apron=_length(setup.apron_m, setup.apron_text),
        prompt_side=setup.prompt_side,
        target=_point(setup, "target_"),
        twelve_deg=setup.twelve_deg,
        house_left=setup.house_left_landmark,
        house_right=setup.house_right_landmark,
        stage_end=setup.stage_end_landmark,
    )


def _length(meters: float | None, text: str) -> Length | None:
    return None if meters is None else Length(meters, text)


def _point(row: Any, prefix: str = "") -> SheetPoint | None:
    """The point in the columns x, y and z after the prefix, as far as all three are recorded."""
    x, y, z = (_length(getattr(row, f"{prefix}{c}_m"), getattr(row, f"{prefix}{c}_text")) for c in "xyz")
    return None if x is None or y is None or z is None else SheetPoint(x, y, z)


def _positions(entries: Iterable[BookPosition], lights: Iterable[PlaceLight], rows: _Rows) -> tuple[SheetPosition, ...]:
    by_position: dict[int, list[PlaceLight]] = defaultdict(list)
    for light in lights:
        by_position[light.place.position_id].append(light)
    return tuple(_position(entry, by_position[entry.position.pk], rows) for entry in entries)


def _position(entry: BookPosition, lights: Sequence[PlaceLight], rows: _Rows) -> SheetPosition:
    position = entry.position
    return SheetPosition(
        name=position.name,
        kind=position.kind,
        zone=entry.zone,
        level=position.level,
        numbering=_numbering(entry, lights),
        places=tuple(_place(light, entry.zone, rows) for light in lights),
        blockages=tuple(map(_blockage, rows.blockages.get(position.pk, ()))),
        has_rescue_plan=bool(position.rescue_plan.strip()),
        **_facts(position),
    )


def _facts(position: Position) -> dict[str, Any]:
    """What is told as it is stored."""
    return {
        "access": position.access,
        "access_min": position.access_min,
        "passage": _length(position.passage_m, position.passage_text),
        "load_limit_kg": position.load_limit_kg,
        "power": position.power,
        "switched_at": position.power_switched_at,
        "intercom": position.intercom,
        "glass": position.glass,
        "glass_loss_pct": position.glass_loss_pct,
        "sees_upstage": _length(position.farthest_upstage_m, position.farthest_upstage_text),
        "sees_downstage": _length(position.farthest_downstage_m, position.farthest_downstage_text),
        "pans": _pans(position),
        "needs": position.needs,
        "fall_protection": position.fall_protection,
        "show_exit": position.show_exit,
        "show_exit_words": position.show_exit_words,
        "who_may_operate": position.who_may_operate,
        "seats_lost": position.seats_lost,
        "checked_on": position.checked_on,
    }


def _pans(row: Position | Blockage) -> tuple[float, float] | None:
    return None if row.pan_from_deg is None or row.pan_to_deg is None else (row.pan_from_deg, row.pan_to_deg)


def _numbering(entry: BookPosition, lights: Sequence[PlaceLight]) -> Numbering:
    walk, walked_on = _walk(entry)
    labels = tuple(light.place.label for light in lights)
    return Numbering(labels, entry.zone, entry.row.basis, walk, walked_on)


def _walk(entry: BookPosition) -> tuple[Walk, date | None]:
    if entry.walk is None:
        return "not-walked", None
    day = wall_time(entry.walk.walked_at, entry.setup.house.time_zone).date()
    return ("contradicted" if entry.is_contradicted else "walked"), day


def _blockage(row: Blockage) -> SheetBlockage:
    return SheetBlockage(row.name, row.place.label if row.place else "", _pans(row), bool(row.corners))


def _place(light: PlaceLight, zone: str, rows: _Rows) -> SheetPlace:
    place, line = light.place, light.line
    elsewhere = rows.operated_from.get(place.operated_from_id or 0)
    return SheetPlace(
        label=place.label,
        lens=_lens(place),
        throw=_throw(light),
        angle_deg=None if line is None else line.angle_deg,
        bearing_deg=_bearing(light) if zone == Zone.BOWL else None,
        bearing_is_computed=place.bearing_deg is None,
        unit=None if light.unit is None else _unit(light.unit, rows.conditions[light.unit.pk]),
        circuit=_circuit(rows.circuits.get(place.circuit_id or 0)),
        run_from=str(elsewhere) if elsewhere else "",
    )


def _lens(place: Place) -> SheetPoint | None:
    lens = _point(place)
    return replace(lens, y_is_computed=is_placed_by_throw(place)) if lens else None


def _throw(light: PlaceLight) -> SheetThrow:
    place = light.place
    return SheetThrow(
        told=_length(place.throw_m, place.throw_text),
        end=place.throw_end,
        mark=place.throw_mark,
        same_end_m=computed_throw(place),
        target_m=None if light.line is None else light.line.throw_m,
    )


def _bearing(light: PlaceLight) -> float | None:
    """As recorded, else as the coordinates give it."""
    if light.place.bearing_deg is not None:
        return light.place.bearing_deg
    return None if light.line is None else light.line.bearing_deg


def _circuit(row: Circuit | None) -> SheetCircuit | None:
    return None if row is None else SheetCircuit(row.name, row.volts, row.rating_a)


def _unit(unit: Unit, condition: Condition) -> SheetUnit:
    """The unit without whom it is hired from; why it is out of service stays with the house."""
    percent = unit.angle_percent
    return SheetUnit(
        tag=unit.tag,
        source=unit.source,
        watts=unit.watts,
        frames=unit.frames,
        frame_1_end=unit.frame_1_end,
        magazine=unit.magazine,
        narrow_deg=unit.narrow_deg,
        wide_deg=unit.wide_deg,
        percent=percent if percent in (50, 10) else None,  # type: ignore[arg-type]
        narrow_cd=unit.narrow_cd,
        wide_cd=unit.wide_cd,
        cct_k=unit.cct_k,
        limits=condition.limits,
        is_out=bool(condition.stops),
    )
