"""The pages of faults, log, care and light, as a house head with a thumb and a hostile stranger find them."""

from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, NOON, Cast, hours, make_unit, the_cast
from tests.venue.cared import PDF, PNG, a_fault, an_entry
from tests.venue.lamped import a_unit, day
from tests.venue.pages import as_user, errors_of, send, shown_values, words
from venue.actions import add_care_plan, attach, close_fault, measure_light
from venue.core.lengths import read_length
from venue.forms.care import PRESETS
from venue.models import Attachment, CareItem, CarePlan, Fault, House, LightReading, LogEntry, Unit
from venue.models.upkeep import MAX_BYTES

pytestmark = pytest.mark.django_db

TOP = "/houses/quillmark-hall/"


@pytest.fixture
def cast() -> Cast:
    return the_cast()


@pytest.fixture
def unit(cast: Cast) -> Unit:
    return make_unit(cast.house, tag="FS-01", frames=6, source="short-arc", watts=2000)


@pytest.fixture
def head(cast: Cast) -> Client:
    return as_user(cast.head)


def test_an_empty_book_says_what_to_do_first(cast: Cast) -> None:
    pages = {"faults/": "Report what is wrong", "log/": "Write down what was done", "care/": "Begin with one plan"}
    for address, first in pages.items():
        assert first in words(as_user(cast.head).get(TOP + address))
        assert "The house head" in words(as_user(cast.reader).get(TOP + address))


def test_a_fault_is_reported_in_two_taps_and_stands_on_the_list(head: Client, unit: Unit) -> None:
    answer = send(head, f"{TOP}units/{unit.ref}/faults/new/", what="limit:blackout", part="douser")
    assert answer["Location"] == f"{TOP}faults/"
    page = words(head.get(f"{TOP}faults/"))
    assert "FS-01 · No full blackout" in page and "limited" in page and "Seen by Head" in page
    assert Fault.objects.get().opened_by == "Head"


@pytest.mark.parametrize(
    ("sent", "field", "said"),
    [
        ({"what": ""}, "what", "required"),
        ({"what": "limit:frames", "frames_out": "9"}, "frames_out", "FS-01 has frames 1 to 6"),
        ({"what": "limit:iris"}, "limit", "at which size"),
        ({"what": "out"}, "part", "Choose the part"),
        ({"what": "danger:dragon"}, "what", "Select a valid choice"),
        ({"what": "out", "part": "fan", "at": "soon"}, "at", "Enter a valid date"),
        ({"what": "out", "part": "fan", "at": "2999-01-01T10:00"}, "__all__", "ahead"),
        ({"what": "out", "part": "fan", "at": "2026-03-08T02:30"}, "at", "does not exist"),
    ],
)
def test_a_bad_report_is_refused_at_its_field_and_loses_nothing(
    head: Client, unit: Unit, sent: dict[str, str], field: str, said: str
) -> None:
    answer = send(head, f"{TOP}units/{unit.ref}/faults/new/", **{"other_part": "", "seen_by": "Tove B", **sent})
    assert said in " ".join(errors_of(answer)[field])
    assert answer.context["form"]["seen_by"].value() == "Tove B"
    assert not Fault.objects.exists()


def test_a_fault_without_a_unit_in_its_address_asks_for_one(head: Client, unit: Unit) -> None:
    answer = send(head, f"{TOP}faults/new/", what="danger:glass")
    assert "required" in errors_of(answer)["unit"][0]
    send(head, f"{TOP}faults/new/", what="danger:glass", unit=unit.pk)
    assert "out of service until a named person closes it" in words(head.get(f"{TOP}faults/"))


