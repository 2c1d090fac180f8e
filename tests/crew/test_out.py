"""Inventory, hours and log as CSV and on paper: all that is on file, read back."""

import csv
from datetime import date, datetime, timedelta
from io import BytesIO, StringIO

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from crew import out
from crew.sheets.lettering import UNPRINTABLE
from crew.sheets.pen import A4, LETTER, PAPERS, Paper
from crew.sheets.table import PrintedTable, table_pdf
from tests.factories import ACTOR, NOON, Cast, hours, make_unit, the_cast
from tests.venue.fitted import fitted_lamp
from tests.venue.pages import as_user, errors_of, fill, furnished, words
from venue.actions import report_fault, send_away, strike_log, write_log
from venue.models import House
from venue.models.units import Elsewhere

pytestmark = pytest.mark.django_db
LATER = NOON + hours(3)


@pytest.fixture
def cast() -> Cast:
    cast = the_cast()
    furnished(cast)
    return cast


def get(client: Client, what: str, form: str = "csv", **more: str) -> bytes:
    """The file that is answered."""
    with time_machine.travel(LATER, tick=False):
        answer = client.get("/houses/quillmark-hall/out/file/", {"what": what, "form": form, **more})
        assert answer.status_code == 200
        return b"".join(answer.streaming_content) if answer.streaming else answer.content  # type: ignore[attr-defined]


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(content.decode("utf-8-sig"), newline=""), strict=True))


def text(content: bytes) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(content)).pages)


def test_the_inventory_has_every_unit_with_state_place_lamp_and_hours(cast: Cast) -> None:
    first, second, third = cast.house.units.all()
    fitted_lamp(first, 1005.5, "L-0117")
    report_fault(
        actor=ACTOR, unit=second, means="limited", at=NOON, part="magazine", limit_kind="frames", frames_out="4"
    )
    send_away(actor=ACTOR, unit=third, to=Elsewhere.LENT, words="Marlow Hall", at=NOON + hours(1))
    found = {row["unit"]: row for row in rows(get(as_user(cast.reader), "inventory"))}
    assert found["FS-01"]["state"] == "OUT"
    assert found["FS-01"]["why"].startswith("Lamp L-0117 is past its stop")
    assert [found["FS-01"][name] for name in ("lamp", "lamp hours", "hours left")] == ["L-0117", "1005.50", "-5.50"]
    assert (found["FS-02"]["state"], found["FS-02"]["why"]) == ("limited", "Frame 4 is out")
    assert (found["FS-03"]["state"], found["FS-03"]["where"]) == ("ready", "lent to Marlow Hall")
    assert found["FS-01"]["where"] == "at Rear booth, place 1"


def test_the_hours_have_every_lamp_with_its_limits_and_what_is_left(cast: Cast) -> None:
    for unit, burned in zip(cast.house.units.all(), (100, 850, 1000), strict=True):
        fitted_lamp(unit, burned)
    found = rows(get(as_user(cast.head), "hours"))
    assert [(row["lamp"], row["in unit"], row["hours"], row["hours left"], row["state"]) for row in found] == [
        ("L-FS-01", "FS-01", "100.00", "900.00", "in order"),
        ("L-FS-02", "FS-02", "850.00", "150.00", "near its stop"),
        ("L-FS-03", "FS-03", "1000.00", "0.00", "PAST ITS STOP"),
    ]
    assert {(row["rated hours"], row["warns at"], row["stops at"]) for row in found} == {("1000", "800.0", "1000.0")}


def test_the_log_has_what_was_done_on_the_days_asked_for_the_oldest_first(cast: Cast) -> None:
    unit = cast.house.units.get(tag="FS-01")
    for days, said in ((-3, "too early"), (-1, "mirror"), (0, "=lens"), (2, "too late")):
        at = NOON + timedelta(days=days)
        write_log(actor=ACTOR, house=cast.house, unit=unit, kind="clean", at=at, text=said, by="Inga Sørlund")
    mistaken = cast.house.log.get(text="mirror")
    strike_log(actor=ACTOR, entry=mistaken, seen=mistaken.version, at=NOON, reason="other unit")
    found = rows(get(as_user(cast.reader), "log", first="2026-03-01", last="2026-03-02"))
    assert [(row["done"], row["unit"], row["in words"], row["to know"]) for row in found] == [
        ("Mar 1, 2026, 7:00 AM", "FS-01", "mirror", "STRUCK OUT: other unit"),
        ("Mar 2, 2026, 7:00 AM", "FS-01", "'=lens", ""),
    ]
    assert {row["by"] for row in found} == {"Inga Sørlund"}


def test_an_open_relamp_says_which_questions_are_not_answered(cast: Cast) -> None:
    fitted_lamp(cast.house.units.get(tag="FS-01"), 0)
    (row,) = rows(get(as_user(cast.head), "log"))
    assert row["what"] == "relamp"
    assert row["to know"].startswith("OPEN, not answered: the supply was isolated; ")


@pytest.mark.parametrize("what", ["inventory", "hours", "log"])
@pytest.mark.parametrize("form", ["letter", "a4"])
def test_each_list_is_printed_with_its_date_house_and_pages(cast: Cast, what: str, form: str) -> None:
    fitted_lamp(cast.house.units.get(tag="FS-01"), 1000, "L-0117")
    content = get(as_user(cast.reader), what, form)
    said, box = text(content), PdfReader(BytesIO(content)).pages[0].mediabox
    assert "page 1 of 1 · printed Mar 2, 2026, 10:00 AM" in said
    assert "Quillmark Hall" in said and "FS-01" in said
    assert float(box.width) == pytest.approx(PAPERS[form].height, abs=0.01)


