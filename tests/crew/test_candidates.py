"""Who may come on a line: refusals by name at every assignment and swap, and the seam from rows to candidates."""

from datetime import date, datetime, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from crew.actions import add_person, end_person, fill_call, make_call, put_at_spot_talk, put_on_number
from crew.actions.lines import replace_person
from crew.actions.offers import ask, decline, open_line
from crew.candidates import Offers, asked_of
from crew.line_errors import Booked, CertificationMissing, DayOff, LeftRoster, ShortRest
from crew.line_needs import lights_of
from crew.models import Attendance, Call, Certification, CertificationKind, DaysOff, Person
from crew.models.certifications import NeededFor
from shows.actions import add_show_event
from shows.actions.copying import copy_show
from shows.models import Engagement
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON, make_position
from venue.models import Position, Unit

pytestmark = pytest.mark.django_db
SHOW_DAY = SHOW_STARTS.date()


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


@pytest.fixture
def truss(stage: Stage) -> Stage:
    """The same, with both lights where a harness is needed."""
    Position.objects.update(fall_protection="harness")
    return stage


def certify(person: Person, needed_for: str = NeededFor.CLIMB, expires_on: date | None = None) -> Certification:
    kind = CertificationKind.objects.get(roster=person.roster, needed_for=needed_for)
    return Certification.objects.create(person=person, kind=kind, expires_on=expires_on)


def a_call(stage: Stage, starts: datetime, ends: datetime) -> Call:
    """One more call of the roster, by the clocks of the house."""
    event = add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="rehearsal", starts=starts, ends=ends)
    facts = call_facts(call=starts, ends=ends, talk=None)
    return make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts)


def day(number: int, clock: int, minute: int = 0) -> datetime:
    return datetime(2026, 3, number, clock, minute)


def fill(stage: Stage, *people: Person | None) -> None:
    call = Call.objects.get(pk=stage.call.pk)
    numbered = {(f"{number}", 1): person for number, person in enumerate(people, start=1)}
    fill_call(actor=ACTOR, call=call, people=numbered, at_spot_talk=[], at=NOON, seen=call.version)


def test_on_a_truss_a_climb_certification_that_ends_the_day_before_is_refused_with_the_reason(truss: Stage) -> None:
    ada = truss.people[0]
    held = certify(ada, expires_on=SHOW_DAY - timedelta(days=1))
    with pytest.raises(CertificationMissing, match="“Climb and harness” is valid through Mar 2, 2026 only"):
        put_on_number(actor=ACTOR, call=truss.call, number="1", person=ada)
    Certification.objects.filter(pk=held.pk).update(expires_on=SHOW_DAY)
    assert put_on_number(actor=ACTOR, call=truss.call, number="1", person=ada).person == ada


def test_the_same_after_a_swap(stage: Stage) -> None:
    """One light needs a harness, the other does not: the two may not change places."""
    ada, mira = stage.people[:2]
    truss = make_position(stage.cast.house, "Truss", fall_protection="harness")
    stage.places[0].position = truss
    stage.places[0].save(update_fields=["position"])
    Engagement.objects.update(statement="house left to house right, all in one row")
    certify(ada)
    lights = lights_of(Call.objects.get())
    (on_truss,) = (number for (number, _seat), light in lights.items() if light.position == truss)
    pair = (ada, mira) if on_truss == "1" else (mira, ada)
    fill(stage, *pair)
    with pytest.raises(CertificationMissing, match="Мира Лисовская has no “Climb and harness”"):
        fill(stage, *reversed(pair))
    assert {line.person for line in stage.call.lines.standing() if line.number == on_truss} == {ada}


def test_nobody_replaces_somebody_on_such_a_number_either(truss: Stage) -> None:
    ada, mira = truss.people[:2]
    certify(ada)
    on = put_on_number(actor=ACTOR, call=truss.call, number="1", person=ada)
    with pytest.raises(CertificationMissing):
        replace_person(actor=ACTOR, line=on, person=mira, at=NOON, reason="sick", seen=on.version)


def test_what_is_only_told_refuses_nobody(stage: Stage) -> None:
    Unit.objects.update(source="short-arc")
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    CertificationKind.objects.filter(needed_for=NeededFor.ARC_LAMP).update(is_required=True)
    with pytest.raises(CertificationMissing, match="Arc-lamp handling"):
        put_on_number(actor=ACTOR, call=stage.call, number="2", person=stage.people[1])


def test_18_to_22_and_21_to_23_are_refused_and_touching_at_22_is_allowed(stage: Stage) -> None:
    ada = stage.people[0]
    early, late = a_call(stage, day(6, 18), day(6, 22)), a_call(stage, day(6, 21), day(6, 23))
    put_at_spot_talk(actor=ACTOR, call=early, person=ada)
    with pytest.raises(Booked, match="Mar 6, 2026, 6:00 PM to Mar 6, 2026, 10:00 PM"):
        put_at_spot_talk(actor=ACTOR, call=late, person=ada)
    put_at_spot_talk(actor=ACTOR, call=a_call(stage, day(6, 22), day(6, 23)), person=ada)


