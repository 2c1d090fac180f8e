"""Classes of light, by which pairs are priced: what makes the light, and how much of it arrives.

Levels go in steps of a ratio: two levels of one step are nearer to each other than a pair may be apart.
"""

import math
from collections.abc import Collection
from dataclasses import dataclass

from venue.core.matching import HIGHEST_LEVEL_DIFFERENCE
from venue.core.names import name_key
from venue.core.sources import source_of

STEP = math.log(1 / (1 - HIGHEST_LEVEL_DIFFERENCE))
MOST_STEPS = 20
"""Levels farther apart than this, a ratio of about 26, cost a pair no more."""
SOURCES_APART = MOST_STEPS + 1
"""Two kinds of source read as two lights at any level: worse than every difference in level."""
NOT_KNOWN = 1
"""What nobody knows of one of the two costs no less than the least difference."""


@dataclass(frozen=True)
class LightClass:
    """A kind of source, "" where it is not known, and the step of its level, None where no light is known."""

    source: str = ""
    step: int | None = None

    @property
    def key(self) -> str:
        """What candidates of this class have in common."""
        return f"{self.source} {'' if self.step is None else self.step}"


def light_class(source: str, lux: float | None) -> LightClass:
    """The class of a unit with this source, in words, that brings so much light [lx] to the performer."""
    named = source_of(source) or name_key(source)
    return LightClass(str(named), None if not lux or lux <= 0 else math.floor(math.log(lux) / STEP))


def price(one: LightClass, other: LightClass) -> int:
    """What it costs a pair to stand in these two; 0 for two that match as far as is known."""
    return _of_sources(one.source, other.source) + _of_levels(one.step, other.step)


def _of_sources(one: str, other: str) -> int:
    if not one or not other:
        return NOT_KNOWN
    return 0 if one == other else SOURCES_APART


def _of_levels(one: int | None, other: int | None) -> int:
    if one is None or other is None:
        return NOT_KNOWN
    return min(abs(one - other), MOST_STEPS)


def prices(classes: Collection[LightClass]) -> dict[tuple[str, str], int]:
    """The price between each two of the classes, and of a class with itself, by their keys; those that cost nothing
    are left out.
    """
    found = {(one.key, other.key): price(one, other) for one in classes for other in classes if one.key <= other.key}
    return {pair: cost for pair, cost in found.items() if cost}
