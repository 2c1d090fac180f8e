"""Circuits, filters, sizes, areas and what is in the way, brought to what a file says."""

from collections.abc import Iterable, Sequence
from functools import partial
from typing import Any

from venue import actions
from venue.core.labels import label_key
from venue.core.lengths import Length
from venue.history import Actor
from venue.history import record as record_event
from venue.house_file.keys import columns_of
from venue.house_file.paths import Path
from venue.house_file.records import AreaRecord, BlockageRecord, HouseFile, SizeRecord
from venue.house_file.rows import Rows
from venue.models import House, PickUpSize, Setup
from venue.sizes import default_of
from venue.storing import store


def put_stock(rows: Rows, file: HouseFile) -> None:
    """Circuits, filters and sizes; `rows.circuits` knows the circuits from then on."""
    for index, circuit in enumerate(file.circuits):
        add = partial(actions.add_circuit, house=rows.house)
        put = rows.put(("circuits", index), rows.circuits.get(circuit.key), add, columns_of(circuit))
        if put is not None:
            rows.circuits[circuit.key] = put
    filters = {color.code_key: color for color in rows.house.color_filters.standing()}
    for index, color in enumerate(file.filters):
        add_filter = partial(actions.add_filter, house=rows.house)
        rows.put(("filters", index), filters.get(color.key), add_filter, columns_of(color))
    sizes = {size.size: size for size in rows.house.pick_up_sizes.all()}
    for index, size in enumerate(file.sizes):
        with rows.at(("sizes", index)):
            _put_size(rows, sizes.get(size.size), size)


def _put_size(rows: Rows, stored: PickUpSize | None, record: SizeRecord) -> None:
    if stored is None:
        _add_size(rows.actor, rows.house, record)
        return
    diameter = Length(record.diameter_m, record.diameter_text)
    actions.set_size(actor=rows.actor, row=stored, seen=stored.version, diameter=diameter)


def _add_size(actor: Actor, house: House, record: SizeRecord) -> None:
    """Also one of the usual diameter: whoever wrote it down means to keep it."""
    store(PickUpSize(house=house, **columns_of(record)))
    facts = {"size": record.size, "before": default_of(record.size), "diameter": f"{record.diameter_m:.10g}"}
    record_event(actor, "size.set", house, house=house, **facts)


def put_areas(rows: Rows, path: Path, setup: Setup, records: Sequence[AreaRecord]) -> None:
    """The areas of the set-up that stands at the path."""
    stored = {area.name_key: area for area in setup.areas.standing()} if records else {}
    add = partial(actions.add_area, setup=setup)
    for index, record in enumerate(records):
        rows.put((*path, "areas", index), stored.get(record.key), add, _columns(record))


def put_blockages(rows: Rows, file: HouseFile) -> None:
    """After all places, since something may be in the way of one place alone."""
    for index, position in enumerate(file.positions):
        if position.blocked and position.key in rows.positions:
            _put_blockages(rows, ("positions", index), position.key, position.blocked)


def _put_blockages(rows: Rows, path: Path, key: str, records: Iterable[BlockageRecord]) -> None:
    """Two things may have one name: which is which is told by the rows that the records know."""
    position = rows.positions[key]
    stored = {row.pk: row for row in position.blockages.standing().of_house()}
    add = partial(actions.add_blockage, position=position)
    for index, record in enumerate(records):
        place = rows.places.get((key, label_key(record.place))) if record.place else None
        rows.put((*path, "blocked", index), stored.get(record.row or 0), add, {**_columns(record), "place": place})


def _columns(record: AreaRecord | BlockageRecord) -> dict[str, Any]:
    return {**columns_of(record), "corners": [list(corner) for corner in record.corners]}
