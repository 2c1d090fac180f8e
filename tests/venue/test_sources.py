"""Sources as people write them, and what each means."""

import pytest

from venue.core.sources import Source, defaults, source_of, traits

WRITTEN = {
    Source.SHORT_ARC: ["short-arc", "Short Arc", "  SHORT   ARC lamp ", "shortarc", "2 kW xenon", "Xenon short-arc"],
    Source.METAL_HALIDE: ["metal-halide", "Metal Halide", "metalhalide", "halide 1200 W", "rare-earth", "Rare earths"],
    Source.TUNGSTEN_HALOGEN: ["tungsten-halogen", "Tungsten", "halogen, 1 kW", "INCANDESCENT"],
    Source.LED: ["LED", "led engine", "300 W LEDs", "light-emitting diode"],
    Source.CARBON_ARC: ["carbon-arc", "Carbon", "carbon arc, 90 A"],
}


@pytest.mark.parametrize(("source", "text"), [(source, text) for source, texts in WRITTEN.items() for text in texts])
def test_a_source_is_read_as_people_write_it(source: Source, text: str) -> None:
    assert source_of(text) is source


@pytest.mark.parametrize("text", ["", "arc", "lamp", "filled", "discharge", "xenon or LED", "recycled", "halogenated"])
def test_what_names_no_source_or_several_is_unknown(text: str) -> None:
    assert source_of(text) is None


def test_a_metal_halide_lamp_that_is_built_as_a_short_arc_is_metal_halide() -> None:
    assert source_of("metal halide, short arc") is Source.METAL_HALIDE


def test_every_source_reads_as_itself() -> None:
    assert [source_of(source) for source in Source] == list(Source)


def test_an_unknown_source_is_asked_everything_and_waits_longest() -> None:
    unknown = traits(None)
    assert all(vars(unknown).values())
    waits = [vars(defaults(source)) for source in Source]
    for name in ("warm_up_min", "run_down_min", "restrike_min", "opening_min", "least_burn_min"):
        longest = max(each[name] or 0 for each in waits)
        assert getattr(defaults(None), name) == longest


def test_an_led_has_no_lamp_to_change_and_tungsten_no_strikes_and_no_run_down() -> None:
    led, tungsten = traits(Source.LED), traits(Source.TUNGSTEN_HALOGEN)
    assert not any(vars(led).values())
    assert tungsten.has_lamp_to_change
    assert not (tungsten.is_struck or tungsten.has_run_down or tungsten.restrike_waits or tungsten.is_trimmed)


def test_only_a_carbon_arc_is_trimmed_and_defaults_make_sense_only_with_the_trait() -> None:
    assert [source for source in Source if traits(source).is_trimmed] == [Source.CARBON_ARC]
    for source in Source:
        found, has = defaults(source), traits(source)
        assert (found.run_down_min is not None) == has.has_run_down
        assert (found.restrike_min is not None) == has.restrike_waits
        assert (found.opening_min is not None) == has.has_lamp_to_change
        assert (found.longest_burn_min is not None) == has.is_trimmed


@pytest.mark.parametrize("source", [Source.SHORT_ARC, Source.METAL_HALIDE])
def test_a_discharge_lamp_cools_ten_minutes_where_its_maker_is_unknown(source: Source) -> None:
    # Safety notes of universities: at least ten minutes with the fan on before opening, or as the maker says.
    found = defaults(source)
    assert (found.run_down_min, found.opening_min, found.restrike_min) == (10, 10, 10)
