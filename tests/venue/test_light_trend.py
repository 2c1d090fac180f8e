"""Light readings against the unit's own first one and against its mates."""

from dataclasses import replace

import pytest

from tests.venue.ledgers import day
from venue.core.light_trend import LightReading, LightTrend, light_findings, light_trend, line_through, spread


def reading(at: float, lux: float, lamp_h: float | None = None, distance: float = 40.0, setting="full") -> LightReading:
    return LightReading(day(at), lux, distance, setting, lamp_h)


def trend_of(*lux: float) -> LightTrend:
    found = light_trend([reading(at, each, 100.0 * at) for at, each in enumerate(lux)], "full")
    assert found is not None
    return found


def test_readings_compare_as_candela() -> None:
    # 2,000 lx at 40 m are 3.2 Mcd; the same light at 44 m gives 2,000 / 1.21 lx.
    assert reading(0, 2000).candela == 3_200_000
    found = light_trend([reading(0, 2000), reading(1, 2000 / 1.21, distance=44.0)], "full")
    assert found is not None
    assert found.share_of_first == pytest.approx(1.0)


def test_other_settings_and_distances_far_from_the_first_are_no_comparison() -> None:
    far, other = reading(2, 1000, distance=47.0), reading(3, 900, setting="spot")
    first, last = reading(0, 2000), reading(1, 1800, setting=" FULL ")
    found = light_trend([far, last, other, first], "full")
    assert found is not None
    assert (found.readings, found.left_out, found.share_of_first) == ((first, last), (far,), 0.9)
    assert light_trend([far], "spot") is None


def test_the_line_falls_by_what_is_lost_an_hour() -> None:
    found = trend_of(2000, 1900, 1800)
    assert found.line is not None
    assert found.line.slope == pytest.approx(-160_000 / 100)
    assert found.line.at(150) == pytest.approx(3_200_000 - 150 * 1600)
    alone = light_trend([replace(reading(at, 2000), lamp_h=hours) for at, hours in ((0, 5.0), (1, None))], "full")
    assert alone is not None
    assert alone.line is None
    assert line_through([(3, 1), (3, 2)]) is None


@pytest.mark.parametrize(("last", "codes"), [(1400, []), (1399, ["below-first"]), (2100, [])])
def test_less_than_seventy_percent_of_the_first_is_a_finding(last: float, codes: list[str]) -> None:
    assert [each.code for each in light_findings(trend_of(2000, 1700, last))] == codes


@pytest.mark.parametrize(("mate", "codes"), [(2000, []), (2001, ["under-mates"])])
def test_more_than_a_quarter_under_the_median_of_its_mates_is_a_finding(mate: float, codes: list[str]) -> None:
    mates = [reading(0, lux).candela for lux in (100, mate, 9000)]
    found = light_findings(trend_of(1600, 1500), mates)
    assert [each.code for each in found] == codes
    assert all(each.share == pytest.approx(1500 / mate) and each.limit == 0.75 for each in found)


@pytest.mark.parametrize(
    ("lux", "share"), [([900, 1000, 1100], 0.1), ([1000], 0.0), ([], 0.0), ([0, 0], 0.0), ([500, 1500], 0.5)]
)
def test_the_spread_is_how_far_readings_lie_about_their_middle(lux: list[float], share: float) -> None:
    assert spread(lux) == pytest.approx(share)


def test_a_beam_that_differs_by_more_than_a_tenth_either_way_is_a_finding_even_without_a_trend() -> None:
    assert [each.code for each in light_findings(None, across_lux=[890, 1000, 1110])] == ["uneven"]
    assert light_findings(None, [1.0, 2.0], [900, 1100]) == ()


def test_a_first_reading_in_the_dark_does_not_divide_by_nothing() -> None:
    assert trend_of(0, 1500).share_of_first == 1.0
