"""Two who move one unit at the same instant: one wins, the other is told; no unit is in two places."""

from functools import partial

import pytest

from tests.factories import ACTOR, NOON, hours, make_place, make_position, make_unit
from tests.racing import race
from venue.actions import bring_back, place_unit, send_away
from venue.errors import MovedMeanwhile, Overlap
from venue.models.units import Elsewhere
from venue.stays import stays_mark

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]


def test_of_several_who_send_one_unit_away_at_once_one_wins_and_the_others_look_again() -> None:
    place = make_place(make_position())
    unit = make_unit(place.position.house)
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    facts = {"actor": ACTOR, "unit": unit, "at": NOON + hours(1), "seen": stays_mark(unit)}
    outcomes = race([partial(send_away, to=where, **facts) for where in (Elsewhere.SHOP, Elsewhere.STORE)] * 2)
    assert sum(isinstance(outcome, MovedMeanwhile) for outcome in outcomes) == 3
    assert unit.placements.real().still_open().count() == 1


def test_a_unit_is_not_lent_out_and_put_on_a_place_at_the_same_instant() -> None:
    place = make_place(make_position())
    unit = make_unit(place.position.house)
    lend = partial(send_away, actor=ACTOR, unit=unit, to=Elsewhere.LENT, words="Marlow Hall", at=NOON)
    stand = partial(place_unit, actor=ACTOR, unit=unit, place=place, starts_at=NOON + hours(1))
    outcomes = race([lend, stand])
    assert unit.placements.real().at(NOON + hours(2)).count() == 1
    assert {type(outcome) for outcome in outcomes if isinstance(outcome, Exception)} <= {Overlap}


def test_of_two_units_brought_to_one_place_at_once_one_gets_it() -> None:
    place = make_place(make_position())
    units = [make_unit(place.position.house) for _ in range(4)]
    outcomes = race([partial(bring_back, actor=ACTOR, unit=unit, to=place, at=NOON) for unit in units])
    assert sum(isinstance(outcome, Overlap) for outcome in outcomes) == 3
    assert place.placements.count() == 1