def test_the_list_filters_by_unit_and_by_what_was_closed(head: Client, unit: Unit) -> None:
    fault = a_fault(unit)
    a_fault(make_unit(unit.house, tag="FS-02"), "out", part="fan")
    assert "FS-02" not in words(head.get(f"{TOP}faults/?unit={unit.ref}"))
    send(head, f"{TOP}faults/{fault.ref}/close/", done="bent the blade back")
    assert "FS-01" not in words(head.get(f"{TOP}faults/"))
    closed = words(head.get(f"{TOP}faults/?closed"))
    assert "Closed by Head" in closed and "FS-02" not in closed
    assert "bent the blade back" in words(head.get(f"{TOP}log/"))
    assert head.get(f"{TOP}faults/?unit=nonsense").status_code == 404


def test_closing_a_danger_suggests_nobody_and_wants_a_name(head: Client, unit: Unit) -> None:
    fault = a_fault(unit, "out", danger="interlock")
    address = f"{TOP}faults/{fault.ref}/close/"
    assert head.get(address).context["form"]["by"].value() == ""
    assert "by" in errors_of(send(head, address, done="put back"))
    send(head, address, done="put back", by="Inga Sørlund")
    assert Fault.objects.get().closed_by == "Inga Sørlund"


def test_of_two_who_close_one_fault_the_second_keeps_what_was_typed(cast: Cast, head: Client, unit: Unit) -> None:
    fault = a_fault(unit)
    address = f"{TOP}faults/{fault.ref}/close/"
    values = {**shown_values(head.get(address).context["form"]), "done": "I changed the blade"}
    send(as_user(cast.head), address, done="bent the blade back")
    answer = head.post(address, values)
    assert "was closed already, by Head" in words(answer)
    assert answer.context["form"]["done"].value() == "I changed the blade"
    assert [entry.text for entry in LogEntry.objects.all()] == ["bent the blade back"]


def test_a_stale_correction_shows_both_and_loses_nothing(head: Client, unit: Unit) -> None:
    fault = a_fault(unit)
    address = f"{TOP}faults/{fault.ref}/edit/"
    values = {**shown_values(head.get(address).context["form"]), "limit": "mine"}
    send(head, address, limit="theirs")
    answer = head.post(address, values)
    assert "Somebody else changed this" in words(answer) and "theirs" in words(answer)
    assert answer.context["form"]["limit"].value() == "mine"
    head.post(address, shown_values(answer.context["form"]))
    assert Fault.objects.get().limit == "mine"


def test_a_relamp_in_the_log_leads_to_its_questions_and_stays_open_without_alignment(head: Client, unit: Unit) -> None:
    answer = send(head, f"{TOP}units/{unit.ref}/log/new/", kind="relamp", text="old lamp flickered")
    entry = LogEntry.objects.get()
    assert answer["Location"] == f"{TOP}log/{entry.ref}/answer/"
    assert "may burst" in (page := words(head.get(answer["Location"]))) or "can burst" in page
    send(head, answer["Location"], isolated="yes", cooled="no", protected="yes")
    assert "Relamps with open questions" in (listed := words(head.get(f"{TOP}log/"))) and "Aligned?" in listed
    send(head, answer["Location"], aligned="yes")
    entry.refresh_from_db()
    assert (entry.is_open, entry.is_cooled) == (False, False)
    assert "lamp house cool no" in words(head.get(f"{TOP}log/{entry.ref}/"))


def test_the_log_is_filtered_by_unit_and_kind_and_paged(head: Client, unit: Unit) -> None:
    for number in range(60):
        an_entry(unit, text=f"wiped {number}.", at=NOON + hours(number / 60))
    an_entry(make_unit(unit.house, tag="FS-02"), "align", text="centered")
    first, second = (words(head.get(f"{TOP}log/?kind=clean&page={page}")) for page in (1, 2))
    assert "wiped 59." in first and "wiped 0." not in first and "wiped 0." in second
    assert "centered" not in first
    assert "wiped" not in words(head.get(f"{TOP}log/?kind=align"))
    assert "centered" not in words(head.get(f"{TOP}log/?unit={unit.ref}"))
    assert head.get(f"{TOP}log/?kind=nonsense&page=x").status_code == 200


