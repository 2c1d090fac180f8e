r"""How much light arrives: from candela, throw and incidence, through glass and filters.

    lens o-------- throw --------|\ surface        E = I * cos(incidence) / throw^2
                                  \                (inverse square and cosine law, IES definitions 9.1.2)
                       incidence: \  between the beam and the surface's normal

Candela, lux, meters, degrees. The law holds from the unit's far-field distance on; nearer it is a rough guide.
"""

import math
from dataclasses import dataclass

from venue.core.lengths import FOOT_M

LUX_PER_FOOT_CANDLE = float(1 / FOOT_M**2)
"""10.7639: a lumen on a square foot against one on a square meter (UNECE Recommendation 20, P27)."""

GLASS_LOSS = (0.12, 0.15)
"""Of the light, by a clean pane, where no loss was measured (published technical information of houses)."""
PANES = frozenset({"sliding", "fixed"})
SHORTEST_THROW_M = 1e-6
"""Nearer than this the lens is in the target, and no law says what arrives."""


@dataclass(frozen=True)
class Span:
    """From the least to the most; both alike where the value is known."""

    low: float
    high: float

    def times(self, other: "Span") -> "Span":
        """The product of two spans of positive values."""
        return Span(self.low * other.low, self.high * other.high)


WHOLE = Span(1.0, 1.0)


def illuminance_lx(candela: float, throw_m: float, incidence_deg: float = 0.0) -> float | None:
    """Lux on a surface so far from the lens; 0 from behind (90 degrees and more), None where there is no throw."""
    if throw_m < SHORTEST_THROW_M:
        return None
    return candela / throw_m**2 * max(0.0, _cosine(incidence_deg))


def _cosine(deg: float) -> float:
    return 0.0 if abs(deg) >= 90 else math.cos(math.radians(deg))


def candela_for(lux: float, throw_m: float) -> float:
    """The intensity that gives so many lux at the throw, on a surface that faces the lens [cd]."""
    return lux * throw_m**2


def foot_candles(lux: float) -> float:
    """The illuminance in lumens per square foot."""
    return lux / LUX_PER_FOOT_CANDLE


def lux_of(foot_candles: float) -> float:
    """The illuminance in lumens per square meter."""
    return foot_candles * LUX_PER_FOOT_CANDLE


def through_glass(glass: str, loss: float | None = None) -> Span:
    """The share of light that passes what is in front of a position: a house's own loss, else 12 to 15 % a pane.

    `glass` as positions record it: "sliding" and "fixed" are a pane, which counts as closed; "open" is none.
    Where nothing is recorded ("") nothing is taken off.
    """
    if glass not in PANES:
        return WHOLE
    least, most = GLASS_LOSS if loss is None else (loss, loss)
    return Span(1 - most, 1 - least)


def arriving_lx(lux: float, *shares: Span) -> Span:
    """What is left of the lux behind everything that takes its share: glass, filters, the age of the lamp."""
    left = Span(lux, lux)
    for share in shares:
        left = left.times(share)
    return left


def solid_angle_sr(full_deg: float) -> float:
    """Of a cone of the full angle [sr]: 2 pi (1 - cos(angle / 2)), written so that small angles stay exact."""
    return 4 * math.pi * math.sin(math.radians(full_deg) / 4) ** 2


def candela_at(
    full_deg: float, narrow: tuple[float, float], wide: tuple[float, float], slack_deg: float = 1e-9
) -> float | None:
    """The intensity of a zoomed beam between its two ends, each (full angle [degrees], candela); None outside.

    The model is a power law in the solid angle, the straight line between both ends on logarithmic scales. A zoom
    that loses no light (I proportional to 1 / solid angle) lies on it exactly; a real one is near it. It is not
    for an iris, which leaves the intensity in the middle as it is.
    """
    (narrow_deg, narrow_cd), (wide_deg, wide_cd) = narrow, wide
    if not narrow_deg - slack_deg <= full_deg <= wide_deg + slack_deg or min(narrow_deg, narrow_cd, wide_cd) <= 0:
        return None
    least, most = math.log(solid_angle_sr(narrow_deg)), math.log(solid_angle_sr(wide_deg))
    along = 0.0 if most <= least else (math.log(solid_angle_sr(full_deg)) - least) / (most - least)
    return float(narrow_cd * (wide_cd / narrow_cd) ** along)


def is_too_near(throw_m: float, far_field_m: float | None) -> bool | None:
    """Whether the inverse square is only a rough guide; None where the unit's far-field distance is not recorded."""
    return None if far_field_m is None else throw_m < far_field_m
