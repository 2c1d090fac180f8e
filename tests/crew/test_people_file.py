"""A file of people: read by the meaning of its columns, shown, stored once confirmed, and not twice."""

from datetime import date
from time import perf_counter

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import add_person, serve_house
from crew.actions.people import change_person
from crew.actions.people_files import load_people
from crew.core.people_cells import Known
from crew.core.people_table import read_people
from crew.models import Certification, Person, Roster
from crew.people_errors import PeopleChanged, PeopleFileRefused, PeopleNotStored
from crew.people_file import MOST_BYTES, JudgedPeople, judge_people, packed, unpacked
from tests.crew.peopled import certified
from tests.factories import ACTOR, Cast, make_a_house, the_cast
from venue.models import Event
from venue.wording import event_sentence

KNOWN = Known({"climb and harness": False, "house orientation": True, "lift (scissor)": False}, ("lantern street",))
TWO_HOUSES = Known(KNOWN.kinds, ("lantern street", "ellery arena"))
FILE = (
    "Full name,Mobile,E-mail,Experience,Knows,Seniority,Grade,Certs,Shoe size,Lift or platform,Remarks\r\n"
    'Tove Brandauer,555-0142,tove@crew.example,some,"LED, short-arc",4,2,"Climb and harness: 2027-03-31; '
    'House orientation",41,2026-12-31,"two lines\r\nof notes"\r\n'
    "\r\n"
    "Ines Tallow,,,has led,,,,,,x,\r\n"
)


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


def load(roster: Roster, text: str) -> JudgedPeople:
    """Shown, then confirmed."""
    with pytest.raises(PeopleNotStored) as refusal:
        load_people(actor=ACTOR, roster=roster, text=text)
    return load_people(actor=ACTOR, roster=roster, text=text, shown=refusal.value.judged.fingerprint)


def problems_of(text: str, known: Known = KNOWN) -> list[tuple[int, str]]:
    return [(problem.line, problem.code) for problem in read_people(text, known).problems]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", [(1, "no-header")]),
        ("phone;email\n1;2", [(1, "no-column")]),
        ("name,who\nA,B", [(1, "column-twice")]),
        ("name\n\nA\n,\n", []),
        ("name,phone\nA,1,2", [(2, "more-cells")]),
        ("phone,name\n5,", [(2, "no-name")]),
        ('name,notes\nA,"x\ny"\nB,"z', [(4, "bad-quotes")]),
        ("name,experience\nA,great", [(2, "bad-experience")]),
        ("name,grade,list\nA,10,0\nB,2.0,-1\nC,NaN,1e3", [(2, "bad-number"), (2, "bad-number"), (3, "bad-number"),
                                                         (4, "bad-number"), (4, "bad-number")]),
        ("name,certs\nA,Rigging", [(2, "unknown-certification")]),
        ("name,climb and harness\nA,3/4/2027\nB,2027-02-29", [(2, "bad-date"), (3, "bad-date")]),
        ("name,certs,climb and harness\nA,Climb and harness: 2027-01-01,2027-01-02", [(2, "certification-twice")]),
        ("name,certs\nA,House orientation (Tarn Bowl)", [(2, "unknown-house")]),
        ("name,certs\nA,Climb and harness (Lantern Street)", [(2, "house-not-asked")]),
    ],
)  # fmt: skip
def test_every_problem_is_told_by_its_line(text: str, expected: list[tuple[int, str]]) -> None:
    assert problems_of(text) == expected


def test_an_orientation_names_its_house_where_the_roster_serves_two() -> None:
    text = "name,certs,House orientation (Ellery Arena)\nA,House orientation,\nB,Lift (scissor),2027-01-01"
    read = read_people(text, TWO_HOUSES)
    assert [(problem.line, problem.code) for problem in read.problems] == [(2, "which-house")]
    assert [(held.kind, held.house) for held in read.lines[0].held] == [
        ("lift (scissor)", ""),
        ("house orientation", "ellery arena"),
    ]


def test_no_more_than_five_thousand_people_are_read_at_once() -> None:
    assert problems_of("name\n" + "A\n" * 5_001) == [(5_002, "too-many-lines")]


