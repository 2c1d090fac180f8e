"""Writers at the same instant: one wins, the others are told who has it. On SQLite a file, on PostgreSQL the
test database, with a connection for each writer."""

from collections.abc import Callable
from functools import partial
from typing import Any

import pytest
from django.db import IntegrityError, OperationalError, connection

from shows.actions import bind_spots, put_spots
from shows.facts import SpotFacts
from shows.models import SpotPlace
from tests.factories import ACTOR, NOON, hours, make_a_house, make_place, make_position, make_show, make_unit
from tests.racing import race
from venue.actions import change, end_place, make_house, move_unit, place_unit, swap_units
from venue.errors import AlreadyEnded, AlreadyExists, InUse, Overlap, StaleVersion
from venue.models import House, Place, Placement, Unit

WRITERS = 8


pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]


def won(outcomes: list[Any]) -> list[Any]:
    return [outcome for outcome in outcomes if not isinstance(outcome, Exception)]


def lost(outcomes: list[Any]) -> set[type[Exception]]:
    return {type(outcome) for outcome in outcomes if isinstance(outcome, Exception)}


def units_and_place() -> tuple[list[Unit], Place]:
    place = make_place(make_position(name="Booth"), label="1")
    return [make_unit(place.position.house) for _ in range(WRITERS)], place


def stay(unit: Unit, place: Place, starts: float = 0, ends: float | None = None) -> Callable[[], Placement]:
    until = None if ends is None else NOON + hours(ends)
    return partial(place_unit, actor=ACTOR, unit=unit, place=place, starts_at=NOON + hours(starts), ends_at=until)


def test_sqlite_keeps_a_write_ahead_log_and_writes_in_full() -> None:
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            found = [cursor.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "synchronous")]
        assert found == ["wal", 2]


def test_one_of_many_units_gets_the_place() -> None:
    units, place = units_and_place()
    outcomes = race([stay(unit, place) for unit in units])
    (winner,) = won(outcomes)
    assert lost(outcomes) == {Overlap}
    assert {error.holder for error in outcomes if isinstance(error, Overlap)} == {winner}
    assert list(place.placements.all()) == [winner]


def test_one_of_many_places_gets_the_unit() -> None:
    unit = make_unit()
    position = make_position(unit.house)
    places = [make_place(position, label=str(number)) for number in range(WRITERS)]
    outcomes = race([stay(unit, place) for place in places])
    assert (len(won(outcomes)), lost(outcomes), unit.placements.count()) == (1, {Overlap}, 1)


def test_stays_that_touch_all_succeed() -> None:
    units, place = units_and_place()
    outcomes = race([stay(unit, place, number, number + 1) for number, unit in enumerate(units)])
    assert (len(won(outcomes)), place.placements.count()) == (WRITERS, WRITERS)


def test_the_database_alone_lets_one_through() -> None:
    """Without the locks of the verbs PostgreSQL may end a deadlock instead of naming the rule."""
    units, place = units_and_place()
    writers = [partial(Placement.objects.create, unit=unit, place=place, starts_at=NOON) for unit in units]
    outcomes = race(writers)
    assert lost(outcomes) <= {IntegrityError, OperationalError}
    assert (len(won(outcomes)), place.placements.count()) == (1, 1)


def test_moves_against_each_other_end_without_a_deadlock() -> None:
    units, first = units_and_place()
    second = make_place(first.position, label="2")
    stay(units[0], first)(), stay(units[1], second)()
    moves = [
        partial(move_unit, actor=ACTOR, unit=units[0], to=second, at=NOON + hours(1)),
        partial(move_unit, actor=ACTOR, unit=units[1], to=first, at=NOON + hours(1)),
    ]
    outcomes = race(moves * 3)
    assert (won(outcomes), lost(outcomes)) == ([], {Overlap})
    assert Placement.objects.still_open().count() == 2


def test_a_place_that_ends_and_a_unit_that_comes_do_not_both_succeed() -> None:
    units, place = units_and_place()
    ending = partial(end_place, actor=ACTOR, place=place, at=NOON, reason="rail taken out")
    outcomes = race([ending, *(stay(unit, place) for unit in units[:3])])
    assert len(won(outcomes)) == 1
    assert lost(outcomes) <= {AlreadyEnded, InUse, Overlap}
    assert Place.objects.get(pk=place.pk).has_ended != place.placements.exists()


def test_swaps_at_once_leave_every_unit_at_one_place() -> None:
    units, first = units_and_place()
    second = make_place(first.position, label="2")
    stay(units[0], first)(), stay(units[1], second)()
    swap = partial(swap_units, actor=ACTOR, one=units[0], other=units[1], at=NOON + hours(1))
    swap_back = partial(swap_units, actor=ACTOR, one=units[1], other=units[0], at=NOON + hours(1))
    assert lost(race([swap, swap_back, swap])) == set()
    now = Placement.objects.at(NOON + hours(1))
    assert {(row.unit, row.place) for row in now} == {(units[0], second), (units[1], first)}


def test_one_of_many_editors_of_one_version_is_stored() -> None:
    house = make_a_house()
    copies = [House.objects.get(pk=house.pk) for _ in range(WRITERS)]
    outcomes = race(
        [
            partial(change, actor=ACTOR, row=copy, house=house, seen=1, values={"name": f"Name {number}"})
            for number, copy in enumerate(copies)
        ]
    )
    assert (len(won(outcomes)), lost(outcomes)) == (1, {StaleVersion})
    assert House.objects.get(pk=house.pk).version == 2


def test_one_of_many_houses_gets_the_slug() -> None:
    outcomes = race([partial(make_house, actor=ACTOR, name="House", slug="wanted")] * WRITERS)
    assert (len(won(outcomes)), lost(outcomes)) == (1, {AlreadyExists})
    assert House.objects.get(slug="wanted").setups.count() == 1


def test_paperwork_accepted_twice_at_once_makes_each_spot_once() -> None:
    show = make_show()
    spots = [SpotFacts(str(number)) for number in range(1, 5)]
    outcomes = race([partial(put_spots, actor=ACTOR, engagement=show, spots=spots, at=NOON)] * WRITERS)
    assert lost(outcomes) == set()
    assert [spot.number for spot in show.spots.all()] == ["1", "2", "3", "4"]


def test_one_of_many_spots_gets_the_place() -> None:
    show = make_show()
    place = make_place(make_position(show.house))
    facts = [SpotFacts(str(number)) for number in range(WRITERS)]
    spots = put_spots(actor=ACTOR, engagement=show, spots=facts, at=NOON)
    binds = [partial(bind_spots, actor=ACTOR, engagement=show, places={spot: [place]}, at=NOON) for spot in spots]
    outcomes = race(binds)
    assert (len(won(outcomes)), lost(outcomes)) == (1, {AlreadyExists})
    assert SpotPlace.objects.standing().filter(place=place).count() == 1
