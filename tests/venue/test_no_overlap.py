"""A unit stands at one place at a time and a place holds one unit: spans are half-open."""

from datetime import UTC, datetime

import pytest
from django.db import IntegrityError, transaction

from tests.factories import ACTOR, NOON, hours, make_a_house, make_place, make_position, make_unit
from venue.actions import end_placement, end_unit, move_unit, place_unit, swap_units
from venue.errors import AlreadyEnded, InUse, Invalid, NotFound, Overlap, WrongHouse
from venue.models import House, Place, Placement, Unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def house(db: None) -> House:
    return make_a_house(time_zone="America/Chicago")


@pytest.fixture
def place(house: House) -> Place:
    return make_place(make_position(house, name="Rear booth"), label="1")


def stay(unit: Unit, place: Place, starts: float, ends: float | None = None) -> Placement:
    until = None if ends is None else NOON + hours(ends)
    return place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON + hours(starts), ends_at=until)


SPANS = [
    # standing from 2 to 4 (None: for good)      asked   allowed
    ((2, 4), (0, 2), True),
    ((2, 4), (4, 6), True),
    ((2, 4), (4, None), True),
    ((2, 4), (0, 1), True),
    ((2, 4), (0, 3), False),
    ((2, 4), (3, 5), False),
    ((2, 4), (2.5, 3), False),
    ((2, 4), (0, 6), False),
    ((2, 4), (2, 4), False),
    ((2, 4), (0, None), False),
    ((2, None), (0, 2), True),
    ((2, None), (0, 3), False),
    ((2, None), (100, 101), False),
    ((2, None), (100, None), False),
    ((2, 2), (0, 6), True),
    ((2, 4), (3, 3), True),
]


@pytest.mark.parametrize(("standing", "asked", "is_allowed"), SPANS)
def test_a_place_holds_one_unit_at_a_time(
    place: Place, standing: tuple[float, float], asked: tuple[float, float], is_allowed: bool
) -> None:
    holder = stay(make_unit(place.position.house), place, *standing)
    other = make_unit(place.position.house)
    if is_allowed:
        assert stay(other, place, *asked).pk
        return
    with pytest.raises(Overlap) as refused:
        stay(other, place, *asked)
    assert refused.value.holder == holder
    assert (refused.value.starts_at, refused.value.ends_at) == (holder.starts_at, holder.ends_at)
    assert place.placements.count() == 1


@pytest.mark.parametrize(("standing", "asked", "is_allowed"), SPANS)
def test_a_unit_stands_at_one_place_at_a_time(
    place: Place, standing: tuple[float, float], asked: tuple[float, float], is_allowed: bool
) -> None:
    unit = make_unit(place.position.house)
    stay(unit, place, *standing)
    other = make_place(place.position, label="2")
    if is_allowed:
        assert stay(unit, other, *asked).pk
    else:
        with pytest.raises(Overlap):
            stay(unit, other, *asked)


def test_a_refusal_says_who_stands_there_and_when_in_the_time_of_the_house(place: Place) -> None:
    house = place.position.house
    stay(make_unit(house, tag="FS-07"), place, 2)
    with pytest.raises(Overlap) as refused:
        stay(make_unit(house), place, 5)
    told = (
        "FS-07 at Rear booth, place 1, from 2026-03-02 08:00 on, is in the way. End that first, or choose another time."
    )
    assert str(refused.value) == told


def test_a_span_that_grows_into_another_is_refused(place: Place) -> None:
    first = stay(make_unit(place.position.house), place, 0, 2)
    stay(make_unit(place.position.house), place, 2, 4)
    with pytest.raises(IntegrityError, match="placement_no_overlap_by_place"), transaction.atomic():
        Placement.objects.filter(pk=first.pk).update(ends_at=NOON + hours(3))
    assert Placement.objects.filter(pk=first.pk).update(ends_at=NOON + hours(1)) == 1


