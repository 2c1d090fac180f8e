"""The technical sheet of a house on the page, on paper and by its public link: all of the house, nobody of it."""

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any
from uuid import uuid4

import pytest
import time_machine
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext

from crew.actions.tech_links import LASTS, end_tech_link, renew_tech_link
from crew.errors import NoTechLink
from crew.tech_sheet_content import tech_content
from tests.crew.test_call_sheet_pdf import pages, text
from tests.factories import ACTOR, NOON, Cast, hours, make_place, make_position, make_unit, the_cast
from tests.venue.cared import a_fault
from tests.venue.pages import as_user, words
from venue.actions import confirm_walk, place_unit
from venue.models import Blockage, Circuit, Event, House, Link, Place, Unit
from venue.views.asking import ASKED_A_MINUTE

pytestmark = pytest.mark.django_db

PEOPLE = ("Hollis Varga", "Tove Brandauer", "Ike Thornapple", "Remy Tallis", "Farid Osei-Wynn", "Lendwick Rentals")
"""Each stands somewhere in the house's book; none may stand on the sheet."""


@pytest.fixture(autouse=True)
def a_fresh_minute() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON + hours(1), tick=False):
        yield


@pytest.fixture
def cast() -> Cast:
    cast = the_cast()
    stocked(cast.house)
    return cast


def stocked(house: House, places: int = 3) -> House:
    """A booth with somebody's name wherever the book has room for one, and a bare rail."""
    House.objects.filter(pk=house.pk).update(tech_note="Bring soft shoes.")
    house.refresh_from_db()
    booth = make_position(
        house, "Rear booth", kind="booth", rescue_plan="Ike Thornapple lowers the kit", checked_by="Tove Brandauer",
        checked_on=date(2026, 1, 5), glass="fixed", access="ladder", power="208 V", seats_lost=2,
    )  # fmt: skip
    circuit = Circuit.objects.create(house=house, name="LP-3/12", volts=208, rating_a=30)
    first = make_place(booth, "0", throw_m=40.0, throw_text="131' 3\"", throw_end="plaster", throw_end_y_m=0.0, **at(0))
    for number in range(1, places + 1):
        place = make_place(booth, f"{number}", circuit=circuit, operated_from=first, **at(number))
        a_unit_at(place, tag=f"FS-{number:02}", hired_from="Lendwick Rentals", narrow_deg=0.9, angle_percent=10)
    walked = {"left_end": first, "walked_by": "Hollis Varga", "walked_at": NOON}
    confirm_walk(actor=ACTOR, setup=house.setups.get(), position=booth, **walked)
    Blockage.objects.create(position=booth, name="speaker cluster", pan_from_deg=-20, pan_to_deg=-10)
    make_place(make_position(house, "Balcony rail"), "R1")
    return house


def at(number: int) -> dict[str, Any]:
    return {"x_m": 3.0 * number, "y_m": -38.0, "z_m": 14.0}


def a_unit_at(place: Place, **facts: Any) -> Unit:
    unit = make_unit(place.position.house, **facts)
    place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON)
    a_fault(unit, at=NOON, limit_kind="blackout", seen_by="Remy Tallis")
    return unit


def sheet_of(house: House, tail: str = "") -> str:
    return f"/houses/{house.slug}/tech-sheet/{tail}"


def made(cast: Cast) -> str:
    """The path of a new public link, as its head is shown it."""
    answer = as_user(cast.head).post(sheet_of(cast.house, "link/"), follow=True)
    return new_address(answer).removeprefix("http://testserver")


def new_address(answer: HttpResponse) -> str:
    (address,) = re.findall(r'readonly value="([^"]+)"', answer.content.decode())
    return str(address)


def test_i_publish_a_read_only_position_sheet_with_date_and_it_shows_date_all_positions_no_names_of_people(
    cast: Cast,
) -> None:
    address = made(cast)
    page, paper = Client().get(address), Client().get(f"{address}pdf/")
    for said in (words(page), text(paper.content)):
        assert "Mar 2, 2026, 8:00 AM" in said
        for wanted in ("Quillmark Hall", "Rear booth", "Balcony rail", "131' 3\" to the plaster line", "FS-03"):
            assert wanted in said, wanted
        for name in (*PEOPLE, cast.head.name_on_paper, "Rescue plan on file Ike"):
            assert name not in said, name
    assert not any(name in page.content.decode() for name in PEOPLE)
    assert Client().post(address).status_code == 405


