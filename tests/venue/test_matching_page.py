"""Two lights or more on one pick-up, on the page. A lens 30 m out and 40 m above the target has a throw of 50 m."""

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, words
from tests.venue.recorded import a_filter
from venue.actions import measure_light, place_unit
from venue.core.lengths import read_length
from venue.core.light import LUX_PER_FOOT_CANDLE
from venue.models import House, Place, Position, Unit

pytestmark = pytest.mark.django_db

LENS = {"x_m": 0.0, "y_m": -30.0, "z_m": 41.5}
DATA = {
    "source": "short-arc",
    "cct_k": 6000.0,
    "narrow_deg": 0.5,
    "wide_deg": 8.0,
    "angle_percent": 50,
    "sized_by": "iris",
}


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


@pytest.fixture
def booth(cast: Cast) -> Position:
    return make_position(cast.house, name="Rear booth", glass="open")


def candela(foot_candles: float) -> float:
    """What gives so many foot-candles at 50 m: E times the throw squared."""
    return foot_candles * LUX_PER_FOOT_CANDLE * 50**2


def spot(booth: Position, label: str, foot_candles: float = 180.0, **data: Any) -> tuple[Place, Unit]:
    """A unit FS-<label> at a place of the label, of so much light."""
    place = make_place(booth, label, **LENS)
    facts = {**DATA, "wide_cd": candela(foot_candles), **data}
    unit = make_unit(booth.house, f"FS-{label}", **facts)
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    return place, unit


def asked(client: Client, house: House, *places: Place, **query: Any) -> Any:
    address = reverse("venue:matching", args=[house.slug])
    response = client.get(address, {"place": [str(place.ref) for place in places], **query})
    assert response.status_code == 200
    return response


def page(client: Client, booth: Position, **query: Any) -> str:
    return words(asked(client, booth.house, *booth.places.all(), **query))


def test_two_equal_lights_match_as_far_as_the_data_tell(head: Client, booth: Position) -> None:
    spot(booth, "1"), spot(booth, "2")
    shown = page(head, booth, size="waist")
    assert "They match on the size “waist”, as far as data on file tell." in shown
    assert "Place 1 (FS-1) sets the level: it is the dimmest" in shown
    assert "light then 180 fc (1938 lx)" in shown


def test_180_and_140_foot_candles_are_warned_of_and_the_dimmest_sets_the_level(head: Client, booth: Position) -> None:
    """(180 - 140) / 180 is 22.2 %, over 15; 140 / 180 is 77.8 %."""
    spot(booth, "1", 180), spot(booth, "2", 140)
    shown = page(head, booth, size="full body")
    assert "All open their levels differ by 22.2 %, which is over 15 % (common practice)" in shown
    assert "180 fc (1938 lx) at place 1 (FS-1), 140 fc (1507 lx) at place 2 (FS-2)" in shown
    assert "Place 2 (FS-2) sets the level: it is the dimmest, and a douser only takes light away." in shown
    assert "Then all give 140 fc (1507 lx)." in shown
    assert "open to 77.8 % of its light light then 140 fc (1507 lx)" in shown
    assert "not of the lever's way" in shown
    assert "They come together on the size “full body” once this is done" in shown


def test_light_readings_that_fell_count(head: Client, booth: Position) -> None:
    """The second gave 180 fc when it was first measured and 140 fc at last: its share is 77.8 %."""
    spot(booth, "1")
    _place, worn = spot(booth, "2")
    for number, light in enumerate((180, 140)):
        facts = {"distance": read_length("50 m", "metric"), "setting": "open"}
        lux = light * LUX_PER_FOOT_CANDLE
        measure_light(actor=ACTOR, unit=worn, at=NOON + hours(number), lux=lux, by="Hollis Varga", **facts)
    assert "All open their levels differ by 22.2 %" in page(head, booth)


def test_fifteen_percent_is_still_let_be(head: Client, booth: Position) -> None:
    spot(booth, "1", 100), spot(booth, "2", 85)
    assert "levels differ" not in page(head, booth)


def test_kinds_of_source_that_differ_are_warned_of(head: Client, booth: Position) -> None:
    spot(booth, "1"), spot(booth, "2", source="LED")
    shown = page(head, booth)
    assert "They may read as two lights" in shown
    assert "The kinds of source differ: short-arc at place 1 (FS-1), LED at place 2 (FS-2)." in shown


