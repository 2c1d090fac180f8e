"""Labels of units and places: printed with a code that survives renames, and where a scan of it leads."""

from collections.abc import Iterator
from io import BytesIO

import pytest
import time_machine
from django.core.cache import cache
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from crew.forms import labels as label_forms
from crew.sheets.labels import A_PAGE, Label, labels_pdf
from crew.sheets.pen import A4, LETTER, PAPERS, Paper
from tests.factories import ACTOR, NOON, Cast, hours, make_a_house, make_unit, the_cast
from tests.venue.pages import as_user, errors_of, furnished, words
from venue.actions import change, end_placement, end_unit, place_unit
from venue.actions.labels import LabelPurpose, make_label_codes
from venue.models import Event, House, Place, PrintedCode, Unit

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def nobody_has_asked_yet() -> Iterator[None]:
    cache.clear()
    with time_machine.travel(NOON + hours(1), tick=False):
        yield


@pytest.fixture
def cast() -> Cast:
    cast = the_cast()
    furnished(cast)
    return cast


def labels_of(house: House) -> str:
    return f"/houses/{house.slug}/labels/"


def text(content: bytes) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(content)).pages)


def code_of(house: House, subject: Unit | Place) -> str:
    purpose = LabelPurpose.UNIT if isinstance(subject, Unit) else LabelPurpose.PLACE
    return make_label_codes(actor=ACTOR, house=house, purpose=purpose, subjects=[subject])[subject.ref]  # type: ignore[list-item]


def goes_to(client: Client, code: str) -> str:
    answer = client.get(f"/q/{code}")
    assert answer.status_code == 302
    assert answer["Cache-Control"] == "no-store"
    return answer["Location"]


def test_the_chosen_units_are_printed_with_tag_house_and_code(cast: Cast) -> None:
    first, second, _third = cast.house.units.all()
    answer = as_user(cast.head).post(labels_of(cast.house), {"chosen": [first.ref, second.ref], "paper": "letter"})
    assert answer["Content-Type"] == "application/pdf"
    said = text(answer.content)
    for unit in (first, second):
        code = PrintedCode.objects.get(subject_ref=unit.ref).code
        assert f"{code[:4]}-{code[4:7]}-{code[7:]}" in said
        assert unit.tag in said
    assert "Quillmark Hall" in said and "FS-03" not in said


def test_all_places_are_printed_on_the_other_paper(cast: Cast) -> None:
    address = labels_of(cast.house) + "?what=place-label"
    answer = as_user(cast.head).post(address, {"all": "yes", "paper": "a4"})
    reader = PdfReader(BytesIO(answer.content))
    assert float(reader.pages[0].mediabox.height) == pytest.approx(A4.height, abs=0.01)
    assert all(f"place {number}" in text(answer.content) for number in (1, 2, 3))


def test_a_code_is_made_once_and_printed_again(cast: Cast) -> None:
    client, wanted = as_user(cast.head), {"all": "yes", "paper": "letter"}
    first = client.post(labels_of(cast.house), wanted).content
    assert client.post(labels_of(cast.house), wanted).content == first
    assert PrintedCode.objects.count() == 3
    assert Event.objects.filter(verb="labels.coded").count() == 1


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"paper": "letter"}, "chosen"),
        ({"paper": "letter", "chosen": ["not a label"]}, "chosen"),
        ({"paper": "napkin", "all": "yes"}, "paper"),
    ],
)
def test_a_wrong_choice_is_refused_at_its_field(cast: Cast, sent: dict[str, object], field: str) -> None:
    answer = as_user(cast.head).post(labels_of(cast.house), sent)
    assert list(errors_of(answer)) == [field]
    assert not PrintedCode.objects.exists()


