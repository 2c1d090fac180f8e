"""The start page answers each role's question in one sentence, with one button for what comes first."""

from datetime import UTC, datetime, timedelta

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import (
    add_person,
    call_off,
    end_person,
    issue_call_sheet,
    make_call,
    put_at_spot_talk,
    put_on_number,
    take_off,
)
from crew.actions.offers import ask, open_line
from crew.landing import Card, cards
from crew.models import Call
from shows.actions import (
    add_show_event,
    bind_spots,
    choose_way,
    decide,
    end_show_event,
    make_engagement,
    put_spots,
)
from shows.fit import fit_of
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, add_lights, call_facts, spots
from tests.factories import ACTOR, NOON, make_a_house, make_user, the_cast
from venue.actions import grant_membership
from venue.models import Unit

pytestmark = pytest.mark.django_db
ON_THE_DAY = datetime(2026, 3, 3, 15, tzinfo=UTC)
"""10 in the morning of the show, by the clocks of the house."""


@pytest.fixture
def stage(db: None) -> Stage:
    return a_stage(2)


def card(stage: Stage, who: str, now: datetime = ON_THE_DAY) -> Card:
    (found,) = cards(getattr(stage.cast, who), now)
    return found


def page_of(name: str, *args: object) -> str:
    return reverse(name, args=args)


def fill(stage: Stage) -> None:
    for number in (1, 2):
        put_on_number(actor=ACTOR, call=stage.call, number=f"{number}", person=stage.people[number])


def bind_by_number(stage: Stage) -> None:
    rows = {spot: [stage.places[index]] for index, spot in enumerate(stage.cast.engagement.spots.standing())}
    bind_spots(actor=ACTOR, engagement=stage.cast.engagement, places=rows, at=NOON)


TONIGHT = "Tonight, 8:00 PM, Nine Paper Boats at Quillmark Hall"


def test_a_head_reads_that_the_show_can_run_and_what_everybody_must_be_told(stage: Stage) -> None:
    fill(stage)
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON)
    found = card(stage, "head")
    assert found.sentence == f"{TONIGHT} can run."
    assert found.more == ("House labels run the other way: show 1 = house 2.",)
    assert (found.url, found.label) == (page_of("crew:call", stage.call.ref), "Open the call")


def test_a_head_reads_what_stops_the_show_the_first_thing_first(stage: Stage) -> None:
    found = card(stage, "head")
    assert found.sentence == f"{TONIGHT} can't run yet. Nobody is on show 1, 2 yet."
    assert found.more[0] == "The call sheet is not issued yet."
    assert (found.url, found.label) == (page_of("crew:call", stage.call.ref), "Fill the call")


def test_wrong_lights_come_before_a_crew_that_is_missing(stage: Stage) -> None:
    bind_by_number(stage)
    found = card(stage, "head")
    assert found.sentence.startswith(f"{TONIGHT} can't run yet. FIX: Backward against the tour's own rule")
    assert found.url == page_of("shows:compare", stage.cast.engagement.ref)


def test_a_show_without_paperwork_leads_to_the_paperwork(stage: Stage) -> None:
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=[], at=NOON)
    found = card(stage, "head")
    assert "No show numbers are in yet" in found.sentence
    assert found.url == page_of("shows:paperwork_receive", stage.cast.engagement.ref)


def test_an_open_question_leads_to_the_compare_page(stage: Stage) -> None:
    stage.cast.engagement.statement = "left to right"
    stage.cast.engagement.save()
    found = card(stage, "head")
    assert "ASK the tour: Left and right as seen from the house, or from the stage?" in found.sentence
    assert found.url == page_of("shows:compare", stage.cast.engagement.ref)


def test_numbers_without_a_place_are_named(stage: Stage) -> None:
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=spots(3), at=NOON)
    found = card(stage, "head")
    assert "No place yet for show 3." in found.sentence
    assert found.url == page_of("shows:assign", stage.cast.engagement.ref)


def test_what_the_show_asks_and_the_house_cannot_do_stops_it_until_somebody_decides(stage: Stage) -> None:
    fill(stage)
    engagement = stage.cast.engagement
    Unit.objects.filter(house=engagement.house).update(frames=2)
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON)
    found = card(stage, "head")
    assert found.sentence.endswith("Show 1, 2: not all that the show asks can be done, and nobody has decided yet.")
    assert (found.url, found.label) == (page_of("shows:fit", engagement.ref), "Decide what does not fit")
    found_so = fit_of(engagement, stage.event.starts_at, NOON)
    for each in found_so.open:
        spot = found_so.spot_of[each.finding.number]
        why = {"way": "merge", "reason": "amber rides with pink", "by": "Ada Quillfeather", "at": NOON}
        decide(actor=ACTOR, engagement=engagement, spot=spot, finding=each.finding, **why)
    assert card(stage, "head").sentence == f"{TONIGHT} can run."


