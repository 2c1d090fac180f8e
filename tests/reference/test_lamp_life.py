"""Lives of lamps, reorder points and straight lines, against published answers and a reference library."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import CensoredData, weibull_min

from venue.core.lamp_life import Weibull, fit_weibull
from venue.core.light_trend import line_through
from venue.core.spares import Demand, reorder_point

# NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3 "Maximum likelihood estimation": ten failures, ten
# units unfailed at 500 h. Read in a stored copy.
FAILED_H = (54, 187, 216, 240, 244, 335, 361, 373, 375, 386)
UNFAILED_H = (500,) * 10


def test_the_weibull_of_the_nist_handbook() -> None:
    found = fit_weibull(FAILED_H, UNFAILED_H)
    assert round(found.shape, 4) == 1.7208
    assert round(found.mean, 3) == 540.737
    # Printed 606.5280. The likelihood is greatest at 606.5276, by this fit and by the reference library below: the
    # last printed digits are the handbook's optimizer's.
    assert found.scale == pytest.approx(606.5280, abs=0.0005)


def test_the_weibull_of_the_reference_library_on_the_same_lives() -> None:
    # scipy.stats.weibull_min.fit on right-censored data, location held at 0.
    data = CensoredData(uncensored=FAILED_H, right=UNFAILED_H)
    shape, _location, scale = weibull_min.fit(data, floc=0)
    found = fit_weibull(FAILED_H, UNFAILED_H)
    assert (found.shape, found.scale) == (pytest.approx(shape, rel=1e-6), pytest.approx(scale, rel=1e-6))


@settings(max_examples=15)
@given(
    st.lists(st.floats(50, 4000), min_size=3, max_size=12, unique_by=lambda hours: round(hours)),
    st.lists(st.floats(50, 4000), max_size=6),
)
def test_no_other_weibull_nearby_is_likelier(failed: list[float], unfailed: list[float]) -> None:
    # The likelihood as the reference library computes it: densities of the failed, survivals of the others.
    def likelihood(shape: float, scale: float) -> float:
        law = weibull_min(shape, scale=scale)
        return float(law.logpdf(failed).sum() + (law.logsf(unfailed).sum() if unfailed else 0.0))

    found = fit_weibull(failed, unfailed)
    best = likelihood(found.shape, found.scale)
    for by in (0.98, 1.02):
        assert best >= likelihood(found.shape * by, found.scale) - 1e-9
        assert best >= likelihood(found.shape, found.scale * by) - 1e-9


@pytest.mark.parametrize(("shape", "scale"), [(0.7, 300.0), (1.0, 900.0), (1.7208, 606.528), (6.0, 2000.0)])
def test_survival_mean_and_quantiles_of_the_reference_library(shape: float, scale: float) -> None:
    law, found = weibull_min(shape, scale=scale), Weibull(shape, scale)
    assert found.mean == pytest.approx(law.mean(), rel=1e-12)
    assert found.median == pytest.approx(law.median(), rel=1e-12)
    for hours in (0.0, 10.0, 500.0, 3000.0):
        assert found.survival(hours) == pytest.approx(law.sf(hours), rel=1e-12)
    for share in (0.01, 0.1, 0.5, 0.95):
        assert found.quantile(share) == pytest.approx(law.ppf(share), rel=1e-12)


@pytest.mark.parametrize(("shape", "rated"), [(1.0, 400.0), (2.5, 1000.0), (8.0, 2000.0)])
def test_half_of_the_lamps_are_dead_at_a_rated_life_that_is_a_median(shape: float, rated: float) -> None:
    # Lighting Research Center, definition of average rated life (NLPIP 2006): the hours at which half of a large
    # group has failed. Read.
    life = Weibull(shape, rated / math.log(2) ** (1 / shape))
    assert life.median == pytest.approx(rated)
    assert life.survival(rated) == pytest.approx(0.50)


def test_the_reorder_point_of_stevenson() -> None:
    # W. J. Stevenson, Operations Management, 14th edition, chapter 12, example 8: demand in the lead time 50 with
    # a standard deviation of 5, risk of running out 3 %: z 1.88, safety stock 9.40, reorder point 59.40. Quoted
    # from a secondary copy.
    found = reorder_point(Demand(50, 5), risk=0.03)
    assert (round(found.z, 2), round(found.safety_stock, 2), round(found.point, 2)) == (1.88, 9.40, 59.40)


# NIST Statistical Reference Datasets, linear regression, Norris ("Calibration of Ozone Monitors"): y, x. From the
# file that the reference library carries.
NORRIS = """
0.1 0.2 338.8 337.4 118.1 118.2 888.0 884.6 9.2 10.1 228.1 226.5 668.5 666.3 998.5 996.3 449.1 448.6 778.9 777.0
559.2 558.2 0.3 0.4 0.1 0.6 778.1 775.5 668.8 666.9 339.3 338.0 448.9 447.5 10.8 11.6 557.7 556.0 228.3 228.1
998.0 995.8 888.8 887.6 119.6 120.2 0.3 0.3 0.6 0.3 557.6 556.8 339.3 339.1 888.0 887.2 998.5 999.0 778.9 779.0
10.2 11.1 117.6 118.3 228.9 229.2 668.4 669.1 449.2 448.9 0.2 0.5
"""


def test_the_line_of_nist_norris() -> None:
    values = [float(each) for each in NORRIS.split()]
    points = list(zip(values[1::2], values[::2], strict=True))
    assert len(points) == 36
    found = line_through(points)
    assert found is not None
    assert found.slope == pytest.approx(1.00211681802045, rel=1e-13)
    assert found.intercept == pytest.approx(-0.262323073774029, rel=1e-11)
