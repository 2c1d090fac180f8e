"""What a filter lets through, alone and in a stack.

Names of filters are not numbers: "half blue" differs from maker to maker. So each carries its own shift and its
own transmission, as the house recorded them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import prod


@dataclass(frozen=True)
class Filter:
    """A color, a diffusion or a correction.

    `transmission` is the share of the light that passes, 0 to 1. `shift_mired` is what it adds to a source's mired
    value, None where it is no correction. `is_near_neutral` whether it takes every part of the spectrum about
    alike; None: not recorded.
    """

    name: str
    transmission: float
    shift_mired: float | None = None
    is_near_neutral: bool | None = None


@dataclass(frozen=True)
class Stack:
    """Filters one behind the other.

    `is_rough`: several filters, not all known as near-neutral. The product of their transmissions then says
    little: what one takes out the other can't take out again, and two deep colors may pass nothing at all.
    """

    transmission: float
    is_rough: bool


def stacked(filters: Sequence[Filter]) -> Stack:
    """The filters together: the product of their transmissions, 1 without any."""
    is_rough = len(filters) > 1 and not all(each.is_near_neutral for each in filters)
    return Stack(prod(each.transmission for each in filters), is_rough)


def transmission_of_density(density: float) -> float:
    """The share of light that passes a neutral density: 10^-density."""
    return float(10.0**-density)
