"""Dispatch: who is missing from the next call?"""

from datetime import datetime, timedelta

from django.db.models import Exists, OuterRef
from django.urls import reverse
from django.utils.translation import gettext as _

from crew.access import events_to_call, houses_served, rosters_for
from crew.landing.card import Card
from crew.models import Call, Roster
from crew.sheet_content import draft_of
from crew.wording.readiness import to_fill
from crew.wording.sheet import fill_words, moment
from shows.models import ShowEvent
from venue.access import Visitor

STILL_ON = timedelta(hours=6)
"""How long after its event has begun a call is still the next one."""


def dispatch_card(user: Visitor, now: datetime) -> Card | None:
    """The answer for the next call of the user's rosters; None for who dispatches none."""
    roster = rosters_for(user).order_by("name", "pk").first()
    if roster is None:
        return None
    role, question = _("Dispatch"), _("Who is missing from the next call?")
    call = _next_call(user, now)
    sentence, url, label = _of_call(call) if call else _without_call(user, roster, now)
    return Card(role, question, sentence, url, label)


def _next_call(user: Visitor, now: datetime) -> Call | None:
    own = Call.objects.standing().filter(roster__in=rosters_for(user), event__ended_at__isnull=True)
    coming = own.filter(event__starts_at__gt=now - STILL_ON).order_by("call_at", "pk")
    return coming.select_related("event", "engagement__house", "engagement__setup").first()


def _of_call(call: Call) -> tuple[str, str, str]:
    sheet, url = draft_of(call).sheet, reverse("crew:call", args=[call.ref])
    told = {
        "when": moment(call.call_wall),
        "show": call.engagement.name,
        "house": call.engagement.house.name,
        "filled": fill_words(sheet.filled, sheet.wanted),
    }
    sentence = _("Call %(when)s, %(show)s at %(house)s: %(filled)s.") % told
    if not sheet.to_fill:
        return sentence, url, _("Open the call")
    return f"{sentence} {to_fill(tuple(sheet.open_numbers))}", url, _("Fill the call")


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
