"""The least light that a line asks for, in lux."""

import re

LUX_PER_FOOT_CANDLE = 1 / 0.3048**2
"""1 fc = 1 lm/ft²: UNECE Recommendation 20, code P27 (10.76391 lx), as quoted by a unit library."""
_LIGHT = re.compile(
    r"(?P<value>\d{1,7}(?:[.,]\d{1,6})?)\s*(?P<unit>lux|lx|fc|foot[\s-]?candles?|ft[\s-]?c)?", re.IGNORECASE
)
_FEET = re.compile(r"\bfc\b|foot[\s-]?candle|ft[\s-]?c\b", re.IGNORECASE)


def lux_of(text: str, header: str = "") -> float | None:
    """The light [lx] of a cell such as "1600 lx" or "150 fc"; the unit may stand in the column's header.

    Without any unit it is lux. None where the text is no such number.
    """
    found = _LIGHT.fullmatch(text.replace("\u202f", "").strip().removeprefix("≥").removeprefix(">").strip())
    if found is None:
        return None
    value = float(found["value"].replace(",", "."))
    unit = found["unit"] or header
    return value * LUX_PER_FOOT_CANDLE if _FEET.search(unit) else value