def test_the_sheet_says_what_is_recorded_what_is_not_and_what_is_computed(cast: Cast) -> None:
    said = words(as_user(cast.reader).get(sheet_of(cast.house)))
    for wanted in (
        "Labels run from house left · stage right to house right · stage left: 0, 1, 2, 3.",
        "Walked and confirmed on Mar 2, 2026.",
        "empty: takes a hired unit",
        "FS-01, run from Rear booth, place 0",
        "0.9° at 10 % of the peak; candela not recorded",
        "LIMIT: No full blackout",
        "LP-3/12: 208 V, 30 A",
        "fixed glass; loss not measured, usually 12 to 15 %",
        "speaker cluster, blocks pans from 20° toward house left clockwise to 10° toward house left",
        "yes; ask the house for it",
        "Jan 5, 2026",
        "Bring soft shoes.",
        "not recorded",
        "132' 10\"*",
    ):
        assert wanted in said, wanted


def test_a_unit_out_of_service_tells_no_serial_and_no_reason(cast: Cast) -> None:
    a_fault(Unit.objects.get(tag="FS-02"), "out", at=NOON, part="lamp L-0117 of Farid Osei-Wynn")
    said = words(as_user(cast.reader).get(sheet_of(cast.house)))
    assert said.count("OUT OF SERVICE") == 1
    assert "L-0117" not in said


def test_what_a_tour_brought_is_no_part_of_the_house(cast: Cast) -> None:
    booth = cast.house.positions.get(name="Rear booth")
    tour = cast.engagement.ref
    make_place(booth, "T9", only_for=tour)
    make_position(cast.house, "Tour truss", only_for=tour)
    Blockage.objects.create(position=booth, name="tour's banner", only_for=tour)
    said = words(as_user(cast.reader).get(sheet_of(cast.house)))
    for name in ("T9", "Tour truss", "tour's banner"):
        assert name not in said


def test_the_queries_do_not_grow_with_places_and_positions(cast: Cast) -> None:
    setup = cast.house.setups.select_related("house").get()
    counts = [asked(setup)]
    booth, circuit = cast.house.positions.get(name="Rear booth"), Circuit.objects.get()
    for number in range(20, 38):
        a_unit_at(make_place(booth, f"{number}", circuit=circuit, **at(number)), narrow_deg=1.0)
        make_position(cast.house)
    counts.append(asked(setup))
    assert counts[0] == counts[1]


def asked(setup: Any) -> int:
    with CaptureQueriesContext(connection) as queries:
        tech_content(setup, NOON + hours(1))
    return len(queries)


def test_an_empty_house_has_a_sheet_too() -> None:
    cast = the_cast()
    assert "No position is on file yet." in words(as_user(cast.reader).get(sheet_of(cast.house)))
    assert "No position is on file yet." in text(as_user(cast.reader).get(sheet_of(cast.house, "pdf/")).content)


@pytest.mark.parametrize("layout", ["proscenium", "round", "bowl"])
def test_a_house_of_which_nobody_measured_anything_has_a_sheet_with_its_gaps_said(layout: str) -> None:
    cast = the_cast()
    cast.house.setups.update(layout=layout)
    make_place(make_position(cast.house, "Cove", zone="bowl" if layout == "bowl" else "front"))
    client = as_user(cast.reader)
    for said in (words(client.get(sheet_of(cast.house))), text(client.get(sheet_of(cast.house, "pdf/")).content)):
        assert "Cove" in said
        assert said.count("not recorded") > 15


def test_the_paper_is_letter_unless_a4_is_asked_for_and_another_is_not_found(cast: Cast) -> None:
    client = as_user(cast.reader)
    assert "page 1 of" in pages(client.get(sheet_of(cast.house, "pdf/")).content)[0]
    assert client.get(sheet_of(cast.house, "pdf/?paper=a4"))["Content-Type"] == "application/pdf"
    for query in ("paper=napkin", "setup=nonsense", f"setup={uuid4()}", "setup=%00%0a", "paper="):
        assert client.get(sheet_of(cast.house, f"pdf/?{query}")).status_code == 404, query


def test_the_head_is_shown_the_secret_once_and_only_its_hash_is_kept(cast: Cast) -> None:
    client = as_user(cast.head)
    first = client.post(sheet_of(cast.house, "link/"), follow=True)
    secret = new_address(first).split("/")[-2]
    assert first["Cache-Control"] == "private, no-store"
    again = client.get(sheet_of(cast.house))
    assert secret not in again.content.decode()
    assert "On. Made Mar 2, 2026, it works until Mar 3, 2027" in words(again)
    assert secret not in str(list(Link.objects.values_list()))
    assert not Event.objects.filter(data__icontains=secret).exists()


