"""Kendall's tau of a comparison, against a reference library and a published example."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import kendalltau

from shows.core.numbering.permutations import cycles_of, tau_of
from tests.shows.numbering_cases import by_hand, count_to, even_ring, row_house


@pytest.mark.parametrize("count", range(2, 7))
def test_tau_equals_the_reference_library_on_every_permutation(count: int) -> None:
    # scipy.stats.kendalltau; without ties its tau-b is tau-a.
    for ranks in permutations(range(count)):
        assert tau_of(ranks) == pytest.approx(kendalltau(range(count), ranks).statistic, abs=1e-12)


@given(st.integers(2, 60).flatmap(lambda count: st.permutations(range(count))))
def test_tau_equals_the_reference_library_on_long_rows(ranks: list[int]) -> None:
    assert tau_of(ranks) == pytest.approx(kendalltau(range(len(ranks)), ranks).statistic, abs=1e-12)


def test_tau_of_the_published_kendall_distance_example() -> None:
    # Kendall distance example (encyclopedia mirror; R-help 2015-09-13): 1 2 3 4 5 against 3 4 1 2 5 has four
    # discordant pairs, tau 0.2. Read at second hand.
    assert tau_of([2, 3, 0, 1, 4]) == pytest.approx(0.2)


def test_tau_is_given_for_rows_of_two_and_more_only() -> None:
    alone = by_hand(row_house(["1"]), {"1": "1"}).against_labels
    in_ring = by_hand(even_ring(4), dict(zip(count_to(4), "4321", strict=True))).against_labels
    assert alone is not None
    assert in_ring is not None
    assert (alone.tau, in_ring.tau) == (None, None)


def test_cycles_are_show_to_label_from_the_smallest_without_fixed_points() -> None:
    assert cycles_of([3, 2, 1, 0], ["1", "2", "5", "6"]) == (("1", "6"), ("2", "5"))
    assert cycles_of([1, 2, 0, 3], ["1", "2", "3", "4"]) == (("1", "2", "3"),)
