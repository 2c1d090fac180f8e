"""Somebody's own page, by the link in every message: questions to answer, calls to come, what was taken away.

No account; looking changes nothing.
"""

from collections.abc import Callable
from datetime import datetime
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from crew.access import person_behind
from crew.actions import confirm_line
from crew.actions.offers import accept, decline
from crew.actions.sending import note_read, note_seen_on
from crew.calendars import person_call_calendar
from crew.forms.offers import AnswerForm
from crew.mine import coming_of, mine_of
from crew.models import Call, Offer, Person
from crew.models.offers import Answer
from crew.views.answering import calendar_response
from crew.wording.mine import page_of_mine
from shows.views.telling import told
from venue.actions import use_link
from venue.errors import LinkRefused
from venue.history import Actor
from venue.models import Link
from venue.views.asking import asked_too_often, unlisted

SEEN_A_MINUTE = 120
"""From one connection by links that work: a crew room shares one."""
Body = Callable[[HttpRequest, Person, Link, datetime], HttpResponse]


def _behind(request: HttpRequest, ref: UUID, secret: str, body: Body) -> HttpResponse:
    """The page for whoever has the address, kept out of lists; else why it is refused."""
    now = timezone.now()
    refused = asked_too_often(request, now, "mine", most=SEEN_A_MINUTE)
    if refused is not None:
        return refused
    try:
        person, link = person_behind(ref, secret, now)
        return unlisted(body(request, person, link, now))
    except LinkRefused:
        often = asked_too_often(request, now, "mine-refused")
        return often or unlisted(render(request, "crew/mine_refused.html", status=404))


@login_not_required
@require_safe
def mine(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """All of it."""

    def body(request: HttpRequest, person: Person, link: Link, now: datetime) -> HttpResponse:
        context = {"person": person, "ref": link.ref, "secret": secret, **page_of_mine(mine_of(person, now))}
        return render(request, "crew/mine.html", context)

    return _behind(request, ref, secret, body)


@login_not_required
@require_POST
def mine_answer(request: HttpRequest, ref: UUID, secret: str, offer_ref: UUID) -> HttpResponse:
    """Yes or no to a question, with a few words."""

    def body(request: HttpRequest, person: Person, link: Link, now: datetime) -> HttpResponse:
        offer = Offer.objects.filter(person=person, ref=offer_ref).select_related("person", "line__call").first()
        if offer is None:
            raise Http404
        form = AnswerForm(request.POST)
        if not form.is_valid():
            problems = [problem for errors in form.errors.values() for problem in errors]
            messages.error(request, " ".join(map(str, problems)))
            return _back(ref, secret)
        _answer(request, form, offer, link, now)
        return _back(ref, secret)

    return _behind(request, ref, secret, body)


def _answer(request: HttpRequest, form: AnswerForm, offer: Offer, link: Link, now: datetime) -> None:
    """What was refused is told, and written on the offer for dispatch."""
    is_yes = form.cleaned_data["answer"] == Answer.ACCEPTED
    done: str | Promise = _("You are on the call. Thank you.") if is_yes else _("Thank you for the answer.")
    actor, verb = _actor(offer.person), accept if is_yes else decline
    use_link(actor=actor, link=link, now=now)
    with told(request, done):
        verb(actor=actor, offer=offer, at=now, note=form.cleaned_data["note"])


@login_not_required
@require_POST
def mine_seen(request: HttpRequest, ref: UUID, secret: str, line_ref: UUID, n: int) -> HttpResponse:
    """The person has seen revision n of the sheet."""

    def body(request: HttpRequest, person: Person, link: Link, now: datetime) -> HttpResponse:
        line = coming_of(person, now).filter(ref=line_ref).first()
        if line is None:
            raise Http404
        sheet = line.call.sheets.filter(kind="call-sheet", n=n).first()
        if sheet is None:
            raise Http404
        with told(request, _("Noted: you have seen revision %(n)s.") % {"n": n}), transaction.atomic():
            use_link(actor=_actor(person), link=link, now=now)
            confirm_line(actor=_actor(person), line=line, sheet=sheet, by=person.name, at=now)
            note_seen_on(line.call, person, at=now)
        return _back(ref, secret)

    return _behind(request, ref, secret, body)


@login_not_required
@require_POST
def mine_read(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The person has seen what was taken away, called off or changed, as far as the page showed it."""

    def body(request: HttpRequest, person: Person, link: Link, now: datetime) -> HttpResponse:
        with told(request, _("Noted: you have seen it.")), transaction.atomic():
            use_link(actor=_actor(person), link=link, now=now)
            note_read(person, at=now, until=_shown_until(request, person, now))
        return _back(ref, secret)

    return _behind(request, ref, secret, body)


def _shown_until(request: HttpRequest, person: Person, now: datetime) -> datetime:
    """When the last message was made that the page showed: what came since was not seen."""
    try:
        ref = UUID(request.POST.get("until", ""))
    except ValueError:
        return now
    made_at: datetime | None = person.messages.filter(ref=ref).values_list("made_at", flat=True).first()
    return made_at or now


@login_not_required
@require_safe
def mine_calendar(request: HttpRequest, ref: UUID, secret: str, call_ref: UUID) -> HttpResponse:
    """One call as a file for a calendar."""

    def body(request: HttpRequest, person: Person, link: Link, now: datetime) -> HttpResponse:
        call = Call.objects.filter(ref=call_ref, roster=person.roster_id).first()
        content = person_call_calendar(person, call) if call else None
        if content is None:
            raise Http404
        return calendar_response(content, "call")

    return _behind(request, ref, secret, body)


def _actor(person: Person) -> Actor:
    return Actor.of_link(_("%(name)s, by the own link") % {"name": person.name})


def _back(ref: UUID, secret: str) -> HttpResponse:
    return redirect("crew:mine", ref, secret)