def test_a_file_names_house_and_list_and_is_kept_nowhere_on_the_way(cast: Cast) -> None:
    with time_machine.travel(LATER, tick=False):
        answer = as_user(cast.head).get("/houses/quillmark-hall/out/file/", {"what": "log", "form": "csv"})
    assert answer["Content-Disposition"] == 'attachment; filename="quillmark-hall-log-2026-01-31-2026-03-02.csv"'
    assert answer["Content-Type"] == "text/csv; charset=utf-8"
    assert answer["Cache-Control"] == "private, no-store"
    assert b"".join(answer.streaming_content).startswith(b"\xef\xbb\xbfdone,")  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"what": "gossip", "form": "csv"}, "what"),
        ({"what": "log", "form": "wax"}, "form"),
        ({"what": "log", "form": "csv", "first": "spring"}, "first"),
        ({"what": "log", "form": "csv", "first": "2026-03-09", "last": "2026-03-01"}, "last"),
        ({"what": "log", "form": "csv", "last": "9999-12-31"}, "last"),
        ({"what": "log", "form": "csv", "first": "0001-01-01"}, "first"),
        ({}, "what"),
    ],
)
def test_a_wrong_choice_shows_the_page_with_what_is_wrong(cast: Cast, sent: dict[str, str], field: str) -> None:
    answer = as_user(cast.reader).get("/houses/quillmark-hall/out/file/", sent)
    assert field in errors_of(answer)
    assert "Nothing was stored yet" in words(answer) or "Get the list" in words(answer)


def test_a_list_too_long_for_one_print_is_refused_but_not_as_a_file(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(out, "MOST_PRINTED", 2)
    answer = as_user(cast.reader).get("/houses/quillmark-hall/out/file/", {"what": "inventory", "form": "letter"})
    assert "More than 2 lines are too many for one print." in words(answer)
    assert len(rows(get(as_user(cast.reader), "inventory"))) == 3


def test_an_empty_house_gives_lists_that_say_so() -> None:
    cast = the_cast()
    for what, said in (("inventory", "No unit is on file yet."), ("hours", "No lamp is on file yet."),
                       ("log", "Nothing was logged then.")):  # fmt: skip
        assert said in text(get(as_user(cast.head), what, "letter"))
        assert rows(get(as_user(cast.head), what)) == []


@pytest.mark.parametrize("what", ["inventory", "hours", "log"])
def test_a_list_asks_the_database_as_often_for_three_units_as_for_thirty(cast: Cast, what: str) -> None:
    client = as_user(cast.head)
    equip(cast.house)
    few = asked(client, what)
    fill(cast.house.positions.get(), range(4, 31))
    equip(cast.house)
    assert few == asked(client, what) < 12


def equip(house: House) -> None:
    for unit in house.units.filter(fittings__isnull=True):
        fitted_lamp(unit, 999)


def asked(client: Client, what: str) -> int:
    with CaptureQueriesContext(connection) as queries:
        get(client, what)
    return len(queries)


def table(number: int, **facts: object) -> PrintedTable:
    usual = {
        "title": "Inventory of follow spots",
        "house": "Quillmark Hall",
        "columns": (("unit", 1.0), ("why", 3.0)),
        "rows": tuple((f"FS-{index:03}", "Frame 4 is out; no full blackout") for index in range(number)),
        "empty": "No unit is on file yet.",
        "printed_at": datetime(2026, 3, 2, 17, 4),
    }
    return PrintedTable(**{**usual, **facts})  # type: ignore[arg-type]


@pytest.mark.parametrize("paper", [LETTER, A4], ids=["letter", "a4"])
def test_every_row_is_on_one_page_and_the_columns_are_named_on_each(paper: Paper) -> None:
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(table_pdf(table(120), paper))).pages]
    assert len(pages) > 1
    for number, page in enumerate(pages, start=1):
        assert "unit why" in page and "Inventory of follow spots" in page
        assert f"page {number} of {len(pages)} · printed Mar 2, 2026, 5:04 PM" in page
    for index in range(120):
        assert sum(f"FS-{index:03}" in page for page in pages) == 1


def test_a_row_longer_than_a_page_is_torn_and_nothing_of_it_is_lost() -> None:
    long = " ".join(f"word{index}" for index in range(1500))
    said = text(table_pdf(table(0, rows=(("FS-001", long),)), LETTER))
    assert all(f"word{index} " in f"{said} " for index in range(1500))


def test_what_can_not_be_printed_is_marked_and_the_mark_explained() -> None:
    said = text(table_pdf(table(0, rows=(("FS-001", "灯"),)), LETTER))
    assert UNPRINTABLE in said and "the CSV file has it" in said


def test_the_same_list_and_print_time_give_the_same_bytes() -> None:
    assert table_pdf(table(60), LETTER) == table_pdf(table(60), LETTER)


def test_a_hired_unit_is_listed_with_whom_it_goes_back_to(cast: Cast) -> None:
    make_unit(cast.house, tag="H-1", hired_from="Brightwick Hire", back_on=date(2026, 3, 9))
    found = {row["unit"]: row for row in rows(get(as_user(cast.head), "inventory"))}
    assert (found["H-1"]["hired from"], found["H-1"]["goes back on"]) == ("Brightwick Hire", "2026-03-09")
    assert found["H-1"]["where"] == "nowhere on file"
