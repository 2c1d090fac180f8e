"""Heads who make the public link at the same instant: one link works afterwards, whoever came last."""

from functools import partial

import pytest

from crew.actions.tech_links import renew_tech_link
from tests.factories import ACTOR, NOON, make_a_house
from tests.racing import race
from venue.actions import MadeLink
from venue.models import Link

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]


def test_of_several_links_made_at_once_one_works_and_its_maker_holds_the_secret() -> None:
    house = make_a_house()
    outcomes = race([partial(renew_tech_link, actor=ACTOR, house=house, now=NOON)] * 3)
    assert [type(outcome) for outcome in outcomes] == [MadeLink] * 3
    (working,) = Link.objects.working(NOON)
    assert working.pk in {outcome.link.pk for outcome in outcomes}
    assert Link.objects.count() == 3
