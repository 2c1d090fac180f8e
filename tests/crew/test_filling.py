"""Filling a call: a number once, a person once, swaps in one go, nothing lost when it is refused."""

import pytest

from crew.actions import add_person, call_off, fill_call, make_roster, put_at_spot_talk, put_on_number, take_off
from crew.models import Call, CallLine
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, StaleVersion

pytestmark = pytest.mark.django_db


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(3)


def on_it(call: Call) -> list[tuple[str, int, str | None]]:
    lines = call.lines.standing().select_related("person")
    return [(line.number, line.seat, line.person.name if line.person else None) for line in lines]


def fill(stage: Stage, *on_numbers: int | None, at_talk: tuple[int | None, ...] = (), seen: int | None = None) -> None:
    """Put people, by their index, on 1, 2, 3 and at the spot talk."""
    call = Call.objects.get(pk=stage.call.pk)
    person = [None if index is None else stage.people[index] for index in on_numbers]
    fill_call(
        actor=ACTOR,
        call=call,
        people={(str(number), 1): someone for number, someone in enumerate(person, start=1)},
        at_spot_talk=[None if index is None else stage.people[index] for index in at_talk],
        at=NOON,
        seen=call.version if seen is None else seen,
    )


def test_a_person_is_put_on_a_number_and_another_at_the_spot_talk(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[0])
    put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[1])
    assert on_it(stage.call) == [("", 1, "Мира Лисовская"), ("2", 1, "Ada Quillfeather")]


def test_a_number_has_one_person_however_it_is_written(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[0])
    with pytest.raises(AlreadyExists, match="on this number already"):
        put_on_number(actor=ACTOR, call=stage.call, number="Spot 02", person=stage.people[1])


def test_a_person_is_on_a_call_once(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[0])
    with pytest.raises(AlreadyExists, match="on the call already"):
        put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[0])


def test_somebody_of_another_roster_is_refused(stage: Stage) -> None:
    stranger = add_person(actor=ACTOR, roster=make_roster(actor=ACTOR, name="Other"), name="Ines Tallow")
    with pytest.raises(Invalid, match="of this roster"):
        put_on_number(actor=ACTOR, call=stage.call, number="1", person=stranger)


def test_the_spot_talk_takes_who_is_found_on_the_first_seat_to_fill(stage: Stage) -> None:
    fill(stage, None, None, None, at_talk=(None, None))
    put_at_spot_talk(actor=ACTOR, call=stage.call, person=stage.people[3])
    assert on_it(stage.call) == [("", 1, "Dov Halloran"), ("", 2, None)]


def test_taking_somebody_off_ends_the_line_and_keeps_it(stage: Stage) -> None:
    line = put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[0])
    take_off(actor=ACTOR, line=line, at=NOON, reason="ill")
    assert on_it(stage.call) == []
    assert CallLine.objects.get().ended_reason == "ill"
    with pytest.raises(AlreadyEnded):
        take_off(actor=ACTOR, line=line, at=NOON, reason="ill")


def test_two_people_swap_their_numbers_in_one_go(stage: Stage) -> None:
    fill(stage, 0, 1, None)
    fill(stage, 1, 0, None)
    assert on_it(stage.call) == [("1", 1, "Мира Лисовская"), ("2", 1, "Ada Quillfeather")]


def test_a_line_that_stays_as_it_is_is_not_written_anew(stage: Stage) -> None:
    fill(stage, 0, 1, None)
    kept = stage.call.lines.standing().get(number="1")
    fill(stage, 0, 2, None, at_talk=(3,))
    assert stage.call.lines.standing().get(number="1").pk == kept.pk
    assert on_it(stage.call) == [("", 1, "Dov Halloran"), ("1", 1, "Ada Quillfeather"), ("2", 1, "Zofia Wiśniak")]


def test_somebody_given_twice_is_refused_and_everybody_stays_where_they_were(stage: Stage) -> None:
    fill(stage, 0, 1, None)
    with pytest.raises(AlreadyExists):
        fill(stage, 2, 2, None)
    assert on_it(stage.call) == [("1", 1, "Ada Quillfeather"), ("2", 1, "Мира Лисовская")]


def test_filling_against_an_older_version_is_refused(stage: Stage) -> None:
    seen = stage.call.version
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[4])
    with pytest.raises(StaleVersion):
        fill(stage, 0, 1, None, seen=seen)
    assert on_it(stage.call) == [("1", 1, "Júlia Bencze-Orr")]


def test_a_call_that_is_off_takes_nobody(stage: Stage) -> None:
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="moved")
    with pytest.raises(AlreadyEnded):
        put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    with pytest.raises(AlreadyEnded):
        fill(stage, 0, None, None)
