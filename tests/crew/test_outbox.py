"""Messages: written with what gives cause, sent at least once, never twice in silence, never with a contact in them."""

import json
import smtplib
from datetime import timedelta
from io import StringIO
from typing import ClassVar
from unittest.mock import patch

import pytest
import time_machine
from django.core import mail
from django.core.management import call_command
from django.test import TestCase
from django.urls import reverse

from crew.actions import call_off, fill_call, issue_call_sheet, put_on_number, take_off
from crew.actions.lines import replace_person
from crew.actions.offers import ask, open_line
from crew.actions.sending import claim_next, told_by_hand
from crew.errors import NotInThisState
from crew.mailing import send_all
from crew.models import CallLine, Message, Person
from crew.outbox import messages_of, stuck, unseen
from crew.person_links import end_person_link, link_of, renew_person_link
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON, hours
from venue.models import Event

SITE = "http://localhost"
SEND = "django.core.mail.backends.locmem.EmailBackend.send_messages"


@time_machine.travel(NOON, tick=False)
class OutboxTest(TestCase):
    stage: ClassVar[Stage]
    ada: ClassVar[Person]
    mira: ClassVar[Person]

    @classmethod
    def setUpTestData(cls) -> None:
        with time_machine.travel(NOON, tick=False):
            cls.stage = a_stage(3)
            cls.ada, cls.mira = cls.stage.people[:2]
            cls.ada.email, cls.ada.phone = "ada.q@crew.example", "555-0101"
            cls.ada.save()

    def put(self, person: Person | None = None, number: str = "1") -> CallLine:
        return put_on_number(actor=ACTOR, call=self.stage.call, number=number, person=person or self.ada)

    def told(self, person: Person) -> list[str]:
        rows = Message.objects.filter(person=person).exclude(delivery="dropped").order_by("pk")
        return [f"{m.kind} {m.delivery}" for m in rows]

    def send(self, after: timedelta = timedelta(0)) -> dict[str, int]:
        return dict(send_all(lambda: NOON + after, SITE))

    # -- what gives cause

    def test_who_changes_numbers_hears_of_the_new_one_alone(self) -> None:
        self.put()
        self.put(self.mira, "2")
        call = self.stage.call
        call.refresh_from_db()
        people = {("1", 1): self.mira, ("2", 1): self.ada}
        fill_call(actor=ACTOR, call=call, people=people, at_spot_talk=[], at=NOON, seen=call.version)
        assert (self.told(self.ada), self.told(self.mira)) == (["booked waiting"], ["booked waiting"])

    def test_a_replaced_person_is_told_by_whom_when_and_why(self) -> None:
        line = self.put()
        self.send()
        at, seen = NOON + hours(1), CallLine.objects.get(pk=line.pk).version
        replace_person(actor=ACTOR, line=line, person=self.mira, at=at, reason="sick", seen=seen)
        assert self.told(self.mira) == ["booked waiting"]
        assert self.send() == {"sent": 1, "by-hand": 1}
        text = mail.outbox[-1]
        assert text.subject.startswith("You are not on this call any more: Nine Paper Boats")
        assert "Мира Лисовская has it now; released Mar 2, 2026, 8:00 AM: sick" in text.body

    def test_a_revision_is_told_to_those_whom_it_concerns_and_to_nobody_of_a_call_that_is_off(self) -> None:
        self.put()
        self.put(self.mira, "2")
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        assert (self.told(self.ada), self.told(self.mira)) == (["revision waiting"], ["revision waiting"])
        self.send()
        spot = self.stage.cast.engagement.spots.get(number="1")
        spot.channel = "C"
        spot.save()
        issue_call_sheet(actor=ACTOR, call=self.stage.call, now=NOON)
        assert self.told(self.ada) == ["revision sent", "revision waiting"]
        assert self.told(self.mira) == ["revision by-hand"]
        call = self.stage.call
        call.refresh_from_db()
        call_off(actor=ACTOR, call=call, at=NOON, reason="storm")
        issue_call_sheet(actor=ACTOR, call=call, now=NOON)
        assert self.told(self.ada) == ["revision sent", "called-off waiting"]
        self.send()
        assert "Why: storm" in mail.outbox[-1].body

    def test_nobody_is_told_of_a_call_that_is_over(self) -> None:
        line = self.put()
        with time_machine.travel(self.stage.call.ends_at, tick=False):
            take_off(actor=ACTOR, line=line, at=self.stage.call.ends_at, reason="gone home")
        assert [m.kind for m in Message.objects.all()] == ["booked"]

    # -- sending

    def test_a_mail_has_all_that_a_person_needs_and_a_link_that_opens_the_own_page(self) -> None:
        line = open_line(call=self.stage.call, number="1", seat=1)
        ask(actor=ACTOR, line=line, people=[self.ada], answer_by=NOON + hours(6), at=NOON)
        assert self.send() == {"sent": 1}
        (sent,) = mail.outbox
        assert sent.to == ["ada.q@crew.example"]
        for words in (
            "Nine Paper Boats, Show, Quillmark Hall",
            "Call: Mar 3, 2026, 6:30 PM, stage door",
            "Show 1 = house 3: Rear booth, place 3",
            "Please answer by Mar 2, 2026, 1:00 PM.",
        ):
            assert words in sent.body, sent.body
        address = sent.body.split("Answer here, no account is needed: ")[1].split()[0]
        assert self.client.get(address.removeprefix(SITE)).status_code == 200

    def test_at_a_retry_the_message_id_is_the_same(self) -> None:
        self.put()
        with patch(SEND, side_effect=smtplib.SMTPServerDisconnected("ada.q@crew.example")):
            assert self.send() == {"failed": 1}
        assert self.send() == {}  # not at once
        assert self.send(timedelta(minutes=6)) == {"sent": 1}
        row = Message.objects.get()
        headers = [str(sent.message()["Message-ID"]) for sent in mail.outbox]
        assert headers == [f"<{row.message_id}@throwbook.invalid>"]
        assert (row.tries, row.delivery) == (2, "sent")

    def test_a_server_that_is_down_leaves_the_rest_waiting_and_a_refused_address_does_not(self) -> None:
        self.mira.email = "mira@crew.example"
        self.mira.save()
        self.put()
        self.put(self.mira, "2")
        with patch(SEND, side_effect=ConnectionRefusedError):
            assert self.send() == {"failed": 1}
        assert (self.told(self.ada), self.told(self.mira)) == (["booked failed"], ["booked waiting"])
        refused = smtplib.SMTPRecipientsRefused({"mira@crew.example": (550, b"no mira@crew.example here")})
        with patch(SEND, side_effect=refused):
            assert self.send(timedelta(minutes=6)) == {"failed": 2}
        assert Message.objects.get(person=self.mira).trouble == "the mail server refused the address (550)"

    def test_what_was_taken_up_and_never_ended_is_shown_and_not_sent_again(self) -> None:
        self.put()
        assert claim_next(NOON) is not None
        assert self.send(hours(1)) == {} and not mail.outbox
        assert [m.person for m in stuck(NOON + hours(1))] == [self.ada]
        self.client.force_login(self.stage.cast.dispatch)
        page = reverse("crew:outbox", args=[self.stage.cast.roster.ref])
        with time_machine.travel(NOON + hours(1), tick=False):
            assert "Maybe sent: nobody knows (1)" in self.client.get(page).content.decode()
            row = Message.objects.get()
            address = reverse("crew:message", args=[self.stage.cast.roster.ref, row.ref])
            assert "MAYBE SENT" in self.client.get(address).content.decode()
            self.client.post(address, {"version": row.version, "what": "again"})
        assert self.send(hours(1)) == {"sent": 1}

    def test_without_an_address_it_is_told_by_hand_and_marked_by_a_tap(self) -> None:
        self.put(self.mira)
        assert self.send() == {"by-hand": 1}
        row = Message.objects.get()
        self.client.force_login(self.stage.cast.dispatch)
        address = reverse("crew:message", args=[self.stage.cast.roster.ref, row.ref])
        page = self.client.get(address).content.decode()
        assert "no e-mail address" in page and "you are on this call:" in page and "/mine/" in page
        self.client.post(address, {"version": row.version, "what": "told"})
        assert self.told(self.mira) == ["booked sent"]
        with pytest.raises(NotInThisState):
            told_by_hand(actor=ACTOR, message=row, at=NOON, seen=row.version)

    def test_without_a_mail_server_everything_is_told_by_hand(self) -> None:
        self.put()
        with self.settings(EMAIL_IS_ON=False):
            assert self.send() == {"by-hand": 1}
        assert Message.objects.get().trouble == "no mail server is set up"

    def test_what_is_not_true_any_more_is_not_sent(self) -> None:
        self.put()
        Message.objects.update(delivery="sending", claimed_at=NOON)  # taken up, so that nothing else drops it
        CallLine.objects.update(ended_at=NOON, ends_at=NOON, starts_at=NOON, ended_reason="gone")
        Message.objects.update(delivery="waiting")
        assert self.send() == {"dropped": 1} and not mail.outbox

    def test_the_command_answers_in_json_and_ends_what_nobody_answered(self) -> None:
        line = open_line(call=self.stage.call, number="2", seat=1)
        ask(actor=ACTOR, line=line, people=[self.mira, self.ada], answer_by=NOON + hours(1), at=NOON, in_turn=True)
        out = StringIO()
        with time_machine.travel(NOON + hours(1), tick=False):
            call_command("send_outbox", "--json", stdout=out)
        assert json.loads(out.getvalue()) == {
            "unanswered": 1,
            "sent": 1,
            "failed": 0,
            "by_hand": 0,
            "dropped": 0,
            "maybe_sent": 0,
        }
        assert mail.outbox[0].subject.startswith("Can you come?")

    # -- contacts, links, who has not seen it

    def test_no_contact_enters_a_message_or_the_history(self) -> None:
        self.put()
        with patch(SEND, side_effect=smtplib.SMTPRecipientsRefused({self.ada.email: (550, self.ada.email.encode())})):
            self.send()
        self.send(timedelta(minutes=6))
        stored = str([*Message.objects.values(), *Event.objects.values()])
        assert "crew.example" not in stored and "555-0101" not in stored

    def test_a_link_switched_off_stays_off_and_a_message_goes_without(self) -> None:
        self.put()
        renew_person_link(actor=ACTOR, person=self.ada, now=NOON)
        end_person_link(actor=ACTOR, person=self.ada, now=NOON)
        self.send()
        assert link_of(self.ada, NOON) is None
        assert "/mine/" not in mail.outbox[0].body

    def test_who_was_released_and_did_nothing_since_is_listed_until_told_by_hand(self) -> None:
        line = self.put()
        self.send()
        take_off(actor=ACTOR, line=line, at=NOON, reason="sick")
        self.send()
        rows = messages_of(self.stage.cast.roster)
        (row,) = unseen(rows)
        self.client.force_login(self.stage.cast.dispatch)
        page = self.client.get(reverse("crew:offers", args=[self.stage.call.ref])).content.decode()
        assert "Released or changed, and not known to have seen it" in page and "555-0101" in page
        told_by_hand(actor=ACTOR, message=row, at=NOON, seen=row.version)
        assert not unseen(rows).exists()
