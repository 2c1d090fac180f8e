"""The head's first page: what stands against the lights today, the most urgent first, with one step to take."""

from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, Cast, hours, make_unit, the_cast
from tests.venue.fitted import fitted_lamp
from tests.venue.pages import as_user, fill, furnished, words
from venue.actions import (
    add_care_plan,
    close_fault,
    decide_past_stop,
    end_unit,
    report_fault,
    send_away,
)
from venue.models import Fault, House, Unit
from venue.models.units import Elsewhere
from venue.today import MOST, HouseToday

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)
LATER = NOON + hours(3)


@pytest.fixture
def cast() -> Cast:
    with time_machine.travel(NOON - 9 * DAY, tick=False):  # no news today
        cast = the_cast()
        furnished(cast)
    return cast


def unit(cast: Cast, tag: str) -> Unit:
    return cast.house.units.get(tag=tag)


def fault(of: Unit, means: str = "out", **facts: str) -> Fault:
    usual = {"part": "douser", "limit_kind": "blackout"} if means == "limited" else {"part": "ballast", "limit": "dead"}
    return report_fault(actor=ACTOR, unit=of, means=means, at=NOON, **{**usual, **facts})


def page(client: Client, at: Any = LATER) -> HttpResponse:
    with time_machine.travel(at, tick=False):
        answer = client.get("/houses/quillmark-hall/today/")
    assert answer.status_code == 200
    return answer


def said(cast: Cast, who: str = "head", at: Any = LATER) -> str:
    return words(page(as_user(getattr(cast, who)), at))


def parts(answer: HttpResponse) -> dict[str, list[tuple[str, str]]]:
    """Each part of the page with its lines."""
    found = answer.context["sections"]  # type: ignore[attr-defined]
    return {section.code: [(line.name, line.words) for line in section.lines] for section in found}


def step(answer: HttpResponse) -> tuple[str, str]:
    shown = answer.context["step"]  # type: ignore[attr-defined]
    return shown.url, shown.label


def test_a_house_in_order_says_that_nothing_stands_against_its_lights(cast: Cast) -> None:
    answer = page(as_user(cast.head))
    assert "Nothing stands against the lights today." in words(answer)
    assert "Nothing was written down since yesterday." in words(answer)
    assert step(answer) == ("/houses/quillmark-hall/units/", "See the units")


def test_a_unit_that_is_out_comes_first_with_why_and_the_step_to_it(cast: Cast) -> None:
    fault(unit(cast, "FS-01"), "limited")
    fault(unit(cast, "FS-03"))
    answer = page(as_user(cast.head))
    assert list(parts(answer)) == ["out", "limited"]
    assert parts(answer)["out"] == [("FS-03", "Ballast: dead")]
    assert parts(answer)["limited"] == [("FS-01", "No full blackout")]
    assert "1 unit is out of service; 1 unit is limited." in words(answer)
    address = f"/houses/quillmark-hall/units/{unit(cast, 'FS-03').ref}/"
    assert step(answer) == (address, "See FS-03, which is out")


def test_a_unit_both_out_and_limited_stands_once_as_out(cast: Cast) -> None:
    fault(unit(cast, "FS-01"), "limited")
    fault(unit(cast, "FS-01"))
    assert list(parts(page(as_user(cast.head)))) == ["out"]


def test_a_closed_fault_and_a_unit_off_the_books_are_no_news(cast: Cast) -> None:
    closed = fault(unit(cast, "FS-01"))
    close_fault(actor=ACTOR, fault=closed, seen=closed.version, at=NOON + hours(1), done="new ballast", by="Tove")
    fault(unit(cast, "FS-02"))
    end_unit(actor=ACTOR, unit=unit(cast, "FS-02"), at=NOON + hours(1), reason="sold", leaves=True)
    assert parts(page(as_user(cast.head))) == {}


def test_a_lamp_past_its_stop_puts_its_unit_out_until_a_named_person_decides(cast: Cast) -> None:
    lamp = fitted_lamp(unit(cast, "FS-02"), 1003, "L-0117")
    cast.house.log.update(is_open=False)
    ((name, why),) = parts(page(as_user(cast.head)))["out"]
    assert (name, why.startswith("Lamp L-0117 is past its stop")) == ("FS-02", True)
    decide_past_stop(
        actor=ACTOR, lamp=lamp, at=NOON + hours(1), by="Inga Sørlund", makers_source="maker's manual, 4.2",
        reason="one more show", until_h=lamp.came_with_h + 20,
    )  # fmt: skip
    assert "out" not in parts(page(as_user(cast.head)))


def test_care_that_is_due_and_relamps_to_finish_are_told(cast: Cast) -> None:
    facts = {"covers": "unit", "unit": unit(cast, "FS-01"), "every_days": 7}
    add_care_plan(actor=ACTOR, house=cast.house, what="Clean front lens", at=NOON - 30 * DAY, **facts)
    fitted_lamp(unit(cast, "FS-02"), 0)
    answer = page(as_user(cast.head))
    assert [name for name, _words in parts(answer)["due"]] == ["Clean front lens, FS-01"]
    assert [name for name, _words in parts(answer)["relamps"]] == ["FS-02"]
    entry = cast.house.log.get(is_open=True)
    assert step(answer) == (f"/houses/quillmark-hall/log/{entry.ref}/answer/", "Finish the relamp of FS-02")


