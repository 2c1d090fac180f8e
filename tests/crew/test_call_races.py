"""Dispatchers and heads at the same instant: one number, one person, one revision."""

from functools import partial

import pytest

from crew.actions import issue_call_sheet, put_on_number
from crew.models import CallLine, IssuedSheet
from tests.crew.stage import a_stage
from tests.factories import ACTOR, NOON
from tests.racing import race
from venue.errors import AlreadyExists

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]
WRITERS = 5


def test_one_of_many_people_gets_the_number() -> None:
    stage = a_stage(2)
    put = partial(put_on_number, actor=ACTOR, call=stage.call, number="1")
    outcomes = race([partial(put, person=person) for person in stage.people])
    assert len([outcome for outcome in outcomes if isinstance(outcome, CallLine)]) == 1
    assert {type(outcome) for outcome in outcomes if isinstance(outcome, Exception)} == {AlreadyExists}


def test_many_who_issue_at_once_issue_one_revision() -> None:
    stage = a_stage(2)
    outcomes = race([partial(issue_call_sheet, actor=ACTOR, call=stage.call, now=NOON) for _ in range(WRITERS)])
    assert [outcome.is_new for outcome in outcomes].count(True) == 1
    assert {outcome.sheet.n for outcome in outcomes} == {1}
    assert IssuedSheet.objects.count() == 1
