"""Units go to the shop, to the store, to another house, and come back; where each was on any date."""

from datetime import date, timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_position, make_unit, the_cast
from tests.venue.pages import as_user, errors_of, fill, furnished, send, words
from venue.actions import bring_back, end_placement, end_unit, move_unit, place_unit, send_away
from venue.book import book_of
from venue.errors import AlreadyEnded, InUse, Invalid, MovedMeanwhile, Overlap, WrongHouse
from venue.models import Event, Place, Placement, Unit
from venue.models.units import Elsewhere
from venue.stays import house_day_span, stays_mark, stays_of, whereabouts
from venue.wording import event_sentence

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def cast() -> Cast:
    return the_cast()


def a_unit_at_a_place() -> tuple[Unit, Place]:
    place = make_place(make_position(name="Rear booth"))
    unit = make_unit(place.position.house, tag="FS-01")
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    return unit, place


def spans(unit: Unit) -> list[tuple[str, float, float | None]]:
    """Where, from and until how many days from noon."""
    return [
        (stay.where, (stay.starts_at - NOON) / DAY, stay.ends_at and (stay.ends_at - NOON) / DAY)
        for stay in unit.placements.real().order_by("starts_at")
    ]


def send_off(unit: Unit, to: str = "shop", day: float = 1, until: float | None = None, **facts: Any) -> Placement:
    ends = None if until is None else NOON + until * DAY
    return send_away(actor=ACTOR, unit=unit, to=Elsewhere(to), at=NOON + day * DAY, until=ends, **facts)


def test_a_unit_that_goes_to_the_shop_leaves_its_place() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, words="new iris")
    assert spans(unit) == [("Rear booth, place 1", 0, 1), ("in the shop: new iris", 1, None)]
    other = make_unit(unit.house)
    place_unit(actor=ACTOR, unit=other, place=place, starts_at=NOON + DAY)


def test_a_lent_unit_comes_back_to_its_place_on_the_day_that_was_said() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, "lent", 1, until=3, words="Marlow Hall", back_to=place)
    assert spans(unit)[1:] == [("lent out: Marlow Hall", 1, 3), ("Rear booth, place 1", 3, None)]


def test_a_stay_that_was_to_end_ends_then_also_after_a_visit_to_the_shop() -> None:
    unit, place = a_unit_at_a_place()
    end_placement(actor=ACTOR, placement=unit.placements.get(), at=NOON + 9 * DAY)
    send_off(unit, until=2, back_to=place)
    assert spans(unit)[-1] == ("Rear booth, place 1", 2, 9)


def test_a_lent_unit_can_not_be_put_on_a_place_meanwhile() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, "lent", 1, until=3, words="Marlow Hall")
    with pytest.raises(Overlap) as refusal:
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON + 2 * DAY)
    assert "FS-01 lent out: Marlow Hall, 2026-03-03 07:00 to 2026-03-05 07:00, is in the way." in str(refusal.value)


def test_a_unit_brought_back_early_stands_there_until_its_next_stay() -> None:
    unit, place = a_unit_at_a_place()
    rail = make_place(make_position(unit.house, name="Rail"), "R1")
    send_off(unit, "lent", 1, until=5, words="Marlow Hall", back_to=place)
    bring_back(actor=ACTOR, unit=unit, to=rail, at=NOON + 2 * DAY)
    assert spans(unit)[1:] == [
        ("lent out: Marlow Hall", 1, 2), ("Rail, place R1", 2, 5), ("Rear booth, place 1", 5, None)
    ]  # fmt: skip


def test_a_move_from_elsewhere_to_a_place_is_for_good() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, until=5)
    move_unit(actor=ACTOR, unit=unit, to=place, at=NOON + 2 * DAY)
    assert spans(unit)[1:] == [("in the shop", 1, 2), ("Rear booth, place 1", 2, None)]


def test_a_unit_that_stood_nowhere_may_be_sent_away_and_brought() -> None:
    place = make_place(make_position(name="Rear booth"))
    unit = make_unit(place.position.house)
    send_off(unit, "store", 0)
    bring_back(actor=ACTOR, unit=unit, to=place, at=NOON + DAY)
    assert spans(unit) == [("in the store", 0, 1), ("Rear booth, place 1", 1, None)]


