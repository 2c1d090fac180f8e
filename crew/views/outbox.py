"""The messages of a roster: what waits, what failed, what may have gone out, what is to be told by hand; own links."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crew.access import message_in, person_in, roster_for, standing_person_in
from crew.actions.sending import drop, send_again, told_by_hand
from crew.forms.offers import MessageForm
from crew.mailing import link_address, text_of_message
from crew.models import Message, Roster
from crew.models.offers import Delivery
from crew.outbox import messages_of, stuck, to_do_about, unseen
from crew.person_links import end_person_link, link_of, renew_person_link
from crew.wording.offers import when
from shows.views.telling import told
from venue.qr_code import qr_image
from venue.views.saving import actor_of

MOST_LISTED = 100


@require_safe
def outbox(request: HttpRequest, ref: UUID) -> HttpResponse:
    """What is to be told and was not, by what is to be done about it."""
    roster, _may_write = roster_for(request.user, ref)
    found = to_do_about(roster, timezone.now())
    groups = [(name, rows.count(), list(rows[:MOST_LISTED])) for name, rows in found.items()]
    return _private(render(request, "crew/outbox.html", {"roster": roster, "groups": groups, "most": MOST_LISTED}))


@require_http_methods(["GET", "HEAD", "POST"])
def message(request: HttpRequest, ref: UUID, message_ref: UUID) -> HttpResponse:
    """One message in words, to copy and send by hand, and what became of it."""
    roster, _may_write = roster_for(request.user, ref)
    row = message_in(roster, message_ref)
    if request.method == "POST":
        return _dealt_with(request, roster, row)
    now = timezone.now()
    link = link_of(row.person, now)
    context = {
        "roster": roster,
        "message": row,
        "text": text_of_message(row, link_address(link, request.build_absolute_uri("/"))),
        "has_link": link is not None,
        "is_maybe": stuck(now).filter(pk=row.pk).exists(),
        "is_open": row.delivery not in {Delivery.SENT, Delivery.DROPPED},
        "sent_at": when(row.sent_at, row.call.zone),
        "seen_at": when(row.seen_at, row.call.zone),
        "is_by_hand": row.claimed_at is None,
        "is_to_be_seen": unseen(messages_of(roster).filter(pk=row.pk)).exists(),
    }
    return _private(render(request, "crew/outbox_message.html", context))


def _dealt_with(request: HttpRequest, roster: Roster, row: Message) -> HttpResponse:
    form = MessageForm(request.POST, row=row)
    if not form.is_valid():
        messages.error(request, _("Choose what became of the message. Nothing was changed."))
        return redirect("crew:message", roster.ref, row.ref)
    facts: dict[str, Any] = {"actor": actor_of(request), "message": row, "seen": form.seen}
    with told(request, _("Stored.")):
        if form.cleaned_data["what"] == "told":
            told_by_hand(at=timezone.now(), **facts)
        else:
            (send_again if form.cleaned_data["what"] == "again" else drop)(**facts)
    return redirect("crew:outbox", roster.ref)


@require_http_methods(["GET", "HEAD", "POST"])
def person_link(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """The address of somebody's own page, to hand it over; a new one in place of it."""
    roster, _may_write = roster_for(request.user, ref)
    now = timezone.now()
    if request.method == "POST":
        person = standing_person_in(roster, person_ref)
        renew_person_link(actor=actor_of(request), person=person, now=now)
        messages.success(request, _("The link is new. An address sent before opens nothing any more."))
        return redirect("crew:person_link", ref, person_ref)
    person = person_in(roster, person_ref)
    link = link_of(person, now)
    address = link_address(link, request.build_absolute_uri("/"))
    context = {"roster": roster, "person": person, "link": link, "address": address}
    context["code"] = qr_image(address) if address else ""
    return _private(render(request, "crew/mine_link.html", context))


@require_POST
def person_link_off(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Switch somebody's link off."""
    roster, _may_write = roster_for(request.user, ref)
    person = person_in(roster, person_ref)
    if end_person_link(actor=actor_of(request), person=person, now=timezone.now()):
        messages.success(request, _("The link is off: its address opens nothing any more."))
    else:
        messages.info(request, _("There is no link that works. Nothing was changed."))
    return redirect("crew:person_link", ref, person_ref)


def _private(response: HttpResponse) -> HttpResponse:
    """Ways to reach people stay in no cache."""
    response.headers["Cache-Control"] = "private, no-store"
    return response
