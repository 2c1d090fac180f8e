"""Calendars of calls by their secret addresses: what stands in them as calls change, and who opens them."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any, ClassVar
from uuid import uuid4

import pytest
import time_machine
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import Client, TestCase
from django.test.utils import CaptureQueriesContext
from icalendar import Calendar, Event

from crew.actions import call_off, change_call, end_person, make_call, put_on_number, take_off
from crew.actions.feeds import LASTS, end_feed, renew_feed
from crew.actions.lines import give_number, replace_person, set_own_time
from crew.calendars import call_calendar, house_feed, person_call_calendar, person_feed
from crew.errors import NoFeedLink
from crew.models import Call, CallLine, Person
from crew.views.feeds import ASKED_A_MINUTE
from shows.actions import add_show_event, change_show_event, end_engagement, end_show_event
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON, hours
from tests.venue.pages import as_user, words
from venue.errors import AlreadyEnded
from venue.models import Event as HistoryLine
from venue.models import House, Link


def entries(content: bytes) -> list[Event]:
    return list(Calendar.from_ical(content).walk("VEVENT"))


def require_rising(seen: list[Event]) -> None:
    """One entry all along, each state of it later than the one before."""
    assert len({str(entry["UID"]) for entry in seen}) == 1
    told = [entry["SEQUENCE"] for entry in seen]
    assert told == sorted(set(told)), told


@time_machine.travel(NOON, tick=False)
class OnStage(TestCase):
    """Ada is on show number 1 of a call for the evening of the next day; Mira may take over."""

    stage: ClassVar[Stage]
    house: ClassVar[House]
    ada: ClassVar[Person]
    mira: ClassVar[Person]
    line: ClassVar[CallLine]

    @classmethod
    def setUpTestData(cls) -> None:
        with time_machine.travel(NOON, tick=False):
            cls.stage = a_stage(2)
            cls.house = cls.stage.cast.house
            cls.ada, cls.mira = cls.stage.people[:2]
            cls.line = put_on_number(actor=ACTOR, call=cls.stage.call, number="1", person=cls.ada)

    def setUp(self) -> None:
        cache.clear()

    def call_now(self) -> Call:
        return Call.objects.get(pk=self.stage.call.pk)

    def line_now(self) -> CallLine:
        return CallLine.objects.get(pk=self.line.pk)

    def entry(self, person: Person | None = None) -> Event:
        (entry,) = entries(person_feed(person or self.ada, NOON))
        return entry

    def house_entry(self) -> Event:
        (entry,) = entries(house_feed(self.house, NOON))
        return entry

    def change(self, **facts: Any) -> None:
        call = self.call_now()
        change_call(actor=ACTOR, call=call, facts=call_facts(**facts), seen=call.version)

    def replace(self, line: CallLine) -> None:
        facts: dict[str, Any] = {"line": line, "seen": line.version, "person": self.mira}
        replace_person(actor=ACTOR, at=NOON, reason="broken wrist", **facts)


@time_machine.travel(NOON, tick=False)
class WhatStandsInThemTest(OnStage):
    def test_a_persons_entry_says_what_when_and_where(self) -> None:
        entry, call = self.entry(), self.stage.call
        assert entry["SUMMARY"] == "Call: Nine Paper Boats, show · show number 1"
        assert entry["LOCATION"] == "stage door, Quillmark Hall"
        assert (entry["STATUS"], entry["ORGANIZER"].params["CN"]) == ("CONFIRMED", call.roster.name)
        assert (entry["DTSTART"].dt, entry["DTEND"].dt) == (call.call_at, call.ends_at)
        assert entry["DESCRIPTION"].split("\n") == [
            "Show number 1",
            "Call: Mar 3, 2026, 6:30 PM, stage door",
            "Spot talk: Mar 3, 2026, 7:15 PM, rear booth",
            "Show: Mar 3, 2026, 8:00 PM",
            "Expected end: Mar 3, 2026, 11:00 PM",
            "All times by the clocks of America/New_York.",
            "The issued call sheet tells which light, and counts where it says something else.",
        ]

    def test_who_is_replaced_keeps_the_entry_as_cancelled_with_a_higher_sequence(self) -> None:
        before = self.entry()
        self.replace(self.line_now())
        after, other = self.entry(), self.entry(self.mira)
        require_rising([before, after])
        assert (after["STATUS"], other["STATUS"]) == ("CANCELLED", "CONFIRMED")
        assert after["SUMMARY"] == "RELEASED: Call: Nine Paper Boats, show · show number 1"
        assert after["DESCRIPTION"].startswith("Not on this call any more: broken wrist")
        assert other["UID"] != after["UID"]
        single = person_call_calendar(self.ada, self.call_now())
        assert single is not None
        assert entries(single) == [after]
        assert person_call_calendar(self.stage.people[3], self.call_now()) is None

    def test_who_comes_back_on_another_number_has_one_entry_all_along(self) -> None:
        seen = [self.entry()]
        take_off(actor=ACTOR, line=self.line_now(), at=NOON, reason="ill")
        seen.append(self.entry())
        put_on_number(actor=ACTOR, call=self.call_now(), number="2", person=self.ada)
        seen.append(self.entry())
        assert [entry["STATUS"] for entry in seen] == ["CONFIRMED", "CANCELLED", "CONFIRMED"]
        require_rising(seen)
        assert "show number 2" in seen[-1]["SUMMARY"]

    def test_whatever_moves_a_call_raises_the_sequence_of_all_who_are_on_it(self) -> None:
        """Every verb that changes a time, a place, a number, the event, or whether somebody comes."""
        seen, house = [self.entry()], [self.house_entry()]
        for step in (self.move, self.move_event, self.own_time, self.number, self.off):
            step()
            seen.append(self.entry())
            house.append(self.house_entry())
        require_rising(seen)
        require_rising(house)
        moved, of_event, own, numbered, off = seen[1:]
        assert moved["LOCATION"] == house[1]["LOCATION"] == "loading dock, Quillmark Hall"
        assert moved["DTSTART"].dt == house[1]["DTSTART"].dt == self.stage.call.call_at + timedelta(minutes=30)
        assert "Late show: Mar 3, 2026, 9:00 PM" in of_event["DESCRIPTION"]
        assert own["DTSTART"].dt == self.stage.call.call_at - timedelta(minutes=90)
        assert "Own call: Mar 3, 2026, 5:00 PM, loading dock" in own["DESCRIPTION"]
        assert "show number 2" in numbered["SUMMARY"]
        for each in (off, house[-1]):
            assert (each["STATUS"], each["DTEND"].dt) == ("CANCELLED", self.stage.call.ends_at)
            assert each["SUMMARY"].startswith("CALLED OFF: Call: Nine Paper Boats, Late show")
        assert off["DESCRIPTION"].startswith("Called off: storm")

    def move(self) -> None:
        self.change(call=SHOW_STARTS - timedelta(hours=1), place="loading dock")

    def move_event(self) -> None:
        event = self.call_now().event
        facts = {"kind": "show", "starts": SHOW_STARTS + timedelta(hours=1), "name": "Late show"}
        change_show_event(actor=ACTOR, event=event, seen=event.version, **facts)  # type: ignore[arg-type]

    def own_time(self) -> None:
        line = self.line_now()
        set_own_time(actor=ACTOR, line=line, own=SHOW_STARTS - timedelta(hours=3), seen=line.version)

    def number(self) -> None:
        line = self.line_now()
        give_number(actor=ACTOR, line=line, number="2", at=NOON, seen=line.version)

    def off(self) -> None:
        call_off(actor=ACTOR, call=self.call_now(), at=NOON, reason="storm")

    def test_a_call_for_an_event_that_is_off_is_off_too_unless_it_was_over(self) -> None:
        self.require_off(lambda call: end_show_event(actor=ACTOR, event=call.event, at=NOON, reason="storm"))
        type(self.call_now().event).objects.update(ended_at=self.stage.call.ends_at + hours(9))
        assert self.entry()["STATUS"] == "CONFIRMED"

    def test_a_call_for_a_show_that_is_off_is_off_too_unless_it_was_over(self) -> None:
        self.require_off(lambda call: end_engagement(actor=ACTOR, engagement=call.engagement, at=NOON, reason="storm"))
        type(self.call_now().engagement).objects.update(ended_at=self.stage.call.ends_at + hours(9))
        assert self.entry()["STATUS"] == "CONFIRMED"

    def require_off(self, end: Callable[[Call], None]) -> None:
        before = self.entry()
        with time_machine.travel(NOON + hours(1), tick=False):
            end(self.call_now())
        after = self.entry()
        require_rising([before, after])
        assert (after["STATUS"], after["DTSTAMP"].dt) == ("CANCELLED", NOON + hours(1))
        assert after["DESCRIPTION"].startswith("Called off: storm")

    def test_the_stamp_is_when_the_history_last_tells_of_the_call(self) -> None:
        assert self.entry()["DTSTAMP"].dt == NOON
        with time_machine.travel(NOON + hours(2), tick=False):
            self.change(place="dock")
        assert self.entry()["DTSTAMP"].dt == self.house_entry()["DTSTAMP"].dt == NOON + hours(2)

    def test_a_call_leaves_the_calendars_90_days_after_its_end(self) -> None:
        last = self.stage.call.ends_at + timedelta(days=90)
        past = last + timedelta(seconds=1)
        assert [len(entries(person_feed(self.ada, now))) for now in (last, past)] == [1, 0]
        assert [len(entries(house_feed(self.house, now))) for now in (last, past)] == [1, 0]

    def test_the_calendar_of_a_house_names_nobody_and_holds_nothing_that_somebody_wrote(self) -> None:
        self.change(notes="ask Hollis Varga for the key")
        self.replace(self.line_now())
        call_off(actor=ACTOR, call=self.call_now(), at=NOON, reason="Rowan Sedge is ill")
        names = [*(person.name for person in self.stage.people), "Hollis Varga", "Rowan Sedge", "broken wrist"]
        for content in (house_feed(self.house, NOON), call_calendar(self.call_now())):
            said = content.replace(b"\r\n ", b"").decode()
            assert [name for name in names if name in said] == []
        assert "ask Hollis Varga for the key" in self.entry(self.mira)["DESCRIPTION"]

    def test_twenty_calls_take_no_more_queries_than_two(self) -> None:
        asked = {}
        for first, number in ((1, 2), (2, 20)):
            for day in range(first, number):
                self.another_call(day)
            with CaptureQueriesContext(connection) as of_person:
                assert len(entries(person_feed(self.ada, NOON))) == number
            with CaptureQueriesContext(connection) as of_house:
                assert len(entries(house_feed(self.house, NOON))) == number
            asked[number] = (len(of_person), len(of_house))
        assert asked == {2: (2, 1), 20: (2, 1)}

    def another_call(self, day: int) -> None:
        """A call so many days later, from which Ada was released."""
        starts = SHOW_STARTS + timedelta(days=day)
        event = add_show_event(actor=ACTOR, engagement=self.stage.cast.engagement, kind="rehearsal", starts=starts)
        facts = call_facts(call=starts - timedelta(minutes=90), talk=None)
        call = make_call(actor=ACTOR, roster=self.stage.cast.roster, event=event, facts=facts)
        line = put_on_number(actor=ACTOR, call=call, number="1", person=self.ada)
        take_off(actor=ACTOR, line=line, at=NOON, reason="ill")


@time_machine.travel(NOON, tick=False)
class WhoOpensThemTest(OnStage):
    def person_page(self, tail: str = "") -> str:
        return f"/rosters/{self.stage.cast.roster.ref}/persons/{self.ada.ref}/feed/{tail}"

    def made(self, subject: Person | House) -> str:
        link = renew_feed(actor=ACTOR, subject=subject, now=NOON)
        return f"/feeds/{link.link.ref}/{link.secret}.ics"

    def statuses(self, *addresses: str) -> list[int]:
        return [Client().get(address).status_code for address in addresses]

    def new_address(self, response: HttpResponse) -> str:
        """The address that the page shows once, as far as its path goes."""
        address: str = response.context["new_address"]  # type: ignore[attr-defined]
        return address.removeprefix("http://testserver")

    def test_an_address_is_shown_once_opens_the_calendar_and_leaves_no_secret(self) -> None:
        pages = {self.person_page(): self.stage.cast.dispatch, f"/houses/{self.house.slug}/feed/": self.stage.cast.head}
        for page, user in pages.items():
            client = as_user(user)
            assert "Off. With an address" in words(client.get(page))
            first = client.post(page, follow=True)
            address = self.new_address(first)
            assert first["Cache-Control"] == "private, no-store"
            again = client.get(page)
            assert self.new_address(again) == ""
            assert "On. Made Mar 2, 2026, it works until Mar 3, 2028" in words(again)
            assert len(entries(Client().get(address).content)) == 1
            secret = address.split("/")[-1].removesuffix(".ics")
            assert secret not in str(list(Link.objects.values_list()))
            assert not HistoryLine.objects.filter(data__icontains=secret).exists()

    def test_the_address_of_one_persons_calendar_is_not_shown_on_anothers_page(self) -> None:
        client = as_user(self.stage.cast.dispatch)
        client.post(self.person_page())
        client.cookies["feed-link"]["path"] = "/"
        other = self.person_page().replace(str(self.ada.ref), str(self.mira.ref))
        assert self.new_address(client.get(other)) == ""

    def test_the_page_offers_an_address_to_whoever_is_on_the_roster(self) -> None:
        page = as_user(self.stage.cast.dispatch).get(self.person_page())
        assert "Make an address" in words(page)
        assert "gets no new address" not in words(page)

    def test_a_renewed_secret_stops_the_old_one_and_switching_off_stops_it_too(self) -> None:
        old, new, other = self.made(self.ada), self.made(self.ada), self.made(self.mira)
        assert self.statuses(old, new, other) == [404, 200, 200]
        client = as_user(self.stage.cast.dispatch)
        assert "is off" in words(client.post(self.person_page("off/"), follow=True))
        assert self.statuses(new, other) == [404, 200]
        assert "has no address that works" in words(client.post(self.person_page("off/"), follow=True))
        with pytest.raises(NoFeedLink):
            end_feed(actor=ACTOR, subject=self.house, now=NOON)

    def test_who_left_the_roster_gets_no_new_address_and_who_is_forgotten_none_at_all(self) -> None:
        address = self.made(self.ada)
        after = NOON + timedelta(9)
        end_person(actor=ACTOR, person=Person.objects.get(pk=self.ada.pk), at=after, reason="moved away")
        with pytest.raises(AlreadyEnded):
            renew_feed(actor=ACTOR, subject=self.ada, now=NOON)
        client = as_user(self.stage.cast.dispatch)
        page = client.get(self.person_page())
        assert "has left the roster and gets no new address" in words(page)
        assert "Make a new address" not in words(page)
        assert client.post(self.person_page(), follow=True).status_code == 200
        assert self.statuses(address) == [200]
        Person.objects.filter(pk=self.ada.pk).update(forgotten_at=NOON)
        assert self.statuses(address) == [404]

    def test_an_address_that_does_not_work_says_so_and_names_nobody(self) -> None:
        made = renew_feed(actor=ACTOR, subject=self.ada, now=NOON)
        ref, secret = made.link.ref, made.secret
        wrong = [f"{ref}/{secret[:-1]}!", f"{uuid4()}/{secret}", f"{ref}/%00%ff%0a", f"{ref}/{'x' * 2000}"]
        for address in wrong:
            self.require_refused(address)
        with time_machine.travel(NOON + LASTS, tick=False):
            self.require_refused(f"{ref}/{secret}")
        assert self.statuses(f"/feeds/{ref}/{secret}.ics") == [200]
        Link.objects.update(purpose="mine")
        self.require_refused(f"{ref}/{secret}")

    def require_refused(self, address: str) -> None:
        answer = Client().get(f"/feeds/{address}.ics")
        assert (answer.status_code, answer["X-Robots-Tag"]) == (404, "noindex, nofollow")
        assert "Ask whoever gave it to you for a new one." in words(answer)
        assert self.ada.name not in answer.content.decode()

    def test_a_reader_that_has_the_calendar_is_told_that_nothing_changed(self) -> None:
        address, client = self.made(self.ada), Client()
        before = (HistoryLine.objects.count(), list(Link.objects.values()))
        first = client.get(address)
        assert first["Content-Type"] == "text/calendar; charset=utf-8"
        assert (first["Cache-Control"], first["X-Robots-Tag"]) == ("private, no-cache", "noindex, nofollow")
        again = client.get(address, headers={"if-none-match": first["ETag"]})
        assert (again.status_code, again.content, again["ETag"]) == (304, b"", first["ETag"])
        assert (HistoryLine.objects.count(), list(Link.objects.values())) == before
        take_off(actor=ACTOR, line=self.line_now(), at=NOON, reason="ill")
        assert client.get(address, headers={"if-none-match": first["ETag"]}).status_code == 200

    def test_who_asks_without_end_waits_a_minute(self) -> None:
        address = self.made(self.house)
        cache.set(f"feeds:127.0.0.1:{NOON:%Y%m%d%H%M}", ASKED_A_MINUTE - 1)
        assert self.statuses(address) == [200]
        answer = Client().get(address)
        assert (answer.status_code, answer["Retry-After"]) == (429, "60")

    def test_one_call_as_a_file_is_for_who_runs_it(self) -> None:
        answer = as_user(self.stage.cast.head).get(f"/calls/{self.stage.call.ref}/call.ics")
        assert answer["Content-Disposition"] == 'attachment; filename="call.ics"'
        assert answer["Content-Type"] == "text/calendar; charset=utf-8"
        assert entries(answer.content) == [self.house_entry()]
