"""After the show: what is booked becomes hours in the book once, together or not at all, and what failed a fault."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext

from shows.actions.after import Told, enter_after
from shows.after import Night, nights_of
from shows.core.after import Played, booked, days_of, left
from shows.errors import EnteredAlready, UnitsRefused
from shows.models import Engagement
from tests.factories import ACTOR, NOON, Cast, hours, make_show, make_unit, the_cast
from tests.shows.booked import BEGIN, a_booked_house, a_light, evenings, numbered
from tests.venue.pages import as_user, words
from venue.actions import add_hours, place_unit, put_meter, read_meter, strike_hours
from venue.core.forecast import Burn
from venue.models import Event, Fault, HoursAdded, House, LampTally, Reading, Unit

NIGHT = datetime(2026, 3, 2, 22, 30, tzinfo=UTC)
"""Half an hour after the first evening's show, 19:00 to 22:00."""


def played(start: float, end: float, key: str = "") -> Played:
    """An event from one hour after noon to another; lights burn from half an hour before it."""
    return Played(NOON + hours(start), Burn(NOON + hours(start - 0.5), NOON + hours(end), key))


# -- the day and its entries, without rows ---------------------------------------------------------


def test_overlapping_burns_count_once_and_are_one_strike() -> None:
    both = [played(2, 5), played(4, 7), played(9, 10)]
    assert booked(both, NOON + hours(10)) == (Decimal("7.00"), 2)
    assert booked(both, NOON + hours(3)) == (Decimal("1.50"), 1)
    assert booked([], NOON) == (0, 0)


def test_an_entry_covers_what_began_before_it_and_no_later_event_of_the_day() -> None:
    matinee, evening = played(2, 5), played(7, 10)
    assert left([matinee, evening], [NOON + hours(5)]) == (evening,)
    assert left([matinee, evening], [NOON + hours(10.5)]) == ()
    assert left([matinee, evening], []) == (matinee, evening)


def test_a_day_closes_with_the_houses_next_event_and_at_most_a_day_and_a_half_later() -> None:
    [first] = days_of([played(7, 10)], datetime.date, [NOON + hours(7), NOON + hours(22)])
    [alone] = days_of([played(7, 10)], datetime.date, [NOON + hours(7)])
    assert (first.closes_at, alone.closes_at) == (NOON + hours(22), NOON + hours(7 + 36))
    assert first.covers(NOON + hours(22)) and not first.covers(NOON + hours(7))


# -- from rows to the book --------------------------------------------------------------------------


def a_night(house: House, lights: int = 2, nights: int = 1) -> tuple[Engagement, list[Unit]]:
    """A numbered show with so many evenings, and its units."""
    there = [a_light(house, str(n), 100 * n) for n in range(1, lights + 1)]
    show = make_show(house)
    evenings(show, nights)
    numbered(show, [place for _unit, place, _lamp in there])
    return show, [unit for unit, _place, _lamp in there]


def fresh(show: Engagement) -> Engagement:
    return Engagement.objects.select_related("house").get(pk=show.pk)


def night(show: Engagement, now: datetime = NIGHT) -> Night:
    return nights_of(fresh(show), now)[0]


def enter(show: Engagement, *told: Told, now: datetime = NIGHT, at: datetime | None = None) -> Any:
    found = night(show, now)
    return enter_after(actor=ACTOR, engagement=fresh(show), day=found.day, told=told, at=at or found.until, now=now)


@pytest.fixture
def at_night() -> Iterator[None]:
    with time_machine.travel(NIGHT, tick=False):
        yield


pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("at_night")]


def test_the_units_of_the_shows_numbers_are_booked_and_no_others() -> None:
    show, units = a_night(a_booked_house(burn_before_min=30))
    a_light(show.house, "9", 0)
    found = night(show)
    assert [(row.unit, row.numbers) for row in found.units] == [(units[0], ("1",)), (units[1], ("2",))]
    assert {(row.booked_h, row.booked_strikes, row.is_entered) for row in found.units} == {(Decimal("3.5"), 1, False)}


def test_stored_hours_are_in_the_units_and_the_lamps_tallies_and_nothing_is_left() -> None:
    show, [unit, _other] = a_night(a_booked_house())
    enter(show, Told(unit, hours=Decimal("2.8"), strikes=1))
    tally = LampTally.objects.get(unit=unit)
    assert (tally.hours, tally.strikes) == (Decimal("102.8"), 1)
    first, second = night(show).units
    assert (first.is_entered, second.is_entered) == (True, False)
    assert HoursAdded.objects.get().why == "Nine Paper Boats, Mar 2, 2026"
    assert Event.objects.filter(verb="after.entered").get().data["units"] == "FS-1"


