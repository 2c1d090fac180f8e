"""Somebody's own page, by the link in every message: no account, and looking changes nothing."""

from typing import Any, ClassVar

import time_machine
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import TestCase
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from crew.actions import call_off, change_call, issue_call_sheet, make_call, put_on_number, take_off
from crew.actions.lines import replace_person, set_own_time
from crew.actions.offers import ask, open_line
from crew.actions.sending import told_by_hand
from crew.models import Call, CallLine, LineConfirmation, Message, Offer, Person
from crew.outbox import messages_of, unseen
from crew.person_links import PersonLink, end_person_link, renew_person_link
from shows.actions import add_show_event
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON, hours
from venue.models import Event, Link


@time_machine.travel(NOON, tick=False)
class MineTest(TestCase):
    stage: ClassVar[Stage]
    ada: ClassVar[Person]
    mira: ClassVar[Person]
    link: ClassVar[PersonLink]

    @classmethod
    def setUpTestData(cls) -> None:
        with time_machine.travel(NOON, tick=False):
            cls.stage = a_stage(3)
            cls.ada, cls.mira = cls.stage.people[:2]
            cls.mira.email, cls.mira.phone = "mira@crew.example", "555-0102"
            cls.mira.save()
            position = cls.stage.places[0].position
            position.show_exit = "no"
            position.save()
            cls.link = renew_person_link(actor=ACTOR, person=cls.ada, now=NOON)

    def setUp(self) -> None:
        cache.clear()

    def address(self, name: str = "mine", *more: Any) -> str:
        return reverse(f"crew:{name}", args=[self.link.link.ref, self.link.secret, *more])

    def page(self) -> str:
        return " ".join(self.client.get(self.address()).content.decode().split())

    def put(self, person: Person, number: str) -> CallLine:
        return put_on_number(actor=ACTOR, call=self.stage.call, number=number, person=person)

    def asked(self, number: str = "1") -> Offer:
        line = open_line(call=self.stage.call, number=number, seat=1)
        (offer,) = ask(actor=ACTOR, line=line, people=[self.ada], answer_by=NOON + hours(6), at=NOON)
        return offer

    def answer(self, offer: Offer, answer: str, note: str = "") -> HttpResponse:
        data = {"answer": answer, "note": note}
        return self.client.post(self.address("mine_answer", offer.ref), data, follow=True)  # type: ignore[return-value]

    def test_looking_shows_the_question_with_all_that_counts_and_changes_nothing(self) -> None:
        self.put(self.mira, "2")
        self.asked()
        before = Event.objects.count()
        page = self.page()
        for words in ("Ada Quillfeather", "Nine Paper Boats", "Mar 3, 2026, 6:30 PM, stage door", "Rear booth"):
            assert words in page
        assert "Please answer by Mar 2, 2026, 1:00 PM." in page and "No way out during the show" in page
        assert "Who else:</span> 2 Мира Лисовская" in page and "No sheet is issued yet" in page
        assert "mira@crew.example" not in page and "555-0102" not in page
        assert (Event.objects.count(), Link.objects.get().last_used_at) == (before, None)

    def test_it_is_kept_out_of_lists_caches_and_other_sites_logs(self) -> None:
        response = self.client.get(self.address())
        assert response["X-Robots-Tag"] == "noindex, nofollow"
        assert (response["Cache-Control"], response["Referrer-Policy"]) == ("no-store", "same-origin")

    def test_yes_takes_the_line_and_no_with_a_note_leaves_it(self) -> None:
        offer = self.asked()
        assert "Thank you for the answer." in self.answer(offer, "declined", "at the sea").content.decode()
        offer.refresh_from_db()
        assert (offer.answer, offer.note) == ("declined", "at the sea")
        assert offer.answered_by == "Ada Quillfeather, by the own link"
        assert "You are on the call" in self.answer(self.asked("2"), "accepted").content.decode()
        assert CallLine.objects.get(number_key="2", ended_at=None).person == self.ada
        assert "This was answered with no already." in self.answer(offer, "accepted").content.decode()

    def test_a_yes_that_is_refused_says_why(self) -> None:
        offer = self.asked()
        self.put(self.ada, "3")  # which takes the other question back
        assert "was taken back" in self.answer(offer, "accepted").content.decode()

    def test_an_answer_that_is_none_is_asked_for_again(self) -> None:
        offer = self.asked()
        for bad in ({}, {"answer": "perhaps"}, {"answer": "accepted", "note": "x" * 201}, {"answer": "a\0"}):
            assert self.client.post(self.address("mine_answer", offer.ref), bad).status_code == 302
        offer.refresh_from_db()
        assert offer.answer == ""

    def test_a_new_revision_is_confirmed_by_the_person_and_asked_for_only_where_it_says_something_else(self) -> None:
        line = self.put(self.ada, "1")
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        assert "Revision 1: not confirmed by you yet." in self.page()
        self.client.post(self.address("mine_seen", line.ref, 1))
        assert LineConfirmation.objects.get().by == "Ada Quillfeather"
        assert "You have confirmed it." in self.page()
        self.put(self.mira, "2")
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        assert "You have confirmed it." in self.page()
        spot = self.stage.cast.engagement.spots.get(number="1")
        spot.channel = "C"
        spot.save()
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        assert "Revision 3: not confirmed by you yet." in self.page()
        late = self.client.post(self.address("mine_seen", line.ref, 1), follow=True).content.decode()
        assert "Revision 3 was issued meanwhile" in late

    def test_a_replaced_person_reads_released_by_whom_when_and_why_and_says_seen(self) -> None:
        line = self.put(self.ada, "1")
        seen = CallLine.objects.get(pk=line.pk).version
        replace_person(actor=ACTOR, line=line, person=self.mira, at=NOON, reason="sick", seen=seen)
        page = self.page()
        assert "RELEASED:" in page and "Мира Лисовская has it now; released Mar 2, 2026, 7:00 AM: sick" in page
        rows = messages_of(self.stage.cast.roster)
        assert [m.person for m in unseen(rows)] == [self.ada]
        self.client.get(self.address())
        self.answer(self.asked("2"), "declined")  # whoever answers something else has not seen this
        assert [m.person for m in unseen(rows)] == [self.ada]
        self.client.post(self.address("mine_read"), {"until": "no such\0thing"})
        assert not unseen(rows).exists()
        page = self.page()
        assert "RELEASED:" not in page and "Not yours any more" in page

    def test_what_changed_is_new_until_it_is_seen_and_what_came_after_the_page_still_is(self) -> None:
        line = self.put(self.ada, "1")
        Message.objects.update(delivery="sent", sent_at=NOON)
        set_own_time(actor=ACTOR, line=line, own=SHOW_STARTS - hours(3), seen=line.version)
        page = self.page()
        assert "CHANGED:" in page and "Call before: Mar 3, 2026, 6:30 PM" in page
        shown = Message.objects.get(kind="changed")
        Message.objects.update(delivery="sent", sent_at=NOON)
        with time_machine.travel(NOON + hours(1), tick=False):
            self.change(place="loading dock")
            self.client.post(self.address("mine_read"), {"until": str(shown.ref)})
            assert [m.seen_at is None for m in Message.objects.filter(kind="changed").order_by("pk")] == [False, True]
            assert "CHANGED:" in self.page()
            self.client.post(self.address("mine_read"))
            assert "CHANGED:" not in self.page()

    def test_whoever_has_seen_the_sheet_has_seen_what_changed_on_that_call(self) -> None:
        line = self.put(self.ada, "1")
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        Message.objects.update(delivery="sent", sent_at=NOON)
        self.change(weather="rain")
        self.client.post(self.address("mine_seen", line.ref, 1))
        assert set(Message.objects.filter(seen_at=NOON).values_list("kind", flat=True)) == {"changed", "revision"}

    def test_a_call_that_is_off_is_new_until_it_is_seen(self) -> None:
        self.put(self.ada, "1")
        call_off(actor=ACTOR, call=Call.objects.get(), at=NOON, reason="storm")
        assert "I have seen this" in self.page()
        self.client.post(self.address("mine_read"))
        page = self.page()
        assert "I have seen this" not in page and "CALLED OFF, nobody is to come:" in page

    def test_the_board_names_who_has_not_seen_it_with_a_number_for_dispatch_alone(self) -> None:
        self.put(self.ada, "1")
        line = self.put(self.mira, "2")
        take_off(actor=ACTOR, line=line, at=NOON, reason="sick")
        for who, has_number in (("dispatch", True), ("head", False)):
            self.client.force_login(getattr(self.stage.cast, who))
            response = self.client.get(reverse("crew:calls"))
            page = response.content.decode()
            assert "NOT SEEN:</strong> Мира Лисовская is not on the call any more" in page
            assert ("tel:555-0102" in page, "555-0102" in page) == (has_number, has_number)
            assert response["Cache-Control"] == "private, no-store"
        told_by_hand(actor=ACTOR, message=Message.objects.get(kind="released"), at=NOON, seen=1)
        assert "NOT SEEN:" not in self.client.get(reverse("crew:calls")).content.decode()

    def change(self, **facts: object) -> None:
        call = Call.objects.get(pk=self.stage.call.pk)
        change_call(actor=ACTOR, call=call, facts=call_facts(**facts), seen=call.version)

    def test_the_calendar_file_is_of_own_calls_alone(self) -> None:
        assert self.client.get(self.address("mine_calendar", self.stage.call.ref)).status_code == 404
        self.put(self.ada, "1")
        response = self.client.get(self.address("mine_calendar", self.stage.call.ref))
        assert response["Content-Type"].startswith("text/calendar") and b"BEGIN:VEVENT" in response.content

    def test_what_is_another_persons_is_not_found(self) -> None:
        line = open_line(call=self.stage.call, number="1", seat=1)
        (offer,) = ask(actor=ACTOR, line=line, people=[self.mira], answer_by=None, at=NOON)
        other = self.put(self.stage.people[2], "2")
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        for address in (self.address("mine_answer", offer.ref), self.address("mine_seen", other.ref, 1)):
            assert self.client.post(address, {"answer": "accepted"}).status_code == 404

    def test_an_address_that_does_not_work_says_nothing_of_anybody(self) -> None:
        wrong = reverse("crew:mine", args=[self.link.link.ref, self.link.secret[:-1]])
        assert self.client.get(wrong).status_code == 404
        with self.settings(SECRET_KEY="another key than before"):
            assert self.client.get(self.address()).status_code == 404
        end_person_link(actor=ACTOR, person=self.ada, now=NOON)
        response = self.client.get(self.address())
        assert response.status_code == 404 and "Ada" not in response.content.decode()

    def test_whoever_left_the_roster_has_no_page(self) -> None:
        Person.objects.filter(pk=self.ada.pk).update(ended_at=NOON, ended_reason="moved")
        assert self.client.get(self.address()).status_code == 404

    def test_trying_addresses_comes_to_an_end(self) -> None:
        wrong = reverse("crew:mine", args=[self.link.link.ref, "x"])
        assert [self.client.get(wrong).status_code for _ in range(32)][-1] == 429

    def test_a_page_of_twenty_calls_asks_as_much_as_one_of_two(self) -> None:
        self.many(1, 2)
        few = self.cost()
        self.many(3, 20)
        assert self.cost() == few

    def many(self, first: int, last: int) -> None:
        """Calls on as many days, on every other one the person is on number 1, for the rest asked."""
        for day in range(first, last + 1):
            starts = SHOW_STARTS + hours(24 * day)
            event = add_show_event(actor=ACTOR, engagement=self.stage.cast.engagement, kind="show", starts=starts)
            facts = call_facts(call=starts - hours(1), talk=None)
            call = make_call(actor=ACTOR, roster=self.stage.cast.roster, event=event, facts=facts)
            if day % 2:
                put_on_number(actor=ACTOR, call=call, number="1", person=self.ada)
            else:
                line = open_line(call=call, number="1", seat=1)
                ask(actor=ACTOR, line=line, people=[self.ada], answer_by=None, at=timezone.now())
        assert Message.objects.exists()

    def cost(self) -> int:
        with CaptureQueriesContext(connection) as queries:
            assert self.client.get(self.address()).status_code == 200
        return len(queries)
