"""Readings entered at the same instant from several hands: no meter runs backward, and nothing is lost."""

from functools import partial

import pytest

from tests.factories import ACTOR
from tests.racing import race
from tests.venue.lamped import a_kind, a_lamp, a_unit, day, fit, h, read
from venue.actions import read_meter, replace_meter
from venue.errors import DomainError, Overlap, ReadingRefused
from venue.meter_check import check_house
from venue.models import Fitting, Meter, Reading, Unit

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]


def refusals(outcomes: list[object]) -> set[type]:
    return {type(outcome) for outcome in outcomes if isinstance(outcome, Exception)}


def test_of_readings_that_contradict_each_other_one_is_taken() -> None:
    """Each alone is right: 510 on day 3 and 508 on day 4 can't both be."""
    unit = a_unit()
    fit(unit, 0, a_lamp(a_kind(unit.house)), 500)
    writers = [
        partial(read_meter, actor=ACTOR, unit=Unit.objects.get(pk=unit.pk), at=day(at), hours=h(shows))
        for at, shows in ((3, 510), (4, 508)) * 3
    ]
    outcomes = race(writers)
    assert refusals(outcomes) == {ReadingRefused}
    assert Reading.objects.filter(at__gt=day(0)).count() == 1
    assert not check_house(unit.house).problems


def test_readings_of_different_nights_at_once_are_all_in_the_book() -> None:
    unit = a_unit()
    fit(unit, 0, a_lamp(a_kind(unit.house)), 500)
    outcomes = race([partial(read, Unit.objects.get(pk=unit.pk), night, 500 + 4 * night) for night in range(1, 7)])
    assert refusals(outcomes) == set()
    assert Reading.objects.filter(at__gt=day(0)).count() == 6
    assert not check_house(unit.house).problems


def test_a_meter_replaced_while_it_is_read_keeps_both_or_refuses_one() -> None:
    unit = a_unit()
    replace = partial(replace_meter, actor=ACTOR, unit=unit, at=day(2), closing_h=h(508))
    outcomes = race([replace, partial(read, Unit.objects.get(pk=unit.pk), 3, 511), replace])
    assert all(isinstance(outcome, DomainError | Meter | Reading) for outcome in outcomes)
    assert not check_house(unit.house).problems


def test_one_lamp_goes_into_one_of_two_units() -> None:
    one = a_unit()
    other = a_unit(one.house, "FS-02")
    lamp = a_lamp(a_kind(one.house))
    outcomes = race([partial(fit, unit, 1, lamp, 503) for unit in (one, other, one, other)])
    assert Fitting.objects.count() == 1
    assert Overlap in refusals(outcomes)
    assert not check_house(one.house).problems