def test_an_entry_needs_a_unit_or_something_else_but_not_both(head: Client, unit: Unit) -> None:
    for sent in ({}, {"unit": unit.pk, "accessory": "gloves"}):
        answer = send(head, f"{TOP}log/new/", kind="clean", **sent)
        assert "one of both" in errors_of(answer)["unit"][0]
    send(head, f"{TOP}log/new/", kind="clean", accessory="gloves")
    assert LogEntry.objects.get().accessory == "gloves"


def test_light_is_typed_and_shown_in_the_units_of_the_house(cast: Cast, head: Client, unit: Unit) -> None:
    send(head, f"{TOP}units/{unit.ref}/log/new/", kind="clean", before_lux="140", after_lux="160")
    entry = LogEntry.objects.get()
    assert entry.before_lux == pytest.approx(140 * 10.7639, rel=1e-5)
    assert "140 fc" in words(head.get(f"{TOP}log/{entry.ref}/"))
    form = head.get(f"{TOP}log/{entry.ref}/edit/").context["form"]
    assert form["before_lux"].value() == 140
    House.objects.update(unit_system="metric")
    assert "1722 lx" in words(head.get(f"{TOP}log/{entry.ref}/"))


def test_an_entry_is_struck_out_and_still_read(head: Client, unit: Unit) -> None:
    entry = an_entry(unit, text="mirror wiped")
    assert "required" in errors_of(send(head, f"{TOP}log/{entry.ref}/strike/"))["reason"][0]
    send(head, f"{TOP}log/{entry.ref}/strike/", reason="wrong unit")
    page = words(head.get(f"{TOP}log/"))
    assert "mirror wiped" in page and "Struck out: wrong unit" in page
    again = send(head, f"{TOP}log/{entry.ref}/strike/", reason="again")
    assert "was struck out already" in words(again)


def upload(client: Client, entry: LogEntry, name: str, content: bytes, sent_as: str = "image/png") -> HttpResponse:
    file = SimpleUploadedFile(name, content, content_type=sent_as)
    return client.post(f"{TOP}log/{entry.ref}/files/new/", {"file": file})


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("drawing.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "no JPEG"),
        ("photo.jpg", b"<!doctype html><script>alert(1)</script>", "no JPEG"),
        ("photo.png", b"", "empty"),
        ("photo.png", PNG + b"\0" * (6 * 1024 * 1024), "larger than 5 MB"),
        ("photo.pdf.exe", b"MZ\x90\0" + b"\0" * 64, "no JPEG"),
    ],
)
def test_a_hostile_file_is_refused_at_its_field(head: Client, unit: Unit, name: str, content: bytes, said: str) -> None:
    answer = upload(head, an_entry(unit), name, content)
    assert said in errors_of(answer)["file"][0]
    assert not Attachment.objects.exists()


def test_a_form_without_a_file_asks_for_one(head: Client, unit: Unit) -> None:
    answer = head.post(f"{TOP}log/{an_entry(unit).ref}/files/new/")
    assert answer.status_code == 200 and "file" in answer.context["form"].fields


def test_a_picture_is_shown_and_a_page_is_handed_over_and_neither_runs_anything(head: Client, unit: Unit) -> None:
    entry = an_entry(unit)
    upload(head, entry, "lamp <b>.php.png", PNG, sent_as="text/html")
    upload(head, entry, "test sheet.html", PDF, sent_as="text/html")
    answers = {}
    for file in Attachment.objects.all():
        answers[file.name] = head.get(f"{TOP}log/{entry.ref}/files/{file.ref}/")
    picture, page = answers["lamp -b.png"], answers["test sheet.pdf"]
    assert (picture["Content-Type"], page["Content-Type"]) == ("image/png", "application/pdf")
    assert picture["Content-Disposition"] == 'inline; filename="lamp -b.png"'
    assert page["Content-Disposition"].startswith("attachment;")
    for answer in answers.values():
        assert answer["X-Content-Type-Options"] == "nosniff"
        assert "sandbox" in answer["Content-Security-Policy"] and "script" not in answer["Content-Security-Policy"]
    assert (picture.content, page.content) == (PNG, PDF)


