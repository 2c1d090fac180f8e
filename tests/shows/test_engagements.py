"""Shows booked into a house, their events in the time of the house, what they bring, who may see them."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.core.exceptions import PermissionDenied
from django.db import connection
from django.http import Http404
from django.test.utils import CaptureQueriesContext

from shows.access import (
    engagement_for,
    engagement_to_write,
    engagements_for,
    event_in,
    places_for,
    spot_in,
)
from shows.actions import (
    add_show_event,
    add_tour_place,
    add_tour_position,
    end_engagement,
    end_road,
    end_show_event,
    grant_road,
    make_engagement,
    put_spots,
)
from shows.facts import SpotFacts
from shows.models import Engagement
from tests.factories import ACTOR, NOON, Cast, make_a_house, make_place, make_position, make_show, make_user, the_cast
from venue.actions import add_setup, change, grant_membership
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, LocalTimeMissing, LocalTimeTwice, NotFound

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


def test_a_show_takes_the_usual_set_up_unless_told_otherwise() -> None:
    house = make_a_house()
    other = add_setup(actor=ACTOR, house=house, name="In the round", layout="round")
    assert make_show(house).setup == house.setups.get(is_default=True)
    assert make_show(house, name="Other", setup=other).setup == other


def test_a_set_up_of_another_house_is_refused() -> None:
    with pytest.raises(Invalid, match="a set-up of this house"):
        make_show(make_a_house(), setup=make_a_house().setups.get())


def test_a_show_is_booked_once_from_a_day_and_does_not_end_before_it_starts() -> None:
    show = make_show()
    with pytest.raises(AlreadyExists, match="this show from that day"):
        make_show(show.house)
    with pytest.raises(Invalid, match="last day is before the first"):
        make_show(ends_on=date(2026, 3, 1))
    end_engagement(actor=ACTOR, engagement=show, at=NOON, reason="called off")
    assert make_show(show.house).pk


def test_an_event_keeps_instant_wall_time_and_zone() -> None:
    show = make_show(make_a_house(time_zone="America/Chicago"))
    starts, ends = datetime(2026, 3, 3, 19, 30), datetime(2026, 3, 4, 0, 15)
    event = add_show_event(actor=ACTOR, engagement=show, kind="show", starts=starts, ends=ends)
    assert event.starts_at == datetime(2026, 3, 4, 1, 30, tzinfo=UTC)
    assert (event.starts_wall, event.ends_wall, event.zone) == (starts, ends, "America/Chicago")
    change(actor=ACTOR, row=show.house, house=show.house, seen=1, values={"time_zone": "America/New_York"})
    event.refresh_from_db()
    assert (event.starts_wall, event.zone) == (starts, "America/Chicago")


def test_an_event_at_a_clock_change_is_refused_or_asked_about() -> None:
    show = make_show(make_a_house(time_zone="America/Chicago"))
    with pytest.raises(LocalTimeMissing):
        add_show_event(actor=ACTOR, engagement=show, kind="load-in", starts=datetime(2026, 3, 8, 2, 30))
    twice = datetime(2026, 11, 1, 1, 30)
    with pytest.raises(LocalTimeTwice) as asked:
        add_show_event(actor=ACTOR, engagement=show, kind="load-out", starts=twice)
    event = add_show_event(actor=ACTOR, engagement=show, kind="load-out", starts=twice, starts_fold=1)
    assert (event.starts_at, event.starts_wall) == (asked.value.second, twice)
    assert show.events.count() == 1


def test_an_event_ends_after_its_start_and_is_called_off_once() -> None:
    show = make_show()
    starts = datetime(2026, 3, 3, 19, 30)
    with pytest.raises(Invalid, match="ends before it starts"):
        add_show_event(actor=ACTOR, engagement=show, kind="show", starts=starts, ends=starts)
    event = add_show_event(actor=ACTOR, engagement=show, kind="show", starts=starts)
    end_show_event(actor=ACTOR, event=event, at=NOON, reason="storm")
    with pytest.raises(AlreadyEnded):
        end_show_event(actor=ACTOR, event=event, at=NOON, reason="storm")
    assert (event_in(show, event.ref), list(show.events.standing())) == (event, [])


def test_two_tours_may_each_bring_a_truss_of_the_same_name() -> None:
    house = make_a_house()
    first, second = make_show(house), make_show(house, name="Other")
    trusses = [add_tour_position(actor=ACTOR, engagement=show, name="Truss 1") for show in (first, second)]
    assert make_position(house, name="Truss 1").pk
    with pytest.raises(AlreadyExists):
        add_tour_position(actor=ACTOR, engagement=first, name="truss 1")
    assert list(house.positions.of_house().values_list("name", flat=True)) == ["Truss 1"]
    assert [truss.only_for for truss in trusses] == [first.ref, second.ref]


def test_a_show_may_use_the_places_of_the_house_and_its_own() -> None:
    house = make_a_house()
    show, other = make_show(house), make_show(house, name="Other")
    booth = make_position(house, name="Booth")
    own = add_tour_place(actor=ACTOR, engagement=show, position=booth, label="stand")
    truss = add_tour_position(actor=ACTOR, engagement=show, name="Truss")
    on_truss = add_tour_place(actor=ACTOR, engagement=show, position=truss, label="1")
    usual = make_place(booth, label="1")
    assert set(places_for(show)) == {own, on_truss, usual}
    assert set(places_for(other)) == {usual}


def test_an_engagement_that_ended_brings_nothing_any_more() -> None:
    show = make_show()
    end_engagement(actor=ACTOR, engagement=show, at=NOON, reason="called off")
    with pytest.raises(AlreadyEnded):
        add_tour_position(actor=ACTOR, engagement=show, name="Truss")


@pytest.mark.parametrize(("who", "may_write"), [("head", True), ("reader", False), ("road", True)])
def test_house_and_road_see_the_show_and_head_and_road_may_change_it(cast: Cast, who: str, may_write: bool) -> None:
    user = getattr(cast, who)
    assert engagement_for(user, cast.engagement.ref, NOON) == (cast.engagement, may_write)
    assert list(engagements_for(user, NOON)) == [cast.engagement]


@pytest.mark.parametrize("who", ["dispatch", "stranger"])
def test_others_do_not_learn_that_the_show_exists(cast: Cast, who: str) -> None:
    with pytest.raises(Http404):
        engagement_for(getattr(cast, who), cast.engagement.ref, NOON)
    assert not engagements_for(getattr(cast, who), NOON).exists()


def test_writing_is_refused_to_readers(cast: Cast) -> None:
    assert engagement_to_write(cast.road, cast.engagement.ref, NOON) == cast.engagement
    with pytest.raises(PermissionDenied):
        engagement_to_write(cast.reader, cast.engagement.ref, NOON)


def test_a_superuser_and_a_user_who_may_not_sign_in_are_strangers(cast: Cast) -> None:
    cast.road.is_active = False
    cast.road.save()
    for user in (make_user(is_superuser=True), cast.road):
        with pytest.raises(Http404):
            engagement_for(user, cast.engagement.ref, NOON)


def test_road_access_ends_at_its_instant(cast: Cast) -> None:
    before = cast.road_until - timedelta(microseconds=1)
    assert engagement_for(cast.road, cast.engagement.ref, before) == (cast.engagement, True)
    with pytest.raises(Http404):
        engagement_for(cast.road, cast.engagement.ref, cast.road_until)


def test_the_road_sees_its_own_show_only(cast: Cast) -> None:
    other = make_show(cast.house, name="Other")
    with pytest.raises(Http404):
        engagement_for(cast.road, other.ref, NOON)


def test_road_access_is_prolonged_and_ended_by_name(cast: Cast) -> None:
    grant_road(actor=ACTOR, engagement=cast.engagement, user=cast.road, until=cast.road_until + timedelta(days=1))
    assert engagement_for(cast.road, cast.engagement.ref, cast.road_until)[1]
    end_road(actor=ACTOR, engagement=cast.engagement, user=cast.road, now=NOON)
    with pytest.raises(Http404):
        engagement_for(cast.road, cast.engagement.ref, NOON)
    with pytest.raises(NotFound):
        end_road(actor=ACTOR, engagement=cast.engagement, user=cast.road, now=NOON)


def test_a_head_who_also_tours_with_the_show_sees_it_once(cast: Cast) -> None:
    grant_road(actor=ACTOR, engagement=cast.engagement, user=cast.head, until=cast.road_until)
    assert list(engagements_for(cast.head, NOON)) == [cast.engagement]


def test_rows_are_found_in_their_own_show_only(cast: Cast) -> None:
    (spot,) = put_spots(actor=ACTOR, engagement=cast.engagement, spots=[SpotFacts("1")], at=NOON)
    assert spot_in(cast.engagement, spot.ref) == spot
    with pytest.raises(Http404):
        spot_in(make_show(), spot.ref)


@pytest.mark.parametrize("number", [2, 20])
def test_listing_and_finding_shows_takes_one_query_each_however_many(cast: Cast, number: int) -> None:
    grant_membership(actor=ACTOR, house=cast.house, user=cast.stranger, role="reader")
    for index in range(number):
        make_engagement(actor=ACTOR, house=cast.house, name=f"Show {index}", starts_on=NOON.date(), ends_on=NOON.date())
    with CaptureQueriesContext(connection) as queries:
        found: list[Engagement] = list(engagements_for(cast.stranger, NOON))
        engagement, _may_write = engagement_for(cast.stranger, cast.engagement.ref, NOON)
        assert (engagement.house, engagement.setup.layout) == (cast.house, "proscenium")
    assert (len(found), len(queries)) == (number + 1, 2)