def test_the_correction_that_comes_nearest_is_named_with_what_it_leaves(head: Client, booth: Position) -> None:
    """6000 K is 166.7 mired, 4800 K 208.3; the filter turns 40 of 41.7 and lets 80 % of 180 fc through."""
    a_filter(booth.house, "C-1", transmission_pct=80.0, shift_mired=40.0)
    a_filter(booth.house, "D-1", transmission_pct=80.0, shift_mired=41.0, is_diffusion=True)
    spot(booth, "1", 180), spot(booth, "2", 160, cct_k=4800.0)
    shown = page(head, booth)
    assert "Place 1 (FS-1) is 41.7 mired cooler than place 2 (FS-2); up to 15 mired counts as the same color" in shown
    assert "Put C-1 in front of place 1 (FS-1)." in shown
    assert "nearest correction C-1, left over: 1.7 mired cooler" in shown
    assert "behind the correction 144 fc (1550 lx)" in shown
    assert "Place 1 (FS-1) sets the level: behind its correction it is the dimmest" in shown
    assert "Place 2 (FS-2) sets the color: it is the dimmest whose color temperature is on file" in shown
    assert "open to 90 % of its light light then 144 fc" in shown
    assert "once this is done" in page(head, booth)
    assert "up to 50 mired" in page(head, booth, tolerance="50")
    assert "counts as the same color" not in page(head, booth, tolerance="50")


def test_colors_that_no_filter_of_the_house_brings_together_are_told_once(head: Client, booth: Position) -> None:
    spot(booth, "1", 180), spot(booth, "2", 160, cct_k=3200.0)
    shown = page(head, booth)
    assert "As they stand they don't come together" in shown
    assert shown.count("145.8 mired cooler than place 2 (FS-2); up to") == 1
    assert "The house has no correction on file" in shown
    assert "Get a correction that turns it about 145.8 mired warmer" in shown
    a_filter(booth.house, "C-1", transmission_pct=80.0, shift_mired=60.0)
    shown = page(head, booth)
    assert "No filter of the house settles it: at best it stays 25.8 mired cooler." in shown
    assert "nearest correction C-1 + C-1, left over: 25.8 mired cooler" in shown
    assert "What passes both filters is rough" in shown


def test_a_level_under_the_least_is_said_in_the_houses_unit(head: Client, booth: Position) -> None:
    spot(booth, "1"), spot(booth, "2")
    shown = page(head, booth, least="200")
    assert "Together they give 180 fc (1938 lx), less than the 200 fc (2153 lx) asked for." in shown
    assert "less than" not in page(head, booth, least="179")


def test_a_size_out_of_reach_is_said_with_what_all_of_them_reach(head: Client, booth: Position) -> None:
    """A head of 0.6 m at 50 m needs 0.69 degrees. From 2 * 50 * tan(0.5) and to 2 * 50 * tan(4): 0.87 m and 6.99 m."""
    spot(booth, "1"), spot(booth, "2", narrow_deg=1.0)
    shown = page(head, booth, size="head")
    assert "The size “head” is out of reach of: place 2 (FS-2)." in shown
    assert "From 2' 10\" (0.87 m) to 22' 11\" (6.99 m) across all of them reach" in shown
    assert "needs an angle of 0.69° reach can't close to it: 1° at its narrowest" in shown


def test_lights_without_a_size_in_common_and_angles_at_other_levels_are_said(head: Client, booth: Position) -> None:
    spot(booth, "1", wide_deg=1.0), spot(booth, "2", narrow_deg=3.0, angle_percent=10)
    shown = page(head, booth)
    assert "They have no size in common" in shown
    assert "at 50 % of the peak at place 1 (FS-1), at 10 % of the peak at place 2 (FS-2)" in shown


def test_what_is_not_recorded_is_named_with_a_way_to_record_it(head: Client, cast: Cast, booth: Position) -> None:
    spot(booth, "1")
    empty = make_place(booth, "2")
    bare = make_unit(cast.house, "FS-3")
    place_unit(actor=ACTOR, unit=bare, place=make_place(booth, "3"), starts_at=NOON)
    response = asked(head, cast.house, *booth.places.all())
    shown, body = words(response), response.content.decode()
    assert "Not recorded: which unit stands there where its lens is" in shown
    assert (
        "kind of source of FS-3 narrowest and widest angle of FS-3 candela of FS-3 color temperature of FS-3" in shown
    )
    assert "Not enough is recorded to say whether they match" in shown
    for name, row in (("place_stand", empty), ("place_edit", empty), ("unit_edit", bare)):
        assert reverse(f"venue:{name}", args=[cast.house.slug, row.ref]) in body
    reader = asked(as_user(cast.reader), cast.house, *booth.places.all())
    assert "candela of FS-3" in words(reader)
    assert "/edit/" not in reader.content.decode()


