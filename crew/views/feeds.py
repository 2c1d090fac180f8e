"""Calls in a calendar: one as a file, and by a secret address those of a person or of a house, kept up to date.

The address of a calendar can be renewed and switched off; it is shown once.
"""

from dataclasses import dataclass
from hashlib import sha256
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.http import quote_etag
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crew.access import call_for, feed_subject, person_in, roster_for
from crew.actions.feeds import end_feed, renew_feed, working_feeds
from crew.calendar_file import MEDIA_TYPE
from crew.calendars import call_calendar, house_feed, person_feed
from crew.models import Person, Roster
from crew.views.answering import calendar_response
from shows.views.telling import told
from venue.access import house_to_write
from venue.errors import DomainError, LinkRefused
from venue.models import House
from venue.views.asking import asked_too_often, unlisted
from venue.views.saving import actor_of
from venue.views.shown_once import ShownOnce

ASKED_A_MINUTE = 240
"""A service that reads calendars for many people asks for all of theirs from one address."""


@require_safe
def call_ics(request: HttpRequest, ref: UUID) -> HttpResponse:
    """One call as a file for a calendar, for whoever sees the call."""
    call = call_for(request.user, ref, timezone.now())
    return calendar_response(call_calendar(call), "call")


@login_not_required
@require_safe
def feed(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The calendar for whoever has the address. Nothing is changed by reading it."""
    now = timezone.now()
    too_often = asked_too_often(request, now, "feeds", most=ASKED_A_MINUTE)
    if too_often is not None:
        return too_often
    try:
        subject = feed_subject(ref, secret, now)
    except LinkRefused:
        return unlisted(render(request, "crew/feed_refused.html", status=404))
    content = person_feed(subject, now) if isinstance(subject, Person) else house_feed(subject, now)
    return _if_new(request, content)


def _if_new(request: HttpRequest, content: bytes) -> HttpResponse:
    """The calendar, or that it is as the reader has it. Only the reader may keep it, and asks each time."""
    etag = quote_etag(sha256(content).hexdigest())
    response = unlisted(HttpResponse(content, content_type=MEDIA_TYPE))
    response.headers["Cache-Control"] = "private, no-cache"
    response.headers["ETag"] = etag
    return get_conditional_response(request, etag=etag, response=response) or response


@dataclass(frozen=True)
class Page:
    """A page on which a calendar's address is looked after."""

    subject: Person | House
    address: str
    off: str
    roster: Roster | None = None

    @property
    def shown_once(self) -> ShownOnce:
        """How a new address comes to the page."""
        return ShownOnce("feed-link", self.address, salt=str(self.subject.ref))

    @property
    def may_renew(self) -> bool:
        """Whoever left the roster gets no new address."""
        return isinstance(self.subject, House) or not self.subject.has_ended


@require_http_methods(["GET", "HEAD", "POST"])
def person_feed_page(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """The calendar of somebody on the roster, for dispatch."""
    return _answer(request, _page_of_person(request, ref, person_ref))


@require_POST
def person_feed_off(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Switch that calendar off."""
    return _switch_off(request, _page_of_person(request, ref, person_ref))


@require_http_methods(["GET", "HEAD", "POST"])
def house_feed_page(request: HttpRequest, slug: str) -> HttpResponse:
    """The calendar of all calls in a house, for its head."""
    return _answer(request, _page_of_house(request, slug))


@require_POST
def house_feed_off(request: HttpRequest, slug: str) -> HttpResponse:
    """Switch that calendar off."""
    return _switch_off(request, _page_of_house(request, slug))


def _page_of_person(request: HttpRequest, ref: UUID, person_ref: UUID) -> Page:
    roster, _may_write = roster_for(request.user, ref)
    address, off = (reverse(f"crew:person_feed{tail}", args=[ref, person_ref]) for tail in ("", "_off"))
    return Page(person_in(roster, person_ref), address, off, roster)


def _page_of_house(request: HttpRequest, slug: str) -> Page:
    house = house_to_write(request.user, slug)
    return Page(house, reverse("crew:house_feed", args=[slug]), reverse("crew:house_feed_off", args=[slug]))


def _answer(request: HttpRequest, page: Page) -> HttpResponse:
    if request.method == "POST":
        return _renewed(request, page)
    return page.shown_once.on_page(render(request, "crew/feed.html", _context(request, page)))


def _context(request: HttpRequest, page: Page) -> dict[str, Any]:
    link = working_feeds(page.subject, timezone.now()).first()
    kind = "person" if page.roster else "house"
    return {
        "page": page,
        kind: page.subject,
        "roster": page.roster,
        "link": link,
        "new_address": page.shown_once.address(request),
    }


def _renewed(request: HttpRequest, page: Page) -> HttpResponse:
    """A new address, which takes the way to the page in a cookie."""
    try:
        made = renew_feed(actor=actor_of(request), subject=page.subject, now=timezone.now())
    except DomainError as refusal:
        messages.error(request, str(refusal))
        return redirect(page.address)
    messages.success(request, _("The address is made. Copy it now: it is shown this once."))
    return page.shown_once.to_page(request, reverse("crew:feed", args=[made.link.ref, made.secret]))


def _switch_off(request: HttpRequest, page: Page) -> HttpResponse:
    with told(request, _("The calendar is off: its address opens nothing any more.")):
        end_feed(actor=actor_of(request), subject=page.subject, now=timezone.now())
    return redirect(page.address)
