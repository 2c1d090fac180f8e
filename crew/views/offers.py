"""Asking people for a line of a call: who was asked, whom to ask, what they answered, who has to be told by phone."""

from collections.abc import Mapping
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crew.access import call_to_fill, offer_in, persons_to_call
from crew.actions.offers import accept, ask, decline, open_line, withdraw
from crew.candidates import Asked, Offers, asked_of
from crew.confirmations import confirmed_on, lines_by_key, waiting
from crew.core.call_sheet import read_sheet
from crew.core.filling.ranking import Ranked
from crew.forms.candidates import LineForm
from crew.forms.offers import AskForm, WrittenAnswerForm
from crew.line_needs import Seat
from crew.models import Call, CallLine, Person
from crew.models.offers import Answer
from crew.offers import AskedLine, asked_lines
from crew.outbox import latest_of_each, messages_of, unseen
from crew.sheet_content import draft_of, latest_sheet
from crew.wording import candidates as who_words
from crew.wording import offers as words
from crew.wording.people import apart_words, name_apart
from shows.views.telling import told
from venue.core.labels import label_key
from venue.core.names import name_key
from venue.views.saving import actor_of, is_saved

MOST_LISTED = 40
"""Of those who can come, the best; whoever else is meant is found by name."""
MOST_TYPED = 120


