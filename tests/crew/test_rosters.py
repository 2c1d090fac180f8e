"""Rosters serve houses; dispatch sees its own and nobody else does."""

from uuid import uuid4

import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import Http404
from django.test import Client
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from crew.access import houses_served, person_in, roster_for, rosters_for
from crew.actions import (
    add_person,
    end_person,
    ensure_roster,
    grant_dispatch,
    make_roster,
    revoke_dispatch,
    serve_house,
)
from crew.models import Roster
from tests.factories import ACTOR, NOON, Cast, make_a_house, make_user, the_cast
from venue.actions import grant_membership, make_house
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, NotFound
from venue.models import Event
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


def test_a_house_is_opened_with_its_roster(cast: Cast) -> None:
    assert list(houses_served(cast.roster)) == [cast.house]
    assert ensure_roster(actor=ACTOR, house=cast.house) == cast.roster


def test_a_house_from_elsewhere_gets_its_roster_once() -> None:
    house = make_house(actor=ACTOR, name="Loaded", slug="loaded")
    roster = ensure_roster(actor=ACTOR, house=house)
    assert ensure_roster(actor=ACTOR, house=house) == roster
    assert (roster.name, Roster.objects.count()) == ("Loaded", 1)


def test_a_roster_serves_several_houses_each_once(cast: Cast) -> None:
    other = make_a_house(name="Annex")
    serve_house(actor=ACTOR, roster=cast.roster, house=other)
    assert set(houses_served(cast.roster)) == {cast.house, other}
    with pytest.raises(AlreadyExists, match="serves this house already"):
        serve_house(actor=ACTOR, roster=cast.roster, house=other)


def test_who_dispatches_the_roster_and_heads_another_house_lets_it_serve_that_too(cast: Cast, client: Client) -> None:
    other = make_a_house(name="Annex")
    address = reverse("crew:roster_serve", args=[cast.roster.ref])
    client.force_login(cast.dispatch)
    assert "You head no house that this roster does not serve." in client.get(address).content.decode()
    assert client.post(address, {"house": other.pk}).status_code == 200
    grant_membership(actor=ACTOR, user=cast.dispatch, house=other, role="head")
    assert client.post(address, {"house": other.pk}).status_code == 302
    assert set(houses_served(cast.roster)) == {cast.house, other}


def test_dispatch_sees_and_writes_its_roster(cast: Cast) -> None:
    assert roster_for(cast.dispatch, cast.roster.ref) == (cast.roster, True)
    assert list(rosters_for(cast.dispatch)) == [cast.roster]


@pytest.mark.parametrize("who", ["head", "road", "reader", "stranger"])
def test_others_do_not_learn_that_the_roster_exists(cast: Cast, who: str) -> None:
    with pytest.raises(Http404):
        roster_for(getattr(cast, who), cast.roster.ref)


def test_a_superuser_and_nobody_are_strangers(cast: Cast) -> None:
    for visitor in (make_user(is_superuser=True), AnonymousUser()):
        with pytest.raises(Http404):
            roster_for(visitor, cast.roster.ref)


def test_dispatch_is_granted_once_and_revoked_once(cast: Cast) -> None:
    with pytest.raises(AlreadyExists):
        grant_dispatch(actor=ACTOR, roster=cast.roster, user=cast.dispatch)
    revoke_dispatch(actor=ACTOR, roster=cast.roster, user=cast.dispatch, at=NOON, reason="left")
    with pytest.raises(Http404):
        roster_for(cast.dispatch, cast.roster.ref)
    with pytest.raises(NotFound):
        revoke_dispatch(actor=ACTOR, roster=cast.roster, user=cast.dispatch, at=NOON, reason="left")


def test_persons_may_share_a_name_and_leave_without_being_deleted(cast: Cast) -> None:
    first, second = (add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow") for _ in range(2))
    end_person(actor=ACTOR, person=first, at=NOON, reason="moved away")
    assert list(cast.roster.persons.standing()) == [second]
    assert person_in(cast.roster, first.ref) == first
    with pytest.raises(AlreadyEnded):
        end_person(actor=ACTOR, person=first, at=NOON, reason="moved away")


def test_a_person_is_found_on_the_own_roster_only(cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=make_roster(actor=ACTOR, name="Other"), name="Ines Tallow")
    for ref in (person.ref, uuid4()):
        with pytest.raises(Http404):
            person_in(cast.roster, ref)


def test_a_person_without_a_name_is_refused(cast: Cast) -> None:
    with pytest.raises(Invalid, match="name"):
        add_person(actor=ACTOR, roster=cast.roster, name="")


def test_the_history_tells_of_rosters_and_persons(cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow")
    lines = Event.objects.about("roster", cast.roster.ref) | Event.objects.about("person", person.ref)
    assert [event_sentence(line) for line in lines] == [
        "made the roster Quillmark Hall",
        "had the roster Quillmark Hall serve Quillmark Hall",
        "let Dispatch dispatch the roster Quillmark Hall",
        "added Ines Tallow to the roster Quillmark Hall",
    ]


@pytest.mark.parametrize("number", [2, 20])
def test_listing_rosters_takes_one_query_however_many(
    cast: Cast, number: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for index in range(number):
        grant_dispatch(actor=ACTOR, roster=make_roster(actor=ACTOR, name=f"R{index}"), user=cast.stranger)
    with django_assert_num_queries(1):
        found: list[Roster] = list(rosters_for(cast.stranger))
    assert len(found) == number