def test_more_labels_than_one_file_holds_are_asked_for_page_by_page(
    cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(label_forms, "MOST_AT_ONCE", 2)
    answer = as_user(cast.head).post(labels_of(cast.house), {"all": "yes", "paper": "letter"})
    assert "One file holds 2 labels." in words(answer)


def test_an_empty_house_says_what_to_do_first() -> None:
    cast = the_cast()
    client = as_user(cast.head)
    assert "Add the first unit" in words(client.get(labels_of(cast.house)))
    assert "Add a position with its places" in words(client.get(labels_of(cast.house) + "?what=place-label"))


def test_a_scan_of_a_units_label_leads_its_head_to_the_unit_whatever_it_is_called(cast: Cast) -> None:
    unit = cast.house.units.get(tag="FS-01")
    code = code_of(cast.house, unit)
    before = goes_to(as_user(cast.head), code)
    change(actor=ACTOR, row=unit, house=cast.house, seen=unit.version, values={"tag": "Old Bertha"})
    assert goes_to(as_user(cast.head), code) == before
    assert str(unit.ref) in before


def test_a_scan_of_a_places_label_leads_to_the_unit_that_stands_there_now(cast: Cast) -> None:
    place = cast.house.positions.get().places.get(label="1")
    code, stay = code_of(cast.house, place), place.placements.get()
    assert str(stay.unit.ref) in goes_to(as_user(cast.head), code)
    end_placement(actor=ACTOR, placement=stay, at=NOON + hours(0.5))
    assert goes_to(as_user(cast.head), code) == f"/houses/quillmark-hall/positions/{place.position.ref}/"
    other = make_unit(cast.house)
    place_unit(actor=ACTOR, unit=other, place=place, starts_at=NOON + hours(0.5))
    assert str(other.ref) in goes_to(as_user(cast.head), code)


def test_a_reader_is_led_to_what_a_reader_may_see(cast: Cast) -> None:
    client = as_user(cast.reader)
    unit = cast.house.units.get(tag="FS-01")
    assert client.get(goes_to(client, code_of(cast.house, unit))).status_code == 200


def test_the_label_of_a_unit_that_is_off_the_books_says_so(cast: Cast) -> None:
    unit = cast.house.units.get(tag="FS-01")
    code, client = code_of(cast.house, unit), as_user(cast.head)
    end_unit(actor=ACTOR, unit=unit, at=NOON + hours(0.5), reason="sold", leaves=True)
    assert "Off the books since Mar 2, 2026: sold" in words(client.get(goes_to(client, code)))


def test_nobody_signed_in_learns_only_that_it_is_a_label(cast: Cast) -> None:
    unit, place = cast.house.units.get(tag="FS-01"), cast.house.positions.get().places.get(label="1")
    for subject, said in (
        (unit, "This is the label of a house's follow spot."),
        (place, "This is the label of a place"),
    ):
        code = code_of(cast.house, subject)
        answer = Client().get(f"/q/{code}")
        assert said in words(answer)
        assert f"/sign-in/?next=/q/{code}" in answer.content.decode()
        assert answer["X-Robots-Tag"] == "noindex, nofollow"
        for name in ("FS-01", "Quillmark", "Rear booth"):
            assert name not in words(answer)


def test_a_stranger_and_the_head_of_another_house_are_not_told_of_a_label(cast: Cast) -> None:
    code = code_of(cast.house, cast.house.units.get(tag="FS-01"))
    for user in (cast.stranger, cast.road, cast.dispatch):
        assert as_user(user).get(f"/q/{code}").status_code == 404


def test_units_of_another_house_are_not_printed(cast: Cast) -> None:
    theirs = make_unit(make_a_house())
    answer = as_user(cast.head).post(labels_of(cast.house), {"chosen": [theirs.ref], "paper": "letter"})
    assert list(errors_of(answer)) == ["chosen"]


def test_the_page_asks_the_database_as_often_for_three_units_as_for_sixty(cast: Cast) -> None:
    client, sent = as_user(cast.head), {"all": "yes", "paper": "letter"}
    few = (asked(client, "get", cast.house), asked(client, "post", cast.house, sent))
    for number in range(57):
        make_unit(cast.house, tag=f"X-{number}")
    assert few == (asked(client, "get", cast.house), asked(client, "post", cast.house, sent))


def asked(client: Client, method: str, house: House, sent: dict[str, str] | None = None) -> int:
    with CaptureQueriesContext(connection) as queries:
        assert getattr(client, method)(labels_of(house), sent or {}).status_code == 200
    return len(queries)


def label(number: int, name: str = "") -> Label:
    address = f"https://house.example/q/ACDEFGHJK{number:02}"
    return Label(name or f"FS-{number:02}", "follow spot", "Quillmark Hall", f"ACDE-FGH-JK{number:02}", address)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS.keys())
@pytest.mark.parametrize(("number", "pages"), [(1, 1), (A_PAGE, 1), (A_PAGE + 1, 2)])
def test_every_label_is_on_some_page(paper: Paper, number: int, pages: int) -> None:
    content = labels_pdf([label(index) for index in range(number)], "Labels", paper)
    assert len(PdfReader(BytesIO(content)).pages) == pages
    said = text(content)
    assert [index for index in range(number) if f"FS-{index:02}" not in said] == []


def test_the_same_labels_give_the_same_bytes_and_long_names_stay_on_their_label() -> None:
    long = [label(1, "Upper gallery house right, the far truss, place 12 A"), label(2, "Ö" * 40)]
    assert labels_pdf(long, "Labels", LETTER) == labels_pdf(long, "Labels", LETTER)
    assert "place 12 A" in text(labels_pdf(long, "Labels", LETTER))