def test_a_file_is_found_only_under_its_own_entry_and_house(cast: Cast, head: Client, unit: Unit) -> None:
    entry, other = an_entry(unit), an_entry(unit)
    file = attach(actor=ACTOR, entry=entry, name="a.png", content=PNG, at=NOON)
    assert head.get(f"{TOP}log/{other.ref}/files/{file.ref}/").status_code == 404
    assert as_user(cast.stranger).get(f"{TOP}log/{entry.ref}/files/{file.ref}/").status_code == 404
    assert as_user(cast.reader).get(f"{TOP}log/{entry.ref}/files/{file.ref}/").status_code == 200


def test_the_entry_page_does_not_read_the_bytes_of_its_files(head: Client, unit: Unit) -> None:
    entry = an_entry(unit)
    attach(actor=ACTOR, entry=entry, name="a.pdf", content=PDF + b"\0" * (MAX_BYTES // 100), at=NOON)
    with CaptureQueriesContext(connection) as queries:
        head.get(f"{TOP}log/{entry.ref}/")
    assert not [query for query in queries if '"content"' in query["sql"]]


def test_a_plan_is_made_from_a_preset_that_says_it_is_common_practice(head: Client, unit: Unit) -> None:
    page = words(head.get(f"{TOP}care/plans/"))
    assert "Common practice, no source" in page and "every 100 h or 30 days" in page
    for preset in PRESETS:
        assert send(head, f"{TOP}care/plans/new/?preset={preset.name}").status_code == 302, preset.name
    assert CarePlan.objects.count() == len(PRESETS)
    accessories = {plan.accessory for plan in CarePlan.objects.filter(covers="accessory")}
    assert accessories == {"sight batteries", "gloves", "frames", "headsets"}


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"what": ""}, "what"),
        ({"every_h": "", "every_days": ""}, "every_h"),
        ({"every_h": "0"}, "every_h"),
        ({"every_days": "1.5"}, "every_days"),
        ({"covers": "unit"}, "unit"),
        ({"covers": "source"}, "source"),
        ({"covers": "accessory", "every_h": ""}, "accessory"),
        ({"covers": "accessory", "accessory": "gloves"}, "every_h"),
    ],
)
def test_a_bad_plan_is_refused_at_its_field(head: Client, unit: Unit, sent: dict[str, str], field: str) -> None:
    answer = send(head, f"{TOP}care/plans/new/?preset=monthly", **sent)
    assert set(errors_of(answer)) == {field}
    assert not CarePlan.objects.exists()


def test_due_care_is_done_with_one_tap_told_and_taken_back(cast: Cast, head: Client, unit: Unit) -> None:
    add_care_plan(actor=ACTOR, house=unit.house, what="fan filters", covers="all", every_days=30, at=NOON)
    item = CareItem.objects.get()
    assert "Due Fan filters · FS-01 never recorded as done" in words(head.get(f"{TOP}care/"))
    answer = head.post(f"{TOP}care/{item.ref}/done/", follow=True)
    assert "done. A wrong tap is taken back below." in words(answer) and "Later" in words(answer)
    twice = head.post(f"{TOP}care/{item.ref}/done/", follow=True)
    assert "recorded as done already" in words(twice)
    entry = LogEntry.objects.get()
    send(head, f"{TOP}log/{entry.ref}/strike/", reason="wrong tap")
    assert "never recorded as done" in words(head.get(f"{TOP}care/"))
    assert as_user(cast.reader).post(f"{TOP}care/{item.ref}/done/").status_code == 403


