"""Rows of asking and telling for the table of access: two questions, a message, somebody's own link."""

from typing import Any

from crew.actions import add_person, make_call
from crew.actions.offers import ask, open_line
from crew.facts import CallFacts
from crew.models import Call, CallLine, Message
from crew.person_links import renew_person_link
from tests.factories import ACTOR, NOON


def asked_rows(call: Call, line: CallLine) -> dict[str, Any]:
    """One question on the call, one on another call to whoever is on the line, whose link it is."""
    assert line.person is not None
    facts = CallFacts(call=call.engagement.events.get(kind="load-in").starts_wall)
    event = call.engagement.events.get(kind="load-in")
    other = make_call(actor=ACTOR, roster=call.roster, event=event, facts=facts)
    somebody = add_person(actor=ACTOR, roster=call.roster, name="Tove Brandauer-Lind")
    number = call.engagement.spots.standing().last().number
    wanted = {"answer_by": None, "at": NOON}
    free = open_line(call=call, number=number, seat=9)
    (offer,) = ask(actor=ACTOR, line=free, people=[somebody], **wanted)
    bare = open_line(call=other, number=number, seat=1)
    (question,) = ask(actor=ACTOR, line=bare, people=[line.person], **wanted)
    made = renew_person_link(actor=ACTOR, person=line.person, now=NOON)
    refs = {"offer": offer.ref, "question": question.ref, "mine": made.link.ref, "mine_secret": made.secret}
    return {**refs, "message": Message.objects.get(offer=offer).ref}
