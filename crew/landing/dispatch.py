"""Dispatch: who is missing from the next call? And who has not answered, who is still to be told?"""

from collections.abc import Iterator
from datetime import datetime, timedelta

from django.db.models import Exists, OuterRef
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crew.access import calls_for, events_to_call, houses_served, rosters_for
from crew.actions.outbox import UNTOLD
from crew.landing.card import Card
from crew.models import Call, Message, Roster
from crew.moments import moment
from crew.offers import calls_asking
from crew.outbox import unseen
from crew.readiness import Stop
from crew.sheet_content import state_of
from crew.wording.readiness import stop_sentence, to_fill
from crew.wording.sheet import fill_words
from shows.models import ShowEvent
from venue.access import Visitor

STILL_ON = timedelta(hours=6)
"""How long after its event has begun a call is still the next one."""
MOST_ASKING = 3
"""So many calls with open questions are named; the list of calls has all of them."""


def dispatch_card(user: Visitor, now: datetime) -> Card | None:
    """The answer for the next call of the user's rosters; None for who dispatches none."""
    roster = rosters_for(user).order_by("name", "pk").first()
    if roster is None:
        return None
    role, question = _("Dispatch"), _("Who is missing from the next call?")
    call = _next_call(user, now)
    sentence, url, label, sheet = _of_call(call) if call else (*_without_call(user, roster, now), "")
    return Card(role, question, sentence, url, label, tuple(filter(None, (sheet, *_more(user, now)))))


def _more(user: Visitor, now: datetime) -> Iterator[str]:
    """Which calls wait for answers, how many messages nobody was sent, who may not know what changed. Three queries."""
    for call in calls_asking(calls_for(user).filter(ends_at__gt=now))[:MOST_ASKING]:
        told = {"show": call.engagement.name, "when": moment(call.call_wall), "asked": _asked(call)}
        yield _("%(show)s, call %(when)s: %(asked)s.") % told
    messages = Message.objects.filter(call__roster__in=rosters_for(user), call__ends_at__gt=now)
    if number := messages.filter(delivery__in=UNTOLD).count():
        yield ngettext("%(n)s message waits to be told.", "%(n)s messages wait to be told.", number) % {"n": number}
    if number := unseen(messages).order_by().values("person").distinct().count():
        words = ngettext(
            "NOT SEEN: %(n)s person is not known to know what changed.",
            "NOT SEEN: %(n)s people are not known to know what changed.",
            number,
        )
        yield words % {"n": number}


def _asked(call: Call) -> str:
    """ "ASK THE NEXT for 1 line; 2 questions are open", of a call of `calls_asking`."""
    to_ask, unanswered = call.to_ask, call.unanswered  # type: ignore[attr-defined]
    asked = ngettext("ASK THE NEXT for %(n)s line", "ASK THE NEXT for %(n)s lines", to_ask) % {"n": to_ask}
    waits = ngettext("%(n)s question is open", "%(n)s questions are open", unanswered) % {"n": unanswered}
    return "; ".join(words for words, number in ((asked, to_ask), (waits, unanswered)) if number)


def _next_call(user: Visitor, now: datetime) -> Call | None:
    own = Call.objects.standing().filter(roster__in=rosters_for(user), event__ended_at__isnull=True)
    coming = own.filter(event__starts_at__gt=now - STILL_ON).order_by("call_at", "pk")
    return coming.select_related("event", "engagement__house", "engagement__setup").first()


def _of_call(call: Call) -> tuple[str, str, str, str]:
    """The answer, where to go, the button, and what is to be done about the sheet if anything is."""
    state, url = state_of(call), reverse("crew:call", args=[call.ref])
    sheet, issued = state.draft.sheet, "" if state.code == "current" else stop_sentence(Stop(state.code))
    told = {
        "when": moment(call.call_wall),
        "show": call.engagement.name,
        "house": call.engagement.house.name,
        "filled": fill_words(sheet.filled, sheet.wanted),
    }
    sentence = _("Call %(when)s, %(show)s at %(house)s: %(filled)s.") % told
    if not sheet.to_fill:
        return sentence, url, _("Open the call"), issued
    return f"{sentence} {to_fill(tuple(sheet.open_numbers))}", url, _("Fill the call"), issued


def _without_call(user: Visitor, roster: Roster, now: datetime) -> tuple[str, str, str]:
    if not roster.persons.standing().exists():
        sentence = _("Nobody is on the roster yet. Add its people first.")
        return sentence, reverse("crew:roster", args=[roster.ref]), _("Add people to the roster")
    event = _next_event(user, roster, now)
    if event is None:
        return _("No call is made, and no event is booked."), reverse("crew:calls"), _("All calls")
    told = {"event": event, "show": event.engagement.name}
    sentence = _("No call is made yet. The next event is %(show)s: %(event)s.") % told
    return sentence, reverse("crew:call_new", args=[event.ref]), _("Make the call")


def _next_event(user: Visitor, roster: Roster, now: datetime) -> ShowEvent | None:
    called = Call.objects.standing().filter(event=OuterRef("pk"))
    events = events_to_call(user).filter(engagement__house__in=houses_served(roster), starts_at__gt=now)
    return events.exclude(Exists(called)).order_by("starts_at", "pk").first()
