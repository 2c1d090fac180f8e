"""What a value of the trade may be: outside `hard` it was mistyped, outside `soft` somebody is asked.

Common practice, no source, unless said otherwise. Both ends belong to the range.
"""

from dataclasses import dataclass
from typing import Literal

from venue.core.lengths import FOOT_M

Judgement = Literal["impossible", "unlikely"]

_FOOT = float(FOOT_M)


@dataclass(frozen=True)
class Range:
    """The hard and the soft range of a value, (low, high) in the unit that its name says."""

    hard: tuple[float, float]
    soft: tuple[float, float]

    def judged(self, value: float) -> Judgement | None:
        """What is wrong with the value; None where it is usual. Not-a-number is impossible."""
        if not self.hard[0] <= value <= self.hard[1]:
            return "impossible"
        return None if self.soft[0] <= value <= self.soft[1] else "unlikely"

    def limit_for(self, value: float) -> float:
        """The end of the range that the value passed, of the hard range where that is passed, else of the soft."""
        low, high = self.hard if self.judged(value) == "impossible" else self.soft
        return low if value < low else high


THROW_M = Range((1.5, 305.0), (25 * _FOOT, 400 * _FOOT))
HEIGHT_M = Range((-10 * _FOOT, 300 * _FOOT), (5 * _FOOT, 150 * _FOOT))
"""Of a lens above the deck."""
ANGLE_DEG = Range((-10.0, 90.0), (15.0, 45.0))
"""Of the throw below the horizontal."""
BEAM_DEG = Range((0.3, 60.0), (0.5, 30.0))
"""Full angle."""
CANDELA = Range((1e3, 5e7), (3e4, 2.5e7))
READING_LX = Range((0.0, 107_600.0), (320.0, 10_760.0))
GLASS_LOSS = Range((0.0, 0.6), (0.0, 0.2))
"""Share of the light that a pane keeps back."""
COLOR_K = Range((1500.0, 20_000.0), (2700.0, 7500.0))
WATTS = Range((50.0, 10_000.0), (100.0, 4500.0))
VOLTS = Range((12.0, 600.0), (12.0, 600.0))
AMPS = Range((0.5, 400.0), (0.5, 400.0))
WEIGHT_KG = Range((1.0, 1000.0), (10.0, 300.0))
