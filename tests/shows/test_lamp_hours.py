"""The lamp_hours command: one JSON entry a unit, now and as it was at an instant."""

import json
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.core.management import CommandError, call_command

from tests.factories import ACTOR, NOON, hours, make_unit
from tests.shows.booked import a_booked_house, a_light, a_run
from tests.venue.lamped import a_kind, a_lamp, a_unit, day, fit, h, read
from venue.actions import end_unit, place_unit, strike_reading
from venue.models import House, Lamp

pytestmark = pytest.mark.django_db
KEYS = [
    "unit", "lamp", "hours", "strikes", "rated_h", "warn_h", "stop_h", "remaining_h", "state", "booked_h",
    "passes_stop_at", "passes_stop_in",
]  # fmt: skip


def told(house: House, capsys: Any, *options: str) -> list[dict[str, Any]]:
    call_command("lamp_hours", house.slug, "--json", *options)
    found: list[dict[str, Any]] = json.loads(capsys.readouterr().out)
    return found


def at(instant: Any) -> Any:
    return time_machine.travel(instant, tick=False)


def test_every_entry_has_the_promised_keys_in_their_order(capsys: Any) -> None:
    house = a_booked_house()
    a_light(house, "1", 980)
    make_unit(house, "LED-1", source="LED")
    with at(NOON):
        assert [list(entry) for entry in told(house, capsys)] == [KEYS, KEYS]


def test_a_lamp_that_will_not_last_is_told_with_time_show_and_event(capsys: Any) -> None:
    house = a_booked_house()
    a_light(house, "1", 980)
    a_run(house, 10)
    with at(NOON):
        (entry,) = told(house, capsys)
    assert entry == {
        "unit": "FS-1", "lamp": "L-1", "hours": 980.0, "strikes": None, "rated_h": 1000.0, "warn_h": 800.0,
        "stop_h": 1000.0, "remaining_h": 20.0, "state": "warn", "booked_h": 30.0,
        "passes_stop_at": "2026-03-08T21:00:00+00:00",
        "passes_stop_in": {"show": "Nine Paper Boats", "event": "show, 2026-03-08 19:00"},
    }  # fmt: skip


def test_a_unit_without_a_lamp_says_what_is_booked_and_no_more(capsys: Any) -> None:
    house = a_booked_house()
    _unit, place, _lamp = a_light(house, "1", 0)
    led = make_unit(house, "LED-1", source="LED")
    a_run(house, 2)
    place.position.places.create(label="2")
    place_unit(actor=ACTOR, unit=led, place=place.position.places.get(label="2"), starts_at=NOON)
    with at(NOON):
        entry = told(house, capsys)[1]
    nothing = dict.fromkeys(KEYS)
    assert entry == {**nothing, "unit": "LED-1", "state": "unknown", "booked_h": 6.0}


def read_over_days(house: House) -> Lamp:
    """A lamp in from day 0 at 500 h, read on days 1 to 3, changed for another on day 3."""
    unit = a_unit(house)
    lamp = a_lamp(a_kind(house, spares=0), "L-1", came_with_h=h(900), came_with_strikes=7)
    fit(unit, 0, lamp, 500)
    read(unit, 1, 503, strikes=2, confirmed=True)
    read(unit, 2, 507.5, strikes=4, confirmed=True)
    fit(unit, 3, a_lamp(lamp.kind, "L-2"), 511, was_reset=False, confirmed=True)
    read(unit, 4, 514, confirmed=True)
    return lamp


@pytest.mark.parametrize(
    ("days", "lamp", "burned", "strikes"),
    [
        (-1, None, None, None),
        (0, "L-1", 900, 7),
        (0.5, "L-1", 900, 7),
        (1, "L-1", 903, 7),
        (2.5, "L-1", 907.5, 9),
        (3, "L-2", 0, None),
        (4, "L-2", 3, None),
    ],
)
def test_as_of_an_instant_only_what_was_read_by_then_counts(
    days: float, lamp: str | None, burned: float | None, strikes: int | None, capsys: Any
) -> None:
    house = a_booked_house()
    with at(day(5)):
        read_over_days(house)
        (entry,) = told(house, capsys, "--as-of", day(days).isoformat())
    assert (entry["lamp"], entry["hours"], entry["strikes"]) == (lamp, burned, strikes)


