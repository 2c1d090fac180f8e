"""The order of slots: in a row from house left within its position, in a bowl clockwise round the whole ring.

Where one slot of a row (or ring) can't be found by its coordinates, order decides for all of them.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from venue.core.bearings import FULL_TURN
from venue.core.names import name_key
from venue.house_file.paths import json_path
from venue.house_file.problems import Problem
from venue.house_file.sound import Slot, SoundPart

ROW_TOLERANCE_M, RING_TOLERANCE_DEG = 0.3, 2.0
"""Lenses nearer to one another than this have no order of their own."""


@dataclass(frozen=True)
class Group:
    """Slots that are counted together: a ring, or the row of one position. `zone` is theirs."""

    zone: str
    slots: tuple[Slot, ...]
    target: tuple[float, ...]

    @property
    def is_ring(self) -> bool:
        return self.zone == "bowl"

    def measure(self, slot: Slot) -> float | None:
        """What rises with the order: the bearing [degrees] in a ring, x [m] in a row; None if not known."""
        if not self.is_ring:
            return slot.fields["x_m"] if slot.has_coordinates else None
        bearing = slot.bearing(self.target)
        if bearing is not None and bearing > FULL_TURN - RING_TOLERANCE_DEG:
            return bearing - FULL_TURN
        return bearing

    @property
    def tolerance(self) -> float:
        return RING_TOLERANCE_DEG if self.is_ring else ROW_TOLERANCE_M


def groups_in(part: SoundPart) -> list[Group]:
    """The rows and the ring of the usual set-up, in the order of the file."""
    found: dict[tuple[str, object], list[Slot]] = {}
    for slot in part.slots():
        zone = part.zone_of(slot.position)
        found.setdefault((zone, "ring" if zone == "bowl" else _row_key(slot)), []).append(slot)
    return [Group(zone, tuple(slots), part.target) for (zone, _key), slots in found.items()]


def _row_key(slot: Slot) -> object:
    name = slot.position.get("name")
    return slot.position_path if name is None else name_key(name)


def order_problems(part: SoundPart) -> Iterator[Problem]:
    """Slots with equal orders, and slots without one where order has to decide."""
    for group in groups_in(part):
        yield from _equal_orders(group)
        if not any(slot.path in part.hurt or slot.is_nowhere for slot in group.slots):
            yield from _missing_orders(group)


def _equal_orders(group: Group) -> Iterator[Problem]:
    first: dict[int, Slot] = {}
    for slot in group.slots:
        order = slot.fields.get("order")
        if order in first:
            facts = {"order": order, "first": json_path(first[order].path), "is_ring": group.is_ring}
            yield Problem((*slot.path, "order"), "equal-orders", facts)
        elif order is not None:
            first[order] = slot


def _missing_orders(group: Group) -> Iterator[Problem]:
    lost = next((slot for slot in group.slots if group.measure(slot) is None), None)
    if lost is None:
        return
    for slot in group.slots:
        if "order" not in slot.fields:
            facts = {"lost": json_path(lost.path), "is_ring": group.is_ring}
            yield Problem((*slot.path, "order"), "order-needed", facts)


def order_warnings(part: SoundPart) -> Iterator[Problem]:
    """Orders that go against where the lenses are. The sides of a house have no left and right: none there."""
    for group in groups_in(part):
        if group.zone != "side":
            yield from _against_measure(group)


def _against_measure(group: Group) -> Iterator[Problem]:
    ordered = sorted((slot for slot in group.slots if "order" in slot.fields), key=lambda s: s.fields["order"])
    farthest: float | None = None
    for slot in ordered:
        measure = group.measure(slot)
        if measure is None:
            continue
        if farthest is not None and measure <= farthest - group.tolerance:
            code = "order-against-bearing" if group.is_ring else "order-against-x"
            yield Problem((*slot.path, "order"), code, {"order": slot.fields["order"]})
        farthest = measure if farthest is None else max(farthest, measure)
