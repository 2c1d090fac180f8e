"""Lengths as people type them, in feet and inches or in meters, and as a house writes them.

A length is a double in meters beside the text that somebody typed. One foot is 0.3048 m and one inch 25.4 mm,
both exactly; each reading is the double nearest to the exact value.
"""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from venue.core.labels import plain_text

UnitSystem = Literal["imperial", "metric"]
Problem = Literal["empty", "unreadable", "comma", "inches", "fraction"]

FOOT_M = Fraction(3048, 10_000)
INCH_M = Fraction(254, 10_000)
_METRIC = {"m": Fraction(1), "cm": Fraction(1, 100), "mm": Fraction(1, 1000)}
_UNIT_WORDS = (
    (r"(?:feet|foot|ft)\.?|['′’‘`]", "'"),
    (r"(?:inches|inch|in)\.?|''|[\"″”“]", '"'),
    (r"millimet(?:er|re)s?|mm", "mm"),
    (r"centimet(?:er|re)s?|cm", "cm"),
    (r"met(?:er|re)s?|m", "m"),
)
_NUMBER = r"\d+(?:\.\d+)?|\.\d+"
_INCHES = rf"(?P<inches>{_NUMBER})?(?:[ -]*(?P<part>\d+)/(?P<whole>\d+))?"
_METRIC_TEXT = re.compile(rf"(?P<sign>-?)(?P<number>{_NUMBER}) ?(?P<unit>mm|cm|m|)")
_FEET_TEXT = re.compile(rf"(?P<sign>-?)(?P<feet>{_NUMBER}) ?'(?:[ -]*(?P<rest>\S.*))?")
_INCHES_TEXT = re.compile(rf'(?P<sign>-?){_INCHES} ?"?')


@dataclass(frozen=True)
class Length:
    """A length in meters and the text as it was typed."""

    meters: float
    text: str


class LengthProblem(ValueError):
    """The text is no length; `code` says why."""

    def __init__(self, code: Problem) -> None:
        super().__init__(code)
        self.code = code


def read_length(text: str, system: UnitSystem) -> Length:
    """The length that the text says: 142' 6", 142 ft 6 1/2 in, 142.5 ft, 43.4 m, 4340 cm.

    A bare number is in feet in an imperial house, in meters in a metric one. A leading minus is read. Raises
    LengthProblem.
    """
    plain = _plain(text)
    if not plain:
        raise LengthProblem("empty")
    meters = _exact_metric(plain, system)
    if meters is None:
        meters = _exact_imperial(plain)
    return Length(float(meters), text.strip())


def _plain(text: str) -> str:
    """Lower case, one sign for each unit, a point for a decimal comma. Raises LengthProblem."""
    folded = text.replace("″", '"').replace("′", "'")  # before the compatibility form doubles them
    plain = plain_text(folded).casefold().replace("−", "-")
    if re.search(r"\d,\d{3}(?!\d)", plain):
        raise LengthProblem("comma")
    plain = re.sub(r"(?<=\d),(?=\d)", ".", plain)
    for words, sign in _UNIT_WORDS:
        plain = re.sub(rf"(?<![a-z])(?:{words})(?![a-z])", sign, plain)
    return plain


def _exact_metric(plain: str, system: UnitSystem) -> Fraction | None:
    found = _METRIC_TEXT.fullmatch(plain)
    if found is None:
        return None
    bare = FOOT_M if system == "imperial" else Fraction(1)
    return _signed(found["sign"], Fraction(found["number"]) * _METRIC.get(found["unit"], bare))


def _exact_imperial(plain: str) -> Fraction:
    feet = _FEET_TEXT.fullmatch(plain)
    if feet is None:
        found = _INCHES_TEXT.fullmatch(plain)
        if found is None or not plain.endswith('"'):
            raise LengthProblem("unreadable")
        return _signed(found["sign"], _inches(found) * INCH_M)
    inches = _inches_after_feet(feet["feet"], feet["rest"])
    return _signed(feet["sign"], Fraction(feet["feet"]) * FOOT_M + inches * INCH_M)


def _inches_after_feet(feet: str, rest: str | None) -> Fraction:
    if rest is None:
        return Fraction(0)
    found = _INCHES_TEXT.fullmatch(rest)
    if found is None or found["sign"] or "." in feet:
        raise LengthProblem("unreadable")
    inches = _inches(found)
    if inches >= 12:
        raise LengthProblem("inches")
    return inches


def _inches(found: re.Match[str]) -> Fraction:
    if found["inches"] is None and found["part"] is None:
        raise LengthProblem("unreadable")
    whole = Fraction(found["inches"] or 0)
    if found["part"] is None:
        return whole
    if int(found["whole"]) == 0 or int(found["part"]) >= int(found["whole"]):
        raise LengthProblem("fraction")
    return whole + Fraction(int(found["part"]), int(found["whole"]))


def _signed(sign: str, value: Fraction) -> Fraction:
    return -value if sign else value


def exact_text(meters: float) -> str:
    """Text that reads as exactly this length in any house: "4.5 m", "-0.6 m"."""
    return f"{format(Decimal(repr(meters + 0.0)).normalize(), 'f')} m"


def written(meters: float, system: UnitSystem) -> str:
    """The length as the house writes it, without a sign: to the inch (142' 6") or the centimeter (43.43 m).

    Halves are rounded up.
    """
    exact = abs(Fraction(f"{meters:.9f}"))  # to the nanometer, so that a half inch is a half
    if system == "metric":
        return f"{_half_up(exact * 100) / 100:.2f} m"
    feet, inches = divmod(_half_up(exact / INCH_M), 12)
    return f"{feet}' {inches}\"" if inches else f"{feet}'"


def _half_up(value: Fraction) -> int:
    return int(value + Fraction(1, 2))


def as_typed(meters: float, text: str, system: UnitSystem) -> str:
    """The text as typed while it still reads as the length, else the length as the house writes it.

    The number may have been changed without its text, and a bare number means another length once the house
    changed its units.
    """
    return text if still_reads(meters, text, system) else written(meters, system)


def still_reads(meters: float, text: str, system: UnitSystem) -> bool:
    """Whether the text says the length."""
    try:
        return read_length(text, system).meters == meters
    except LengthProblem:
        return False
