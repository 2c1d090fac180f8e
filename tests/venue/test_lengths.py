"""Lengths as typed: feet and inches by the exact foot of 0.3048 m and inch of 25.4 mm."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.lengths import LengthProblem, UnitSystem, as_typed, exact_text, read_length, still_reads, written

# Each worked by hand: feet * 0.3048 + inches * 0.0254.
READINGS = [
    ("142' 6\"", 43.434),
    ("142.5 ft", 43.434),
    ("142 ft 6 in", 43.434),
    ("142 feet 6 inches", 43.434),
    ("142'-6\"", 43.434),
    ("142'6", 43.434),
    ("142′ 6″", 43.434),
    ("142’ 6”", 43.434),
    ("142' 6''", 43.434),
    ("142' 6 1/2\"", 43.4467),
    ('6"', 0.1524),
    ("1/2 in", 0.0127),
    ("43.4 m", 43.4),
    ("43,4 m", 43.4),
    ("43.4 meters", 43.4),
    ("43.4 metres", 43.4),
    ("4340 cm", 43.4),
    ("43400mm", 43.4),
    ("-2 ft", -0.6096),
    ("−2 ft", -0.6096),
    ("0", 0.0),
]


@pytest.mark.parametrize(("text", "meters"), READINGS)
@pytest.mark.parametrize("system", ["imperial", "metric"])
def test_a_length_with_its_unit_reads_alike_in_every_house(text: str, meters: float, system: UnitSystem) -> None:
    assert read_length(text, system).meters == pytest.approx(meters, abs=1e-12)


@pytest.mark.parametrize(("system", "meters"), [("imperial", 43.2816), ("metric", 142.0)])
def test_a_bare_number_is_in_the_units_of_the_house(system: UnitSystem, meters: float) -> None:
    assert read_length("142", system).meters == meters


def test_the_text_is_kept_as_typed() -> None:
    assert read_length("  142' 6\" ", "imperial").text == "142' 6\""


REFUSALS = [
    ("", "empty"),
    ("   ", "empty"),
    ("far", "unreadable"),
    ("12 6", "unreadable"),
    ("5 m 3", "unreadable"),
    ("1.5' 3\"", "unreadable"),
    ("1e5 m", "unreadable"),
    ("nan", "unreadable"),
    ("- 3", "unreadable"),
    ("5 ft -3 in m", "unreadable"),
    ("1,200 ft", "comma"),
    ("142' 12\"", "inches"),
    ('3/0"', "fraction"),
    ("5' 3/2\"", "fraction"),
]


@pytest.mark.parametrize(("text", "code"), REFUSALS)
def test_what_is_no_length_is_refused_by_its_reason(text: str, code: str) -> None:
    with pytest.raises(LengthProblem) as refused:
        read_length(text, "imperial")
    assert refused.value.code == code


@given(st.text(max_size=40))
def test_no_text_at_all_breaks_the_reading(text: str) -> None:
    try:
        assert math.isfinite(read_length(text, "metric").meters)
    except LengthProblem as problem:
        assert problem.code in {"empty", "unreadable", "comma", "inches", "fraction"}


@given(st.integers(0, 1000), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_read_as_the_nearest_double(feet: int, inches: int, part: int) -> None:
    exact = Fraction(3048, 10_000) * feet + Fraction(254, 10_000) * (inches + Fraction(part, 16))
    assert read_length(f"{feet}' {inches} {part}/16\"", "imperial").meters == float(exact)


@given(st.floats(-1000, 1000, allow_nan=False))
def test_the_exact_text_reads_as_exactly_the_same_length(meters: float) -> None:
    assert read_length(exact_text(meters), "imperial").meters == meters


@pytest.mark.parametrize(
    ("meters", "imperial", "metric"),
    [
        (43.434, "142' 6\"", "43.43 m"),
        (43.2816, "142'", "43.28 m"),
        (0.0127, "0' 1\"", "0.01 m"),  # half an inch is rounded up
        (0.3047, "1'", "0.30 m"),  # never 0' 12"
        (-4.5, "14' 9\"", "4.50 m"),
        (0.0, "0'", "0.00 m"),
        (0.125, "0' 5\"", "0.13 m"),  # half a centimeter is rounded up
    ],
)
def test_a_length_is_written_to_the_inch_or_the_centimeter_without_a_sign(
    meters: float, imperial: str, metric: str
) -> None:
    assert (written(meters, "imperial"), written(meters, "metric")) == (imperial, metric)


def test_a_text_that_no_longer_says_the_length_is_not_shown() -> None:
    assert as_typed(43.434, "142.5 ft", "imperial") == "142.5 ft"
    assert as_typed(43.0, "142.5 ft", "metric") == "43.00 m"
    assert as_typed(43.2816, "142", "imperial") == "142"
    assert as_typed(43.2816, "142", "metric") == "43.28 m"
    assert not still_reads(4.5, "-4.5 m", "metric")
