"""What a show asks: as the fit reads it from the rows, as somebody says it by hand, and the colors that explain it."""

import itertools
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from crew.sheet_basis import basis_of
from shows.actions import (
    add_color,
    change_color,
    change_show_asks,
    change_spot_asks,
    end_color,
    end_engagement,
    put_spots,
)
from shows.asks import asks_of, codes_in, color_book, uses_of
from shows.core.fit.records import Ask, Color, Frame
from shows.facts import SpotFacts
from shows.models import Engagement, ShowSpot
from tests.crew.stage import a_stage
from tests.factories import ACTOR, NOON, make_show
from venue.actions import add_filter
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, StaleVersion
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def show() -> Engagement:
    return make_show()


def put(show: Engagement, *numbers: str, **facts: Any) -> list[ShowSpot]:
    return put_spots(actor=ACTOR, engagement=show, spots=[SpotFacts(number, **facts) for number in numbers], at=NOON)


def say(spot: ShowSpot, **values: Any) -> None:
    change_spot_asks(actor=ACTOR, spot=spot, seen=spot.version, values=values)


def color(show: Engagement, code: str, **facts: Any) -> Any:
    return add_color(actor=ACTOR, engagement=show, code=code, **facts)


def last_sentence(show: Engagement) -> str:
    line = show.house.history.last()
    assert line is not None
    return event_sentence(line)


# -- as the fit reads it


def test_a_number_of_which_nothing_is_said_asks_nothing(show: Engagement) -> None:
    put(show, "1")
    assert asks_of(show) == (Ask("1"),)


def test_two_colors_in_a_frame_are_split_and_empty_frames_left_out(show: Engagement) -> None:
    put(show, "1", frames=("C-1 + D-2", "", " + ", "c-1"))
    (ask,) = asks_of(show)
    assert ask.frames == (Frame(1, (Color("C-1"), Color("D-2"))), Frame(4, (Color("c-1"),)))


@pytest.mark.parametrize(
    ("held", "codes"),
    [("C-1", ("C-1",)), ("C-1+D-2", ("C-1", "D-2")), ("+ C-1 +", ("C-1",)), ("pale pink", ("pale pink",)), ("+", ())],
)
def test_a_plus_stands_between_two_colors(held: str, codes: tuple[str, ...]) -> None:
    assert codes_in(held) == codes


def test_the_shows_own_color_explains_a_code_before_the_houses_filter_and_nobody_the_rest(show: Engagement) -> None:
    color(show, "C-1", transmission_pct=62)
    gone = color(show, "D-3", transmission_pct=10)
    end_color(actor=ACTOR, color=gone, at=NOON, reason="swapped")
    add_filter(actor=ACTOR, house=show.house, code="c-1", transmission_pct=50)
    add_filter(actor=ACTOR, house=show.house, code="D-2", is_diffusion=True)
    put(show, "1", frames=("c-1", "d-2", "D-3"))
    (ask,) = asks_of(show)
    held = [frame.colors[0] for frame in ask.frames]
    assert held == [Color("c-1", 0.62, False), Color("d-2", None, True), Color("D-3", None, None)]


def test_what_the_whole_show_says_holds_for_numbers_that_say_nothing(show: Engagement) -> None:
    spots = put(show, "1", "2", "3")
    change_show_asks(actor=ACTOR, engagement=show, seen=show.version, values={"on_camera": True, "frame_1_end": "lamp"})
    say(spots[1], on_camera=False)
    assert [(ask.on_camera, ask.frame_1_end) for ask in asks_of(show)] == [
        (True, "lamp"), (False, "lamp"), (True, "lamp"),
    ]  # fmt: skip


def test_everything_that_is_said_of_a_number_is_asked(show: Engagement) -> None:
    first, _second = put(show, "1", "02")
    say(first, sizes=["head", "knees"], least_lux=1600.0, full_blackout=True, strip_out=False, matches="2")
    assert asks_of(show)[0] == Ask(
        "1", least_lux=1600.0, sizes=("head", "knees"), full_blackout=True, strip_out=False, matches="02"
    )


def test_a_number_to_match_that_the_show_lost_stays_named(show: Engagement) -> None:
    first, _second = put(show, "1", "2")
    say(first, matches="2")
    put(show, "1")
    assert asks_of(show)[0].matches == "2"


@pytest.mark.parametrize("count", [2, 20])
def test_asks_are_read_in_three_queries_however_many(show: Engagement, count: int) -> None:
    put(show, *map(str, range(1, count + 1)), frames=("C-1 + C-2", "C-3"))
    for number in range(count):
        color(show, f"C-{number}")
    show = Engagement.objects.select_related("house").get(pk=show.pk)
    with CaptureQueriesContext(connection) as captured:
        assert len(asks_of(show)) == count
    assert len(captured) == 3


def test_each_code_is_counted_once_a_number_under_its_first_spelling(show: Engagement) -> None:
    spots = put(show, "1", "2", frames=("C-1", "c-1 + D-2"))
    assert [(use.code, use.numbers) for use in uses_of(spots)] == [("C-1", ("1", "2")), ("D-2", ("1", "2"))]


# -- said by hand


def test_a_change_by_hand_has_a_line_of_history_with_old_and_new(show: Engagement) -> None:
    (spot,) = put(show, "1", frames=("C-1",))
    say(spot, frames=["C-1", "D-2"], strip_out=True)
    line = show.house.history.last()
    assert line is not None
    assert line.data["changed"] == {"frames": [["C-1"], ["C-1", "D-2"]], "strip_out": [None, True]}
    assert last_sentence(show) == "changed show 1"


