"""Strangers meet 404, readers 403, and nobody gets in by rank."""

from uuid import uuid4

import pytest
from django.contrib.auth.models import AnonymousUser
from django.core.exceptions import PermissionDenied
from django.http import Http404
from pytest_django import DjangoAssertNumQueries

from tests.factories import ACTOR, NOON, Cast, make_a_house, make_place, make_unit, make_user, the_cast
from venue.access import (
    house_for,
    house_to_write,
    houses_for,
    place_in,
    position_in,
    setup_in,
    unit_in,
)
from venue.actions import grant_membership, revoke_membership
from venue.errors import AlreadyExists, NotFound
from venue.models import House

pytestmark = pytest.mark.django_db
SLUG = "quillmark-hall"


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


@pytest.mark.parametrize(("who", "may_write"), [("head", True), ("reader", False)])
def test_members_see_the_house_and_the_head_may_write(cast: Cast, who: str, may_write: bool) -> None:
    assert house_for(getattr(cast, who), SLUG) == (cast.house, may_write)
    assert list(houses_for(getattr(cast, who))) == [cast.house]


@pytest.mark.parametrize("who", ["road", "dispatch", "stranger"])
def test_others_do_not_learn_that_the_house_exists(cast: Cast, who: str) -> None:
    with pytest.raises(Http404):
        house_for(getattr(cast, who), SLUG)
    assert list(houses_for(getattr(cast, who))) == []


def test_a_superuser_is_a_stranger_and_so_is_nobody(cast: Cast) -> None:
    for visitor in (make_user(is_staff=True, is_superuser=True), AnonymousUser()):
        with pytest.raises(Http404):
            house_for(visitor, SLUG)
        assert not houses_for(visitor).exists()


def test_a_user_who_may_not_sign_in_any_more_sees_nothing(cast: Cast) -> None:
    cast.head.is_active = False
    cast.head.save()
    with pytest.raises(Http404):
        house_for(cast.head, SLUG)


def test_writing_is_for_the_head_alone(cast: Cast) -> None:
    assert house_to_write(cast.head, SLUG) == cast.house
    with pytest.raises(PermissionDenied, match="Ask the house head"):
        house_to_write(cast.reader, SLUG)
    with pytest.raises(Http404):
        house_to_write(cast.stranger, SLUG)


def test_access_that_was_revoked_is_over_and_may_be_granted_again(cast: Cast) -> None:
    revoke_membership(actor=ACTOR, house=cast.house, user=cast.reader, at=NOON, reason="left")
    with pytest.raises(Http404):
        house_for(cast.reader, SLUG)
    with pytest.raises(NotFound):
        revoke_membership(actor=ACTOR, house=cast.house, user=cast.reader, at=NOON, reason="left")
    grant_membership(actor=ACTOR, house=cast.house, user=cast.reader, role="head")
    assert house_for(cast.reader, SLUG) == (cast.house, True)


def test_another_role_replaces_the_present_one_and_the_same_is_refused(cast: Cast) -> None:
    grant_membership(actor=ACTOR, house=cast.house, user=cast.reader, role="head")
    assert cast.house.memberships.filter(user=cast.reader).count() == 1
    with pytest.raises(AlreadyExists, match="Reader is head of this house already"):
        grant_membership(actor=ACTOR, house=cast.house, user=cast.reader, role="head")


def test_rows_are_found_in_their_own_house_only(cast: Cast) -> None:
    place, unit = make_place(), make_unit(cast.house)
    home = place.position.house
    assert place_in(home, place.ref) == place
    assert position_in(home, place.position.ref) == place.position
    assert unit_in(cast.house, unit.ref) == unit
    assert setup_in(home, home.setups.get().ref).house == home
    for find, house, ref in (
        (place_in, cast.house, place.ref),
        (position_in, cast.house, place.position.ref),
        (unit_in, home, unit.ref),
        (setup_in, home, cast.house.setups.get().ref),
        (place_in, home, uuid4()),
    ):
        with pytest.raises(Http404):
            find(house, ref)


def test_finding_a_house_takes_one_query(cast: Cast, django_assert_num_queries: DjangoAssertNumQueries) -> None:
    with django_assert_num_queries(1):
        house_for(cast.head, SLUG)


@pytest.mark.parametrize("number", [2, 20])
def test_listing_houses_takes_one_query_however_many(
    cast: Cast, number: int, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    for _ in range(number):
        grant_membership(actor=ACTOR, house=make_a_house(), user=cast.stranger, role="reader")
    with django_assert_num_queries(1):
        found: list[House] = list(houses_for(cast.stranger))
    assert len(found) == number