def test_a_text_is_packed_and_unpacked_and_nothing_else_is_taken_for_one() -> None:
    assert unpacked(packed(FILE)) == FILE
    assert [unpacked(carried) for carried in ("", "ö", "AAAA", packed("x" * (2 * MOST_BYTES + 1)))] == [None] * 4


def test_a_file_is_stored_by_the_meaning_of_its_columns_and_a_second_time_changes_nothing(cast: Cast) -> None:
    judged = load(cast.roster, FILE)
    assert (len(judged.new), judged.unknown) == (2, ("Shoe size",))
    tove, ines = Person.objects.get(name="Tove Brandauer"), Person.objects.get(name="Ines Tallow")
    facts = ("phone", "email", "experience", "units_known", "seniority", "skill", "notes")
    assert [getattr(tove, name) for name in facts] == [
        "555-0142", "tove@crew.example", "some", "LED, short-arc", 4, 2, "two lines\r\nof notes",
    ]  # fmt: skip
    held = tove.certifications.order_by("kind__name").values_list("kind__name", "house__slug", "expires_on")
    assert list(held) == [
        ("Climb and harness", None, date(2027, 3, 31)),
        ("House orientation", "quillmark-hall", None),
        ("Lift or platform", None, date(2026, 12, 31)),
    ]
    assert (ines.experience, ines.certifications.get().expires_on) == ("lead", None)
    again = judge_people(cast.roster, FILE)
    assert (again.planned, again.problems, again.already) == ([], [], 2)
    load_people(actor=ACTOR, roster=cast.roster, text=FILE, shown=again.fingerprint)
    assert Event.objects.filter(verb="people.loaded").count() == 1


def test_the_history_of_a_file_holds_no_contact(cast: Cast) -> None:
    load(cast.roster, FILE)
    line = Event.objects.get(verb="people.loaded")
    assert event_sentence(line) == "took in a file of people: 2 added, 0 changed on the roster Quillmark Hall"
    assert not [value for value in ("0142", "crew.example", "of notes") if value in str(line.data)]


def test_people_on_file_are_meant_by_name_and_mail_or_by_the_name_alone(cast: Cast) -> None:
    first, second = (
        add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow", email=f"{n}@crew.example") for n in "ab"
    )
    dov = add_person(actor=ACTOR, roster=cast.roster, name="Dov Halloran")
    head = "name,email,grade\n"
    load(cast.roster, head + "ines  tallow,B@crew.example,3\nDov Halloran,dov@crew.example,1\n")
    assert list(Person.objects.order_by("pk").values_list("pk", "skill", "email")) == [
        (first.pk, None, "a@crew.example"), (second.pk, 3, "b@crew.example"), (dov.pk, 1, "dov@crew.example"),
    ]  # fmt: skip
    lines = "Ines Tallow,,2\nDov Halloran,d@x.example,2\nTove,t@x.example,\nTove,T@x.example,\n"
    judged = judge_people(cast.roster, head + lines)
    assert [(problem.line, problem.text[:20]) for problem in judged.problems] == [
        (2, "Ines Tallow: more th"), (5, "Tove is in line 4 al"),
    ]  # fmt: skip
    assert [problem.line for problem in judged.odd] == [3]


