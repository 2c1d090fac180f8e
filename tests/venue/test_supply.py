"""Amperes on a circuit and kilograms on a truss, against what is recorded."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.supply import Current, Load, Weight, amperes, circuit_sum, weight_sum


def test_2400_watts_at_120_volts_draw_20_amperes() -> None:
    assert amperes(2400, 120) == 20
    assert amperes(2400, 120, power_factor=0.8) == 25


@pytest.mark.parametrize(
    ("loads", "volts", "rating", "total", "verdict"),
    [
        ([Load("a", 1200, 2, 1.0)], 120, 20, 20, "not-exceeded"),
        ([Load("a", 1200, 2, 0.9)], 120, 20, 22.2222, "exceeded"),
        ([Load("a", 1200, 1, 1.0), Load("b", None)], 120, 20, 10, "not-recorded"),
        ([Load("a", 3000, 1, 1.0), Load("b", None)], 120, 20, 25, "exceeded"),
        ([Load("a", 1200, 1, 1.0)], 120, None, 10, "not-recorded"),
        ([Load("a", 1200, 1, 1.0)], None, 20, 0, "not-recorded"),
        ([], 120, 20, 0, "not-exceeded"),
    ],
)
def test_a_circuit_is_held_against_its_recorded_rating(
    loads: list[Load], volts: float | None, rating: float | None, total: float, verdict: str
) -> None:
    found = circuit_sum(loads, volts, rating)
    assert (found.total, found.verdict) == (pytest.approx(total, abs=1e-4), verdict)


def test_what_is_not_recorded_is_named_and_makes_the_sum_a_lower_bound() -> None:
    found = circuit_sum([Load("FS-01", 1200), Load("FS-02", None)], 120, 20)
    assert (found.missing, found.is_at_least) == (("FS-02",), True)
    assert circuit_sum([Load("FS-01", 1200)], 120, 20).is_at_least  # its power factor is not recorded
    assert not circuit_sum([Load("FS-01", 1200, 1, 0.95)], 120, 20).is_at_least
    assert circuit_sum([Load("FS-01", 1200)], None, 20).missing == ("FS-01",)


@pytest.mark.parametrize(
    ("others", "volts", "total", "verdict", "missing"),
    [
        ([Current("work light", 4.0)], 120, 14, "not-exceeded", ()),
        ([Current("work light", 11.0)], 120, 21, "exceeded", ()),
        ([Current("work light", None)], 120, 10, "not-recorded", ("work light",)),
        ([Current("work light", 21.0)], None, 21, "exceeded", ("a",)),
        ([Current("work light", 4.0)], None, 4, "not-recorded", ("a",)),
    ],
)
def test_what_else_draws_is_in_the_sum_or_is_named(
    others: list[Current], volts: float | None, total: float, verdict: str, missing: tuple[str, ...]
) -> None:
    found = circuit_sum([Load("a", 1200, 1, 1.0)], volts, 20, others)
    assert (found.total, found.verdict, found.missing) == (total, verdict, missing)
    assert found.is_at_least == bool(missing)


def test_a_lower_bound_is_never_told_to_be_within_the_limit() -> None:
    """1200 W are 10 A at least; with a power factor of 0.45 they would be 22.2 A."""
    found = circuit_sum([Load("a", 1200), Load("b", 600, 1, 1.0)], 120, 20)
    assert (found.total, found.verdict, found.least, found.over) == (15, "not-recorded", ("a",), None)
    assert circuit_sum([], None, 20).verdict == "not-recorded"
    over = circuit_sum([Load("a", 2900)], 120, 20)
    assert (over.verdict, over.over) == ("exceeded", pytest.approx(4.1667, abs=1e-4))


@pytest.mark.parametrize(
    ("weights", "limit", "total", "verdict", "missing"),
    [
        ([Weight("unit", 95), Weight("seat", 30), Weight("person and gear", 120)], 245, 245, "not-exceeded", ()),
        ([Weight("unit", 95, 2), Weight("seat", 30, 2)], 245, 250, "exceeded", ()),
        ([Weight("unit", 0.1, 3)], 0.3, 0.3, "not-exceeded", ()),
        ([Weight("unit", 95), Weight("seat", None)], 245, 95, "not-recorded", ("seat",)),
        ([Weight("unit", 300), Weight("seat", None)], 245, 300, "exceeded", ("seat",)),
        ([Weight("unit", 95)], None, 95, "not-recorded", ()),
    ],
)
def test_a_truss_is_held_against_its_recorded_limit(
    weights: list[Weight], limit: float | None, total: float, verdict: str, missing: tuple[str, ...]
) -> None:
    found = weight_sum(weights, limit)
    assert (found.verdict, found.missing, found.is_at_least) == (verdict, missing, bool(missing))
    assert found.total == pytest.approx(total)


@settings(max_examples=40)
@given(st.lists(st.floats(1, 500), max_size=8), st.floats(0, 4000), st.floats(0.1, 500))
def test_hanging_more_never_takes_an_exceeded_limit_back(parts: list[float], limit: float, more: float) -> None:
    weights = [Weight("unit", kg) for kg in parts]
    if weight_sum(weights, limit).verdict == "exceeded":
        assert weight_sum([*weights, Weight("more", more)], limit).verdict == "exceeded"
