"""People of a roster: contacts for dispatch alone, certifications by their last day, days off, forgetting somebody."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from crew.actions import add_person, end_person, make_call, put_at_spot_talk, put_on_number, take_off
from crew.actions.certifying import (
    add_certification,
    change_certification_kind,
    end_certification,
    end_certification_kind,
)
from crew.actions.people import change_person, forget_person
from crew.core.lasting import is_found, lasting_of
from crew.facts import CallFacts
from crew.models import Call, CallLine, Certification, Person
from crew.people_page import calls_on
from shows.actions import add_show_event
from tests.crew.peopled import certified
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON, Cast, the_cast
from venue.errors import AlreadyEnded, AlreadyExists, Invalid, StaleVersion
from venue.models import Event, Position
from venue.wording import event_sentence

TODAY = date(2026, 3, 2)
PHONE, MAIL, NOTE = "555-0142", "tove@crew.example", "rings twice"
FACTS = {"name": "Tove Brandauer", "phone": PHONE, "email": MAIL, "notes": NOTE}


@pytest.fixture
def cast(db: None) -> Cast:
    return the_cast()


@pytest.fixture
def tove(cast: Cast) -> Person:
    return add_person(actor=ACTOR, roster=cast.roster, **FACTS)


def at(name: str, person: Person, *more: Any) -> str:
    return reverse(f"crew:{name}", args=[person.roster.ref, person.ref, *more])


def text_of(client: Client, address: str, **sent: Any) -> str:
    response = client.post(address, sent) if sent else client.get(address)
    assert response.status_code == 200
    return response.content.decode()


@pytest.mark.parametrize(
    ("days", "expected"), [(None, "for-good"), (-1, "expired"), (0, "ends-soon"), (30, "ends-soon"), (31, "lasts")]
)
def test_the_last_day_of_a_certification_counts(days: int | None, expected: str) -> None:
    assert lasting_of(None if days is None else TODAY + timedelta(days), TODAY) == expected


@pytest.mark.parametrize(
    ("query", "is_there"),
    [("wisniak", True), ("ZOFIA wi", True), ("fs-01", True), ("", True), ("zofia fs-02", False), ("\0", True)],
)
def test_people_are_found_by_parts_of_their_name_whatever_its_accents(query: str, is_there: bool) -> None:
    assert is_found(query, "Zofia Wiśniak", "FS-01, LED") is is_there


def test_contacts_never_enter_the_history(cast: Cast, tove: Person) -> None:
    new = {"phone": "555-0199", "email": "t@elsewhere.example", "notes": "555-0111", "skill": 2}
    change_person(actor=ACTOR, person=tove, seen=1, values=new)
    forget_person(actor=ACTOR, person=tove, seen=2, at=NOON, reason="asked for it")
    lines = Event.objects.about("person", tove.ref)
    assert [event_sentence(line) for line in lines] == [
        "added Tove Brandauer to the roster Quillmark Hall",
        "changed Tove Brandauer",
        "forgot Tove Brandauer, whose contact was emptied: asked for it",
    ]
    kept = str([line.data for line in lines])
    assert "'skill': [None, 2]" in kept
    assert not [value for value in (PHONE, MAIL, NOTE, "0199", "elsewhere", "0111") if value in kept]


@pytest.mark.parametrize("who", ["head", "road", "reader", "stranger"])
def test_nobody_but_dispatch_sees_contacts(client: Client, cast: Cast, tove: Person, who: str) -> None:
    client.force_login(getattr(cast, who))
    for address in (at("person", tove), reverse("crew:people_export", args=[cast.roster.ref])):
        assert client.get(address).status_code == 404
    client.force_login(cast.dispatch)
    assert PHONE in text_of(client, at("person", tove))


def test_a_form_that_grew_old_loses_nothing_and_overwrites_nothing(client: Client, cast: Cast, tove: Person) -> None:
    client.force_login(cast.dispatch)
    change_person(actor=ACTOR, person=tove, seen=1, values={"phone": "555-0150"})
    text = text_of(client, at("person_edit", tove), **{**FACTS, "phone": "555-0160", "version": 1})
    assert "555-0150" in text and "555-0160" in text
    with pytest.raises(StaleVersion):
        change_person(actor=ACTOR, person=tove, seen=1, values={"phone": "555-0170"})
    tove.refresh_from_db()
    assert tove.phone == "555-0150"


@pytest.mark.parametrize(
    "sent",
    [{"email": "nobody at all"}, {"skill": "10"}, {"skill": "-1"}, {"seniority": "9" * 40}, {"seniority": "NaN"},
     {"phone": "5" * 41}, {"experience": "great"}, {"notes": "a\0b"}],
)  # fmt: skip
def test_bad_facts_are_refused_at_their_field(client: Client, cast: Cast, sent: dict[str, str]) -> None:
    client.force_login(cast.dispatch)
    text = text_of(client, reverse("crew:person_add", args=[cast.roster.ref]), name="Tove Brandauer", **sent)
    assert f'id="id_{next(iter(sent))}"' in text
    assert "field-wrong" in text
    assert not Person.objects.exists()


@time_machine.travel(NOON, tick=False)
def test_the_list_says_in_words_what_expires_and_who_is_off(client: Client, cast: Cast, tove: Person) -> None:
    certified(tove, expires_on=TODAY - timedelta(1))
    certified(tove, "Arc-lamp handling", TODAY + timedelta(9))
    certified(tove, "Lift or platform", TODAY + timedelta(99))
    client.force_login(cast.dispatch)
    client.post(at("days_off_new", tove), {"first_day": "2026-03-05", "last_day": "2026-03-07", "words": "away"})
    text = text_of(client, reverse("crew:roster", args=[cast.roster.ref]))
    for words in ("expired: last day was Mar 1, 2026", "ends soon: through Mar 11, 2026", "Mar 5, 2026 – Mar 7, 2026",
                  "1 certification has expired. 1 certification ends within 30 days."):  # fmt: skip
        assert words in text
    assert "Lift or platform" not in text


@time_machine.travel(NOON, tick=False)
def test_the_list_is_searched_and_turned_in_pages_of_a_hundred(client: Client, cast: Cast) -> None:
    Person.objects.bulk_create(Person(roster=cast.roster, name=f"Ö Person {n:03}") for n in range(205))
    client.force_login(cast.dispatch)
    roster = reverse("crew:roster", args=[cast.roster.ref])
    assert text_of(client, f"{roster}?q=o+person&page=3").count('class="row"') == 5
    assert "Page 3 of 3" in text_of(client, f"{roster}?q=o+person&page=99999999999999999999")
    assert text_of(client, f"{roster}?page=x&who=odd&q=%00%ff").count('class="row"') == 0
    assert "Ö Person 204" in text_of(client, f"{roster}?q=204")


@time_machine.travel(NOON, tick=False)
def test_the_list_asks_as_much_for_sixty_people_as_for_two(client: Client, cast: Cast) -> None:
    client.force_login(cast.dispatch)
    counts = []
    for start, more in ((0, 2), (2, 58)):
        for index in range(start, start + more):
            person = add_person(actor=ACTOR, roster=cast.roster, name=f"Person {index}")
            certified(person, expires_on=TODAY)
        for tail in ("", "?q=person", "?who=due"):
            with CaptureQueriesContext(connection) as captured:
                client.get(reverse("crew:roster", args=[cast.roster.ref]) + tail)
            counts.append(len(captured))
    assert counts[:3] == counts[3:]


def test_a_certification_is_on_file_once_and_an_orientation_is_of_one_house(cast: Cast, tove: Person) -> None:
    row = certified(tove)
    with pytest.raises(AlreadyExists, match="on file already"):
        certified(tove, expires_on=TODAY)
    with pytest.raises(Invalid, match="of one house"):
        certified(tove, "House orientation")
    with pytest.raises(Invalid, match="hold this already"):
        change_certification_kind(actor=ACTOR, kind=row.kind, seen=1, values={"needed_for": "house"})
    end_certification_kind(actor=ACTOR, kind=row.kind, at=NOON, reason="renamed")
    other = add_person(actor=ACTOR, roster=cast.roster, name="Ines Tallow")
    with pytest.raises(AlreadyEnded):
        add_certification(actor=ACTOR, person=other, kind=row.kind)


def test_a_certification_is_added_changed_and_ended_on_pages(client: Client, cast: Cast, tove: Person) -> None:
    client.force_login(cast.dispatch)
    kind = cast.roster.certification_kinds.get(name="House orientation")
    new = at("certification_new", tove)
    assert "Write a day between" in text_of(client, new, kind=kind.pk, expires_on="0027-03-31")
    assert client.post(new, {"kind": kind.pk, "expires_on": "2027-03-31"}).status_code == 302
    assert "on file for the house already" in text_of(client, new, kind=kind.pk)
    row = Certification.objects.get()
    assert row.house == cast.house
    client.post(at("certification_edit", tove, row.ref), {"version": 1, "expires_on": "2028-03-31"})
    row.refresh_from_db()
    assert row.expires_on == date(2028, 3, 31)
    assert "Somebody else" in text_of(client, at("certification_end", tove, row.ref), version=1, reason="lost")
    client.post(at("certification_end", tove, row.ref), {"version": 2, "reason": "lost"})
    assert "None is on file" in text_of(client, at("person", tove))


@time_machine.travel(NOON, tick=False)
def test_days_off_on_which_somebody_is_called_are_told_and_taken_back(client: Client, db: None) -> None:
    stage = on_a_call()
    person = stage.people[0]
    client.force_login(stage.cast.dispatch)
    new = at("days_off_new", person)
    assert "before the first" in text_of(client, new, first_day="2026-03-03", last_day="2026-03-02")
    told = client.post(new, {"first_day": "2026-03-03"}, follow=True).content.decode()
    assert (
        "Ada Quillfeather is on a call in these days: Nine Paper Boats, Mar 3, 2026, 6:30 PM. Take them off there, or "
        "shorten the days off." in told
    )
    off = person.days_off.get()
    CallLine.objects.update(starts_at=NOON + timedelta(hours=36), ends_at=NOON + timedelta(hours=90))
    assert [len(calls_on(person, date(2026, 3, day), date(2026, 3, day))) for day in (2, 3, 4, 5, 6)] == [0, 1, 1, 1, 0]
    assert person.call_lines.standing().exists() and off.version == 1
    client.post(at("days_off_end", person, off.ref), {"version": 1, "reason": "plans changed"})
    assert not person.days_off.standing().exists()


def on_a_call() -> Stage:
    stage = a_stage()
    certified(stage.people[0])
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    return stage


@time_machine.travel(NOON, tick=False)
def test_nobody_on_a_call_to_come_is_forgotten(client: Client, db: None) -> None:
    stage = on_a_call()
    person, line = stage.people[0], stage.call.lines.get()
    client.force_login(stage.cast.dispatch)
    sent = {"version": 1, "reason": "asked for it", "typed": "ada  quillfeather"}
    text = text_of(client, at("person_forget", person), **sent)
    assert "is on calls to come: Nine Paper Boats, Mar 3, 2026" in text
    take_off(actor=ACTOR, line=line, at=NOON, reason="leaves")
    assert "not the name" in text_of(client, at("person_forget", person), **{**sent, "typed": "Ada"})
    assert client.post(at("person_forget", person), sent).status_code == 302
    person.refresh_from_db()
    assert (person.forgotten_at, person.ended_reason, person.name) == (NOON, "asked for it", "Ada Quillfeather")
    assert "Forgotten on Mar 2, 2026" in text_of(client, at("person", person))


@time_machine.travel(NOON, tick=False)
def test_nobody_on_calls_to_come_leaves_the_roster_and_the_calls_are_named(client: Client, db: None) -> None:
    stage = on_a_call()
    person = stage.people[0]
    for day in range(4, 8):
        starts = datetime(2026, 3, day, 12)
        event = add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="focus", starts=starts)
        call = make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=CallFacts(call=starts))
        put_at_spot_talk(actor=ACTOR, call=call, person=person)
    client.force_login(stage.cast.dispatch)
    text = text_of(client, at("person_end", person), reason="moved away")
    assert "is on calls to come: Nine Paper Boats, Mar 3, 2026" in text
    assert "Mar 5, 2026, 12:00 PM; and 2 more. Take them off these first." in text
    with time_machine.travel(datetime(2026, 3, 8, tzinfo=UTC), tick=False):
        end_person(actor=ACTOR, person=person, at=timezone.now(), reason="moved away")


@time_machine.travel(NOON, tick=False)
def test_who_left_comes_back_as_the_same_person_and_who_is_forgotten_does_not(
    client: Client, cast: Cast, tove: Person
) -> None:
    client.force_login(cast.dispatch)
    back, button = at("person_return", tove), "Back on the roster"
    assert "is on the roster. Nothing was changed" in client.post(back, follow=True).content.decode()
    end_person(actor=ACTOR, person=Person.objects.get(pk=tove.pk), at=NOON, reason="moved away")
    assert button in text_of(client, at("person", tove))
    assert "is on the roster again" in client.post(back, follow=True).content.decode()
    tove.refresh_from_db()
    assert (tove.ended_at, tove.ended_reason) == (None, "")
    assert button not in text_of(client, at("person", tove))
    told = [event_sentence(line) for line in Event.objects.about("person", tove.ref)]
    assert "had Tove Brandauer come back to the roster Quillmark Hall" in told
    forget_person(actor=ACTOR, person=tove, seen=tove.version, at=NOON, reason="asked for it")
    assert button not in text_of(client, at("person", tove))
    assert "was forgotten, and no contact is kept" in client.post(back, follow=True).content.decode()


def test_who_left_last_stands_first_on_the_list_of_who_left(client: Client, cast: Cast) -> None:
    for days, name in enumerate(("Tove Brandauer", "Ines Tallow", "Ursula Benn")):
        person = add_person(actor=ACTOR, roster=cast.roster, name=name, phone="555-0199")
        end_person(actor=ACTOR, person=person, at=NOON + timedelta(days % 2), reason="moved away")
    client.force_login(cast.dispatch)
    text = text_of(client, reverse("crew:roster", args=[cast.roster.ref]) + "?who=left")
    assert text.index("Ines Tallow") < text.index("Tove Brandauer") < text.index("Ursula Benn")
    assert "555-0199" not in text


@time_machine.travel(NOON, tick=False)
def test_a_certification_that_ends_shows_on_the_call_of_who_is_on_it(client: Client, db: None) -> None:
    stage = on_a_call()
    Position.objects.update(fall_protection="harness")
    row = stage.people[0].certifications.get()
    client.force_login(stage.cast.dispatch)
    address, mark = reverse("crew:call", args=[stage.call.ref]), "selected>Ada Quillfeather — no Climb and harness"
    assert mark not in text_of(client, address)
    end_certification(actor=ACTOR, certification=row, at=NOON, reason="not renewed")
    assert mark in text_of(client, address)


def test_who_has_left_is_forgotten_later_and_is_not_changed_again(cast: Cast, tove: Person) -> None:
    end_person(actor=ACTOR, person=tove, at=NOON, reason="moved away")
    with pytest.raises(AlreadyEnded):
        change_person(actor=ACTOR, person=tove, seen=2, values={"phone": "555-0101"})
    tove.refresh_from_db()
    forget_person(actor=ACTOR, person=tove, seen=2, at=NOON, reason="asked for it")
    tove.refresh_from_db()
    assert (tove.phone, tove.email, tove.notes, tove.ended_reason) == ("", "", "", "moved away")
    with pytest.raises(AlreadyEnded):
        forget_person(actor=ACTOR, person=tove, seen=3, at=NOON, reason="again")


def test_a_call_that_was_called_off_holds_nobody(db: None) -> None:
    stage = on_a_call()
    Call.objects.filter(pk=stage.call.pk).update(ended_at=NOON, ended_reason="storm")
    forget_person(actor=ACTOR, person=stage.people[0], seen=1, at=NOON, reason="asked for it")
    with pytest.raises(AlreadyEnded):
        forget_person(actor=ACTOR, person=stage.people[0], seen=2, at=NOON, reason="again")


@time_machine.travel(NOON, tick=False)
def test_a_persons_page_shows_calls_to_come_and_of_the_past_ninety_days(client: Client, db: None) -> None:
    stage = on_a_call()
    address = at("person", stage.people[0])
    client.force_login(stage.cast.dispatch)
    assert "show 1" in text_of(client, address).split('id="past"')[0]
    for days, is_listed in ((40, True), (120, False)):
        with time_machine.travel(NOON + timedelta(days), tick=False):
            client.force_login(stage.cast.dispatch)
            assert ("show 1" in text_of(client, address)) is is_listed


def test_the_settings_are_stored_within_their_bounds(client: Client, cast: Cast) -> None:
    client.force_login(cast.dispatch)
    address = reverse("crew:roster_settings", args=[cast.roster.ref])
    sent = {"version": cast.roster.version, "referral_order": "seniority", "is_strict": "on", "rest_min": "600"}
    assert "field-wrong" in text_of(client, address, **sent, late_after_min="99999")
    assert client.post(address, {**sent, "late_after_min": "15"}).status_code == 302
    cast.roster.refresh_from_db()
    assert (cast.roster.is_strict, cast.roster.rest_min, cast.roster.late_after_min) == (True, 600, 15)
    assert "lists of certifications are parted" in text_of(
        client, reverse("crew:kind_new", args=[cast.roster.ref]), name="Fog; haze"
    )