def test_nothing_is_emptied_and_no_certification_is_taken_away(cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow", phone="555-0101", notes="rings twice")
    row = certified(person, expires_on=date(2026, 5, 1))
    judged = judge_people(cast.roster, "name,phone,notes,certs,Lift or platform\nInes Tallow,,,Climb and harness,no\n")
    assert (judged.already, judged.planned) == (1, [])
    load(cast.roster, "name,Climb and harness\nInes Tallow,2028-05-01\n")
    row.refresh_from_db()
    person.refresh_from_db()
    assert (row.expires_on, row.version, person.phone, person.notes) == (date(2028, 5, 1), 2, "555-0101", "rings twice")
    assert Certification.objects.count() == 1


def test_nothing_is_stored_if_one_line_is_wrong(cast: Cast) -> None:
    text = f"name,phone,email\nTove,555-0142,\nInes,{'5' * 41},\nDov,,nobody at all\n{'x' * 121},,\na\0b,,\n"
    with pytest.raises(PeopleFileRefused) as refusal:
        load_people(actor=ACTOR, roster=cast.roster, text=text)
    assert [problem.line for problem in refusal.value.judged.problems] == [3, 4, 5, 6]
    assert not Person.objects.exists()


def test_what_was_confirmed_is_what_is_stored(cast: Cast) -> None:
    person = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow")
    text = "name,grade\nInes Tallow,3\n"
    shown = judge_people(cast.roster, text).fingerprint
    change_person(actor=ACTOR, person=person, seen=1, values={"skill": 2})
    with pytest.raises(PeopleChanged):
        load_people(actor=ACTOR, roster=cast.roster, text=text, shown=shown)
    person.refresh_from_db()
    assert person.skill == 2


def test_a_file_is_shown_carried_along_and_stored_on_its_page(client: Client, cast: Cast) -> None:
    client.force_login(cast.dispatch)
    address = reverse("crew:people_import", args=[cast.roster.ref])
    file = SimpleUploadedFile("people.csv", b"\xef\xbb\xbf" + FILE.encode())
    page = client.post(address, {"file": file})
    text = page.content.decode()
    assert "2 new, 0 changed, 0 on file already" in text
    assert "Columns that are not read: Shoe size" in text
    assert "555-0142" not in text
    assert not Person.objects.exists()
    form = page.context["form"]
    sent = {name: form[name].value() for name in ("carried", "shown")}
    assert "Nothing is stored" in client.post(address, {**sent, "shown": "0" * 64}).content.decode()
    assert client.post(address, sent).status_code == 302
    assert Person.objects.filter(phone="555-0142").count() == 1
    assert "0 new, 0 changed, 2 on file already" in client.post(address, {"text": FILE}).content.decode()


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "The submitted file is empty"),
        (b"PK\3\4\0\0", "This is no text"),
        (b"x" * (MOST_BYTES + 1), "larger than 5 MB"),
        (b"shoe\n41", "no column is known"),
        ("name,phone\nZo\xeb,1,2".encode("cp1252"), "more cells than columns"),
    ],
)
def test_a_bad_file_is_refused_in_words(client: Client, cast: Cast, content: bytes, told: str) -> None:
    client.force_login(cast.dispatch)
    address = reverse("crew:people_import", args=[cast.roster.ref])
    assert told in client.post(address, {"file": SimpleUploadedFile("people.csv", content)}).content.decode()
    assert "paste its lines" in client.post(address, {"carried": "AAAA", "shown": "x"}).content.decode()


def test_the_list_that_is_taken_along_reads_as_it_was_and_is_no_formula(client: Client, cast: Cast) -> None:
    serve_house(actor=ACTOR, roster=cast.roster, house=make_a_house("Ellery (Arena)"))
    line = "=Ines; Tallow,+1 555 0101,House orientation (Ellery (Arena)): 2027-01-01; Climb and harness\n"
    text = f"name,phone,certs\n{line}"
    load(cast.roster, text)
    client.force_login(cast.dispatch)
    response = client.get(reverse("crew:people_export", args=[cast.roster.ref]))
    taken = b"".join(response).decode()  # type: ignore[arg-type]
    assert "'=Ines; Tallow,'+1 555 0101," in taken
    again = judge_people(cast.roster, taken.removeprefix("\ufeff"))
    assert (again.already, again.planned, again.problems, again.unknown) == (1, [], [], ())


def test_a_thousand_lines_ask_as_much_as_ten_and_take_few_seconds(cast: Cast) -> None:
    counts = []
    for number in (10, 1000):
        text = "name,email,certs\n" + "".join(
            f"Person {n},p{n}@crew.example,Climb and harness: 2027-03-31\n" for n in range(number)
        )
        started = perf_counter()
        with CaptureQueriesContext(connection) as captured:
            judge_people(cast.roster, text)
        counts.append(len(captured))
        assert perf_counter() - started < 5
    assert counts[0] == counts[1]
