"""Lines of words: a number, then what the parts say."""

from typing import Any

import pytest

from tests.shows.paperwork import codes, numbers, only_spot, read, read_file, refusal


def test_a_pasted_list_is_read_line_by_line() -> None:
    paperwork = read_file("lantern_road.txt")
    assert paperwork.form == "prose"
    assert paperwork.columns == ()
    assert (paperwork.statement, paperwork.statement_line) == ("stage left to stage right", 2)
    assert [(spot.line, spot.number, spot.label, spot.position) for spot in paperwork.spots] == [
        (4, "1", None, "rear booth"),
        (5, "2", None, "rear booth"),
        (6, "3", None, "balcony rail"),
        (7, "4", "2", None),
    ]
    assert codes(paperwork) == [(8, "not-a-spot")]


FIELDS: list[tuple[str, dict[str, Any]]] = [
    ("booth HL", {"position": "booth", "side": "HL"}),
    ("booth, house left, 2nd from center", {"position": "booth", "side": "house left", "nth": "2nd from center"}),
    ("booth: house right", {"position": "booth", "side": "house right"}),
    ("rail - SR", {"position": "rail", "side": "SR"}),
    ("rail – stage left – second", {"position": "rail", "side": "stage left", "nth": "second"}),
    ("truss, 3rd from house left", {"position": "truss", "nth": "3rd from house left"}),
    ("truss; 2nd one from the left end", {"position": "truss", "nth": "2nd one from the left end"}),
    ("second balcony rail HR", {"position": "second balcony rail", "side": "HR"}),
    ("booth center", {"position": "booth", "side": "center"}),
    ("center", {"side": "center"}),
    ("left box boom", {"position": "box boom", "side": "left"}),
    ("left, from the stage", {"side": "left", "whose_left": "stage"}),
    ("truss left as you look at the audience", {"position": "truss", "side": "left", "whose_left": "stage"}),
    ("right (as seen from the house)", {"side": "right", "whose_left": "house"}),
    ("left as you look at the stage", {"side": "left", "whose_left": "house"}),
    ("FOH, PS", {"position": "FOH", "side": "PS"}),
    ("opposite prompt", {"side": "opposite prompt"}),
    ("house 2", {"label": "2"}),
    ("house label: 2A", {"label": "2A"}),
    ("label L3", {"label": "L3"}),
    ("rear booth, your 4", {"position": "rear booth", "label": "4"}),
    ("booth, place 3", {"position": "booth", "label": "3"}),
    ("rail, ch B", {"position": "rail", "channel": "B"}),
    ("rail, channel: 2", {"position": "rail", "channel": "2"}),
    ("rail, headset 4", {"position": "rail", "channel": "4"}),
    ("rail – frames: pink, blue 2, frost", {"position": "rail", "frames": ("pink", "blue 2", "frost")}),
    ("frames pink + frost, ch A, rail", {"frames": ("pink + frost",), "channel": "A", "position": "rail"}),
    ("rail, colors: 21, 22; 23", {"position": "rail", "frames": ("21", "22", "23")}),
    ("rail, frame 1 pink, frame 3 = blue", {"position": "rail", "frames": ("pink", "", "blue")}),
    ("rail, 6 frames", {"position": "rail", "notes": "6 frames"}),
    ("rail, frames: 6", {"position": "rail", "notes": "frames: 6"}),
    ("rail, at least 800 lux", {"position": "rail", "least_lux": "800 lux"}),
    ("rail, min 150 fc", {"position": "rail", "least_lux": "150 fc"}),
    ("rail, covers the fiddler", {"position": "rail", "pick_up": "the fiddler"}),
    ("rail, pick-up: fiddler", {"position": "rail", "pick_up": "fiddler"}),
    ("rail, notes: own harness", {"position": "rail", "notes": "own harness"}),
    ("The Nest – HR – next to the console", {"position": "The Nest", "side": "HR", "notes": "next to the console"}),
    ("bring tape, rear booth", {"position": "rear booth", "notes": "bring tape"}),
]