def test_a_kind_of_lamp_of_which_too_few_are_on_the_shelf_is_told(cast: Cast) -> None:
    fitted_lamp(unit(cast, "FS-01"), 0)
    cast.house.lamp_kinds.update(spares=0)
    assert [name for name, _words in parts(page(as_user(cast.head)))["short"]] == ["2 kW short-arc"]


def test_units_elsewhere_are_told_and_those_not_back_in_time_are_asked_about(cast: Cast) -> None:
    send_away(
        actor=ACTOR, unit=unit(cast, "FS-01"), to=Elsewhere.LENT, words="Marlow Hall", at=NOON, until=NOON + 2 * DAY
    )
    assert [name for name, _words in parts(page(as_user(cast.head)))["away"]] == ["FS-01"]
    answer = page(as_user(cast.head), NOON + 3 * DAY)
    ((name, why),) = parts(answer)["late"]
    assert (name, "Is it back?" in why) == ("FS-01", True)
    assert step(answer)[1] == "Say where FS-01 stands"


def test_a_hired_unit_is_told_in_the_week_in_which_it_goes_back(cast: Cast) -> None:
    make_unit(cast.house, tag="H-1", hired_from="Brightwick Hire", back_on=(NOON + 9 * DAY).date())
    assert "hired" not in parts(page(as_user(cast.head), NOON + 1 * DAY))
    assert [name for name, _words in parts(page(as_user(cast.head), NOON + 2 * DAY))["hired"]] == ["H-1"]


def test_what_changed_since_yesterdays_house_day_began_is_told_the_latest_first(cast: Cast) -> None:
    for hour, tag in ((-27, "X-1"), (-26, "X-2"), (1, "X-3")):  # the day began at -26 hours, 5 AM
        with time_machine.travel(NOON + hours(hour), tick=False):
            make_unit(cast.house, tag=tag)
    changed = page(as_user(cast.reader)).context["changed"]  # type: ignore[attr-defined]
    assert [line.name for line in changed.lines] == ["Mon 8:00 AM", "Sun 5:00 AM"]
    assert "X-3" in changed.lines[0].words and "X-2" in changed.lines[1].words


def test_each_part_is_cut_and_says_that_there_are_more(cast: Cast) -> None:
    fill(cast.house.positions.get(), range(4, 14))
    for each in cast.house.units.all():
        fault(each)
    answer = page(as_user(cast.head))
    assert len(parts(answer)["out"]) == MOST
    assert "More than 8 units are out of service." in words(answer)
    assert "There are more. See all" in words(answer)


def test_a_reader_sees_the_same_but_is_not_told_to_do_it(cast: Cast) -> None:
    fault(unit(cast, "FS-03"))
    answer = page(as_user(cast.reader))
    assert parts(answer)["out"] == [("FS-03", "Ballast: dead")]
    assert step(answer) == ("/houses/quillmark-hall/units/", "See the units")


def test_every_line_leads_to_a_page_that_is_there(cast: Cast) -> None:
    burden(cast.house)
    client = as_user(cast.head)
    answer = page(client)
    lines = [line for section in answer.context["sections"] for line in section.lines]  # type: ignore[attr-defined]
    with time_machine.travel(LATER, tick=False):
        assert {client.get(line.url).status_code for line in lines} == {200}


def test_the_page_asks_the_database_no_more_often_for_forty_units_than_for_three(cast: Cast) -> None:
    client = as_user(cast.head)
    burden(cast.house)
    few = asked(client)
    fill(cast.house.positions.get(), range(4, 41))
    burden(cast.house)
    assert asked(client) <= few < 30


def burden(house: House) -> None:
    """Something of everything, on every unit that has nothing yet."""
    if not house.care_plans.exists():
        facts = {"covers": "all", "every_days": 7}
        add_care_plan(actor=ACTOR, house=house, what="Clean front lens", at=NOON - 30 * DAY, **facts)
    for index, each in enumerate(house.units.filter(fittings__isnull=True)):
        fitted_lamp(each, 1005 if index % 3 == 0 else 10)
        fault(each, "limited" if index % 3 == 1 else "usable")
        if index % 3 == 2:
            send_away(actor=ACTOR, unit=each, to=Elsewhere.STORE, at=NOON + hours(1))


def asked(client: Client) -> int:
    with CaptureQueriesContext(connection) as queries:
        page(client)
    return len(queries)


def test_the_parts_are_read_for_one_house_only(cast: Cast) -> None:
    with time_machine.travel(NOON, tick=False):
        first = make_unit(tag="X-1")
        for each in (first, make_unit(first.house, tag="X-2")):
            fault(each)
    found = HouseToday(cast.house, LATER)
    assert not (found.out or found.limited or found.due or found.away or found.changed)
