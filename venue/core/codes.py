"""Codes that are printed on tape, labels and sheets and read back by eye or by camera."""

import math
from collections.abc import Callable

from venue.core.labels import plain_text

ALPHABET = "23456789ACDEFGHJKMNPQRTUVWXY"
"""Without 0, 1, B, I, L, O, S and Z, which are taken for one another in print and by hand."""
LENGTH = 11
RANDOM_BITS = LENGTH * math.log2(len(ALPHABET))
"""52.9: too many for anybody to find a sheet by trying."""


def new_code(random_below: Callable[[int], int]) -> str:
    """A fresh code; `random_below(n)` gives an unguessable number from 0 to n - 1."""
    return "".join(ALPHABET[random_below(len(ALPHABET))] for _ in range(LENGTH))


def typed_code(text: str) -> str:
    """The code in what somebody typed: case, spaces and hyphens do not count."""
    return "".join(plain_text(text).upper().replace("-", " ").split())
