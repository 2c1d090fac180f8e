"""The proposal of places on its page: what it says and why, what taking it stores, what it never touches."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from random import Random
from typing import get_args
from unittest.mock import patch

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows import proposal
from shows.actions import bind_spots, decide, put_spots, set_place_use
from shows.actions.proposing import take_proposal
from shows.core.proposing.proposal import Why
from shows.errors import ProposalChanged
from shows.facts import SpotFacts
from shows.fit import fit_of
from shows.models import Engagement, ShowSpot, SpotPlace
from shows.proposal import Proposed, proposed_for
from shows.tonight import show_instant
from shows.views.propose_page import proposal_context
from shows.wording.proposal import _AGAINST, _ALONE, answer_sentence, change_sentence, in_the_way, reason_sentence
from tests.factories import ACTOR, NOON, Cast, make_show, the_cast
from tests.shows.stocked import bound, stock
from tests.venue.fitted import fitted_lamp
from venue.actions import report_fault
from venue.errors import DomainError
from venue.models import Event, Place, Unit

pytestmark = pytest.mark.django_db
COLORS = tuple(f"C-{number}" for number in range(1, 9))


def a_show(
    places: int, asks: Mapping[str, int], engagement: Engagement | None = None, statement: str = "", **facts: object
) -> Engagement:
    """Places 1 … n, each with a six-frame unit, and numbers that ask for so many frames."""
    show = engagement or make_show()
    stock(show.house, places)
    Unit.objects.filter(house=show.house).update(frames=6, frame_1_end="lens", source="LED")
    spots = [SpotFacts(number, frames=COLORS[:frames], **facts) for number, frames in asks.items()]  # type: ignore[arg-type]
    put_spots(actor=ACTOR, engagement=show, spots=spots, at=NOON)
    Engagement.objects.filter(pk=show.pk).update(statement=statement, frame_1_end="lens")
    return fresh(show)


def fresh(show: Engagement) -> Engagement:
    return Engagement.objects.select_related("house", "setup__house").get(pk=show.pk)


def proposed(show: Engagement) -> Proposed:
    return proposed_for(fresh(show), show_instant(show), NOON)


def chosen(show: Engagement) -> dict[str, str]:
    """Show number to the house label proposed, "" for no place; a further light of a team after a slash."""
    found = proposed(show)
    labels = {key: found.place_of(light) for key, light in found.asked.lights.items()}
    names = {key: light.spot.number + "/2" * (light.nth > 1) for key, light in found.asked.lights.items()}
    return {names[key]: place.label if place else "" for key, place in labels.items()}


def why(show: Engagement, number: str) -> str:
    found = proposed(show)
    (light,) = found.lights_of(number)
    return reason_sentence(found.reason_of[light.key], found)


def unit_at(show: Engagement, label: str) -> Unit:
    return Unit.objects.get(house=show.house, placements__place__label=label)


def limit_frames(show: Engagement, **frames: int) -> None:
    """`at_5=5`: the unit at place 5 has five frames."""
    for name, count in frames.items():
        Unit.objects.filter(pk=unit_at(show, name.removeprefix("at_")).pk).update(frames=count)


def put(show: Engagement, number: str, label: str) -> None:
    """By hand."""
    spot = show.spots.standing().get(number=number)
    bind_spots(actor=ACTOR, engagement=show, places={spot: [place(show, label)]}, at=NOON)


def place(show: Engagement, label: str) -> Place:
    return Place.objects.get(position__house=show.house, label=label)


def take(show: Engagement, seen: str | None = None) -> Proposed:
    return take_proposal(actor=ACTOR, engagement=fresh(show), seen=seen or proposed(show).fingerprint, at=NOON)


def open_numbers(show: Engagement) -> set[tuple[str, str]]:
    """(number, code) of everything that stops the show as its numbers stand."""
    found = fit_of(fresh(show), show_instant(show), NOON).open
    return {(each.finding.number, each.finding.code) for each in found}


# -- what is proposed -----------------------------------------------------------------------------------


def test_seven_instead_of_five_since_five_has_five_frames() -> None:
    show = a_show(7, {"1": 0, "2": 0, "3": 0, "4": 0, "5": 6, "6": 0})
    limit_frames(show, at_5=5)
    assert chosen(show) == {"1": "1", "2": "2", "3": "3", "4": "4", "5": "7", "6": "6"}
    tag = unit_at(show, "5").tag
    assert why(show, "5") == f"House 7 instead of house 5: Frame 6 (C-6): {tag} has 5 frames."
    assert why(show, "6") == "Its own number is painted there."


def test_where_the_show_counts_its_numbers_outweighs_what_is_painted() -> None:
    show = a_show(3, {"1": 0, "2": 0, "3": 0}, statement="Numbering: house left to house right")
    assert chosen(show) == {"1": "3", "2": "2", "3": "1"}
    assert why(show, "1").startswith("House 3 instead of house 1: The paperwork puts it on house 3, ")
    assert proposed(show).proposal.can_be_done


def test_a_position_that_the_paperwork_names_is_a_need() -> None:
    show = make_show()
    stock(show.house, 2, "Balcony rail")
    show = a_show(2, {"1": 0}, show, position_words="Balcony rail")
    (light,) = proposed(show).asked.lights.values()
    assert str(proposed(show).place_of(light)).startswith("Balcony rail")


def test_a_team_gets_a_place_for_each_light_and_stays_whole_where_a_person_put_it() -> None:
    show = a_show(4, {"1": 0, "2": 0}, statement="house left to house right; 2 is a team of 2")
    assert chosen(show) == {"1": "4", "2": "3", "2/2": "2"}
    take(show)
    teams = SpotPlace.objects.standing().filter(spot__number="2").order_by("team_order")
    assert [each.place.label for each in teams] == ["3", "2"]
    put(show, "2", "1")
    assert chosen(show) == {"1": "4", "2": "1"}


def test_what_nobody_may_decide_away_is_not_offered_and_is_listed() -> None:
    show = a_show(2, {"1": 0})
    report_fault(actor=ACTOR, unit=unit_at(show, "1"), means="out", part="ballast", at=NOON - timedelta(days=1))
    assert chosen(show) == {"1": "2"}
    assert [each.place.label for each in proposed(show).asked.left_out] == ["1"]


def test_the_least_that_is_in_the_way_is_told_by_number() -> None:
    show = a_show(2, {"1": 8, "2": 0, "3": 0})
    found = proposed(show)
    tag = unit_at(show, "1").tag
    assert in_the_way(found.proposal, found.asked) == [("show 1", "No place is left that it may have")]
    assert found.proposal.costs.broken == 0
    ShowSpot.objects.filter(number="3").update(ended_at=NOON, ended_reason="cut")
    found = proposed(show)
    assert answer_sentence(found).startswith("Not everything that is asked can be done: 2 needs are in the way")
    assert [need for _, need in in_the_way(found.proposal, found.asked)] == [
        f"Frame {frame} (C-{frame}): {tag} has 6 frames" for frame in (7, 8)
    ]


def test_what_a_named_person_decided_is_not_in_the_way_any_more() -> None:
    show = a_show(1, {"1": 7})
    put(show, "1", "1")
    (finding,) = (each.finding for each in fit_of(fresh(show), NOON, NOON).open)
    facts = {"way": "merge", "reason": "6 and 7 together", "by": "Hollis Varga", "at": NOON}
    assert not proposed(show).proposal.can_be_done
    decide(actor=ACTOR, engagement=show, spot=show.spots.get(), finding=finding, **facts)  # type: ignore[arg-type]
    assert proposed(show).proposal.can_be_done


def test_of_two_that_do_the_lamp_with_hours_to_spare_is_taken() -> None:
    show = a_show(2, {"A": 0})
    Unit.objects.filter(house=show.house).update(source="short-arc")
    fitted_lamp(unit_at(show, "1"), 988.0, at=NOON - timedelta(days=3))
    fitted_lamp(unit_at(show, "2"), 100.0, at=NOON - timedelta(days=3))
    assert chosen(show) == {"A": "2"}
    assert why(show, "A") == "House 2 instead of house 1: the lamp there has 12 h left."


def test_a_pair_gets_one_kind_of_light_and_one_that_differs_still_waits_for_a_decision() -> None:
    show = a_show(3, {"A": 0, "B": 0})
    ShowSpot.objects.filter(number="B").update(matches="A")
    Unit.objects.filter(pk=unit_at(show, "1").pk).update(source="short-arc")
    assert chosen(show) == {"A": "2", "B": "3"}
    assert "matches show B less well there" in why(show, "A")
    put(show, "A", "1")
    assert [each.code for each in proposed(show).pairs_to_decide] == ["pair-sources-differ"]
    assert "a pair that has to match still needs a decision" in answer_sentence(proposed(show))


def test_every_reason_has_its_sentence() -> None:
    assert set(get_args(Why)) == _ALONE.keys() | _AGAINST.keys()


# -- what taking it stores ------------------------------------------------------------------------------


@pytest.mark.parametrize("start", range(3))
def test_taking_it_breaks_no_need_that_the_proposal_said_it_kept(start: int) -> None:
    random = Random(start)
    show = a_show(6, {str(number): random.choice((0, 0, 5, 6, 8)) for number in range(1, 6)})
    limit_frames(show, **{f"at_{label}": random.choice((4, 5, 6, 8)) for label in range(1, 7)})
    found = take(show)
    told = {(found.asked.lights[key].spot.number, need.split()[0]) for key, need in found.proposal.in_the_way}
    assert open_numbers(show) == told
    assert {number: label for number, (label, _) in bound(show).items()} == chosen(show)


def test_what_a_person_fixed_is_left_alone_and_what_was_taken_may_be_proposed_anew() -> None:
    show = a_show(4, {"1": 0, "2": 0, "3": 0})
    put(show, "2", "1")
    before = SpotPlace.objects.get(spot__number="2")
    assert chosen(show) == {"1": "2", "2": "1", "3": "3"}
    assert why(show, "2") == "Fixed by hand: it stays."
    take(show)
    kept = SpotPlace.objects.get(spot__number="2")
    assert (kept.pk, kept.version, kept.ended_at) == (before.pk, before.version, None)
    report_fault(actor=ACTOR, unit=unit_at(show, "3"), means="out", part="ballast", at=NOON - timedelta(days=1))
    assert chosen(show) == {"1": "2", "2": "1", "3": "4"}  # 3 was put there by a proposal, 2 by a person
    put(show, "3", "3")
    assert chosen(show)["3"] == "3"
    assert not proposed(show).proposal.can_be_done


def test_taking_it_is_one_line_of_history_and_nothing_where_all_stands_so() -> None:
    show = a_show(3, {"1": 0, "2": 0}, statement="Numbering: house left to house right")
    count = Event.objects.count()
    assert change_sentence(proposed(show)).startswith("No number moves")
    take(show)
    (line,) = Event.objects.all()[count:]
    assert (line.verb, sorted(line.data["places"])) == ("proposal.taken", ["1", "2"])
    assert bound(show) == {"1": ("3", "statement"), "2": ("2", "statement")}  # as the paperwork has it
    take(show)
    assert Event.objects.count() == count + 1


def test_a_number_put_by_hand_on_a_place_out_of_use_stays_and_is_told() -> None:
    show = a_show(2, {"1": 0, "2": 0})
    put(show, "1", "2")
    set_place_use(actor=ACTOR, engagement=show, place=place(show, "2"), in_use=False, at=NOON, seen=0)
    assert chosen(show) == {"1": "2", "2": "1"}
    found = proposed(show)
    ((light, need),) = in_the_way(found.proposal, found.asked)
    assert (light, need.endswith("which is not in use")) == ("show 1, fixed by hand", True)


def test_a_proposal_that_is_not_the_one_seen_is_refused_and_nothing_is_stored() -> None:
    show = a_show(3, {"1": 6, "2": 0})
    seen = proposed(show).fingerprint
    limit_frames(show, at_1=4)
    with pytest.raises(ProposalChanged):
        take(show, seen)
    assert not SpotPlace.objects.exists()
    Engagement.objects.filter(pk=show.pk).update(ended_at=NOON, ended_reason="off")
    with pytest.raises(DomainError):
        take(show)


# -- the page -------------------------------------------------------------------------------------------


@pytest.fixture
def cast() -> Cast:
    return the_cast()


def page(client: Client, show: Engagement, query: str = "") -> str:
    response = client.get(reverse("shows:propose", args=[show.ref]) + query)
    assert response.status_code == 200
    return response.content.decode()


@time_machine.travel(NOON, tick=False)
def test_the_page_is_taken_in_one_tap_unless_it_is_another_one_by_then(client: Client, cast: Cast) -> None:
    show = a_show(3, {"1": 6, "2": 0}, cast.engagement)
    client.force_login(cast.head)
    address = reverse("shows:propose", args=[show.ref])
    seen = client.get(address).context["proposed"].fingerprint
    limit_frames(show, at_1=4)
    refused = client.post(address, {"seen": seen})
    assert str(ProposalChanged()) in refused.content.decode()
    assert "House 3 instead of house 1" in refused.content.decode()
    for wrong in ("", "\x00", "f" * 63, "é" * 64):
        assert "Load the page anew" in client.post(address, {"seen": wrong}).content.decode()
    assert not SpotPlace.objects.exists()
    sent = client.post(address, {"seen": refused.context["proposed"].fingerprint})
    assert sent["Location"] == reverse("shows:fit", args=[show.ref])
    assert {number: label for number, (label, _) in bound(show).items()} == {"1": "3", "2": "2"}
    assert 'name="seen"' not in page(client, show)
    assert "there is nothing to take" in page(client, show)


def test_readers_look_and_do_not_take(client: Client, cast: Cast) -> None:
    show = a_show(2, {"1": 0}, cast.engagement)
    client.force_login(cast.reader)
    assert 'name="seen"' not in page(client, show)
    data = {"seen": proposed(show).fingerprint}
    assert client.post(reverse("shows:propose", args=[show.ref]), data).status_code == 403
    assert not SpotPlace.objects.exists()


def test_other_places_are_a_tap_away_and_an_unknown_number_is_answered_kindly(client: Client, cast: Cast) -> None:
    show = a_show(3, {"1": 0, "2": 0}, cast.engagement)
    put(show, "2", "2")
    client.force_login(cast.head)
    address = reverse("shows:propose", args=[show.ref])
    assert "?for=1#line-1" in page(client, show)
    text = page(client, show, "?for=%231")
    assert "House 3, Rear booth" in text
    assert "1 number more to tape." in text
    assert "A person put it there" in page(client, show, "?for=2")
    assert "The show has no number" not in page(client, show, "?for=%00")  # nothing to read
    for odd in ("99", "-9", "NaN", "9" * 400, "%3Cscript%3E"):
        text = page(client, show, f"?for={odd}")
        assert "The show has no number" in text
        assert "<script>" not in text
    assert len(client.get(address, {"for": "9" * 400}).context["unknown"]) == 40


def test_the_page_says_where_the_search_was_cut_and_where_there_is_nothing_to_ask(client: Client, cast: Cast) -> None:
    client.force_login(cast.head)
    assert "Bring in its paperwork first." in page(client, cast.engagement)
    show = a_show(1, {"1": 8}, cast.engagement)
    cut = replace(proposed(show).proposal, is_best=False)
    with patch.object(proposal, "propose", return_value=cut):
        text = page(client, show)
    assert "The search was cut short" in text
    assert "The least that is in the way" not in text
    assert "The least that is in the way" in page(client, show)


def test_a_proposal_costs_as_many_queries_with_twenty_numbers_as_with_two() -> None:
    counts = []
    for numbers in (2, 20):
        show = a_show(numbers, {str(number): 6 for number in range(1, numbers + 1)})
        ShowSpot.objects.filter(engagement=show, number="2").update(matches="1")
        put(show, "1", "1")
        with CaptureQueriesContext(connection) as queries:
            found = proposed_for(show, show_instant(show), NOON)
            assert len(proposal_context(found, other_places_for="2")["lines"]) == numbers
        counts.append(len(queries))
    assert counts[0] == counts[1]
