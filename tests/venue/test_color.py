"""Color temperature in mired, filters, and the corrections of a house."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.color import behind, kelvin, mired, nearest_correction, nearest_pair, nearest_single, shift_mired
from venue.core.filters import Filter, stacked, transmission_of_density

KELVIN = st.floats(1500, 20_000)
WARM, WARMER = Filter("warm", 0.8, 40.0, True), Filter("warmer", 0.6, 130.0, True)
COOL, COOLER = Filter("cool", 0.7, -50.0, True), Filter("cooler", 0.3, -140.0, True)
ROSE = Filter("rose", 0.5)
HOUSE = [WARM, WARMER, COOL, COOLER, ROSE]


def test_half_the_kelvin_is_twice_the_mired() -> None:
    assert (mired(5000), mired(2500), kelvin(200)) == (200, 400, 5000)
    assert shift_mired(5000, 2500) == 200  # to warmer is positive
    assert behind(5000, 200) == pytest.approx(2500)
    assert behind(5000, -200) is None


@settings(max_examples=40)
@given(KELVIN, KELVIN, KELVIN)
def test_shifts_add_up_by_whatever_way(one: float, two: float, three: float) -> None:
    assert shift_mired(one, two) + shift_mired(two, three) == pytest.approx(shift_mired(one, three), abs=1e-9)
    assert behind(one, shift_mired(one, two)) == pytest.approx(two)


@pytest.mark.parametrize(
    ("wanted", "names"),
    [
        (3.0, []),  # near enough as it is
        (-4.0, []),
        (38.0, ["warm"]),
        (-46.0, ["cool"]),
        (81.0, ["warm", "warm"]),
        (172.0, ["warm", "warmer"]),
        (-99.0, ["cool", "cool"]),
        (90.0, ["warm", "warm"]),  # out of tolerance: still what comes nearest
        (500.0, ["warmer", "warmer"]),
    ],
)
def test_the_least_that_comes_near_enough_is_taken(wanted: float, names: list[str]) -> None:
    found = nearest_correction(wanted, HOUSE, tolerance_mired=5.0)
    assert [each.name for each in found.filters] == names
    assert found.off_mired == pytest.approx(found.shift_mired - wanted)


def test_of_equal_shifts_the_clearest_is_taken() -> None:
    dark = Filter("dark", 0.1, 40.0)
    found = nearest_single(40.0, [dark, WARM])
    assert found is not None
    assert (found.filters, found.stack.transmission) == ((WARM,), 0.8)


def test_a_pair_never_goes_back_and_forth() -> None:
    """Warmer and cool would make 80 exactly, at half the light of two warm ones."""
    found = nearest_pair(80.0, [WARMER, COOL])
    assert found is not None
    assert found.filters == (WARMER, WARMER)


def test_without_corrections_there_is_none() -> None:
    assert nearest_single(40.0, [ROSE]) is None
    assert nearest_pair(40.0, []) is None
    found = nearest_correction(40.0, [], 5.0)
    assert (found.filters, found.off_mired, found.stack.transmission) == ((), -40.0, 1.0)


@settings(max_examples=40)
@given(st.floats(-300, 300), st.lists(st.floats(-200, 200), max_size=6))
def test_no_single_filter_and_no_bare_lamp_is_nearer_than_what_is_taken(wanted: float, shifts: list[float]) -> None:
    filters = [Filter(str(number), 0.5, shift) for number, shift in enumerate(shifts)]
    found = nearest_correction(wanted, filters, tolerance_mired=0.0)
    assert abs(found.off_mired) <= min(abs(shift - wanted) for shift in (0.0, *shifts)) + 1e-9


@pytest.mark.parametrize(
    ("filters", "transmission", "is_rough"),
    [
        ([], 1.0, False),
        ([ROSE], 0.5, False),
        ([WARM, COOL], 0.56, False),
        ([WARM, ROSE], 0.4, True),
        ([ROSE, ROSE], 0.25, True),
    ],
)
def test_transmissions_multiply_and_say_where_that_is_rough(
    filters: list[Filter], transmission: float, is_rough: bool
) -> None:
    found = stacked(filters)
    assert (found.transmission, found.is_rough) == (pytest.approx(transmission), is_rough)


@settings(max_examples=40)
@given(st.floats(0, 4), st.floats(0, 4))
def test_densities_add_where_transmissions_multiply(one: float, two: float) -> None:
    both = transmission_of_density(one) * transmission_of_density(two)
    assert transmission_of_density(one + two) == pytest.approx(both)


FILTERS = st.lists(
    st.builds(Filter, st.text("abc", min_size=1, max_size=1), st.sampled_from([0.2, 0.5, 0.8]), st.integers(-300, 300)),
    max_size=8,
)


@settings(max_examples=60)
@given(st.integers(-500, 500), FILTERS)
def test_the_nearest_pair_is_as_near_and_as_clear_as_the_best_of_all_pairs(wanted: int, filters: list[Filter]) -> None:
    useful = [each for each in filters if (each.shift_mired or 0) * wanted > 0]
    every = [
        (abs((one.shift_mired or 0) + (other.shift_mired or 0) - wanted), -one.transmission * other.transmission)
        for one in useful
        for other in useful
    ]
    found = nearest_pair(wanted, filters)
    assert (found is None) == (not every)
    if found is not None:
        assert (abs(found.off_mired), -found.stack.transmission) == pytest.approx(min(every))