def test_a_plan_is_changed_and_ended(head: Client, unit: Unit) -> None:
    plan = add_care_plan(actor=ACTOR, house=unit.house, what="look", covers="all", every_days=30, at=NOON)
    send(head, f"{TOP}care/plans/{plan.ref}/edit/", every_days="14")
    assert CarePlan.objects.get().every_days == 14
    send(head, f"{TOP}care/plans/{plan.ref}/end/", reason="not needed")
    assert "No plan is made yet" in words(head.get(f"{TOP}care/plans/"))
    assert head.get(f"{TOP}care/plans/{plan.ref}/edit/").status_code == 404


def test_a_reading_is_typed_in_foot_candles_and_feet_and_comes_back_as_typed(head: Client, unit: Unit) -> None:
    address = f"{TOP}units/{unit.ref}/light/"
    answer = send(head, f"{address}new/", light="150", distance="142' 6\"")
    assert answer["Location"] == address
    reading = LightReading.objects.get()
    assert (reading.lux, reading.distance_m) == (pytest.approx(1614.59, rel=1e-5), pytest.approx(43.434))
    page = words(head.get(address))
    assert "150 fc" in page and "142' 6\"" in page and "3.05 Mcd" in page
    form = head.get(f"{address}new/").context["form"]
    assert (form["distance"].value(), form["setting"].value()) == ("142' 6\"", reading.setting)


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"light": ""}, "light"),
        ({"light": "-3"}, "light"),
        ({"light": "nan"}, "light"),
        ({"light": "20000"}, "light"),
        ({"distance": ""}, "distance"),
        ({"distance": "far"}, "distance"),
        ({"distance": "9000 m"}, "distance"),
        ({"distance": "0"}, "distance"),
        ({"setting": ""}, "setting"),
    ],
)
def test_a_bad_reading_is_refused_at_its_field(head: Client, unit: Unit, sent: dict[str, str], field: str) -> None:
    answer = send(head, f"{TOP}units/{unit.ref}/light/new/", **{"light": "150", "distance": "142'", **sent})
    assert set(errors_of(answer)) == {field}
    assert not LightReading.objects.exists()


def test_a_finding_stands_on_the_page_with_the_way_to_a_fault(head: Client, unit: Unit) -> None:
    for number, lux in enumerate((1500, 900)):
        facts: dict[str, Any] = {"lux": lux, "distance": read_length("43.4 m", "metric"), "setting": "open"}
        measure_light(actor=ACTOR, unit=unit, at=NOON + timedelta(days=number), **facts)
    page = words(head.get(f"{TOP}units/{unit.ref}/light/"))
    assert "Gives 60 % of its own first light" in page and "Report a fault" in page


def test_the_pages_ask_the_database_as_often_for_two_units_as_for_sixty(cast: Cast, head: Client) -> None:
    add_care_plan(actor=ACTOR, house=cast.house, what="look", covers="all", every_days=30, at=NOON)
    counts = []
    for size in (2, 60):
        for number in range(cast.house.units.count(), size):
            some = make_unit(cast.house, tag=f"FS-{number:02}")
            fault = a_fault(some)
            an_entry(some, "relamp")
            if number % 2:
                close_fault(actor=ACTOR, fault=fault, seen=1, at=NOON, done="cleaned")
        pages = ("faults/", "faults/?closed", "log/", "care/", "care/plans/")
        counts.append({page: queries_of(head, TOP + page) for page in pages})
    assert counts[0] == counts[1]
    assert max(counts[0].values()) < 14


def queries_of(client: Client, address: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)


def test_the_units_page_shows_what_care_knows_of_it(cast: Cast, head: Client) -> None:
    unit = a_unit(cast.house)
    a_fault(unit)
    an_entry(unit, text="mirror wiped")
    an_entry(unit, "relamp")
    add_care_plan(actor=ACTOR, house=cast.house, what="fan filters", covers="all", every_days=30, at=NOON)
    with time_machine.travel(day(3), tick=False):
        page = words(head.get(f"{TOP}units/{unit.ref}/"))
    for part in (
        "Faults Limited Relamp of",
        "No full blackout",
        "mirror wiped",
        "Fan filters",
        "Its light was never measured",
    ):
        assert part in page