def test_spans_compare_to_the_microsecond(place: Place) -> None:
    end = datetime(2026, 3, 2, 12, 0, 0, 1, tzinfo=UTC)
    house = place.position.house
    place_unit(actor=ACTOR, unit=make_unit(house), place=place, starts_at=NOON, ends_at=end)
    with pytest.raises(Overlap):
        stay(make_unit(house), place, -1, 0.5)
    place_unit(actor=ACTOR, unit=make_unit(house), place=place, starts_at=end)


def test_an_end_before_the_start_is_refused(place: Place) -> None:
    with pytest.raises(Invalid, match="ends before it starts"):
        stay(make_unit(place.position.house), place, 2, 1)


def test_a_unit_of_another_house_is_refused(place: Place) -> None:
    with pytest.raises(WrongHouse):
        stay(make_unit(), place, 0)


def test_a_unit_that_ended_is_not_placed(place: Place) -> None:
    unit = make_unit(place.position.house)
    end_unit(actor=ACTOR, unit=unit, at=NOON, reason="sold")
    with pytest.raises(AlreadyEnded):
        stay(Unit.objects.get(pk=unit.pk), place, 0)


def test_a_unit_that_stands_somewhere_does_not_end(place: Place) -> None:
    unit = make_unit(place.position.house)
    stay(unit, place, 0)
    with pytest.raises(InUse, match="end or move that first"):
        end_unit(actor=ACTOR, unit=unit, at=NOON, reason="sold")


def test_a_placement_ends_once_and_frees_the_place(place: Place) -> None:
    placement = stay(make_unit(place.position.house), place, 0)
    end_placement(actor=ACTOR, placement=placement, at=NOON + hours(2))
    with pytest.raises(AlreadyEnded):
        end_placement(actor=ACTOR, placement=placement, at=NOON + hours(3))
    assert stay(make_unit(place.position.house), place, 2).pk


def test_a_plan_that_is_taken_back_stays_on_file_but_holds_nothing(place: Place) -> None:
    plan = stay(make_unit(place.position.house), place, 48)
    end_placement(actor=ACTOR, placement=plan, at=NOON)
    assert plan.ends_at == plan.starts_at
    assert stay(make_unit(place.position.house), place, 0).pk
    assert list(Placement.objects.real().filter(pk=plan.pk)) == []


def test_a_move_ends_the_stay_and_keeps_its_planned_end(place: Place) -> None:
    unit = make_unit(place.position.house)
    before = stay(unit, place, 0, 24)
    after = move_unit(actor=ACTOR, unit=unit, to=make_place(place.position, label="2"), at=NOON + hours(2))
    before.refresh_from_db()
    assert (before.ends_at, after.starts_at, after.ends_at) == (NOON + hours(2), NOON + hours(2), NOON + hours(24))


def test_a_move_to_a_taken_place_changes_nothing(place: Place) -> None:
    unit = make_unit(place.position.house)
    before = stay(unit, place, 0)
    taken = make_place(place.position, label="2")
    stay(make_unit(place.position.house), taken, 0)
    with pytest.raises(Overlap):
        move_unit(actor=ACTOR, unit=unit, to=taken, at=NOON + hours(2))
    assert Placement.objects.get(pk=before.pk).ends_at is None


def test_a_unit_that_stands_nowhere_is_not_moved(place: Place) -> None:
    with pytest.raises(NotFound):
        move_unit(actor=ACTOR, unit=make_unit(place.position.house), to=place, at=NOON)


def test_two_units_swap_because_both_leave_first(place: Place) -> None:
    other = make_place(place.position, label="2")
    one, two = make_unit(place.position.house), make_unit(place.position.house)
    stay(one, place, 0), stay(two, other, 0)
    swap_units(actor=ACTOR, one=one, other=two, at=NOON + hours(1))
    now = Placement.objects.at(NOON + hours(1))
    assert {(row.unit, row.place) for row in now} == {(one, other), (two, place)}
    before = Placement.objects.at(NOON)
    assert {(row.unit, row.place) for row in before} == {(one, place), (two, other)}
