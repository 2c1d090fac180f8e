"""Two say yes at the same instant, or two senders take up messages: one takes each."""

from functools import partial

import pytest
import time_machine
from django.core import mail

from crew.actions.offers import accept, ask, open_line
from crew.errors import OfferIsOver
from crew.mailing import send_all
from crew.models import CallLine, Message, Offer
from tests.crew.stage import Stage, a_stage
from tests.factories import ACTOR, NOON, hours
from tests.racing import race

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("shared_database")]


def asked(stage: Stage) -> list[Offer]:
    line = open_line(call=stage.call, number="1", seat=1)
    return ask(actor=ACTOR, line=line, people=stage.people, answer_by=NOON + hours(6), at=NOON)


def test_of_five_who_say_yes_at_once_exactly_one_takes_the_line() -> None:
    with time_machine.travel(NOON, tick=False):
        offers = asked(a_stage(2))
        outcomes = race([partial(accept, actor=ACTOR, offer=offer, at=NOON) for offer in offers])
    (taken,) = [outcome for outcome in outcomes if isinstance(outcome, CallLine)]
    assert {type(outcome) for outcome in outcomes if outcome is not taken} == {OfferIsOver}
    assert CallLine.objects.get(number_key="1", ended_at=None).person == taken.person
    answers = list(Offer.objects.values_list("answer", flat=True))
    assert (answers.count("accepted"), answers.count("filled")) == (1, 4)
    assert Message.objects.filter(kind="booked").count() == 1


def test_senders_at_once_send_no_message_twice() -> None:
    with time_machine.travel(NOON, tick=False):
        stage = a_stage(2)
        for at, person in enumerate(stage.people):
            person.email = f"person-{at}@crew.example"
            person.save()
        asked(stage)
        outcomes = race([partial(send_all, lambda: NOON, "http://localhost")] * 3)
    assert sum(outcome["sent"] for outcome in outcomes) == 5
    assert sorted(message.to[0] for message in mail.outbox) == [f"person-{at}@crew.example" for at in range(5)]
    assert set(Message.objects.values_list("delivery", "tries")) == {("sent", 1)}
