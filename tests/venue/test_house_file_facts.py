"""The facts of a position and the throw of a place in a house file: all optional, none lost."""

import json
from datetime import date
from typing import Any

import pytest

from tests.factories import ACTOR, NOON
from tests.venue.house_documents import a_house, booth, found, sentence, slot
from venue.house_file.gathering import gathered
from venue.house_file.reading import read_house_file
from venue.house_file.storing import store_house
from venue.house_file.writing import house_text
from venue.models import Place, Position

FACTS: dict[str, Any] = {
    "access": "catwalk, then ladder",
    "access_min": 6,
    "passage_m": 0.6985,
    "passage_text": "2' 3 1/2\"",
    "load_limit_kg": 450,
    "power_switched_at": "panel LP-3",
    "fall_protection": "harness",
    "rescue_plan": "Two trained people.\nCall the desk first.",
    "checked_on": "2026-02-28",
    "checked_by": "Hollis Varga",
}
THROW = {"throw_m": 40.5, "throw_text": "40.5 m", "throw_end": "lip", "throw_end_y_m": -1.5}


def stored_again(document: dict[str, Any], update: bool = False) -> str:
    """The file that comes out after the document went in."""
    house = store_house(read_house_file(json.dumps(document).encode()), actor=ACTOR, now=NOON, update=update)
    return house_text(gathered(house))


@pytest.mark.django_db
def test_facts_and_throws_are_stored_and_written_again() -> None:
    text = stored_again(a_house(booth(slot("1", **THROW), **FACTS)))
    position, place = Position.objects.get(), Place.objects.get()
    assert (position.checked_on, position.access_min, position.load_limit_kg) == (date(2026, 2, 28), 6, 450.0)
    assert (place.throw_m, place.throw_end) == (40.5, "lip")
    written = json.loads(text)["positions"][0]
    assert {name: written[name] for name in FACTS} == FACTS
    assert {name: written["slots"][0][name] for name in THROW} == THROW
    assert stored_again(json.loads(text), update=True) == text


@pytest.mark.django_db
def test_an_update_that_leaves_facts_out_keeps_them_and_a_new_throw_drops_the_old_text() -> None:
    stored_again(a_house(booth(slot("1", **THROW), **FACTS)))
    text = stored_again(a_house(booth(slot("1", throw_m=42.0, throw_end="lip"))), update=True)
    written = json.loads(text)["positions"][0]
    assert written["rescue_plan"] == FACTS["rescue_plan"]
    assert written["slots"][0]["throw_m"] == 42.0
    assert "throw_text" not in written["slots"][0]


@pytest.mark.parametrize(
    ("document", "problems"),
    [
        (a_house(booth(slot("1", throw_m=40.0))), {"$.positions[0].slots[0].throw_end": "goes-with"}),
        (a_house(booth(slot("1", throw_end="lip"))), {"$.positions[0].slots[0].throw_m": "goes-with"}),
        (a_house(booth(checked_on="2026-02-28")), {"$.positions[0].checked_by": "goes-with"}),
        (a_house(booth(**{**FACTS, "checked_on": "28 Feb"})), {"$.positions[0].checked_on": "not-a-day"}),
        (a_house(booth(**{**FACTS, "checked_on": "2026-02-30"})), {"$.positions[0].checked_on": "not-a-day"}),
        (a_house(booth(**{**FACTS, "checked_on": "20260228"})), {"$.positions[0].checked_on": "not-a-day"}),
        (a_house(booth(**{**FACTS, "checked_on": 20260228})), {"$.positions[0].checked_on": "wrong-type"}),
        (a_house(booth(fall_protection="belt")), {"$.positions[0].fall_protection": "not-a-choice"}),
        (a_house(booth(slot("1", throw_m=1.0, throw_end="lip"))), {"$.positions[0].slots[0].throw_m": "out-of-range"}),
    ],
)
def test_facts_that_can_not_be_are_refused_at_their_path(document: dict[str, Any], problems: dict[str, str]) -> None:
    assert found(document) == problems


def test_a_throw_without_its_end_point_says_what_is_missing() -> None:
    assert sentence(a_house(booth(slot("1", throw_m=40.0))), "$.positions[0].slots[0].throw_end") == (
        "is missing; throw_m says nothing without it: write both or neither"
    )
