"""What a value of the trade may be."""

import math

import pytest

from venue.core.ranges import ANGLE_DEG, HEIGHT_M, THROW_M, Range

MIDDLE = Range((0.0, 10.0), (2.0, 8.0))


@pytest.mark.parametrize(
    ("value", "judged", "limit"),
    [
        (-0.1, "impossible", 0.0),
        (0.0, "unlikely", 2.0),
        (1.9, "unlikely", 2.0),
        (2.0, None, None),
        (8.0, None, None),
        (8.1, "unlikely", 8.0),
        (10.0, "unlikely", 8.0),
        (10.1, "impossible", 10.0),
        (math.nan, "impossible", 10.0),
    ],
)
def test_a_value_is_usual_unlikely_or_impossible(value: float, judged: str | None, limit: float | None) -> None:
    assert MIDDLE.judged(value) == judged
    if judged:
        assert MIDDLE.limit_for(value) == limit


# Common practice, no source: throws of 25 to 400 feet, lenses 5 to 150 feet above the deck, 15 to 45 degrees.
def test_feet_of_the_trade_are_kept_in_meters() -> None:
    assert THROW_M.soft == pytest.approx((7.62, 121.92))
    assert HEIGHT_M.hard == pytest.approx((-3.048, 91.44))
    assert ANGLE_DEG.soft == (15, 45)
