"""check_meters: what rows can't keep by themselves is found, said a line each, and ends with exit 2."""

import json
from io import StringIO

import pytest
from django.core.management import call_command

from tests.venue.lamped import a_kind, a_lamp, a_unit, day, fit, h, read
from venue.errors import DomainError
from venue.management.command import CommandRefused
from venue.meter_check import check_house
from venue.models import Fitting, House, LampTally, Reading, UnitTally

pytestmark = pytest.mark.django_db


def a_house() -> House:
    """A unit with a lamp, read twice, with strikes."""
    unit = a_unit(starts=0)
    fit(unit, 0, a_lamp(a_kind(unit.house)), 0)
    read(unit, 1, 4, strikes=2)
    read(unit, 2, 8, strikes=4)
    return unit.house


def lines(house: House) -> list[str]:
    with pytest.raises(CommandRefused) as refused:
        call_command("check_meters", house.slug, stdout=StringIO())
    assert refused.value.returncode == 2
    return list(refused.value.lines)


def test_a_sound_house_is_answered_with_what_was_looked_at() -> None:
    house, out = a_house(), StringIO()
    call_command("check_meters", house.slug, "--json", stdout=out)
    assert json.loads(out.getvalue()) == {"house": house.slug, "units": 1, "readings": 3, "lamps": 1}
    out = StringIO()
    call_command("check_meters", house.slug, stdout=out)
    assert "everything adds up" in out.getvalue()


def test_a_meter_that_runs_backward_and_tallies_that_do_not_follow_are_named() -> None:
    house = a_house()
    Reading.objects.filter(at=day(2)).update(hours=h(3), strikes=1)
    found = lines(house)
    assert found[0] == "FS-01, 2026-03-04 07:00: the meter shows 3.00 h after 4.00 h; strike one of the two out"
    assert "1 strikes after 2" in found[1]
    assert [line.split(":")[0] for line in found[2:]] == ["FS-01"] * 3 + ["L-1"] * 3


@pytest.mark.parametrize(
    ("spoil", "code", "subject"),
    [
        (lambda: UnitTally.objects.update(hours=h(99)), "tally", "FS-01"),
        (lambda: UnitTally.objects.all().delete(), "tally", "FS-01"),
        (lambda: LampTally.objects.update(left_h=h(1)), "tally", "L-1"),
        (lambda: LampTally.objects.all().delete(), "tally", "L-1"),
        (lambda: Reading.objects.filter(at=day(2)).update(hours=h(90)), "faster-than-clock", "FS-01"),
        (lambda: Reading.objects.filter(at=day(1)).update(at=day(-1)), "outside", "FS-01"),
        (lambda: Fitting.objects.update(from_reading=Reading.objects.create(
            meter=a_unit(House.objects.get(), "FS-02").meters.get(), at=day(0), hours=h(0))), "stray", "FS-01"),
    ],
)  # fmt: skip
def test_each_thing_that_no_constraint_holds_is_found(spoil: object, code: str, subject: str) -> None:
    house = a_house()
    assert not check_house(house).problems
    spoil()  # type: ignore[operator]
    assert (code, subject) in {(problem.code, problem.subject) for problem in check_house(house).problems}
    assert lines(house)


def test_a_house_that_is_not_on_file_is_refused() -> None:
    with pytest.raises((CommandRefused, DomainError)) as refused:
        call_command("check_meters", "nowhere")
    assert "nowhere" in str(refused.value)
