"""Throws, beams and light in words."""

import math
from typing import get_args

import pytest

from venue.core.beams import BeamAngle
from venue.core.lengths import read_length
from venue.core.light import Span, illuminance_lx
from venue.core.pick_ups import SIZES, PickUp, Size, pick_up
from venue.core.sightlines import Code, Finding, findings, sightline
from venue.core.throws import Point
from venue.wording_light import (
    FINDINGS,
    angle_words,
    both_words,
    finding_advice,
    finding_words,
    fine_degrees_words,
    lux_words,
    pan_words,
    percent_words,
    reach_words,
    size_words,
)

FOOT = 0.3048


def test_every_code_of_core_has_its_sentence_and_what_to_do() -> None:
    assert set(FINDINGS) == set(get_args(Code))
    for code in get_args(Code):
        finding = Finding(code, 1.0, 2.0)
        assert "%" not in finding_words(finding, "metric").replace(" %", "")
        assert finding_advice(finding).endswith(".")


def test_a_steep_line_is_told_with_its_angle_and_the_limit() -> None:
    line = sightline(Point(0.0, -10.0, 21.5), Point(0.0, 0.0, 1.5))
    (found,) = findings(line, 21.5)
    assert finding_words(found, "metric").startswith("Steep: 63.4° below the horizontal, over 45.0°")


def test_the_cameras_limit_is_half_the_horizontal_throw() -> None:
    """26.6 degrees at the most (a broadcast lighting column)."""
    line = sightline(Point(0.0, -20.0, 13.5), Point(0.0, 0.0, 1.5))
    (found,) = findings(line, 13.5, is_on_camera=True)
    assert "31.0° below the horizontal, 26.6° is the most" in finding_words(found, "imperial")


def test_a_throw_as_told_that_differs_is_told_in_percent() -> None:
    words = finding_words(Finding("differs-from-stated", 0.0731, 0.05), "imperial")
    assert "differ by 7.3 %" in words
    assert "over 5 %" in words
    assert "inf %" in finding_words(Finding("differs-from-stated", math.inf, 0.05), "imperial")


def test_heights_and_throws_come_in_the_houses_units() -> None:
    assert "a lens at 1.00 m below the deck" in finding_words(Finding("unlikely-height", -1.0, 1.524), "metric")
    assert "a throw of 500', past 400'" in finding_words(Finding("unlikely-throw", 500 * FOOT, 400 * FOOT), "imperial")


@pytest.mark.parametrize(
    ("angle", "words"),
    [
        (BeamAngle(7.0, 50), "7° at 50 % of the peak"),
        (BeamAngle(7.25, 10), "7.25° at 10 % of the peak"),
        (BeamAngle(7.0), "7° at 50 % or 10 % of the peak, not recorded which"),
    ],
)
def test_an_angle_never_goes_without_its_level(angle: BeamAngle, words: str) -> None:
    assert angle_words(angle) == words


def test_light_comes_in_the_houses_unit_with_the_other_behind() -> None:
    """3.375 Mcd at 150 ft are 150 fc: E = I / d squared, computed by hand."""
    lux = illuminance_lx(3.375e6, 150 * FOOT)
    assert lux is not None
    assert lux_words(lux, "imperial") == "150 fc (1615 lx)"
    assert lux_words(lux, "metric") == "1615 lx (150 fc)"


def test_a_span_of_light_is_from_to_and_one_figure_where_both_ends_read_alike() -> None:
    assert lux_words(Span(1291.7, 1614.6), "imperial") == "120 to 150 fc (1292 to 1615 lx)"
    assert lux_words(Span(1614.5, 1614.6), "metric") == "1614 to 1615 lx (150 fc)"
    assert lux_words(Span(5.0, 5.0), "metric") == "5 lx (0.465 fc)"


def test_a_length_is_told_in_feet_and_in_meters() -> None:
    """142 ft to center stage is 43.3 m: 142 times 0.3048 exactly."""
    length = read_length("142 ft", "imperial")
    assert both_words(length.meters, "imperial", length.text) == "142 ft (43.28 m)"
    assert both_words(length.meters, "metric") == "43.28 m (142')"
    assert both_words(length.meters, "imperial", "142") == "142' (43.28 m)"
    assert both_words(43.0, "imperial", "43 m") == "43 m (141' 1\")"
    assert both_words(43.0, "metric", "43") == "43.00 m (141' 1\")"


def test_a_throw_that_rises_is_above_the_horizontal() -> None:
    assert finding_words(Finding("too-flat", -2.04, 15.0), "metric").startswith("Flat: 2.0° above the horizontal")


@pytest.mark.parametrize(
    ("pan", "words"),
    [(0.01, "straight upstage"), (-30.0, "30.0° toward stage right"), (12.34, "12.3° toward stage left")],
)
def test_a_pan_names_its_side(pan: float, words: str) -> None:
    assert pan_words(pan) == words


def test_sizes_and_reach_in_words() -> None:
    """An 8 ft pool at 150 ft needs 3.06 degrees, a 3 ft one 1.15: 2 atan(d / 2t), computed by hand."""
    needed = [pick_up(Size("", feet * FOOT), 150 * FOOT, None, None).beam_deg for feet in (3, 8)]
    assert [fine_degrees_words(each or 0.0) for each in needed] == ["1.15°", "3.06°"]
    head, *_others, body = SIZES
    assert size_words(head.name) == "head"
    assert reach_words(pick_up(head, 50.0, 2.0, 8.0)) == "can't close to it: 2° at its narrowest"
    assert reach_words(pick_up(body, 10.0, 2.0, 8.0)) == "can't open to it: 8° at its widest"
    assert reach_words(pick_up(body, 50.0, 2.0, 8.0)) == "reached"
    assert reach_words(PickUp(head, None)) == "not known"


@pytest.mark.parametrize(("share", "words"), [(0.0, "0 %"), (0.0005, "0.05 %"), (0.125, "12.5 %"), (1.0, "100 %")])
def test_shares_in_percent(share: float, words: str) -> None:
    assert percent_words(share) == words
