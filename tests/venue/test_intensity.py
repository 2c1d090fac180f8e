"""How strong a beam is at the angle of a size: at both ends of the data, between them, by zoom and by iris."""

import pytest

from venue.core.abilities import Optics
from venue.core.intensity import intensity_at, lux_on
from venue.core.light import Span

ZOOM = Optics(narrow_deg=1.0, wide_deg=8.0, narrow_cd=6_400_000, wide_cd=100_000, percent=50)


@pytest.mark.parametrize(("angle", "candela"), [(1.0, 6_400_000), (8.0, 100_000), (0.5, 6_400_000), (12.0, 100_000)])
def test_a_zoom_has_the_sheets_candela_at_its_ends_and_none_beyond(angle: float, candela: float) -> None:
    span = intensity_at(angle, ZOOM, "zoom")
    assert span is not None
    assert (span.low, span.high) == (pytest.approx(candela), pytest.approx(candela))


def test_a_zoom_that_loses_no_light_gives_the_candela_of_its_solid_angle() -> None:
    """Closed form: the same flux in a cone of twice the (small) angle is a quarter as strong."""
    lossless = Optics(narrow_deg=1.0, wide_deg=4.0, narrow_cd=1_600_000, wide_cd=100_011.4)
    span = intensity_at(2.0, lossless, "zoom")
    assert span is not None
    assert span.low == pytest.approx(400_000, rel=1e-3)


def test_an_iris_leaves_the_middle_as_it_is() -> None:
    assert intensity_at(2.0, ZOOM, "iris") == Span(100_000, 100_000)


def test_where_nobody_recorded_what_sizes_the_beam_the_answer_lies_between_both_ends() -> None:
    assert intensity_at(2.0, ZOOM) == Span(100_000, 6_400_000)
    assert intensity_at(2.0, Optics(wide_cd=5000)) == Span(5000, 5000)
    assert intensity_at(2.0, Optics(narrow_deg=1.0)) is None


def test_the_light_on_somebody_follows_the_inverse_square_behind_glass() -> None:
    """150 foot-candles at 150 feet are 3.375 Mcd: 1614.6 lx at 45.72 m (common practice, no source)."""
    optics = Optics(narrow_cd=3_375_000)
    span = lux_on(1.0, 45.72, optics, "", Span(0.85, 0.88))
    assert span is not None
    assert (span.low, span.high) == (pytest.approx(0.85 * 1614.59, rel=1e-5), pytest.approx(0.88 * 1614.59, rel=1e-5))
    assert lux_on(1.0, 0.0, optics, "") is None
