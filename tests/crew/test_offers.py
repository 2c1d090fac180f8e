"""Asking people for a line: who answers what, who takes it, who is asked next."""

from datetime import timedelta
from functools import partial
from typing import ClassVar
from unittest.mock import patch

import pytest
import time_machine
from django.db import connection
from django.test import TestCase
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from crew.actions import call_off, end_person, fill_call, give_number, make_call, put_at_spot_talk, put_on_number
from crew.actions.offers import accept, ask, decline, expire, open_line, withdraw
from crew.actions.people import forget_person, lock_person
from crew.candidates import asked_of
from crew.errors import AnswerTooLate, NobodyAsked, NotToBeAsked, OfferIsOver
from crew.line_errors import PassesOver
from crew.models import CallLine, Message, Offer, PassedOver, Person, Roster
from crew.offers import AskedLine, asked_lines, lines_to_ask
from crew.people_errors import AskedMeanwhile
from crew.sheet_content import draft_of
from crew.wording.sheet import filled
from shows.actions import add_show_event
from tests.crew.stage import SHOW_STARTS, Stage, a_stage, call_facts
from tests.factories import ACTOR, NOON, hours
from venue.errors import AlreadyExists, DomainError
from venue.models import Event

UNTIL = NOON + hours(6)


@time_machine.travel(NOON, tick=False)
class AskingTest(TestCase):
    stage: ClassVar[Stage]

    @classmethod
    def setUpTestData(cls) -> None:
        with time_machine.travel(NOON, tick=False):
            cls.stage = a_stage(4)

    def line(self, number: str = "3") -> CallLine:
        return open_line(call=self.stage.call, number=number, seat=1)

    def ask(self, *people: int, **facts: object) -> list[Offer]:
        wanted = {"line": self.line(), "people": [self.stage.people[at] for at in people], "answer_by": UNTIL}
        return ask(actor=ACTOR, at=NOON, **{**wanted, **facts})  # type: ignore[arg-type]

    def told(self, person: Person | int) -> list[str]:
        who = self.stage.people[person] if isinstance(person, int) else person
        return [f"{m.kind} {m.delivery}" for m in Message.objects.filter(person=who).order_by("pk")]

    def answers(self) -> list[str]:
        return [offer.answer for offer in Offer.objects.order_by("pk")]

    def asked(self) -> dict[str, AskedLine]:
        return {each.seat[0]: each for each in asked_lines(asked_of(self.stage.call))}

    def test_the_first_yes_takes_the_line_and_the_others_are_told(self) -> None:
        first, second, third = self.ask(0, 1, 2)
        Message.objects.filter(person=third.person).update(delivery="sent", sent_at=NOON)
        line = accept(actor=ACTOR, offer=second, at=NOON, note="gladly")
        assert (line.person, line.number) == (second.person, "3")
        assert self.answers() == ["filled", "accepted", "filled"]
        assert self.told(1) == ["offer dropped", "booked waiting"]
        assert self.told(2) == ["offer sent", "filled waiting"]
        assert self.told(0) == ["offer dropped"]  # nobody hears that something is filled who was never asked
        with pytest.raises(OfferIsOver, match="Somebody else was quicker"):
            accept(actor=ACTOR, offer=first, at=NOON)

    def test_a_yes_that_fails_a_check_says_why_and_stays_open_with_the_reason_on_it(self) -> None:
        person = self.stage.people[0]
        event = add_show_event(
            actor=ACTOR, engagement=self.stage.cast.engagement, kind="show", starts=SHOW_STARTS + hours(1)
        )
        late = call_facts(call=SHOW_STARTS, talk=None)
        other = make_call(actor=ACTOR, roster=self.stage.cast.roster, event=event, facts=late)
        (offer,) = self.ask(0)
        put_on_number(actor=ACTOR, call=other, number="1", person=person)
        with pytest.raises(DomainError, match="another call"):
            accept(actor=ACTOR, offer=offer, at=NOON)
        offer.refresh_from_db()
        assert offer.answer == ""
        assert "Said yes; not taken: Ada Quillfeather is on another call" in offer.note
        assert self.line().person is None

    def test_whoever_says_no_is_off_and_the_note_never_enters_the_history(self) -> None:
        (offer,) = self.ask(0)
        decline(actor=ACTOR, offer=offer, at=NOON, note="my back hurts")
        offer.refresh_from_db()
        assert (offer.answer, offer.note, offer.answered_by) == ("declined", "my back hurts", "tests")
        assert list(lines_to_ask()) == [offer.line]
        assert self.asked()["3"].is_to_ask
        assert "back" not in str(list(Event.objects.values_list("data", flat=True)))

    def test_in_turn_the_next_is_asked_when_the_one_before_says_no_or_nothing_by_the_time(self) -> None:
        first, second, third = self.ask(0, 1, 2, in_turn=True)
        assert (self.told(0), self.told(1)) == (["offer waiting"], [])
        decline(actor=ACTOR, offer=first, at=NOON)
        second.refresh_from_db()
        assert (self.told(1), self.told(2)) == (["offer waiting"], [])
        assert (second.asked_at, second.answer_by) == (NOON, UNTIL)
        assert expire(actor=ACTOR, now=UNTIL - hours(1)) == 0
        with time_machine.travel(UNTIL, tick=False):
            assert expire(actor=ACTOR, now=UNTIL) == 1
        third.refresh_from_db()
        assert self.answers() == ["declined", "no-answer", ""]
        assert self.told(2) == ["offer waiting"]
        assert (third.asked_at, third.answer_by) == (UNTIL, UNTIL + hours(6))
        assert not lines_to_ask().exists()

    def test_nobody_left_to_ask_is_shown_as_to_ask_the_next(self) -> None:
        self.ask(0, 1)
        assert expire(actor=ACTOR, now=UNTIL) == 2
        assert expire(actor=ACTOR, now=UNTIL) == 0
        assert self.asked()["3"].is_to_ask and not self.asked()["2"].is_to_ask

    def test_a_question_may_be_taken_back(self) -> None:
        (offer,) = self.ask(0)
        Message.objects.update(delivery="sent", sent_at=NOON)
        withdraw(actor=ACTOR, offer=offer, at=NOON)
        assert self.told(0) == ["offer sent", "filled waiting"]
        assert [m.offer.answer for m in Message.objects.filter(kind="filled") if m.offer] == ["withdrawn"]

    def test_whoever_leaves_or_is_forgotten_is_asked_no_more_and_the_next_in_turn_is(self) -> None:
        self.ask(0, 1, 2, in_turn=True)
        self.ask(0, 1, line=self.line("4"))
        ada, mira = (Person.objects.get(pk=self.stage.people[at].pk) for at in (0, 1))
        end_person(actor=ACTOR, person=ada, at=NOON, reason="moved away")
        assert self.answers() == ["withdrawn", "", "", "withdrawn", ""]
        assert self.told(1) == ["offer waiting"] * 2
        forget_person(actor=ACTOR, person=mira, seen=mira.version, at=NOON, reason="asked for it")
        assert self.answers() == ["withdrawn", "withdrawn", "", "withdrawn", "withdrawn"]
        assert self.told(2) == ["offer waiting"]
        assert Event.objects.filter(verb="offer.withdrawn").count() == 4

    def test_who_is_asked_for_another_call_in_the_moment_of_leaving_stays_on_the_roster(self) -> None:
        ada = Person.objects.get(pk=self.stage.people[0].pk)

        def asked_first(person: Person) -> Person:
            self.ask(0)
            return lock_person(person)

        with (
            patch("crew.actions.people.lock_person", asked_first),
            pytest.raises(AskedMeanwhile, match="send it again"),
        ):
            end_person(actor=ACTOR, person=ada, at=NOON, reason="moved away")
        assert not Offer.objects.exists() and not Person.objects.get(pk=ada.pk).has_ended
        end_person(actor=ACTOR, person=ada, at=NOON, reason="moved away")
        with pytest.raises(NotToBeAsked):
            self.ask(0)

    def test_somebody_put_on_by_hand_ends_the_questions(self) -> None:
        self.ask(0, 1)
        put_on_number(actor=ACTOR, call=self.stage.call, number="3", person=self.stage.people[1])
        assert self.answers() == ["filled", "accepted"]

    def test_an_open_line_with_questions_outlives_the_form_and_ends_with_the_call(self) -> None:
        (offer,) = self.ask(0)
        call = self.stage.call
        call.refresh_from_db()
        people = {("3", 1): None, ("1", 1): self.stage.people[4]}
        fill_call(actor=ACTOR, call=call, people=people, at_spot_talk=[], at=NOON, seen=call.version)
        assert not CallLine.objects.get(pk=offer.line_id).has_ended
        call_off(actor=ACTOR, call=call, at=NOON, reason="storm")
        assert self.answers() == ["withdrawn"]
        assert self.told(4) == ["booked dropped", "called-off waiting"]

    def test_who_can_not_be_asked_is_named_and_nobody_is(self) -> None:
        self.ask(0)
        with pytest.raises(NotToBeAsked, match="Ada Quillfeather: asked already"):
            self.ask(0, 1)
        with pytest.raises(NobodyAsked):
            self.ask()
        for wrong in (NOON, self.stage.call.call_at + timedelta(minutes=1)):
            with pytest.raises(AnswerTooLate):
                self.ask(1, answer_by=wrong)
        with pytest.raises(AnswerTooLate):  # the last in turn would answer after the call
            self.ask(1, 2, answer_by=self.stage.call.call_at, in_turn=True)
        assert Offer.objects.count() == 1

    def test_nobody_is_asked_for_a_line_that_somebody_is_on(self) -> None:
        put_on_number(actor=ACTOR, call=self.stage.call, number="3", person=self.stage.people[0])
        with pytest.raises(AlreadyExists, match="Somebody is on this line"):
            self.ask(1)

    def test_asked_counts_as_to_fill(self) -> None:
        for at, number in enumerate(("1", "2")):
            put_on_number(actor=ACTOR, call=self.stage.call, number=number, person=self.stage.people[at])
        self.ask(3)
        assert filled(draft_of(self.stage.call).sheet) == "2 of 4, 2 to fill"

    # -- where the list is strict, here by the alphabet: Ada, Dov, Júlia, Zofia, Мира

    def strictly(self) -> None:
        Roster.objects.update(is_strict=True)
        self.stage.call.roster.refresh_from_db()

    def passed(self) -> list[tuple[str, str]]:
        return list(PassedOver.objects.order_by("pk").values_list("person__name", "reason"))

    def test_asking_past_the_list_takes_a_reason_once_for_each_and_line_and_a_yes_takes_none(self) -> None:
        self.strictly()
        put_on_number(actor=ACTOR, call=self.stage.call, number="1", person=self.stage.people[0])
        with pytest.raises(PassesOver, match="Dov Halloran comes earlier on the list and can come"):
            self.ask(4)
        assert not Offer.objects.exists() and not Message.objects.filter(kind="offer").exists()
        (offer,) = self.ask(4, reason="knows the show")
        assert self.passed() == [("Dov Halloran", "knows the show")]
        decline(actor=ACTOR, offer=offer, at=NOON)
        with pytest.raises(PassesOver, match="Zofia"):  # Dov is written down, Júlia was asked
            self.ask(1, in_turn=True)
        first, second = self.ask(2, 1, in_turn=True)
        assert len(self.passed()) == 1
        decline(actor=ACTOR, offer=first, at=NOON)
        assert accept(actor=ACTOR, offer=second, at=NOON).person == self.stage.people[1]
        assert len(self.passed()) == 1

    def test_putting_one_person_on_a_line_keeps_to_the_list_too(self) -> None:
        self.strictly()
        put = {"actor": ACTOR, "call": self.stage.call}
        for act in (partial(put_on_number, number="1"), put_at_spot_talk):
            with pytest.raises(PassesOver, match="Ada Quillfeather comes earlier"):
                act(person=self.stage.people[3], **put)
        line = put_at_spot_talk(person=self.stage.people[3], at=NOON, reason="lives near", **put)
        put_on_number(person=self.stage.people[0], number="1", **put)
        assert self.passed() == [("Ada Quillfeather", "lives near")]
        give_number(actor=ACTOR, line=line, number="2", at=NOON, seen=line.version)
        assert len(self.passed()) == 1

    def test_whoever_said_no_to_the_call_is_not_passed_over(self) -> None:
        self.strictly()
        (offer,) = self.ask(0)
        decline(actor=ACTOR, offer=offer, at=NOON)
        put_on_number(actor=ACTOR, call=self.stage.call, number="1", person=self.stage.people[3])
        assert self.passed() == []

    def test_the_pages_say_who_would_be_passed_over_and_ask_why(self) -> None:
        self.client.force_login(self.stage.cast.dispatch)
        assert 'name="passing"' not in self.page("?number=3&seat=1")
        self.strictly()
        assert "number 2 on the list" in self.page("?number=3&seat=1")
        dov = str(self.stage.people[3].ref)
        asking = {"number": "3", "seat": 1, "people": [dov], "way": "all", "answer_by": "2026-03-02T13:00"}
        for name, sent in (("offer_new", asking), ("day_extra", {"person": dov})):
            page = self.client.post(self.address(name), sent).content.decode()
            assert "Ada Quillfeather comes earlier on the list and can come. Write why" in page, name
            assert self.client.post(self.address(name), {**sent, "passing": "lives near"}).status_code == 302, name
        assert self.passed() == [("Ada Quillfeather", "lives near")] * 2
        assert "nobody yet: others were asked" in self.client.get(self.address("passed_over")).content.decode()

    # -- the pages of dispatch

    def address(self, name: str, *more: object) -> str:
        return reverse(f"crew:{name}", args=[self.stage.call.ref, *more])

    def page(self, query: str = "") -> str:
        return self.client.get(self.address("offer_new") + query).content.decode()

    def test_people_are_asked_on_a_page_and_what_they_say_by_phone_is_written_down(self) -> None:
        self.client.force_login(self.stage.cast.dispatch)
        assert "TO FILL: nobody is asked yet" in self.client.get(self.address("offers")).content.decode()
        assert "Ada Quillfeather" in self.page("?number=3&seat=1")
        refs = [self.stage.people[at].ref for at in (4, 0)]
        sent = {"number": "3", "seat": 1, "people": refs, "way": "in-turn", "answer_by": "2026-03-02T13:00"}
        assert self.client.post(self.address("offer_new"), sent).status_code == 302
        first, second = Offer.objects.order_by("asked_at")
        assert [offer.person for offer in (first, second)] == [self.stage.people[4], self.stage.people[0]]
        self.client.post(self.address("offer_answer", first.ref), {"answer": "declined", "note": "ill"})
        page = self.client.get(self.address("offers")).content.decode()
        assert "declined, Mar 2, 2026, 7:00 AM: ill" in page and "NO ANSWER YET" in page
        self.client.post(self.address("offer_answer", second.ref), {"answer": "accepted"})
        assert CallLine.objects.get(number_key="3", ended_at=None).person == second.person

    def test_what_is_wrong_with_a_question_is_said_at_its_field_and_the_ticks_stay(self) -> None:
        self.client.force_login(self.stage.cast.dispatch)
        ref = str(self.stage.people[0].ref)
        for wrong, words in (
            ({"people": []}, "Tick at least one person."),
            ({"people": ["nobody"]}, "is not a valid UUID"),
            ({"answer_by": "2026-03-09T12:00"}, "Choose a time from now until the call"),
            ({"answer_by": "soon"}, "Enter a valid date/time."),
        ):
            sent = {"number": "3", "seat": 1, "people": [ref], "way": "all", "answer_by": "2026-03-02T13:00", **wrong}
            page = self.client.post(self.address("offer_new"), sent).content.decode()
            assert words in page.replace("“", "").replace("”", ""), words
            assert ("checked" in page.split("Whom to ask")[1].split("</fieldset>")[0]) == ("people" not in wrong)
        assert not Offer.objects.exists()

    def test_a_line_that_is_none_or_taken_leads_back_to_the_list(self) -> None:
        self.client.force_login(self.stage.cast.dispatch)
        put_on_number(actor=ACTOR, call=self.stage.call, number="3", person=self.stage.people[0])
        for query in ("", "?number=3&seat=1", "?number=99&seat=1", "?seat=-1", "?number=%00&seat=99999999999"):
            assert self.client.get(self.address("offer_new") + query).status_code == 302

    def test_the_page_asks_as_much_for_four_lines_and_many_questions_as_for_one(self) -> None:
        self.client.force_login(self.stage.cast.dispatch)
        self.ask(0)
        few = self.cost()
        for number in ("1", "2", "4"):
            self.ask(1, 2, 3, 4, line=self.line(number))
        assert self.cost() == few

    def cost(self) -> int:
        with CaptureQueriesContext(connection) as queries:
            assert self.client.get(self.address("offers")).status_code == 200
        return len(queries)