def test_a_show_without_a_call_leads_to_making_it(stage: Stage) -> None:
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="storm")
    found = card(stage, "head")
    assert found.sentence.endswith("No crew is called yet.")
    assert found.url == page_of("crew:call_new", stage.event.ref)


def test_a_change_after_issuing_stops_the_show_until_it_is_issued(stage: Stage) -> None:
    fill(stage)
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON)
    put_at_spot_talk(actor=ACTOR, call=Call.objects.get(), person=stage.people[3])
    assert card(stage, "head").sentence.endswith("It changed since the last call sheet: issue the next revision.")


@pytest.mark.parametrize(
    ("now", "said"),
    [
        (datetime(2026, 3, 2, 15, tzinfo=UTC), "Tomorrow, 8:00 PM"),
        (datetime(2026, 3, 4, 5, 40, tzinfo=UTC), "Tonight, 8:00 PM"),
        (datetime(2026, 3, 4, 9, 59, tzinfo=UTC), "Tonight, 8:00 PM"),
        (datetime(2026, 3, 4, 10, 0, tzinfo=UTC), "No show is booked"),
        (datetime(2026, 2, 20, 15, tzinfo=UTC), "Tuesday, Mar 3, 8:00 PM"),
    ],
)
def test_tonight_stays_tonight_until_the_day_of_the_house_turns(stage: Stage, now: datetime, said: str) -> None:
    assert card(stage, "head", now).sentence.startswith(said)


def test_a_show_after_midnight_is_still_tonights(stage: Stage) -> None:
    end_show_event(actor=ACTOR, event=stage.event, at=NOON, reason="moved")
    late = datetime(2026, 3, 4, 0, 30)
    add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=late)
    assert card(stage, "head").sentence.startswith("Tonight, 12:30 AM")


def test_the_next_show_is_told_and_what_stops_it_is_the_button_once_tonight_can_run(stage: Stage) -> None:
    fill(stage)
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=NOON)
    starts = SHOW_STARTS + timedelta(days=1)
    event = add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=starts)
    found = card(stage, "head")
    assert found.sentence.endswith("can run.")
    assert found.more[-1].endswith("can't run yet. No crew is called yet.")
    assert (found.url, found.label) == (page_of("crew:call_new", event.ref), "Make the call: Nine Paper Boats")


def test_a_head_without_a_show_is_led_to_booking_one() -> None:
    cast = the_cast()
    (found,) = cards(cast.head, NOON)
    assert found.sentence == "No show is booked. Book the next one to begin with."
    assert found.url == page_of("shows:engagement_new", cast.house.slug)


def test_the_road_crew_reads_the_verdict_and_what_nobody_walked(stage: Stage) -> None:
    found = card(stage, "road")
    assert found.sentence == (
        "Nine Paper Boats at Quillmark Hall. TELL: House labels run the other way: show 1 = house 2."
    )
    assert found.more == (
        "House order not walked: Rear booth.",
        "Arrival check: 0 of 2 places checked. Next: Rear booth, place 2",
    )
    assert found.url == page_of("shows:compare", stage.cast.engagement.ref)


def test_the_road_crew_goes_on_to_the_places_once_the_numbers_are_settled(stage: Stage) -> None:
    choose_way(actor=ACTOR, engagement=stage.cast.engagement, way="tape", at=NOON)
    found = card(stage, "road")
    assert (found.url, found.label) == (page_of("shows:arrival", stage.cast.engagement.ref), "Check the places")


def test_the_road_crew_without_paperwork_is_led_to_it(stage: Stage) -> None:
    put_spots(actor=ACTOR, engagement=stage.cast.engagement, spots=[], at=NOON)
    assert card(stage, "road").url == page_of("shows:paperwork_receive", stage.cast.engagement.ref)


def test_dispatch_reads_who_is_missing_from_the_next_call(stage: Stage) -> None:
    put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    found = card(stage, "dispatch")
    assert found.sentence == (
        "Call Mar 3, 2026, 6:30 PM, Nine Paper Boats at Quillmark Hall: 1 of 2, 1 to fill. Nobody is on show 2 yet."
    )
    assert (found.url, found.label) == (page_of("crew:call", stage.call.ref), "Fill the call")
    put_on_number(actor=ACTOR, call=Call.objects.get(), number="2", person=stage.people[1])
    assert card(stage, "dispatch").sentence.endswith("all 2 filled.")


@time_machine.travel(NOON, tick=False)
def test_dispatch_reads_who_has_not_answered_and_who_is_still_to_be_told(stage: Stage) -> None:
    assert card(stage, "dispatch").more == ("The call sheet is not issued yet.",)
    line = put_on_number(actor=ACTOR, call=stage.call, number="1", person=stage.people[0])
    asked = open_line(call=stage.call, number="2", seat=1)
    ask(actor=ACTOR, line=asked, people=stage.people[1:3], answer_by=None, at=NOON)
    take_off(actor=ACTOR, line=line, at=NOON, reason="double-booked")
    assert card(stage, "dispatch").more[1:] == (
        "Nine Paper Boats, call Mar 3, 2026, 6:30 PM: 2 questions are open.",
        "3 messages wait to be told.",
        "NOT SEEN: 1 person is not known to know what changed.",
    )


