"""Who can come on a line of a call, people for all of them at once, and who was passed over."""

from collections.abc import Iterable
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import call_to_fill, persons_to_call
from crew.actions.choosing import choose_person, take_people
from crew.candidates import Asked, Offers, asked_of
from crew.core.filling.ranking import Ranked
from crew.forms.candidates import ChooseForm, LineForm, TakePeopleForm
from crew.line_needs import Seat
from crew.models import Call, PassedOver, Person
from crew.models.certifications import NeededFor
from crew.models.rosters import ReferralOrder
from crew.proposal import Proposed, proposed_for
from crew.wording import candidates as words
from crew.wording.people import apart_words, name_apart
from venue.core.labels import label_key
from venue.core.names import name_key
from venue.views.saving import actor_of, is_saved

ON_A_PAGE = 25
MOST_TYPED = 120


@require_http_methods(["GET", "HEAD", "POST"])
def line_who(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Everybody on the roster against one line, the best first, with why and why not; one tap puts somebody on it."""
    now, is_sent = timezone.now(), request.method == "POST"
    call = call_to_fill(request.user, ref, now)
    asked, seat = asked_of(call), _seat(request)
    form = ChooseForm(request.POST if is_sent else None, row=call, persons=persons_to_call(call))
    if seat is None or seat not in asked.wanted:
        return render(request, "crew/line_which.html", {"call": call, "lines": _lines(asked)})

    def act() -> None:
        chosen = {"person": form.cleaned_data["person"], "reason": form.cleaned_data["reason"]}
        choose_person(actor=actor_of(request), call=call, seat=seat, at=now, seen=form.seen, **chosen)

    if is_saved(form, act):
        messages.success(request, _("Stored. The sheet shows it after the next issue."))
        return redirect("crew:call", ref=call.ref)
    return render(request, "crew/line_who.html", {"form": form, **_who_context(request, asked, seat)})


def _seat(request: HttpRequest) -> Seat | None:
    """The line that the address or the form names; a number as anybody may write it."""
    line = LineForm(request.POST if request.method == "POST" else request.GET).line
    return (label_key(line[0]) if line[0] else "", line[1]) if line else None


def _lines(asked: Asked) -> list[dict[str, Any]]:
    """Every line of the call: its words, who is on it, its address."""
    return [_line(asked, seat) for seat in asked.wanted]


def _line(asked: Asked, seat: Seat) -> dict[str, Any]:
    line, light = asked.standing.get(seat), asked.lights.get(seat)
    return {
        "words": words.line_words(asked, seat),
        "number": light.number if light else line.number if line else "",
        "seat": seat[1],
        "light": light,
        "person": line.person if line else None,
        "query": urlencode({"number": seat[0], "seat": seat[1]}),
    }


def _who_context(request: HttpRequest, asked: Asked, seat: Seat) -> dict[str, Any]:
    offers = Offers(asked)
    people, typed = offers.ranked(seat), request.GET.get("q", "").replace("\0", "")[:MOST_TYPED]
    found = [who for who in people if name_key(typed) in name_key(who.somebody.name)] if typed else people
    page = Paginator(found, ON_A_PAGE).get_page(request.GET.get("page"))
    wanted, light = asked.wanted[seat], asked.lights.get(seat)
    return {
        "call": asked.call,
        "line": _line(asked, seat),
        "needs": words.needs_words(wanted, asked.kinds),
        "climbs": light is not None and NeededFor.CLIMB in light.asks,
        "summary": words.summary(people),
        "rows": _rows(page.object_list, offers, seat),
        "page": page,
        "typed": typed,
        "query": urlencode({"number": seat[0], "seat": seat[1], **({"q": typed} if typed else {})}) + "&",
    }


def _rows(people: Iterable[Ranked], offers: Offers, seat: Seat) -> list[dict[str, Any]]:
    """What the page says of each: why they fit, what is only told, what keeps them off."""
    people = list(people)
    persons = Person.objects.in_bulk([who.somebody.key for who in people])
    apart = apart_words(offers.asked.call.roster.persons.standing())
    chosen = ((who, persons[who.somebody.key]) for who in people)
    return [{"person": each, "name": name_apart(each, apart), **_said(who, offers, seat)} for who, each in chosen]


def _said(who: Ranked, offers: Offers, seat: Seat) -> dict[str, Any]:
    asked = offers.asked
    has_order = asked.call.roster.referral_order != ReferralOrder.ALPHABET
    place = offers.roll.listed[who.somebody.key] + 1 if has_order else None
    return {
        "can_come": who.can_come,
        "stops": words.bars_words(who.bars, asked.kinds, asked.call.zone, stops=True),
        "told": words.bars_words(who.bars, asked.kinds, asked.call.zone, stops=False),
        "why": words.fit_words(who, asked.wanted[seat], asked, place),
    }


@require_http_methods(["GET", "HEAD", "POST"])
def call_propose(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The best people for all open lines, line by line with why; one tap takes them all."""
    now, is_sent = timezone.now(), request.method == "POST"
    call = call_to_fill(request.user, ref, now)
    form = TakePeopleForm(request.POST if is_sent else None)

    def act() -> None:
        take_people(actor=actor_of(request), call=call, at=now, **form.cleaned_data)

    if is_saved(form, act):
        messages.success(request, _("Stored. The sheet shows it after the next issue."))
        return redirect("crew:call", ref=call.ref)
    return render(request, "crew/call_propose.html", {"form": form, **_proposal_context(call)})


def _proposal_context(call: Call) -> dict[str, Any]:
    proposed = proposed_for(call)
    chosen, unfilled = proposed.proposal.chosen, proposed.proposal.unfilled
    seats = [seat for seat in proposed.asked.wanted if seat in chosen or seat in unfilled]
    lines = [_proposed_line(proposed, seat) for seat in seats]
    return {
        "call": call,
        "proposed": proposed,
        "lines": lines,
        "staying": _staying(proposed),
        "open": sum(1 for line in lines if line["open"]),
        "climbs": any(NeededFor.CLIMB in light.asks for light in proposed.asked.lights.values()),
    }


def _proposed_line(proposed: Proposed, seat: Seat) -> dict[str, Any]:
    asked, who = proposed.asked, proposed.proposal.chosen.get(seat)
    said: dict[str, Any] = {**_line(asked, seat), "open": "", "who": None}
    if who is None:
        why = proposed.proposal.unfilled[seat]
        return {**said, "open": words.unfilled_words(why, asked.kinds)}
    is_here = who.somebody.key in asked.on_call
    return {**said, "who": who.somebody.name, "is_here": is_here, **_said(who, proposed.offers, seat)}


def _staying(proposed: Proposed) -> list[dict[str, Any]]:
    """Who is on a line already, and what speaks against it by now."""
    asked = proposed.asked
    people = {who.key: who for who in proposed.offers.roll.people}
    found = []
    for seat, line in asked.standing.items():
        if line.person is not None:
            bars = proposed.offers.bars_on(people.get(line.person_id or 0), asked.wanted[seat])
            found.append({**_line(asked, seat), "bars": [words.bar_words(bar, asked.kinds, line.zone) for bar in bars]})
    return found


@require_safe
def passed_over_list(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Who was passed over on the call, by line, with the reasons: to be looked at and printed."""
    call = call_to_fill(request.user, ref, timezone.now())
    rows = PassedOver.objects.filter(line__call=call).select_related("line__person", "person")
    groups: dict[tuple[int, str], dict[str, Any]] = {}
    for row in rows.order_by("at", "pk"):
        said = {"line": row.line, "reason": row.reason, "at": words.when(row.at, call.zone), "by": row.by, "names": []}
        groups.setdefault((row.line_id, row.reason), said)["names"].append(row.person.name)
    return render(request, "crew/passed_over.html", {"call": call, "groups": list(groups.values())})
