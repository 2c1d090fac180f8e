"""Which lamps will not last which show: from rows to the event, with a constant number of queries."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from shows.actions import add_show_event, set_place_use
from shows.outlook import LampCount, LampOutlook, lamps_that_will_not_last, outlooks_of, spare_needs
from tests.factories import ACTOR, NOON, hours, make_show, make_unit, make_user
from tests.grown import booked, grown_house
from tests.shows.booked import BEGIN, a_booked_house, a_light, a_run, evenings, numbered
from tests.venue.fitted import fitted_lamp
from tests.venue.pages import send, words
from venue.actions import add_hours, end_placement, grant_membership, place_unit, send_away
from venue.models import House, Lamp, LampKind, LampTally, Placement, Unit
from venue.models.units import Elsewhere

pytestmark = pytest.mark.django_db


def outlook_of(lamp: Lamp, now: datetime = NOON) -> LampOutlook:
    """The outlook of the lamp alone."""
    tally = LampTally.objects.select_related("lamp__kind").get(lamp=lamp)
    return outlooks_of(tally.house, [LampCount.of(tally)], now)[lamp.pk]


def booked_h(lamp: Lamp, now: datetime = NOON) -> float:
    return float(outlook_of(lamp, now).outlook.booked_h)


# -- story 8: stop at 1,000 h, 980 h used, ten shows of 3 h -> the seventh -----------------------------


def test_a_lamp_that_will_pass_its_stop_is_told_with_the_show_and_the_night() -> None:
    house = a_booked_house()
    _unit, _place, lamp = a_light(house, "1", 980)
    show = a_run(house, 10)
    found = outlook_of(lamp)
    seventh = show.events.order_by("starts_at")[6]
    assert (found.outlook.state, found.outlook.remaining_h, found.outlook.booked_h) == ("warn", 20, 30)
    assert (found.stops_in, found.stops_in.engagement.name) == (seventh, "Nine Paper Boats")  # type: ignore[union-attr]
    assert found.outlook.stops_at == seventh.starts_at + hours(2)
    assert (found.outlook.warns_at, found.warns_in) == (found.count.counted_to, None)


def test_a_lamp_that_lasts_through_the_run_stops_in_no_show() -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 970)[2]
    a_run(house, 10)
    found = outlook_of(lamp)
    assert (found.stops_in, found.outlook.beyond_calendar) == (None, True)


def test_beyond_the_calendar_it_passes_by_the_use_of_the_houses_window() -> None:
    house = a_booked_house(use_window_days=4)
    unit, _place, lamp = a_light(house, "1", 970)
    for day in range(-30, 1):
        night = Decimal("0.5") if day < -4 else Decimal(1)
        add_hours(actor=ACTOR, unit=unit, at=NOON + timedelta(days=day), hours=night, confirmed=True)
    found = outlook_of(lamp)
    assert found.outlook.remaining_h == 12
    assert found.outlook.stops_at == NOON + timedelta(days=12)
    type(house).objects.update(use_window_days=10)
    longer = outlook_of(lamp).outlook.stops_at
    assert longer is not None and abs(longer - NOON - timedelta(days=12) * 9 / 7) < timedelta(seconds=1)


def test_what_was_booked_since_the_last_reading_counts_though_nobody_read_it() -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 990, at=NOON)[2]
    a_run(house, 5)
    later = NOON + timedelta(days=2)
    found = outlook_of(lamp, later)
    assert (found.outlook.unread_h, found.outlook.booked_h) == (6, 9)
    assert found.outlook.stops_at == datetime(2026, 3, 5, 20, tzinfo=UTC)


# -- what burns when -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "burns"), [("load-in", 0), ("focus", 3), ("rehearsal", 3), ("show", 3), ("load-out", 0)]
)
def test_focus_rehearsal_and_show_burn_lamps_and_moving_in_and_out_does_not(kind: str, burns: float) -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 0)[2]
    evenings(make_show(house), 1, kind=kind)
    assert booked_h(lamp) == burns


def test_lamps_burn_from_the_houses_minutes_before_until_the_end_or_the_usual_length() -> None:
    house = a_booked_house(burn_before_min=30, usual_event_min=150)
    lamp = a_light(house, "1", 0)[2]
    show = make_show(house)
    evenings(show, 1, 2.0)
    add_show_event(actor=ACTOR, engagement=show, kind="show", starts=datetime(2026, 3, 4, 14))
    assert booked_h(lamp) == 2.5 + 3.0


def test_events_and_shows_that_were_called_off_burn_nothing() -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 0)[2]
    show, other = a_run(house, 2), a_run(house, 1, "The Copper Heron")
    event = show.events.first()
    assert event is not None
    type(event).objects.filter(pk=event.pk).update(ended_at=NOON, ended_reason="called off")
    type(other).objects.filter(pk=other.pk).update(ended_at=NOON, ended_reason="called off")
    assert booked_h(lamp) == 3


def test_two_shows_at_once_burn_a_lamp_once() -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 0)[2]
    a_run(house, 1)
    a_run(house, 1, "The Copper Heron", length_h=4)
    assert booked_h(lamp) == 4


def test_a_show_with_numbers_burns_the_lights_that_these_are_on_and_no_others() -> None:
    house = a_booked_house()
    lights = [a_light(house, str(number), 0) for number in (1, 2, 3)]
    show = a_run(house, 2)
    numbered(show, [lights[0][1], lights[2][1]])
    assert [booked_h(lamp) for _unit, _place, lamp in lights] == [6, 0, 6]
    set_place_use(actor=ACTOR, engagement=show, place=lights[2][1], in_use=False, at=BEGIN, seen=0)
    assert [booked_h(lamp) for _unit, _place, lamp in lights] == [6, 0, 0]


def test_a_show_without_numbers_burns_every_light_but_those_at_places_out_of_use() -> None:
    house = a_booked_house()
    lights = [a_light(house, str(number), 0) for number in (1, 2)]
    show = a_run(house, 2)
    a_run(house, 1, "The Copper Heron", kind="load-in")
    set_place_use(actor=ACTOR, engagement=show, place=lights[1][1], in_use=False, at=BEGIN, seen=0)
    assert [booked_h(lamp) for _unit, _place, lamp in lights] == [6, 0]


def test_a_light_burns_only_where_and_while_it_stands_in_the_house() -> None:
    house = a_booked_house()
    unit, place, lamp = a_light(house, "1", 0)
    a_run(house, 6)
    gone, back = NOON + timedelta(days=2), NOON + timedelta(days=4)
    send_away(actor=ACTOR, unit=unit, to=Elsewhere.LENT, words="the next house", at=gone, until=back, back_to=place)
    assert booked_h(lamp) == 12
    end_placement(actor=ACTOR, placement=Placement.objects.get(unit=unit, starts_at=back), at=back)
    assert booked_h(lamp) == 6


def test_a_light_that_moves_burns_for_the_numbers_at_both_places_in_turn() -> None:
    house = a_booked_house()
    unit, first, lamp = a_light(house, "1", 0)
    _other, second, _lamp = a_light(house, "2", 0)
    one, two = a_run(house, 4), a_run(house, 4, "The Copper Heron", length_h=1)
    numbered(one, [first])
    numbered(two, [second])
    moved = NOON + timedelta(days=2)
    for stay in Placement.objects.filter(place__in=[first, second]):
        end_placement(actor=ACTOR, placement=stay, at=moved)
    place_unit(actor=ACTOR, unit=unit, place=second, starts_at=moved)
    assert booked_h(lamp) == 2 * 3 + 2 * 1


def test_a_lamp_on_the_shelf_and_one_in_the_shop_burn_nothing() -> None:
    house = a_booked_house()
    a_run(house, 2)
    lamp = fitted_lamp(make_unit(house), 500)
    assert booked_h(lamp) == 0


def test_another_houses_shows_burn_nothing_here() -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 0)[2]
    a_run(a_booked_house(), 2)
    assert booked_h(lamp) == 0


def test_a_kind_without_rated_hours_says_nothing() -> None:
    house = a_booked_house()
    lamp = a_light(house, "1", 980)[2]
    LampKind.objects.update(rated_h=None)
    a_run(house, 1)
    found = outlook_of(lamp)
    assert (found.outlook.state, found.outlook.remaining_h, found.outlook.booked_h) == ("unknown", None, 3)


# -- lists ---------------------------------------------------------------------------------------------


def test_lamps_that_will_not_last_are_those_with_the_fewest_hours_left_the_first_to_stop_first() -> None:
    house = a_booked_house()
    for label, burned in (("1", 500), ("2", 985), ("3", 1004), ("4", 975), ("5", 991)):
        a_light(house, label, burned)
    a_run(house, 10)
    found = lamps_that_will_not_last(house, NOON)
    assert [each.count.lamp.serial for each in found] == ["L-5", "L-2", "L-4"], "L-3 is past its stop already"
    assert {each.outlook.state for each in found} == {"warn"}
    assert [each.count.lamp.serial for each in lamps_that_will_not_last(house, NOON, limit=1)] == ["L-5"]


def test_a_house_says_from_when_its_lamps_burn(client: Client) -> None:
    house = a_booked_house()
    _unit, _place, lamp = a_light(house, "1", 500)
    a_run(house, 10)
    before = booked_h(lamp)
    head = make_user("head")
    grant_membership(actor=ACTOR, house=house, user=head, role="head")
    client.force_login(head)
    assert send(client, reverse("venue:house_edit", args=[house.slug]), burn_before_min="60").status_code == 302
    assert booked_h(lamp) == pytest.approx(before + 10 * (60 - house.burn_before_min) / 60)


def test_the_page_says_in_which_show_a_lamp_stops_and_what_to_order(client: Client) -> None:
    house = a_booked_house()
    for label, burned in (("1", 500), ("2", 985), ("3", 1004)):
        a_light(house, label, burned)
    a_run(house, 10)
    kind = house.lamp_kinds.get()
    kind.lead_days = 14
    kind.save()
    head = make_user("head")
    grant_membership(actor=ACTOR, house=house, user=head, role="head")
    client.force_login(head)
    with time_machine.travel(NOON, tick=False):
        page = words(client.get(reverse("shows:outlook", args=[house.slug])))
    assert page.index("It is past its stop: change it.") < page.index("Passes its stop in ") < page.index("Spares")
    assert "An order takes 14 days; until then about 2.0 will be wanted." in page


def lit(count: int) -> House:
    """A house of so many lights and two shows, one with numbers; one lamp stops in them, others last."""
    house = grown_house("grown", count, nights=9)
    booked(house, engagements=2, events=3, numbers=2)
    tally = LampTally.objects.select_related("lamp").earliest("lamp")
    LampTally.objects.filter(pk=tally.pk).update(hours=1995, left_h=5)
    return house


@pytest.mark.parametrize("count", [2, 60])
def test_outlooks_ask_the_database_as_often_for_many_lamps_as_for_few(
    count: int, django_assert_num_queries: Any
) -> None:
    house = lit(count)
    counts = [LampCount.of(tally) for tally in LampTally.objects.filter(house=house).select_related("lamp__kind")]
    with django_assert_num_queries(8):
        outlooks_of(house, counts, NOON)
    with django_assert_num_queries(9):
        lamps_that_will_not_last(house, NOON, limit=3)


# -- spares --------------------------------------------------------------------------------------------


def test_spares_are_needed_for_the_lamps_that_stop_before_an_order_arrives() -> None:
    house = a_booked_house()
    for label, burned in (("1", 985), ("2", 970), ("3", 100)):
        a_light(house, label, burned)
    a_run(house, 10)
    LampKind.objects.update(lead_days=7, spares=1)
    (need,) = spare_needs(house, NOON)
    assert need.demand is not None and need.reorder is not None
    assert (need.demand.mean, need.demand.deviation, need.reorder.point) == (1.0, 0.0, 1.0)
    assert (need.stock.on_shelf, need.state) == (1, "order")
    LampKind.objects.update(lead_days=30)
    assert [each.demand.mean for each in spare_needs(house, NOON) if each.demand] == [1.0]
    LampKind.objects.update(spares=5)
    assert [each.state for each in spare_needs(house, NOON)] == ["ok"]


def test_without_a_lead_time_only_what_is_kept_is_told() -> None:
    house = a_booked_house()
    a_light(house, "1", 985)
    LampKind.objects.update(keep_at_least=3)
    (need,) = spare_needs(house, NOON)
    assert (need.demand, need.reorder, need.stock.keep, need.state) == (None, None, 3, "order")


@pytest.mark.parametrize("count", [2, 60])
def test_spare_needs_ask_the_database_as_often_for_many_lamps_as_for_few(
    count: int, django_assert_num_queries: Any
) -> None:
    house = lit(count)
    LampKind.objects.update(lead_days=7)
    with django_assert_num_queries(15):
        spare_needs(house, NOON)
    assert Unit.objects.filter(house=house).count() == count