def test_a_move_that_can_not_be_is_refused_and_nothing_is_stored() -> None:
    unit, place = a_unit_at_a_place()
    other_house = make_place(make_position())
    for facts, field in (
        ({"to": "lent"}, "elsewhere_words"),
        ({"until": 1}, "ends_at"),
        ({"back_to": place}, "ends_at"),
    ):
        with pytest.raises(Invalid) as refusal:
            send_off(unit, **facts)  # type: ignore[arg-type]
        assert list(refusal.value.problems) == [field]
    with pytest.raises(WrongHouse):
        send_off(unit, until=2, back_to=other_house)
    with pytest.raises(MovedMeanwhile):
        send_off(unit, seen="0-0")
    assert spans(unit) == [("Rear booth, place 1", 0, None)]


def test_the_way_back_to_a_place_that_is_taken_then_is_refused_as_a_whole() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit)
    place_unit(actor=ACTOR, unit=make_unit(unit.house), place=place, starts_at=NOON + 2 * DAY)
    with pytest.raises(Overlap):
        bring_back(actor=ACTOR, unit=unit, to=place, at=NOON + 3 * DAY)
    assert spans(unit)[1:] == [("in the shop", 1, None)]


def test_the_mark_of_the_stays_changes_with_each_move() -> None:
    unit, place = a_unit_at_a_place()
    marks = [stays_mark(unit)]
    send_off(unit, until=5, back_to=place)
    marks.append(stays_mark(unit))
    bring_back(actor=ACTOR, unit=unit, to=place, at=NOON + 2 * DAY)
    marks.append(stays_mark(unit))
    assert len(set(marks)) == 3


def test_the_history_says_where_a_unit_went_and_came_from() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, "lent", words="Marlow Hall")
    bring_back(actor=ACTOR, unit=unit, to=place, at=NOON + 2 * DAY)
    said = [event_sentence(event) for event in Event.objects.about("unit", unit.ref)]
    assert said[-2:] == ["sent FS-01 away: lent out: Marlow Hall", "brought FS-01 to Rear booth, place 1"]


def test_a_unit_leaves_the_books_together_with_its_place_if_that_is_said() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, until=5, back_to=place)
    with pytest.raises(InUse):
        end_unit(actor=ACTOR, unit=unit, at=NOON + 2 * DAY, reason="sold")
    end_unit(actor=ACTOR, unit=unit, at=NOON + 2 * DAY, reason="sold", leaves=True)
    assert spans(unit) == [("Rear booth, place 1", 0, 1), ("in the shop", 1, 2)]
    assert unit.has_ended
    with pytest.raises(AlreadyEnded):
        send_off(unit)


def test_the_book_and_the_place_do_not_see_stays_elsewhere() -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit)
    setup = unit.house.setups.get()
    (entry,) = book_of(setup, NOON + 2 * DAY)
    assert entry.stands == [(place, None)]


@pytest.mark.parametrize(
    ("day", "here", "before", "after"),
    [
        (date(2026, 3, 1), [], None, "Rear booth, place 1"),
        (date(2026, 3, 2), ["Rear booth, place 1"], None, "in the shop"),
        (date(2026, 3, 3), ["Rear booth, place 1", "in the shop"], None, "Rear booth, place 1"),
        (date(2026, 3, 4), ["in the shop"], "Rear booth, place 1", "Rear booth, place 1"),
        (date(2026, 3, 5), ["in the shop", "Rear booth, place 1"], "Rear booth, place 1", None),
        (date(2026, 3, 6), ["Rear booth, place 1"], "in the shop", None),
    ],
)
def test_where_a_unit_was_on_a_house_day(day: date, here: list[str], before: str | None, after: str | None) -> None:
    unit, place = a_unit_at_a_place()
    send_off(unit, until=3, back_to=place)
    (found,) = whereabouts([unit], *house_day_span(unit.house, day))
    assert [stay.where for stay in found.stays] == here
    assert (found.before and found.before.where, found.after and found.after.where) == (before, after)


def test_a_move_before_the_day_turns_belongs_to_the_day_before() -> None:
    unit, _place = a_unit_at_a_place()
    one_in_the_morning = NOON + hours(18)  # 1 AM on March 3 by the clocks of the house
    send_away(actor=ACTOR, unit=unit, to=Elsewhere.SHOP, at=one_in_the_morning)
    (second,) = whereabouts([unit], *house_day_span(unit.house, date(2026, 3, 2)))
    (third,) = whereabouts([unit], *house_day_span(unit.house, date(2026, 3, 3)))
    assert [len(second.stays), len(third.stays)] == [2, 1]


