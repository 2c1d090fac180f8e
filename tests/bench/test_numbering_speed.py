"""How long a comparison takes, as a ratio to a floor measured in the same run.

The floor sorts and pairs the same 200 lines onto the same 60 places by label, without any judgement.
"""

import subprocess
import sys
from pathlib import Path

import pytest

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import House, Position, Slot, Spot
from tests.bench.measuring import milliseconds, report
from tests.shows.numbering_cases import even_ring, row, spots
from venue.core.labels import label_key, sort_key

pytestmark = pytest.mark.bench
DEMO = Path("shows/demo")


def sixty_places() -> House:
    """Five rows of twelve, labels 1 … 60."""
    rows = [row([str(12 * i + j + 1) for j in range(12)], f"Row {i + 1}", -40.0 + 4 * i) for i in range(5)]
    return House(tuple(rows))


def floor(house: House, lines: list[Spot]) -> object:
    by_label = {label_key(slot.label): slot for position in house.positions for slot in position.slots}
    return sorted(
        ((spot.number, by_label.get(label_key(spot.number or ""))) for spot in lines),
        key=lambda p: sort_key(p[0] or ""),
    )


def test_a_bowl_of_sixteen() -> None:
    house, lines = even_ring(16), spots(*range(1, 17))
    report(
        "bowl of 16, counterclockwise",
        lambda: compare(even_ring(16), lines, "counterclockwise from 3 o'clock"),
        lambda: floor(house, lines),
    )


def test_sixty_places_and_two_hundred_lines() -> None:
    house, lines = sixty_places(), spots(*range(1, 201))
    for name, statement in (
        ("60 places, 200 lines, position by position", "position by position, house right to house left"),
        ("60 places, 200 lines, in one row", "all in one row, house left to house right"),
        ("60 places, 200 lines, four readings open", "left to right"),
    ):
        report(name, lambda statement=statement: compare(sixty_places(), lines, statement), lambda: floor(house, lines))  # type: ignore[misc]


def test_a_bowl_of_sixteen_by_hand() -> None:
    slots = tuple(Slot(str(i + 1), bearing=22.5 * i) for i in range(16))
    house = House((Position("Bowl", slots, "bowl"),))
    given = {str(i + 1): str((5 - i) % 16 + 1) for i in range(16)}
    lines = spots(*given)
    report(
        "bowl of 16, mirrored by hand",
        lambda: compare(house, lines, "clockwise from 12 o'clock", given),
        lambda: floor(house, lines),
    )


def test_start_up_of_the_command() -> None:
    command = [
        sys.executable,
        "manage.py",
        "numbering",
        DEMO / "lantern_street.json",
        DEMO / "weathervane_revue.csv",
        "--json",
    ]
    spent = milliseconds(lambda: subprocess.run(command, check=True, capture_output=True), rounds=5)
    bare = milliseconds(
        lambda: subprocess.run([sys.executable, "-c", "import django; django.setup"], check=True), rounds=5
    )
    print(
        f"\nnumbering as a command: {spent:.0f} ms, {spent / bare:.1f} times a bare Python with Django ({bare:.0f} ms)"
    )
