"""What sheets print: a line a number and place, the verdict, the notice."""

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shows.actions import bind_spots, choose_way
from shows.lines import show_lines, verdict_on
from shows.models import Engagement
from tests.factories import ACTOR, NOON, make_place, make_position, make_show
from tests.shows.stocked import LEFT_TO_RIGHT, accept, listed, stock

pytestmark = pytest.mark.django_db


@pytest.fixture
def show() -> Engagement:
    show = make_show()
    stock(show.house)
    return show


def test_a_line_carries_all_that_a_sheet_prints(show: Engagement) -> None:
    columns = {"Channel": ["A", "B"], "Pick-up": ["lead", "band"], "Frame 1": ["pink", ""], "Notes": ["n", ""]}
    accept(show, listed(2, **columns))
    first, second = show_lines(show, NOON)
    assert (first.number, first.label, first.position, first.source) == ("1", "4", "Rear booth", "statement")
    assert (first.channel, first.pick_up, first.frames, first.notes) == ("A", "lead", ("pink",), "n")
    assert (first.side_words, first.unit[:3], first.tape) == ("house left · stage right", "FS-", None)
    assert first.place_ref is not None and second.number == "2"


def test_a_number_without_a_place_has_a_line_with_nothing_beside_it(show: Engagement) -> None:
    accept(show, listed(5))
    last = show_lines(show, NOON)[-1]
    assert (last.number, last.label, last.position, last.unit, last.source, last.place_ref) == (
        "5",
        "",
        "",
        "",
        "",
        None,
    )


def test_a_team_has_a_line_for_each_of_its_places(show: Engagement) -> None:
    accept(show, listed(2))
    places = list(show.house.positions.get().places.all())
    bind_spots(actor=ACTOR, engagement=show, places={show.spots.get(number="2"): places[:2]}, at=NOON)
    assert [(line.number, line.label) for line in show_lines(show, NOON)] == [("1", "4"), ("2", "1"), ("2", "2")]


def test_tapes_stand_on_the_lamps_only_under_that_way(show: Engagement) -> None:
    accept(show, listed(4))
    assert {line.tape for line in show_lines(show, NOON)} == {None}
    choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON)
    assert [line.tape for line in show_lines(show, NOON)] == ["1", "2", "3", "4"]
    choose_way(actor=ACTOR, engagement=show, way="move", at=NOON)
    assert {line.tape for line in show_lines(show, NOON)} == {None}


def test_different_paint_must_be_told_on_every_sheet_with_the_chosen_way(show: Engagement) -> None:
    accept(show, listed(4))
    verdict = verdict_on(show, NOON)
    assert (verdict.kind, verdict.notice) == ("tell", "House labels run the other way: show 1 = house 4.")
    choose_way(actor=ACTOR, engagement=show, way="tape", at=NOON)
    assert verdict_on(show, NOON).notice.endswith("Lamps are taped: read the tape, not the paint.")
    choose_way(actor=ACTOR, engagement=show, way="renumber", at=NOON)
    assert "show 1 becomes 4; show 2 becomes 3" in verdict_on(show, NOON).notice


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        (listed(4, "Numbering: house right to house left\n"), "agree"),
        (listed(4, "Numbering: left to right\n"), "ask"),
        (listed(4, ""), "ask"),
        (listed(4, LEFT_TO_RIGHT, Label=["1", "2", "3", "4"]), "fix"),
        (listed(4, "", Label=["1", "2", "3", "4"]), "agree"),
        (listed(1, LEFT_TO_RIGHT, Label=["9"]), "none"),
    ],
)
def test_the_kind_says_what_has_to_be_done_first(show: Engagement, text: str, kind: str) -> None:
    accept(show, text)
    verdict = verdict_on(show, NOON)
    assert verdict.kind == kind
    assert verdict.notice == ""


def test_a_show_without_spots_has_no_verdict_and_no_lines(show: Engagement) -> None:
    assert verdict_on(show, NOON).kind == "none"
    assert show_lines(show, NOON) == ()


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"x_m": 0.1, "y_m": -9.0, "z_m": 5.0}, "center"),
        ({"x_m": 3.0, "y_m": -9.0, "z_m": 5.0}, "house right · stage left"),
        ({"bearing_deg": 95.0}, "3 o'clock, house right · stage left"),
        ({}, ""),
    ],
)
def test_a_side_comes_in_whole_words_of_both_or_not_at_all(facts: dict[str, Any], words: str) -> None:
    show = make_show()
    zone = "bowl" if "bearing_deg" in facts else "front"
    make_place(make_position(show.house, name="Spot", zone=zone), "X", **facts)
    place = show.house.positions.get().places.get()
    show.place_uses.create(place=place, in_use=True)
    accept(show, listed(1, "", Label=["X"]))
    assert [line.side_words for line in show_lines(show, NOON)] == [words]


def test_sheets_ask_as_much_of_the_database_for_60_places_as_for_2() -> None:
    counts = []
    for count in (2, 60):
        show = make_show()
        stock(show.house, count)
        accept(show, listed(count))
        with CaptureQueriesContext(connection) as captured:
            show_lines(show, NOON)
            verdict_on(show, NOON)
        counts.append(len(captured))
    assert counts[0] == counts[1] <= 18