def test_sources_are_held_against_each_other_even_without_a_lens(head: Client, booth: Position) -> None:
    spot(booth, "1")
    other = make_unit(booth.house, "FS-2", source="LED")
    place_unit(actor=ACTOR, unit=other, place=make_place(booth, "2"), starts_at=NOON)
    assert "The kinds of source differ" in page(head, booth)


def test_places_without_units_have_nothing_to_match(head: Client, booth: Position) -> None:
    make_place(booth, "1"), make_place(booth, "2")
    assert "Fewer than two of these places have a unit now" in page(head, booth)


def test_a_light_from_one_figure_to_another_counts_with_the_lower(head: Client, cast: Cast) -> None:
    """85 % of 180 fc behind a pane that nobody measured."""
    booth = make_position(cast.house, glass="fixed")
    spot(booth, "1"), spot(booth, "2")
    shown = page(head, booth)
    assert "light, all open 153 to 158 fc (1647 to 1705 lx)" in shown
    assert "The lower figure is counted. It is from one to another because: The pane's loss was not measured." in shown
    assert "all give 153 fc" in shown


def test_places_of_one_label_are_told_apart_by_their_positions(head: Client, cast: Cast, booth: Position) -> None:
    rail = make_position(cast.house, name="Rail")
    first, _unit = spot(booth, "1")
    second = make_place(rail, "1", **LENS)
    other = make_unit(cast.house, "FS-9", **{**DATA, "wide_cd": candela(100.0)})
    place_unit(actor=ACTOR, unit=other, place=second, starts_at=NOON)
    assert "Rail, place 1 (FS-9) sets the level" in words(asked(head, cast.house, first, second))


def test_one_place_or_seven_are_too_few_or_too_many(head: Client, booth: Position) -> None:
    for label in range(7):
        make_place(booth, str(label))
    for number, said in ((1, "1 is chosen."), (7, "7 are chosen.")):
        shown = words(asked(head, booth.house, *booth.places.all()[:number]))
        assert f"Choose two to six places; {said}" in shown
        assert "Nothing was matched." in shown


ODD = [
    ({"size": "toe"}, "There is no such size."),
    ({"size": "\x00"}, "There is no such size."),
    ({"place": "x\x00"}, "One of the places asked for is not here any more."),
    ({"place": ""}, "One of the places asked for is not here any more."),
    ({"size": "waist", "place": []}, "Choose two to six places."),
    ({"least": "nan"}, "Enter a number."),
    ({"least": "-5"}, "greater than or equal to 0"),
    ({"least": "9e999"}, "Enter a number."),
    ({"tolerance": "1e9"}, "less than or equal to 200"),
    ({"tolerance": "-1"}, "greater than or equal to 0"),
]


def test_odd_questions_get_a_clear_answer(head: Client, booth: Position) -> None:
    spot(booth, "1"), spot(booth, "2")
    for query, said in ODD:
        assert said in page(head, booth, **query), query


def test_before_anything_is_asked_the_page_only_asks(head: Client, booth: Position) -> None:
    address = reverse("venue:matching", args=[booth.house.slug])
    assert "there is nothing to match" in words(head.get(address))
    spot(booth, "1"), spot(booth, "2")
    shown = words(head.get(address))
    assert "Choose their places below." in shown
    assert "Place 1 · FS-1 · short-arc" in shown
    assert "In foot-candles." in shown
    assert head.get(address, {"setup": "x"}).status_code == 404


def test_the_queries_do_not_grow_with_the_places(head: Client, booth: Position) -> None:
    counts = []
    for some in (range(1, 3), range(3, 21)):
        for number in some:
            spot(booth, str(number))
            a_filter(booth.house, f"C-{number}", transmission_pct=80.0, shift_mired=float(number))
        with CaptureQueriesContext(connection) as queries:
            asked(head, booth.house, *booth.places.all()[: min(len(some), 6)])
        counts.append(len(queries))
    assert counts[0] == counts[1]