def test_the_address_of_a_new_link_is_kept_from_other_houses_and_from_changed_cookies(cast: Cast) -> None:
    client = as_user(cast.head)
    client.post(sheet_of(cast.house, "link/"))
    client.cookies["tech-link"] = "http://elsewhere.example/" + client.cookies["tech-link"].value
    assert "readonly" not in client.get(sheet_of(cast.house)).content.decode()


def test_readers_see_the_sheet_but_nothing_of_the_link(cast: Cast) -> None:
    made(cast)
    said = words(as_user(cast.reader).get(sheet_of(cast.house)))
    assert "Public link" not in said


def test_a_new_link_stops_the_old_one_at_once_and_switching_off_stops_it_too(cast: Cast) -> None:
    first, second = made(cast), made(cast)
    assert Client().get(first).status_code == 404
    assert Client().get(second).status_code == 200
    client = as_user(cast.head)
    assert "is off" in words(client.post(sheet_of(cast.house, "link/off/"), follow=True))
    assert Client().get(second).status_code == 404
    assert "There is no public link that works." in words(client.post(sheet_of(cast.house, "link/off/"), follow=True))


def test_of_several_heads_the_last_ones_link_works_alone() -> None:
    house = the_cast().house
    links = [renew_tech_link(actor=ACTOR, house=house, now=NOON) for _ in range(3)]
    assert list(Link.objects.working(NOON)) == [links[-1].link]
    end_tech_link(actor=ACTOR, house=house, now=NOON)
    with pytest.raises(NoTechLink):
        end_tech_link(actor=ACTOR, house=house, now=NOON)


@pytest.mark.parametrize("wrong", ["secret", "ref", "over", "off", "odd"])
def test_a_link_that_does_not_work_says_to_ask_the_house_and_names_none(cast: Cast, wrong: str) -> None:
    link = renew_tech_link(actor=ACTOR, house=cast.house, now=NOON)
    ref = uuid4() if wrong == "ref" else link.link.ref
    secret = {"secret": link.secret[:-1] + "!", "odd": "%00%ff%0a"}.get(wrong, link.secret)
    if wrong == "off":
        end_tech_link(actor=ACTOR, house=cast.house, now=NOON)
    later = NOON + (LASTS if wrong == "over" else hours(1))
    with time_machine.travel(later, tick=False):
        for tail in ("", "pdf/"):
            answer = Client().get(f"/house-sheet/{ref}/{secret}/{tail}")
            assert answer.status_code == 404
            assert "Ask the house for a new one." in words(answer)
            assert "Quillmark" not in answer.content.decode()
            assert answer["X-Robots-Tag"] == "noindex, nofollow"


def test_a_link_of_another_purpose_opens_no_sheet(cast: Cast) -> None:
    made_link = renew_tech_link(actor=ACTOR, house=cast.house, now=NOON)
    Link.objects.filter(pk=made_link.link.pk).update(purpose="arrival")
    assert Client().get(f"/house-sheet/{made_link.link.ref}/{made_link.secret}/").status_code == 404


def test_looking_by_the_link_changes_nothing_and_leaves_no_trace_elsewhere(cast: Cast) -> None:
    address = made(cast)
    before = (Event.objects.count(), list(Link.objects.values()))
    for tail in ("", "pdf/", "pdf/?paper=a4"):
        answer = Client().get(f"{address}{tail}")
        assert answer.status_code == 200
        assert answer["X-Robots-Tag"] == "noindex, nofollow"
        assert answer["Referrer-Policy"] == "same-origin"
        assert answer["Cache-Control"] == "no-store"
    assert (Event.objects.count(), list(Link.objects.values())) == before


def test_the_public_page_leads_nowhere_but_to_its_own_papers(cast: Cast) -> None:
    body = Client().get(made(cast)).content.decode()
    assert "/houses/" not in body
    assert "<form" not in body


def test_who_asks_without_end_waits_a_minute(cast: Cast) -> None:
    client = Client()
    for _ in range(ASKED_A_MINUTE):
        assert client.get(f"/house-sheet/{uuid4()}/guess/").status_code == 404
    answer = client.get(f"/house-sheet/{uuid4()}/guess/")
    assert (answer.status_code, answer["Retry-After"]) == (429, "60")
    with time_machine.travel(NOON + hours(1) + timedelta(minutes=1), tick=False):
        assert client.get(f"/house-sheet/{uuid4()}/guess/").status_code == 404