def test_a_short_rest_is_refused_until_it_is_over(stage: Stage) -> None:
    ada = stage.people[0]
    night, morning = a_call(stage, day(6, 20), day(7, 1)), a_call(stage, day(7, 8), day(7, 12))
    at_nine = a_call(stage, day(7, 9), day(7, 13))
    line = put_at_spot_talk(actor=ACTOR, call=night, person=ada)
    with pytest.raises(ShortRest, match="short rest until Mar 7, 2026, 9:00 AM"):
        put_at_spot_talk(actor=ACTOR, call=morning, person=ada)
    put_at_spot_talk(actor=ACTOR, call=at_nine, person=ada)
    late = line.starts_at, line.ends_at + timedelta(hours=1)
    Attendance.objects.create(line=line, in_at=late[0], out_at=late[1])
    later = a_call(stage, day(7, 9, 30), day(7, 10))
    with pytest.raises(ShortRest, match="until Mar 7, 2026, 10:00 AM"):
        put_at_spot_talk(actor=ACTOR, call=later, person=ada)


def test_a_day_off_and_leaving_the_roster_are_refused(stage: Stage) -> None:
    ada, mira = stage.people[:2]
    DaysOff.objects.create(person=ada, first_day=SHOW_DAY, last_day=SHOW_DAY)
    end_person(actor=ACTOR, person=mira, at=NOON, reason="moved")
    with pytest.raises(DayOff, match=r"Ada Quillfeather is off on Mar 3, 2026\. Choose somebody else"):
        put_on_number(actor=ACTOR, call=stage.call, number="1", person=ada)
    with pytest.raises(LeftRoster, match="has left the roster"):
        put_on_number(actor=ACTOR, call=stage.call, number="1", person=Person.objects.get(pk=mira.pk))


def test_lights_ask_for_what_their_position_and_unit_say(stage: Stage) -> None:
    Position.objects.update(kind="Scissor-lift", fall_protection="restraint")
    Unit.objects.update(source="Carbon arc, 90 A")
    for light in lights_of(stage.call).values():
        assert list(light.asks) == ["climb", "lift", "arc-lamp"]
    Position.objects.update(kind="uplift studio", fall_protection="none")
    Unit.objects.update(source="LED")
    assert [list(light.asks) for light in lights_of(stage.call).values()] == [[], []]


def test_a_remote_run_unit_asks_for_what_its_operator_stands_on(stage: Stage) -> None:
    truss = make_position(stage.cast.house, "Truss", fall_protection="harness")
    far, near = stage.places
    far.position, far.operated_from = truss, near
    far.save(update_fields=["position", "operated_from"])
    assert [list(light.asks) for light in lights_of(stage.call).values()] == [[], []]


def test_who_ran_the_number_last_stands_first(stage: Stage) -> None:
    mira = stage.people[1]
    before = a_call(stage, day(2, 18), day(2, 22))
    put_on_number(actor=ACTOR, call=before, number="2", person=mira)
    first = Offers(asked_of(stage.call)).ranked(("2", 1))[0]
    assert (first.somebody.name, first.somebody.ran.calls, first.somebody.minutes) == (mira.name, 1, 240)


def test_a_copy_under_another_name_still_knows_who_ran_the_number(stage: Stage) -> None:
    mira = stage.people[1]
    put_on_number(actor=ACTOR, call=a_call(stage, day(2, 18), day(2, 22)), number="2", person=mira)
    visit = stage.cast.engagement
    for first_day in (10, 20):
        days = {"starts_on": date(2026, 3, first_day), "ends_on": date(2026, 3, first_day + 2)}
        visit = copy_show(actor=ACTOR, engagement=visit, house=visit.house, **days).engagement
        Engagement.objects.filter(pk=visit.pk).update(name=f"Boats by Night {first_day}")
    visit = Engagement.objects.get(pk=visit.pk)
    event = add_show_event(actor=ACTOR, engagement=visit, kind="show", starts=day(20, 20), ends=day(20, 22))
    facts = call_facts(call=day(20, 18), talk=None)
    call = make_call(actor=ACTOR, roster=stage.cast.roster, event=event, facts=facts)
    found = Offers(asked_of(call)).ranked(("2", 1))[0].somebody
    assert (found.name, found.ran.on_seat) == (mira.name, {("2", 1): 1})


def test_whoever_said_no_to_the_call_stands_behind_the_others_and_it_is_told(stage: Stage) -> None:
    ada, mira = stage.people[:2]
    line = open_line(call=stage.call, number="1", seat=1)
    (offer,) = ask(actor=ACTOR, line=line, people=[ada], answer_by=None, at=NOON)
    decline(actor=ACTOR, offer=offer, at=NOON)
    found = Offers(asked_of(stage.call)).ranked(("1", 1))
    assert found[-1].somebody.key == ada.pk
    assert [bar.code for bar in found[-1].bars if not bar.is_stop and bar.kind is None] == ["declined"]
    assert put_on_number(actor=ACTOR, call=stage.call, number="1", person=ada).person == ada
    assert mira.pk in {each.somebody.key for each in found}


def test_the_candidates_take_as_many_queries_for_forty_people_as_for_five(stage: Stage) -> None:
    counts = []
    for _round in range(2):
        with CaptureQueriesContext(connection) as captured:
            Offers(asked_of(Call.objects.select_related("engagement__house", "roster").get())).ranked(("1", 1))
        counts.append(len(captured))
        for index in range(35):
            certify(add_person(actor=ACTOR, roster=stage.cast.roster, name=f"Person {index}"))
    assert counts[0] == counts[1]
