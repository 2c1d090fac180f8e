"""Lives that tell no distribution, and what a distribution says about spares."""

from math import exp

import pytest

from venue.core.lamp_life import LifeProblem, Weibull, fit_weibull


@pytest.mark.parametrize(
    ("failed", "unfailed", "code"),
    [
        ([], [500, 600], "too-few"),
        ([400], [500, 600], "too-few"),
        ([0, 400], [], "not-positive"),
        ([300, 400], [-1], "not-positive"),
        ([400, 400, 400], [], "all-alike"),
        ([400, 400], [300], "all-alike"),
    ],
)
def test_lives_that_tell_nothing_are_refused_with_the_reason(failed, unfailed, code: str) -> None:
    with pytest.raises(LifeProblem) as refused:
        fit_weibull(failed, unfailed)
    assert refused.value.code == code


def test_lamps_taken_out_alive_make_the_life_longer() -> None:
    alone, with_alive = fit_weibull([300, 500, 700]), fit_weibull([300, 500, 700], [800, 800, 800])
    assert with_alive.median > alone.median


def test_the_unit_of_time_changes_nothing_but_the_scale() -> None:
    in_hours, in_seconds = (
        fit_weibull([300, 500, 700], [650]),
        fit_weibull([3e5 * 3.6, 5e5 * 3.6, 7e5 * 3.6], [6.5e5 * 3.6]),
    )
    assert in_seconds.shape == pytest.approx(in_hours.shape)
    assert in_seconds.scale == pytest.approx(3600 * in_hours.scale)


def test_without_wear_the_chance_to_die_does_not_depend_on_age() -> None:
    life = Weibull(1.0, 1000.0)
    for age in (0.0, 500.0, 3000.0):
        assert life.dying_within(age, 100.0) == pytest.approx(1 - exp(-0.1))


def test_with_wear_it_grows_with_age_up_to_certainty() -> None:
    life = Weibull(4.0, 1000.0)
    chances = [life.dying_within(age, 50.0) for age in (0.0, 500.0, 1000.0, 2000.0, 1e9)]
    assert chances == sorted(chances)
    assert chances[-1] == 1.0
    assert life.dying_within(500.0, 0.0) == life.dying_within(500.0, -5.0) == 0.0