def test_the_same_events_are_refused_a_second_time_until_the_entry_is_struck_out() -> None:
    show, [unit, _other] = a_night(a_booked_house())
    enter(show, Told(unit, hours=Decimal(3)))
    with pytest.raises(UnitsRefused) as refused:
        enter(show, Told(unit, hours=Decimal(3)))
    [refusal] = refused.value.refusals[unit.pk]
    assert isinstance(refusal, EnteredAlready) and "entered by tests" in str(refusal)
    strike_hours(actor=ACTOR, added=HoursAdded.objects.get(), at=NIGHT, reason="wrong unit")
    enter(show, Told(unit, hours=Decimal("2.5")))
    assert LampTally.objects.get(unit=unit).hours == Decimal("102.5")


def test_hours_that_somebody_added_on_the_units_own_page_count_as_entered() -> None:
    show, [unit, _other] = a_night(a_booked_house())
    add_hours(actor=ACTOR, unit=unit, at=NIGHT - timedelta(minutes=10), hours=Decimal(3))
    assert night(show).units[0].is_entered


def test_a_reading_counts_every_earlier_day_and_shows_what_the_meter_showed() -> None:
    show, [unit, _other] = a_night(a_booked_house(), nights=2)
    put_meter(actor=ACTOR, unit=unit, at=BEGIN, starts_h=Decimal(500))
    later = NIGHT + timedelta(days=1)
    with time_machine.travel(later, tick=False):
        assert [each.units[0].is_entered for each in nights_of(fresh(show), later)] == [False, False]
        read_meter(actor=ACTOR, unit=unit, at=later, hours=Decimal(506))
        first, second = (each.units[0] for each in nights_of(fresh(show), later))
    assert (first.entries, second.entries) == ((Reading.objects.get(),), (Reading.objects.get(),))


def test_a_units_meter_is_read_through_the_page_as_on_its_own() -> None:
    show, [unit, _other] = a_night(a_booked_house())
    put_meter(actor=ACTOR, unit=unit, at=BEGIN, starts_h=Decimal(500))
    with pytest.raises(UnitsRefused) as refused:
        enter(show, Told(unit, meter_h=Decimal(499)))
    assert "can't show less" in str(refused.value.refusals[unit.pk][0])
    enter(show, Told(unit, meter_h=Decimal(503), strikes=7))
    assert night(show).units[0].entries == (Reading.objects.get(hours=503, strikes=7),)


def test_a_unit_that_was_changed_between_two_events_burned_at_its_own_only() -> None:
    house = a_booked_house()
    show, [unit] = a_night(house, lights=1)
    place = unit.placements.get().place
    unit.placements.update(ends_at=NOON + hours(5))
    other = make_unit(house, "FS-X", source="short-arc")
    place_unit(actor=ACTOR, unit=other, place=place, starts_at=NOON + hours(5))
    assert [row.unit for row in night(show).units] == [other]


def test_what_failed_opens_the_fault_that_the_arrival_check_would_and_only_once() -> None:
    show, [unit, _other] = a_night(a_booked_house())
    failed = Told(unit, failed="douser", note="sticks half way")
    [fault] = enter(show, failed).faults
    assert (fault.means, fault.limit_kind, fault.part, fault.limit) == (
        "limited", "blackout", "douser", "sticks half way",
    )  # fmt: skip
    assert enter(show, failed).faults == ()
    assert Fault.objects.count() == 1


# -- the page --------------------------------------------------------------------------------------


@pytest.fixture
def cast() -> Cast:
    cast = the_cast()
    House.objects.filter(pk=cast.house.pk).update(time_zone="UTC", burn_before_min=0)
    cast.house.refresh_from_db()
    return cast


@pytest.fixture
def units(cast: Cast) -> list[Unit]:
    there = [a_light(cast.house, str(n), 100 * n) for n in (1, 2)]
    evenings(cast.engagement, 1)
    numbered(cast.engagement, [place for _unit, place, _lamp in there])
    return [unit for unit, _place, _lamp in there]


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


def page_of(cast: Cast) -> str:
    return f"/shows/{cast.engagement.ref}/after/"


def filled(page: HttpResponse, **changes: Any) -> dict[str, Any]:
    """What a browser would send; changes by the unit's tag: `FS_1_hours=…`."""
    form = page.context["form"]  # type: ignore[attr-defined]
    fields = [*form, *(field for part in form.parts for field in part)]
    values = {field.html_name: field.value() for field in fields if field.value() is not None}
    values["at"] = "2026-03-02T22:00"
    for part in form.parts:
        tag = part.row.unit.tag.replace("-", "_")
        own = {name: value for name, value in changes.items() if name.startswith(f"{tag}_")}
        values |= {f"{part.prefix}-{name.removeprefix(f'{tag}_')}": value for name, value in own.items()}
    return values