def test_a_reading_that_was_struck_out_never_counted(capsys: Any) -> None:
    house = a_booked_house()
    with at(day(5)):
        read_over_days(house)
        mistaken = house.units.get().meters.get().readings.get(hours=Decimal("507.5"))
        strike_reading(actor=ACTOR, reading=mistaken, at=day(4), reason="digits exchanged")
        (entry,) = told(house, capsys, "--as-of", day(2.5).isoformat())
    assert entry["hours"] == 903.0


def test_as_of_now_says_what_the_command_says_without_it(capsys: Any) -> None:
    house = a_booked_house()
    with at(day(5)):
        read_over_days(house)
        a_light(house, "8", 980)
        a_run(house, 10)
        assert told(house, capsys, "--as-of", day(5).isoformat()) == told(house, capsys)


def test_as_of_an_instant_the_calendar_begins_then(capsys: Any) -> None:
    house = a_booked_house()
    a_light(house, "1", 980)
    a_run(house, 10)
    with at(NOON):
        (then,) = told(house, capsys, "--as-of", (NOON - timedelta(days=3)).isoformat())
        (later,) = told(house, capsys, "--as-of", "2026-03-05T14:00:00-06:00")
    assert (then["booked_h"], later["booked_h"]) == (30.0, 20.0)
    assert then["passes_stop_at"] == later["passes_stop_at"] == "2026-03-08T21:00:00+00:00"


def test_a_unit_off_the_books_is_told_only_of_the_time_before(capsys: Any) -> None:
    house = a_booked_house()
    unit = make_unit(house, "FS-9")
    end_unit(actor=ACTOR, unit=unit, at=NOON, reason="sold")
    with at(NOON + hours(1)):
        assert told(house, capsys) == []
        assert [each["unit"] for each in told(house, capsys, "--as-of", (NOON - hours(1)).isoformat())] == ["FS-9"]


def test_without_json_it_is_a_line_a_unit(capsys: Any) -> None:
    house = a_booked_house()
    for label, burned in (("1", 980), ("2", 1003), ("3", 100)):
        a_light(house, label, burned)
    make_unit(house, "LED-1")
    a_run(house, 10)
    with at(NOON):
        call_command("lamp_hours", house.slug)
    assert capsys.readouterr().out.splitlines() == [
        "FS-1: lamp L-1, 980.00 h of 1000.0 h, 20.00 h left; passes its stop on 2026-03-08 21:00 in Nine Paper Boats: "
        "show, 2026-03-08 19:00",
        "FS-2: lamp L-2, 1003.00 h of 1000.0 h, -3.00 h left; past its stop",
        "FS-3: lamp L-3, 100.00 h of 1000.0 h, 900.00 h left",
        "LED-1: no lamp on file",
    ]


@pytest.mark.parametrize(
    ("args", "line"),
    [
        (["nowhere"], "There is no house “nowhere” on file."),
        (["HOUSE", "--as-of", "yesterday"], "--as-of: “yesterday” is no time with an offset; write one such as "),
        (["HOUSE", "--as-of", "2026-02-01T23:10:00"], "--as-of: “2026-02-01T23:10:00” is no time with an offset"),
    ],
)
def test_bad_input_is_one_line_and_exit_2(args: list[str], line: str) -> None:
    slug = a_booked_house().slug
    with pytest.raises(CommandError) as refused:
        call_command("lamp_hours", *[slug if each == "HOUSE" else each for each in args])
    assert refused.value.returncode == 2
    assert str(refused.value).startswith(line)
    assert "\n" not in str(refused.value)