def test_a_long_past_is_told_in_part() -> None:
    unit, place = a_unit_at_a_place()
    for day in range(1, 6):
        send_off(unit, day=day, until=day + 0.5, back_to=place)
    found = stays_of(unit, NOON + 9 * DAY, most=3)
    assert (len(found.past), found.are_more, found.now and found.now.place) == (3, True, place)


def address(unit: Unit, page: str) -> str:
    return f"/houses/{unit.house.slug}/units/{unit.ref}/{page}/"


@time_machine.travel(NOON + DAY, tick=False)
def test_a_head_lends_a_unit_and_the_list_says_to_whom_until_when(cast: Cast) -> None:
    house, client = furnished(cast), as_user(cast.head)
    unit = house.units.get(tag="FS-01")
    answer = send(
        client, address(unit, "away"), to="lent", words="Marlow Hall", at="2026-03-03T08:00", until="2026-03-09T17:00"
    )
    assert answer["Location"] == address(unit, "stays")
    with time_machine.travel(NOON + 2 * DAY, tick=False):
        page = words(client.get(f"/houses/{house.slug}/units/"))
        assert "Lent to Marlow Hall since Mar 3, 2026, 8:00 AM, until Mar 9, 2026, 5:00 PM." in page
        assert "Bring FS-01 back" in page
    with time_machine.travel(NOON + 20 * DAY, tick=False):
        page = words(client.get(f"/houses/{house.slug}/units/"))
        assert "It was lent to Marlow Hall until Mar 9, 2026, 5:00 PM. Is it back? Say where it stands." in page


@time_machine.travel(NOON + DAY, tick=False)
@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"to": ""}, "to"),
        ({"to": "moon"}, "to"),
        ({"to": "lent"}, "words"),
        ({"until": "2026-03-01T08:00"}, "until"),
        ({"at": "tomorrow"}, "at"),
        ({"at": "2026-03-01T08:00", "until": ""}, "__all__"),
        ({"at": "2026-03-08T02:30"}, "at"),
        ({"words": "x" * 121}, "words"),
    ],
)
def test_a_bad_move_is_refused_at_its_field_and_kept(cast: Cast, changes: dict[str, str], field: str) -> None:
    unit = furnished(cast).units.get(tag="FS-01")
    values = {"to": "shop", "words": "new iris", "at": "2026-03-03T08:00", **changes}
    if changes.get("to") == "lent":
        values["words"] = ""
    answer = send(as_user(cast.head), address(unit, "away"), **values)
    assert list(errors_of(answer)) == [field]
    assert answer.context["form"]["at"].value() == values["at"]  # type: ignore[attr-defined]
    assert unit.placements.count() == 1


@time_machine.travel(NOON + DAY, tick=False)
def test_who_sends_a_unit_that_was_moved_meanwhile_is_told_and_may_send_again(cast: Cast) -> None:
    unit, client = furnished(cast).units.get(tag="FS-01"), as_user(cast.head)
    form = client.get(address(unit, "away")).context["form"]
    send_away(actor=ACTOR, unit=unit, to=Elsewhere.STORE, at=NOON + hours(1))
    values = {"to": "shop", "at": "2026-03-03T08:00", "seen": form["seen"].value()}
    answer = client.post(address(unit, "away"), values)
    assert "Somebody else moved FS-01 meanwhile." in words(answer)
    assert "In the store since Mar 2, 2026, 8:00 AM." in words(answer)
    again = {**values, "seen": answer.context["form"]["seen"].value()}
    assert client.post(address(unit, "away"), again).status_code == 302
    assert unit.placements.real().still_open().get().where == "in the shop"


@time_machine.travel(NOON + DAY, tick=False)
def test_a_unit_is_brought_back_to_where_it_was_unless_another_place_is_chosen(cast: Cast) -> None:
    house, client = furnished(cast), as_user(cast.head)
    unit = house.units.get(tag="FS-01")
    send_away(actor=ACTOR, unit=unit, to=Elsewhere.SHOP, at=NOON + hours(2))
    assert send(client, address(unit, "back"), at="2026-03-03T06:00").status_code == 302
    assert spans(unit)[-1][0] == "Rear booth, place 1"