@pytest.mark.parametrize(("words", "said"), FIELDS)
def test_the_parts_of_a_line_are_read(words: str, said: dict[str, Any]) -> None:
    spot = only_spot(f"Spot 1 – {words}")
    names = ("label", "position", "side", "nth", "whose_left", "least_lux", "pick_up", "channel", "notes")
    found = {name: getattr(spot, name) for name in names if getattr(spot, name)}
    assert found | ({"frames": spot.frames} if spot.frames else {}) == said


@pytest.mark.parametrize(
    ("line", "number"),
    [
        ("Spot 1 – booth", "1"),
        ("spot 1: booth", "1"),
        ("Spot #1 booth", "1"),
        ("Follow spot 1 – booth", "1"),
        ("Followspot 1 - booth", "1"),
        ("FS 1 – booth", "1"),
        ("Show 1 – booth", "1"),
        ("No. 1 booth", "1"),
        ("#1 - booth", "1"),
        ("1: booth", "1"),
        ("1) booth", "1"),
        ("1. booth", "1"),
        ("1 = booth", "1"),
        ("1 booth", "1"),
        ("• 1 – booth", "1"),
        ("Spot 1, booth", "1"),
        ("Spot 2A – booth", "2A"),
        ("T2 – booth", "T2"),
        ("A: booth", "A"),
        ("Spot B booth", "B"),
        ("Left: booth", "Left"),
        ("1. Spot 3 – booth", "3"),
    ],
)
def test_a_line_begins_with_its_number(line: str, number: str) -> None:
    paperwork = read(line)
    assert paperwork.form == "prose"
    assert [(spot.number, spot.position) for spot in paperwork.spots] == [(number, "booth")]


@pytest.mark.parametrize("arrow", ["=", " = ", " → ", " -> ", " => "])
def test_two_numbers_joined_by_an_equals_sign_or_arrow_are_show_and_house(arrow: str) -> None:
    paperwork = read(f"1{arrow}4\n2{arrow}3, HL\n")
    assert [(spot.number, spot.label, spot.side) for spot in paperwork.spots] == [("1", "4", None), ("2", "3", "HL")]


@pytest.mark.parametrize("start", ["1-4", "1–4", "1 & 2", "Spots 1 and 2", "Spots 1, 2:", "1 to 4"])
def test_a_line_for_several_spots_is_asked_about(start: str) -> None:
    paperwork = read(f"{start} booth HL\n5: rail\n")
    assert numbers(paperwork) == [None, "5"]
    assert codes(paperwork) == [(1, "several-numbers")]


def test_a_spot_without_a_number_is_kept() -> None:
    assert numbers(read("Spot 1 – booth\nSpot ? – rail\nSpot – truss\n")) == ["1", None, None]


@pytest.mark.parametrize("title", ["4 follow spots in all", "10 June, load-in 8:00", "Lantern Road", "19:30 spot talk"])
def test_titles_and_dates_above_are_skipped_without_complaint(title: str) -> None:
    paperwork = read(f"{title}\n\nSpot 1 – booth\nSpot 2 – rail\n")
    assert numbers(paperwork) == ["1", "2"]
    assert paperwork.problems == ()


def test_numbers_before_a_comma_are_a_table_not_prose() -> None:
    assert read("1,booth\n2,rail\n").form == "headless"
    assert read("Spot 1\tbooth\nSpot 2\trail\n").form == "headless"


def test_a_position_that_begins_with_a_number_gives_way_to_a_rising_column() -> None:
    assert numbers(read("2 upper booth,1\n2 upper booth,2\n")) == ["1", "2"]


def test_a_line_of_words_without_a_number_among_spots_is_named() -> None:
    assert codes(read("Spot 1 – booth\nplease call\nSpot 2 – rail\n")) == [(2, "not-a-spot")]


def test_columns_asked_for_are_never_looked_for_in_prose() -> None:
    assert refusal("Spot 1 – booth\nSpot 2 – rail\n", {"number": "Lamp"}).code == "header-missing"
