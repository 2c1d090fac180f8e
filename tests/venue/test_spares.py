"""Spares: what to expect until an order arrives, and whether to order."""

from datetime import UTC, datetime, timedelta
from math import sqrt

import pytest

from venue.core.lamp_life import Weibull
from venue.core.spares import Demand, LampAhead, lead_time_demand, reorder_point, stock_state, usual_minimum

NOW = datetime(2026, 3, 1, tzinfo=UTC)
UNTIL = NOW + timedelta(days=30)
SOON, LATE = NOW + timedelta(days=10), NOW + timedelta(days=90)


def test_a_lamp_that_passes_its_stop_before_the_order_arrives_is_one_relamp() -> None:
    lamps = [LampAhead(980, 90, SOON), LampAhead(970, 90, UNTIL), LampAhead(100, 90, LATE), LampAhead(0, 90, None)]
    assert lead_time_demand(lamps, UNTIL) == Demand(2, 0)


def test_other_lamps_count_by_how_likely_their_kind_dies() -> None:
    # Without wear and with a mean of 1,000 h each of four lamps dies within 105.36 h with one chance in ten.
    life = Weibull(1.0, 1000.0)
    lamps = [LampAhead(980, 90, SOON), *[LampAhead(200 * age, 105.36, LATE) for age in range(4)]]
    found = lead_time_demand(lamps, UNTIL, life)
    assert found.mean == pytest.approx(1 + 4 * 0.1, abs=1e-4)
    assert found.deviation == pytest.approx(sqrt(4 * 0.1 * 0.9), abs=1e-4)


def test_a_certain_demand_needs_no_safety_stock() -> None:
    assert reorder_point(Demand(2, 0)).point == 2
    assert reorder_point(Demand(2, 1), risk=0.9).safety_stock == 0
    assert reorder_point(Demand(2, 1), risk=0.5).safety_stock == pytest.approx(0)


@pytest.mark.parametrize(("units", "spares"), [(0, 0), (1, 1), (4, 1), (5, 2), (8, 2), (9, 3)])
def test_one_spare_up_to_four_units_and_two_up_to_eight(units: int, spares: int) -> None:
    # Common practice, no source.
    assert usual_minimum(units) == spares


@pytest.mark.parametrize(
    ("on_shelf", "on_order", "keep", "reorder_at", "state"),
    [
        (2, 0, 2, None, "ok"),
        (1, 0, 2, None, "order"),  # a minimum of two, and one of two is used
        (1, 1, 2, None, "ok"),
        (0, 5, 2, None, "none"),
        (0, 0, 0, None, "ok"),
        (0, 0, 0, 0.0, "ok"),
        (0, 0, 0, 0.4, "none"),
        (3, 0, 2, 2.7, "ok"),
        (3, 0, 2, 3.0, "order"),
        (3, 1, 2, 3.0, "ok"),
    ],
)
def test_the_stock_says_whether_to_order(on_shelf: int, on_order: int, keep: int, reorder_at, state: str) -> None:
    assert stock_state(on_shelf, on_order, keep, reorder_at) == state
