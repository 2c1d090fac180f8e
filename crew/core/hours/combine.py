"""One rate from several premiums: the highest wins, or they multiply where a house says so (common practice)."""

from collections.abc import Iterable
from decimal import Decimal
from math import prod

from crew.core.hours.records import STRAIGHT, Combine


def combined(rates: Iterable[Decimal], how: Combine) -> Decimal:
    """The rate of a minute to which all of these apply; straight where none does."""
    return prod(rates, start=STRAIGHT) if how == "multiply" else max([STRAIGHT, *rates])
