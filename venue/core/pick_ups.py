r"""How much of a person a beam picks up: the usual sizes, the angle that each needs, and whether a unit has it.

    full body   knees   waist   head and shoulders   head
      ( O )     ( O )   ( O )         ( O )           (O)
      (/|\)     (/|\)   (/|\)         ('-')
      (/ \)     ('-')

A size is a diameter across the beam.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from venue.core.beams import full_angle_deg

Reach = Literal["ok", "too-small", "too-large"]
"""Too small: the unit can't close to it. Too large: the unit can't open to it."""


@dataclass(frozen=True)
class Size:
    """A usual size and its diameter [m]."""

    name: str
    diameter_m: float


SIZES = (
    Size("head", 0.60),
    Size("head and shoulders", 1.00),
    Size("waist", 1.30),
    Size("knees", 1.75),
    Size("full body", 2.45),
)
"""With room for arms and movement (common practice, no source); a house may have its own."""

BODY_SPANS_M: Mapping[str, float] = MappingProxyType(
    {"head": 0.259, "head and shoulders": 0.558, "waist": 0.743, "knees": 1.338, "full body": 1.870}
)
"""What a size must at least hold [m], from the crown down to neck, chest, waist, mid-knee and floor.

The 95th percentile, computed from the public individual data of ANSUR II (Gordon et al., NATICK/TR-15/007): 4082 men
and 1986 women pooled as sampled; the stature is that of the men. Head and shoulders takes the shoulders' breadth,
which is more than crown to chest (0.503). Without hair, hat or heels.
"""


@dataclass(frozen=True)
class PickUp:
    """One size at one throw.

    `beam_deg` is the full angle that it needs, None without a throw. `reach` is against the unit, None where the
    unit's angles do not tell; `limit_deg` is the unit's angle that stands in the way, None where none does.
    """

    size: Size
    beam_deg: float | None
    reach: Reach | None = None
    limit_deg: float | None = None


def pick_up(size: Size, throw_m: float | None, narrow_deg: float | None, wide_deg: float | None) -> PickUp:
    """What the size needs at the throw, against the unit's narrowest and widest full angle [m, degrees].

    An angle that is not recorded (None) lets a size be neither ok nor out of reach on its side.
    """
    if throw_m is None:
        return PickUp(size, None)
    needed = full_angle_deg(size.diameter_m, throw_m)
    if narrow_deg is not None and needed < narrow_deg:
        return PickUp(size, needed, "too-small", narrow_deg)
    if wide_deg is not None and needed > wide_deg:
        return PickUp(size, needed, "too-large", wide_deg)
    is_known = narrow_deg is not None and wide_deg is not None
    return PickUp(size, needed, "ok" if is_known else None)


def size_within(diameter_m: float, sizes: Sequence[Size] = SIZES) -> Size | None:
    """The largest size that a pool of the diameter holds [m]; None where it holds none."""
    held = [size for size in sizes if size.diameter_m <= diameter_m]
    return max(held, key=lambda size: size.diameter_m, default=None)


def sizes_below_body(sizes: Sequence[Size]) -> tuple[Size, ...]:
    """The sizes that are smaller than the part of a body that they are named for."""
    return tuple(size for size in sizes if size.diameter_m < BODY_SPANS_M.get(size.name, 0.0))