def test_what_is_booked_is_filled_in_and_stored_by_one_tap_with_who_and_when(
    cast: Cast, units: list[Unit], head: Client
) -> None:
    page = head.get(page_of(cast))
    assert "Booked 3.0 h, lit once. Not in the book yet." in words(page)
    stored = head.post(page_of(cast), filled(page), follow=True)
    said = words(stored)
    assert "Hours of 2 units are in the book." in said
    assert "3.0 h burned until Mar 2, 2026, 10:00 PM, entered by Head on Mar 2, 2026, 10:30 PM. Strike out" in said
    assert [tally.hours for tally in LampTally.objects.order_by("lamp__serial")] == [103, 203]
    again = head.post(page_of(cast), filled(page))
    assert "Entered already: 3.0 h burned until" in words(again)
    assert HoursAdded.objects.count() == 2


def test_one_refused_unit_is_named_with_its_field_nothing_is_stored_and_nothing_typed_is_lost(
    cast: Cast, units: list[Unit], head: Client
) -> None:
    put_meter(actor=ACTOR, unit=units[1], at=BEGIN, starts_h=Decimal(500))
    sent = filled(head.get(page_of(cast)), FS_1_hours="2.9", FS_2_meter="400", FS_2_failed="iris", FS_2_note="jams")
    refused = head.post(page_of(cast), sent)
    said = words(refused)
    assert "FS-2 , Meter, hours: The meter showed 500.0 h" in said
    assert "Nothing was stored yet, of no unit." in said
    assert not (HoursAdded.objects.exists() or Reading.objects.exists() or Fault.objects.exists())
    assert all(f'value="{value}"' in refused.content.decode() for value in ("2.9", "400", "jams"))


def test_odd_hours_are_asked_about_and_stored_once_somebody_says_that_they_are_right(
    cast: Cast, units: list[Unit], head: Client
) -> None:
    put_meter(actor=ACTOR, unit=units[0], at=NIGHT - timedelta(days=2), starts_h=Decimal(500))
    sent = filled(head.get(page_of(cast)), FS_1_meter="545")
    asked = head.post(page_of(cast), sent)
    assert "more than 14 h in a day: right?" in words(asked)
    sent[f"{units[0].ref}-confirmed"] = "on"
    assert head.post(page_of(cast), sent).status_code == 302
    assert Reading.objects.get().hours == 545


def test_hours_that_are_none_are_refused_at_their_field(cast: Cast, units: list[Unit], head: Client) -> None:
    sent = filled(head.get(page_of(cast)))
    for value in ("-1", "NaN", "1e400", "9" * 40, "12\x00", "three"):
        response = head.post(page_of(cast), {**sent, f"{units[0].ref}-hours": value})
        assert "FS-1 , Hours burned:" in words(response), value
    assert not HoursAdded.objects.exists()


def test_a_day_or_a_time_that_is_not_the_shows_is_refused(cast: Cast, units: list[Unit], head: Client) -> None:
    sent = filled(head.get(page_of(cast)))
    for changed, said in (
        ({"day": "2026-03-99"}, "changed since you saw this"),
        ({"at": "2026-03-02T18:59"}, "Write a time after the start of the day's last event"),
        ({"at": "2026-03-03T04:00"}, "lies ahead"),
        ({"at": "soon"}, "Enter a valid date/time."),
    ):
        assert said in words(head.post(page_of(cast), sent | changed))
    assert head.get(page_of(cast), {"day": "‮2026", "page": "-7"}).status_code == 200
    assert not HoursAdded.objects.exists()


def test_the_road_crew_enters_hours_and_readers_and_strangers_do_not(cast: Cast, units: list[Unit]) -> None:
    road = as_user(cast.road)
    stored = road.post(page_of(cast), filled(road.get(page_of(cast))), follow=True)
    assert "entered by Road" in words(stored) and "Strike out" not in words(stored)
    assert as_user(cast.reader).get(page_of(cast)).status_code == 403
    assert as_user(cast.stranger).get(page_of(cast)).status_code == 404


def test_before_anything_has_begun_the_page_says_so(cast: Cast, head: Client) -> None:
    assert "has begun yet" in words(head.get(page_of(cast)))


def test_twenty_units_take_as_many_queries_as_two(head: Client, cast: Cast) -> None:
    counts = []
    for lights in (2, 20):
        show, units = a_night(a_booked_house(), lights=lights, nights=3)
        put_meter(actor=ACTOR, unit=units[0], at=BEGIN, starts_h=Decimal(500))
        add_hours(actor=ACTOR, unit=units[1], at=NIGHT, hours=Decimal(3))
        show = fresh(show)
        with CaptureQueriesContext(connection) as queries:
            nights_of(show, NIGHT + timedelta(days=2))
        counts.append(len(queries))
    assert counts[0] == counts[1] <= 11