@time_machine.travel(NOON + DAY, tick=False)
def test_a_unit_is_taken_off_the_books_where_it_stands_only_if_it_leaves_there(cast: Cast) -> None:
    unit, client = furnished(cast).units.get(tag="FS-01"), as_user(cast.head)
    page = words(client.get(address(unit, "end")))
    assert "It leaves there too: at Rear booth, place 1" in page
    refused = send(client, address(unit, "end"), reason="sold")
    assert "FS-01 at Rear booth, place 1: end or move that first." in words(refused)
    assert send(client, address(unit, "end"), reason="sold", leaves="on").status_code == 302
    assert Unit.objects.get(pk=unit.pk).has_ended


def test_a_hired_unit_says_from_whom_and_asks_on_the_day_it_goes_back(cast: Cast) -> None:
    house, client = furnished(cast), as_user(cast.head)
    unit = house.units.get(tag="FS-01")
    refused = send(client, address(unit, "edit"), back_on="2026-03-20")
    assert list(errors_of(refused)) == ["hired_from"]
    assert send(client, address(unit, "edit"), hired_from="Brightwick Hire", back_on="2026-03-20").status_code == 302
    with time_machine.travel(NOON, tick=False):
        assert "Hired from Brightwick Hire; goes back on Mar 20, 2026." in words(
            client.get(f"/houses/{house.slug}/units/")
        )
    with time_machine.travel(NOON + 18 * DAY, tick=False):
        assert "to go back on Mar 20, 2026: is it on its way?" in words(client.get(f"/houses/{house.slug}/units/"))
        assert client.get(address(unit, "end")).context["form"]["reason"].value() == "went back to Brightwick Hire"


@time_machine.travel(NOON + 9 * DAY, tick=False)
def test_a_reader_sees_where_every_unit_was_on_any_date(cast: Cast) -> None:
    house, client = furnished(cast), as_user(cast.reader)
    unit = house.units.get(tag="FS-01")
    send_off(unit, words="new iris", until=3)
    page = words(client.get(f"/houses/{house.slug}/where/?on=2026-03-04"))
    assert "Wednesday, March 4, 2026" in page
    assert "In the shop (new iris), since Mar 3, 2026, 7:00 AM." in page
    assert "Before: at Rear booth, place 1, until Mar 3, 2026, 7:00 AM." in page
    assert "Nothing on file for this day." in words(client.get(f"/houses/{house.slug}/where/?on=2020-01-01"))
    wrong = client.get(f"/houses/{house.slug}/where/?on=yesterday")
    assert "Write a date, such as 2026-03-02." in words(wrong)
    for day in ("9999-12-31", "0001-01-01"):
        assert client.get(f"/houses/{house.slug}/where/?on={day}").status_code == 200


@time_machine.travel(NOON + 9 * DAY, tick=False)
def test_one_units_page_tells_where_it_is_will_be_and_was(cast: Cast) -> None:
    house = furnished(cast)
    unit = house.units.get(tag="FS-01")
    place = unit.placements.get().place
    send_off(unit, day=1, until=2, back_to=place)
    send_off(unit, day=20, words="new iris")
    page = words(as_user(cast.reader).get(address(unit, "stays")))
    now = page.index("At Rear booth, place 1 since Mar 4")
    assert now < page.index("Planned in the shop (new iris) from Mar 22") < page.index("In the shop from Mar 3")


@time_machine.travel(NOON + DAY, tick=False)
def test_the_headings_of_a_move_word_a_stay_elsewhere(cast: Cast) -> None:
    unit, client = furnished(cast).units.get(tag="FS-01"), as_user(cast.head)
    stay = send_off(unit, "lent", words="Marlow Hall")
    top = f"/houses/{unit.house.slug}/placements/{stay.ref}"
    assert "Move FS-01, which is lent to Marlow Hall" in words(client.get(f"{top}/move/"))
    assert "FS-01 is not lent to Marlow Hall any more" in words(client.get(f"{top}/end/"))


@pytest.mark.parametrize("page", ["units/", "where/?on=2026-03-04"])
def test_the_lists_ask_the_database_as_often_for_two_units_as_for_sixty(cast: Cast, page: str) -> None:
    house, client = furnished(cast, places=2), as_user(cast.head)
    send_off(house.units.get(tag="FS-01"), until=2)
    few = queries_of(client, f"/houses/{house.slug}/{page}")
    fill(house.positions.get(), range(3, 61))
    for unit in house.units.filter(tag__gt="FS-30"):
        send_off(unit, until=2)
    assert few == queries_of(client, f"/houses/{house.slug}/{page}") < 12


def queries_of(client: Any, address: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)
