"""What a light makes its light with, and what that means for its care.

Everything here is a default that a house changes by what its makers say. Beside each value stands where it is
from; "practice" is common practice, no source.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from venue.core.labels import plain_text


class Source(StrEnum):
    """The kinds of light source that the trade tells apart."""

    SHORT_ARC = "short-arc"
    METAL_HALIDE = "metal-halide"
    TUNGSTEN_HALOGEN = "tungsten-halogen"
    LED = "LED"
    CARBON_ARC = "carbon-arc"


_WORDS = {
    Source.SHORT_ARC: r"xenon|short ?arc",
    Source.METAL_HALIDE: r"(?:metal ?)?halides?|rare ?earths?",
    Source.TUNGSTEN_HALOGEN: r"tungsten(?: ?halogen)?|halogen|incandescent",
    Source.LED: r"leds?|light emitting diodes?",
    Source.CARBON_ARC: r"carbon(?: ?arc)?",
}
_PATTERNS = {source: re.compile(rf"(?<![a-z])(?:{words})(?![a-z])") for source, words in _WORDS.items()}


def source_of(text: str) -> Source | None:
    """The source that a free text names ("Short arc", "2 kW xenon", "metal halide"), None if none or several.

    A bare "arc" may be any of three. A metal-halide lamp may be built as a short arc: that is metal-halide.
    """
    words = re.sub(r"[^a-z]+", " ", plain_text(text).casefold())
    named = {source for source, pattern in _PATTERNS.items() if pattern.search(words)}
    if named == {Source.METAL_HALIDE, Source.SHORT_ARC} and "xenon" not in words:
        return Source.METAL_HALIDE
    return named.pop() if len(named) == 1 else None


@dataclass(frozen=True)
class Traits:
    """Which questions make sense for a source.

    `has_lamp_to_change`: something burns down and is changed (a lamp, the rods of a carbon arc).
    `is_under_pressure`: the lamp can burst, at work or cold, and is opened only behind protection.
    `is_struck`: strikes wear it and are counted. `has_run_down`: the fan runs on after it is put out.
    `restrike_waits`: it can't be lit again at once. `is_trimmed`: it burns for one trim at most.
    """

    has_lamp_to_change: bool
    is_under_pressure: bool
    is_struck: bool
    has_run_down: bool
    restrike_waits: bool
    is_trimmed: bool


_UNKNOWN = Traits(True, True, True, True, True, True)
_TRAITS = {
    Source.SHORT_ARC: Traits(True, True, True, True, True, False),
    Source.METAL_HALIDE: Traits(True, True, True, True, True, False),
    # A halogen lamp is filled above the air's pressure: from memory.
    Source.TUNGSTEN_HALOGEN: Traits(True, True, False, False, False, False),
    Source.LED: Traits(False, False, False, False, False, False),
    Source.CARBON_ARC: Traits(True, False, False, True, False, True),
}


def traits(source: Source | None) -> Traits:
    """The traits of a source; of an unknown one all, so that every question is asked."""
    return _UNKNOWN if source is None else _TRAITS[source]


@dataclass(frozen=True)
class Defaults:
    """What a new lamp kind starts with until its maker's figures are on file; None where it makes no sense.

    `rated_h`: the usual range of rated hours; outside it somebody is asked. Minutes: `warm_up_min` to full
    light; `run_down_min` with the fan on after it is put out; `restrike_min` before it is lit again;
    `opening_min` before it is opened; `least_burn_min` before it may be put out; `longest_burn_min` of one trim.
    """

    rated_h: tuple[Decimal, Decimal] | None
    warm_up_min: int | None = None
    run_down_min: int | None = None
    restrike_min: int | None = None
    opening_min: int | None = None
    least_burn_min: int | None = None
    longest_burn_min: int | None = None


def _hours(low: int, high: int) -> tuple[Decimal, Decimal]:
    return Decimal(low), Decimal(high)


RATED_H_ALLOWED = _hours(1, 100_000)
"""Rated hours outside it are refused (practice)."""
WARN_AT, STOP_AT = Decimal("0.80"), Decimal("1.00")
"""Shares of the rated hours at which a lamp warns and stops (practice; the maker's lower figure goes first)."""

# Fan run-down and opening 10 min: safety notes of universities, "at least 10 min with the fan on, or as the maker
# says"; makers' figures up to 45 min were seen. Restrike 10 min: a service note's 5-10, the longer. Warm-up 3-5
# min: seen in makers' data. Least burn 5 min: 3 min seen, the longer is practice. Rated hours: practice.
_DEFAULTS = {
    Source.SHORT_ARC: Defaults(_hours(1000, 3000), 3, 10, 10, 10, 5),
    Source.METAL_HALIDE: Defaults(_hours(400, 3000), 5, 10, 10, 10, 5),
    Source.TUNGSTEN_HALOGEN: Defaults(_hours(40, 2000), opening_min=10),
    Source.LED: Defaults(_hours(20_000, 50_000)),
    # Trims of 30 to 90 min were seen; the shortest is planned with.
    Source.CARBON_ARC: Defaults(None, run_down_min=10, opening_min=10, longest_burn_min=30),
}
_CAUTIOUS = Defaults(None, 5, 10, 10, 10, 5)


def defaults(source: Source | None) -> Defaults:
    """What a lamp kind of the source starts with; of an unknown source the longest waits."""
    return _CAUTIOUS if source is None else _DEFAULTS[source]
