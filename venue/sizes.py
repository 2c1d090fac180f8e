"""The usual sizes of pick-ups, each with its key in addresses and the house's own diameter, if it has one."""

from collections.abc import Mapping
from dataclasses import dataclass

from venue.core.pick_ups import BODY_SPANS_M, SIZES, Size, sizes_below_body
from venue.models import House, PickUpSize
from venue.models.optics import SizeName

SIZE_KEYS: Mapping[str, SizeName] = {
    "head": SizeName.HEAD,
    "shoulders": SizeName.SHOULDERS,
    "waist": SizeName.WAIST,
    "knees": SizeName.KNEES,
    "full-body": SizeName.FULL_BODY,
}
"""By their key in an address, from the smallest to the largest."""
_DEFAULTS = {size.name: size.diameter_m for size in SIZES}


def default_of(size: str) -> float:
    """The diameter of a size where the house has none of its own [m]."""
    return _DEFAULTS[size]


def is_below_body(row: PickUpSize) -> bool:
    """Whether the size is smaller than the part of a body that it is named for."""
    return bool(sizes_below_body([Size(row.size, row.diameter_m)]))


def body_span_of(size: str) -> float:
    """What the size must at least hold [m]."""
    return BODY_SPANS_M[size]


@dataclass(frozen=True)
class SizeRow:
    """A size of the house, its key in addresses, and whether the diameter is the house's own."""

    key: str
    row: PickUpSize

    @property
    def default_m(self) -> float:
        return default_of(self.row.size)

    @property
    def is_own(self) -> bool:
        return self.row.diameter_m != self.default_m


def size_rows(house: House) -> list[SizeRow]:
    """All five sizes; those that the house never set are not stored."""
    stored = {row.size: row for row in house.pick_up_sizes.all()}
    return [SizeRow(key, stored.get(size) or unset(house, size)) for key, size in SIZE_KEYS.items()]


def unset(house: House, size: str) -> PickUpSize:
    """The size as it is where the house never set it."""
    return PickUpSize(house=house, size=size, diameter_m=default_of(size))
