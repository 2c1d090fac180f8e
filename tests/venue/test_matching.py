"""Two lights or more on one performer."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from venue.core.filters import Filter
from venue.core.matching import Light, Match, level_difference, match
from venue.core.pick_ups import Size

WAIST = Size("waist", 1.30)
WARM = Filter("warm", 0.8, 40.0, True)


def light(name: str, lux: float | None = 1500.0, **facts: float | str | None) -> Light:
    """A short-arc light at 40 m that opens from 0.9 to 7 degrees."""
    usual = {"throw_m": 40.0, "source": "short-arc", "narrow_deg": 0.9, "wide_deg": 7.0, "percent": 50}
    return Light(name, lux=lux, **{**usual, **facts})  # type: ignore[arg-type]


def codes(found: Match) -> list[str]:
    return [each.code for each in found.findings]


def test_two_equal_lights_have_nothing_to_do() -> None:
    found = match([light("1", color_k=6000), light("2", color_k=6000)], WAIST)
    assert codes(found) == []
    assert [part.share for part in found.parts] == [1, 1]
    assert [part.pick_up.reach for part in found.parts] == ["ok", "ok"]
    assert (found.lux, found.reference) == (1500, "1")


def test_180_and_140_foot_candles_differ_by_22_percent_and_are_warned_of() -> None:
    found = match([light("1", 180), light("2", 140)], WAIST)
    (finding,) = found.findings
    assert (finding.code, finding.names, finding.limit) == ("levels-differ", ("1", "2"), 0.15)
    assert finding.value == pytest.approx(0.2222, abs=5e-5)
    assert [part.share for part in found.parts] == pytest.approx([0.7778, 1], abs=5e-5)


@pytest.mark.parametrize(("lux", "found"), [(85.0, []), (84.9, ["levels-differ"]), (0.0, ["levels-differ"])])
def test_fifteen_percent_apart_is_still_let_be(lux: float, found: list[str]) -> None:
    assert codes(match([light("1", 100), light("2", lux)], WAIST)) == found


def test_other_sources_are_warned_of_and_an_unrecorded_one_is_not() -> None:
    lights = [light("1"), light("2", source="2 kW Short Arc"), light("3", source="")]
    assert codes(match(lights, WAIST)) == []
    found = match([*lights, light("4", source="LED")], WAIST)
    assert [(each.code, each.names) for each in found.findings] == [("sources-differ", ("1", "2", "4"))]


def test_the_brighter_light_comes_to_the_color_of_the_dimmer_one() -> None:
    """6000 K is 166.7 mired, 4800 K 208.3: 41.7 to go, the filter has 40. It takes a fifth of 1500."""
    found = match([light("1", 1500, color_k=6000), light("2", 1300, color_k=4800)], WAIST, [WARM])
    first, second = found.parts
    assert found.reference == "2"
    assert first.off_mired == pytest.approx(-41.667, abs=1e-3)
    assert first.correction is not None
    assert (first.correction.filters, first.correction.off_mired) == ((WARM,), pytest.approx(-1.667, abs=1e-3))
    assert (first.lux, found.lux) == (1200, 1200)  # behind its filter it is the dimmest
    assert (first.share, second.share) == (1, pytest.approx(1200 / 1300))
    assert (second.off_mired, second.correction) == (0, None)
    assert codes(found) == ["colors-differ"]


def test_colors_that_no_filter_of_the_house_brings_together_are_said() -> None:
    found = match([light("1", 1500, color_k=6000), light("2", 1300, color_k=3200)], WAIST, [WARM])
    assert codes(found) == ["colors-differ", "no-correction"]
    without = match([light("1", 1500, color_k=6000), light("2", 1300, color_k=4800)], WAIST)
    assert codes(without) == ["colors-differ", "no-correction"]


def test_a_source_in_words_that_nobody_knows_is_held_against_itself() -> None:
    assert codes(match([light("1", source="plasma"), light("2", source="Plasma ")], WAIST)) == []
    assert codes(match([light("1", source="plasma"), light("2", source="ember")], WAIST)) == ["sources-differ"]


def test_what_is_not_recorded_is_not_judged() -> None:
    found = match([light("1", None, color_k=6000), light("2", 900), Light("3", 40.0)], WAIST)
    assert codes(found) == []
    assert [part.share for part in found.parts] == [None, 1, None]
    assert [part.off_mired for part in found.parts] == [0, None, None]
    assert found.parts[2].pick_up.reach is None
    assert found.diameters_m is None


def test_without_a_throw_sources_and_colors_are_still_held_against_each_other() -> None:
    found = match([light("1", color_k=4800), light("2", None, throw_m=None, source="LED", color_k=6000)], WAIST, [WARM])
    assert codes(found) == ["sources-differ", "colors-differ"]
    assert (found.parts[1].pick_up.beam_deg, found.diameters_m) == (None, None)


def test_nobody_at_all_matches_nothing() -> None:
    assert match([], WAIST) == Match((), None, None, None, ())


def test_a_level_below_the_least_that_is_wanted_is_said() -> None:
    found = match([light("1", 1000), light("2", 900)], WAIST, least_lux=950)
    assert [(each.code, each.value, each.limit) for each in found.findings] == [("level-too-low", 900, 950)]


def test_a_size_that_one_of_them_can_not_make_is_said_with_what_all_can() -> None:
    found = match([light("1"), light("2", narrow_deg=2.5)], WAIST)
    assert [(each.code, each.names) for each in found.findings] == [("size-out-of-reach", ("2",))]
    assert found.diameters_m == pytest.approx((1.7456, 4.8930), abs=1e-4)


def test_lights_without_a_size_in_common_are_said() -> None:
    found = match([light("1", wide_deg=1.5), light("2", narrow_deg=2.0)], WAIST)
    assert found.diameters_m is None
    assert codes(found) == ["size-out-of-reach", "no-size-in-common"]


def test_angles_at_other_levels_are_not_held_against_each_other_in_silence() -> None:
    assert codes(match([light("1"), light("2", percent=10)], WAIST)) == ["levels-of-angles-differ"]
    assert codes(match([light("1"), light("2", percent=None)], WAIST)) == ["levels-of-angles-differ"]


@settings(max_examples=40)
@given(st.lists(st.floats(1, 1e5), min_size=1, max_size=6))
def test_behind_its_share_every_light_gives_the_level_of_the_dimmest(lux: list[float]) -> None:
    found = match([light(str(number), each) for number, each in enumerate(lux)], WAIST)
    shares = [part.share for part in found.parts]
    assert [each * (share or 0) for each, share in zip(lux, shares, strict=True)] == pytest.approx(
        [min(lux)] * len(lux)
    )
    assert 0 <= level_difference(lux) < 1


def test_no_light_at_all_differs_by_nothing() -> None:
    assert (level_difference([]), level_difference([0.0, 0.0]), level_difference([5.0])) == (0, 0, 0)