@require_safe
def offers(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Line by line who was asked and what they said; who lost a line, or has not confirmed, with a number to call."""
    call = call_to_fill(request.user, ref, timezone.now())
    lines, sheet = asked_lines(asked_of(call)), draft_of(call).sheet
    not_seen = latest_of_each(unseen(messages_of(call.roster).filter(call=call)))
    context = {
        "call": call,
        "answer": words.answer_sentence(lines, sheet),
        "lines": [_line(each, call, sheet.to_fill) for each in lines],
        "not_seen": not_seen,
        "unconfirmed": _unconfirmed(call),
    }
    return _private(render(request, "crew/offers.html", context))


def _line(asked: AskedLine, call: Call, to_fill: int) -> dict[str, Any]:
    number, seat = asked.seat
    return {
        "asked": asked,
        "number": asked.light.number if asked.light else number,
        "label": asked.light.place.label if asked.light and asked.light.place else "",
        "words": str(asked.line) if asked.line else "",
        "state": words.line_state(asked, to_fill),
        "is_short": asked.is_open and to_fill > 0,
        "offers": [{"offer": offer, "words": words.state_words(offer, call.zone)} for offer in asked.offers],
        "query": urlencode({"number": number, "seat": seat}),
    }


def _unconfirmed(call: Call) -> list[Person]:
    """Whoever has not confirmed what the latest sheet says, in its order."""
    latest = latest_sheet(call)
    if latest is None or call.has_ended:
        return []
    late = waiting(read_sheet(latest.content), confirmed_on(call, latest))
    lines = lines_by_key(call)
    return [line.person for key in dict.fromkeys(late) for line in lines.get(key, ()) if line.person]


@require_http_methods(["GET", "HEAD", "POST"])
def offer_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Choose whom to ask for one line, and by when the answer is wanted."""
    now, is_sent = timezone.now(), request.method == "POST"
    call = call_to_fill(request.user, ref, now)
    asked, seat = asked_of(call), _seat(request)
    line = _open_line(asked, seat)
    if seat is None or line is None:
        messages.info(request, _("Choose a line that nobody is on."))
        return redirect("crew:offers", ref=call.ref)
    form = AskForm(request.POST if is_sent else None, line=line, persons=persons_to_call(call), now=now)

    def act() -> None:
        given = form.cleaned_data
        chosen = {"people": given["people"], "answer_by": given["answer_by"], "reason": given["passing"]}
        with transaction.atomic():
            opened = open_line(call=call, number=line.number, seat=line.seat)
            ask(actor=actor_of(request), line=opened, at=now, in_turn=form.in_turn, **chosen)

    if is_saved(form, act):
        messages.success(request, _("The questions are on their way. Whoever has no e-mail is listed to be told."))
        return redirect("crew:offers", ref=call.ref)
    return render(request, "crew/offer_new.html", {"form": form, **_people(request, asked, seat, form)})


def _seat(request: HttpRequest) -> Seat | None:
    """The line that the address or the form names; a number as anybody may write it."""
    line = LineForm(request.POST if request.method == "POST" else request.GET).line
    return (label_key(line[0]) if line[0] else "", line[1]) if line else None


def _open_line(asked: Asked, seat: Seat | None) -> CallLine | None:
    """The line if nobody is on it, stored or not."""
    if seat is None or seat not in asked.wanted or asked.call.has_ended:
        return None
    line, light = asked.standing.get(seat), asked.lights.get(seat)
    if line is None:
        line = CallLine(call=asked.call, number=light.number if light else "", seat=seat[1])
        line.book(asked.call)
    return line if line.person_id is None else None


def _people(request: HttpRequest, asked: Asked, seat: Seat, form: AskForm) -> dict[str, Any]:
    """Who can come, the best first; whoever was ticked stays on the page."""
    against = Offers(asked)
    everybody, typed = against.ranked(seat), request.GET.get("q", "").replace("\0", "")[:MOST_TYPED]
    can_come = [who for who in everybody if who.can_come]
    found = [who for who in can_come if name_key(typed) in name_key(who.somebody.name)][:MOST_LISTED]
    ticked = set(form.sent_refs()) if form.is_bound else set()
    persons = Person.objects.in_bulk([who.somebody.key for who in found])
    listed = {str(person.ref) for person in persons.values()}
    more = asked.call.roster.persons.standing().filter(ref__in=_refs(ticked - listed))
    places = against.roll.listed if asked.call.roster.is_strict else {}
    rows = [(persons[who.somebody.key], _why(who, asked, seat, places)) for who in found]
    apart = apart_words(asked.call.roster.persons.standing())
    line, light = asked.standing.get(seat), asked.lights.get(seat)
    open_to = line.offers.filter(answer="").values_list("person", flat=True) if line else ()
    return {
        "call": asked.call,
        "line_words": who_words.line_words(asked, seat),
        "light": light,
        "number": seat[0],
        "seat": seat[1],
        "rows": [(person, name_apart(person, apart), why) for person, why in (*((each, []) for each in more), *rows)],
        "ticked": ticked,
        "asked_already": set(open_to),
        "summary": who_words.summary(everybody),
        "needs": who_words.needs_words(asked.wanted[seat], asked.kinds),
        "typed": typed,
        "has_more": len(can_come) > len(found),
    }


def _why(who: Ranked, asked: Asked, seat: Seat, places: Mapping[int, int]) -> list[str]:
    """Why somebody fits the line; `places` are those on the list, from 0, where it is strict."""
    place = places.get(who.somebody.key)
    return who_words.fit_words(who, asked.wanted[seat], asked, None if place is None else place + 1)


def _refs(texts: set[str]) -> list[UUID]:
    found = []
    for text in texts:
        try:
            found.append(UUID(text))
        except ValueError:
            continue
    return found


@require_POST
def offer_answer(request: HttpRequest, ref: UUID, offer_ref: UUID) -> HttpResponse:
    """Write down what somebody said by phone, or take the question back."""
    now = timezone.now()
    call = call_to_fill(request.user, ref, now)
    offer, form = offer_in(call, offer_ref), WrittenAnswerForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Choose what was said. Nothing was changed."))
        return redirect("crew:offers", ref=call.ref)
    facts: dict[str, Any] = {"actor": actor_of(request), "offer": offer, "at": now}
    with told(request, _("Stored.")):
        if form.cleaned_data["answer"] == Answer.WITHDRAWN:
            withdraw(**facts)
        else:
            verb = accept if form.cleaned_data["answer"] == Answer.ACCEPTED else decline
            verb(note=form.cleaned_data["note"], **facts)
    return redirect("crew:offers", ref=call.ref)


def _private(response: HttpResponse) -> HttpResponse:
    """Ways to reach people stay in no cache."""
    response.headers["Cache-Control"] = "private, no-store"
    return response
