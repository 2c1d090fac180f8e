"""Illuminance, intensity and transmission against published worked examples, at their printed precision."""

import math

import numpy as np
import pytest

from venue.core.beams import BeamAngle, at_level_by_cosine_power, cosine_flux_lm, cosine_power
from venue.core.filters import transmission_of_density
from venue.core.light import LUX_PER_FOOT_CANDLE, Span, arriving_lx, candela_for, illuminance_lx, solid_angle_sr


def test_a_foot_candle_in_lux() -> None:
    """UNECE Recommendation 20, code P27: 1 lm/ft2 = 10.76391 lx; NIST SP 811, appendix B.8, as carried by a unit
    library. Second hand."""
    assert pytest.approx(10.76391, abs=5e-6) == LUX_PER_FOOT_CANDLE
    assert pytest.approx(1 / 0.3048**2) == LUX_PER_FOOT_CANDLE


def test_a_lamp_above_a_table() -> None:
    """Verma, Concepts of Physics 1, chapter 22, Photometry, exercise 11: 15 lx at the foot of a source 60 cm up; so
    it has 5.4 cd, and 80 cm along the table there are 3.24 lx. Read."""
    candela = candela_for(15, 0.6)
    assert candela == pytest.approx(5.4)
    aside = illuminance_lx(candela, math.hypot(0.6, 0.8), math.degrees(math.atan2(0.8, 0.6)))
    assert aside == pytest.approx(3.24)


def test_a_glowing_sphere() -> None:
    """Irodov, Problems in General Physics, 5.12: a sphere of radius 6.0 cm and luminance 2.0e4 cd/m2, 3.0 m above:
    25 lx. Read. Seen from afar it is a source of luminance times pi R2."""
    assert illuminance_lx(2.0e4 * math.pi * 0.06**2, 3.0) == pytest.approx(25, abs=0.5)


def test_a_uniform_lamp_on_a_pole() -> None:
    """A textbook companion, "Illumination", example 49.1: 1200 lm on all sides, 8 m up, 6 m from the foot: 0.76 lx.
    Second hand."""
    candela = 1200 / solid_angle_sr(360)
    assert illuminance_lx(candela, 10.0, math.degrees(math.atan2(6, 8))) == pytest.approx(0.76, abs=0.005)


@pytest.mark.parametrize("half_beam", [2.0, 10.0, 30.0])
def test_a_cosine_power_beam_against_numeric_integration(half_beam: float) -> None:
    """Closed form I = I0 cos(t)^m, derived: its flux is 2 pi I0 / (m + 1), at half the beam angle it has 50 % of the
    peak, at half the field angle 10 %. The independent answer is a sum over thin rings."""
    power = cosine_power(BeamAngle(2 * half_beam, 50))
    field = at_level_by_cosine_power(BeamAngle(2 * half_beam, 50), 10)
    assert power is not None
    assert field is not None
    ring = math.pi / 2 / 200_000
    middles = (np.arange(200_000) + 0.5) * ring
    flux = float(np.sum(2 * math.pi * np.sin(middles) * np.cos(middles) ** power) * ring)
    assert cosine_flux_lm(1.0, power) == pytest.approx(flux)
    shares = [math.cos(math.radians(half)) ** power for half in (half_beam, field.full_deg / 2)]
    assert shares == pytest.approx([0.5, 0.1])


@pytest.mark.parametrize(("density", "percent"), [(0.1, 80), (0.3, 50), (0.6, 25), (1.0, 10), (1.3, 5)])
def test_neutral_densities_of_a_filter_lecture(density: float, percent: float) -> None:
    """Filter lecture table: transmission 10^-density. Second hand; it prints whole percents, .1 as 80 for 79.4."""
    assert 100 * transmission_of_density(density) == pytest.approx(percent, abs=0.6)


def test_two_losses_multiply() -> None:
    """Interior Lighting for Designers, lumen method: lamp depreciation .85 and dirt .96 leave .82. Read."""
    assert arriving_lx(1.0, Span(0.85, 0.85), Span(0.96, 0.96)).high == pytest.approx(0.82, abs=0.005)