def test_dispatch_is_led_from_an_empty_roster_to_people_to_a_call(stage: Stage) -> None:
    call_off(actor=ACTOR, call=stage.call, at=NOON, reason="storm")
    assert card(stage, "dispatch").url == page_of("crew:call_new", stage.event.ref)
    for person in stage.people:
        end_person(actor=ACTOR, person=person, at=NOON, reason="moved")
    assert card(stage, "dispatch").url == page_of("crew:roster", stage.cast.roster.ref)


def test_dispatch_without_any_event_reads_that(stage: Stage) -> None:
    after = SHOW_STARTS.replace(tzinfo=UTC) + timedelta(days=3)
    assert card(stage, "dispatch", after).sentence == "No call is made, and no event is booked."


def test_a_reader_reads_the_latest_sheet_and_its_age(stage: Stage) -> None:
    assert card(stage, "reader").sentence.startswith("No call sheet is issued yet.")
    issue_call_sheet(actor=ACTOR, call=stage.call, now=ON_THE_DAY - timedelta(hours=3, minutes=20))
    found = card(stage, "reader")
    assert found.sentence == "Nine Paper Boats at Quillmark Hall: revision 1, issued Mar 3, 2026, 6:40 AM, 3 h ago."
    assert found.url == page_of("crew:sheet", stage.call.ref, 1)
    fill(stage)
    issue_call_sheet(actor=ACTOR, call=Call.objects.get(), now=ON_THE_DAY - timedelta(minutes=5))
    assert "revision 2" in card(stage, "reader").sentence
    assert card(stage, "reader").sentence.endswith("5 min ago.")


def test_a_reader_reads_the_next_calls_sheet_before_a_later_one(stage: Stage) -> None:
    starts = SHOW_STARTS + timedelta(days=1)
    later = add_show_event(actor=ACTOR, engagement=stage.cast.engagement, kind="show", starts=starts)
    facts = call_facts(call=starts - timedelta(hours=1), talk=None)
    call = make_call(actor=ACTOR, roster=stage.cast.roster, event=later, facts=facts)
    issue_call_sheet(actor=ACTOR, call=stage.call, now=NOON)
    issue_call_sheet(actor=ACTOR, call=call, now=NOON + timedelta(hours=1))
    assert card(stage, "reader").url == page_of("crew:sheet", stage.call.ref, 1)


def test_somebody_with_several_roles_reads_an_answer_for_each(stage: Stage) -> None:
    other = make_a_house("Annex")
    grant_membership(actor=ACTOR, house=other, user=stage.cast.head, role="reader")
    found = cards(stage.cast.head, ON_THE_DAY)
    assert [each.role for each in found] == ["House head", "Reader"]


def test_a_stranger_has_no_card() -> None:
    assert cards(make_user(), NOON) == []


def test_only_the_first_button_is_the_main_one(client: Client, stage: Stage) -> None:
    grant_membership(actor=ACTOR, house=make_a_house("Annex"), user=stage.cast.head, role="reader")
    client.force_login(stage.cast.head)
    with time_machine.travel(ON_THE_DAY, tick=False):
        text = client.get("/").content.decode()
    cards_only = text.split("<nav")[0]
    assert cards_only.count('<a class="button"') == 1
    assert cards_only.count('<a class="button button-quiet"') == 1


@pytest.mark.parametrize("who", ["head", "road", "dispatch", "reader"])
def test_an_answer_costs_as_many_queries_with_sixty_lights_as_with_two(stage: Stage, who: str) -> None:
    counts = []
    for number in (2, 60):
        if number > 2:
            add_lights(stage, number)
            add_person(actor=ACTOR, roster=stage.cast.roster, name="one more")
        with CaptureQueriesContext(connection) as captured:
            card(stage, who)
        counts.append(len(captured))
    assert counts[0] == counts[1]


def test_an_answer_costs_no_more_with_many_shows_than_with_two(stage: Stage) -> None:
    counts = []
    for days in (1, 8):
        for day in range(days):
            dates = {"starts_on": SHOW_STARTS.date(), "ends_on": SHOW_STARTS.date() + timedelta(days=9)}
            show = make_engagement(actor=ACTOR, house=stage.cast.house, name=f"Show {days} {day}", **dates)
            starts = SHOW_STARTS + timedelta(days=1 + day)
            add_show_event(actor=ACTOR, engagement=show, kind="show", starts=starts)
        with CaptureQueriesContext(connection) as captured:
            card(stage, "head")
        counts.append(len(captured))
    assert counts[0] == counts[1]