def test_newer_paperwork_overwrites_its_own_columns_and_leaves_the_rest(show: Engagement) -> None:
    (spot,) = put(show, "1", frames=("C-1",))
    say(spot, frames=["D-2"], channel="B", sizes=["head"], home="center", on_camera=False)
    put(show, "1", frames=("C-9",))
    spot.refresh_from_db()
    assert (spot.frames, spot.channel) == (["C-9"], "")
    assert (spot.sizes, spot.home, spot.on_camera) == (["head"], "center", False)


@pytest.mark.parametrize("chain", [["1"], ["1", "2"], ["1", "2", "3"], ["1", "2", "3", "4"]])
def test_no_number_matches_itself_by_any_way_round(show: Engagement, chain: list[str]) -> None:
    spots = {spot.number: spot for spot in put(show, "1", "2", "3", "4")}
    for one, other in itertools.pairwise(chain):
        say(spots[one], matches=other)
    with pytest.raises(Invalid) as refused:
        say(spots[chain[-1]], matches="#01")
    told = refused.value.problems["matches"][0]
    if len(chain) == 1:
        assert told.startswith("A number does not match itself")
    else:
        assert f"{chain[-1]} matches 1, 1 matches 2" in told
    spots[chain[-1]].refresh_from_db()
    assert spots[chain[-1]].matches == ""


def test_a_circle_that_was_stored_elsewhere_does_not_hold_up_a_third_number(show: Engagement) -> None:
    one, two, three = put(show, "1", "2", "3")
    ShowSpot.objects.filter(pk=one.pk).update(matches="2")
    ShowSpot.objects.filter(pk=two.pk).update(matches="1")
    say(three, matches="1")
    assert asks_of(show)[2].matches == "1"


@pytest.mark.parametrize(
    ("column", "value"),
    [("frames", "C-1"), ("frames", ["a\0"]), ("sizes", ["huge"]), ("least_lux", float("nan")), ("least_lux", -1.0),
     ("gel_by", "nobody"), ("home", "x" * 201)],
)  # fmt: skip
def test_what_no_number_can_ask_is_refused_by_its_column(show: Engagement, column: str, value: object) -> None:
    (spot,) = put(show, "1")
    with pytest.raises(Invalid) as refused:
        say(spot, **{column: value})
    assert column in refused.value.problems
    assert ShowSpot.objects.get(pk=spot.pk).version == 1


def test_a_number_or_a_show_that_ended_is_not_changed(show: Engagement) -> None:
    first, second = put(show, "1", "2")
    put(show, "2")
    first.refresh_from_db()
    with pytest.raises(AlreadyEnded):
        say(first, home="center")
    end_engagement(actor=ACTOR, engagement=show, at=NOON, reason="off")
    with pytest.raises(AlreadyEnded):
        say(second, home="center")
    with pytest.raises(AlreadyEnded):
        change_show_asks(actor=ACTOR, engagement=show, seen=show.version, values={"caller": "x"})
    with pytest.raises(AlreadyEnded):
        color(show, "C-1")


def test_a_change_against_an_older_version_is_refused(show: Engagement) -> None:
    (spot,) = put(show, "1")
    say(spot, home="center")
    with pytest.raises(StaleVersion):
        change_spot_asks(actor=ACTOR, spot=spot, seen=1, values={"home": "elsewhere"})


def test_a_sheet_made_before_a_change_of_what_is_asked_is_not_current() -> None:
    stage = a_stage(2)
    before = basis_of(stage.call)
    say(stage.cast.engagement.spots.standing()[0], frames=["C-1"])
    assert basis_of(stage.call) != before


# -- colors


def test_a_color_is_explained_once_whatever_its_spelling_and_again_after_it_ended(show: Engagement) -> None:
    first = color(show, "C-1", name="pale amber")
    assert last_sentence(show) == "explained a color of Nine Paper Boats: C-1 pale amber"
    with pytest.raises(AlreadyExists, match="a color of this code already"):
        color(show, " c-1")
    end_color(actor=ACTOR, color=first, at=NOON, reason="faded")
    assert last_sentence(show) == "took the color C-1 pale amber off Nine Paper Boats: faded"
    again = color(show, "C-1", transmission_pct=40)
    assert color_book(show).of("c-1") == again


def test_ending_a_color_leaves_the_frames_that_name_it(show: Engagement) -> None:
    (spot,) = put(show, "1", frames=("C-1",))
    end_color(actor=ACTOR, color=color(show, "C-1"), at=NOON, reason="faded")
    spot.refresh_from_db()
    assert (spot.frames, asks_of(show)[0].frames) == (["C-1"], (Frame(1, (Color("C-1"),)),))


def test_a_color_is_changed_against_the_version_that_was_shown(show: Engagement) -> None:
    row = color(show, "C-1")
    change_color(actor=ACTOR, color=row, seen=1, values={"transmission_pct": 62.5, "shift_mired": -131.0})
    assert last_sentence(show) == "changed the color C-1"
    with pytest.raises(StaleVersion):
        change_color(actor=ACTOR, color=row, seen=1, values={"transmission_pct": 5.0})


@pytest.mark.parametrize(
    ("column", "facts"),
    [("transmission_pct", {"transmission_pct": 101}), ("transmission_pct", {"transmission_pct": float("nan")}),
     ("shift_mired", {"shift_mired": 1e9}), ("name", {"name": "a\0"})],
)  # fmt: skip
def test_figures_that_no_color_has_are_refused(show: Engagement, column: str, facts: dict[str, Any]) -> None:
    with pytest.raises(Invalid) as refused:
        color(show, "C-1", **facts)
    assert column in refused.value.problems
