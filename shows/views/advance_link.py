"""The link of the tour's head to the house's answer: made, renewed, switched off; its address is shown once."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from shows.access import advance_link_of, engagement_to_write
from shows.actions.arrival_links import end_advance_link, renew_advance_link
from shows.advance import advance_of
from shows.forms.advance import AdvanceLinkForm
from shows.models import Engagement
from shows.views.advance_page import list_context
from shows.views.telling import told
from venue.actions import MadeLink
from venue.views.saving import actor_of, is_saved

SHOWN_ONCE = "advance-link"
"""The cookie that takes a new link's address to the page that shows it; nothing on the server keeps it."""
SHOWN_WITHIN_S = 120


@require_POST
def advance_link(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Make the link, or a new one in place of the old."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    form = AdvanceLinkForm(request.POST, engagement=engagement, now=now)
    made: list[MadeLink] = []

    def act() -> None:
        until = form.cleaned_data["until"]
        made.append(renew_advance_link(actor=actor_of(request), engagement=engagement, now=now, until=until))

    if is_saved(form, act):
        messages.success(request, _("The link is made. Copy its address now: it is shown this once."))
        return _shown_once(request, engagement, made[0])
    context = list_context(advance_of(engagement, now), may_write=not engagement.has_ended)
    return render(request, "shows/advance.html", {**context, **link_context(request, engagement, now, form)})


@require_POST
def advance_link_off(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Switch the link off."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    with told(request, _("The link is off: its address opens nothing any more.")):
        end_advance_link(actor=actor_of(request), engagement=engagement, now=now)
    return redirect("shows:advance", ref)


def link_context(
    request: HttpRequest, engagement: Engagement, now: datetime, form: AdvanceLinkForm | None = None
) -> dict[str, Any]:
    """The link that works, the address of one made just now in this browser, and the form."""
    salt = str(engagement.ref)
    address = request.get_signed_cookie(SHOWN_ONCE, default="", salt=salt, max_age=SHOWN_WITHIN_S)
    return {
        "link": advance_link_of(engagement, now),
        "new_address": address or "",
        "form": form or AdvanceLinkForm(engagement=engagement, now=now),
    }


def with_no_secret_kept(response: HttpResponse, engagement: Engagement) -> HttpResponse:
    """The page, which no cache keeps, and without the cookie that it was shown from."""
    response.headers["Cache-Control"] = "private, no-store"
    response.delete_cookie(SHOWN_ONCE, path=_page(engagement))
    return response


def _page(engagement: Engagement) -> str:
    return reverse("shows:advance", args=[engagement.ref])


def _shown_once(request: HttpRequest, engagement: Engagement, made: MadeLink) -> HttpResponse:
    public = reverse("shows:advance_read", args=[made.link.ref, made.secret])
    facts: dict[str, Any] = {"path": _page(engagement), "max_age": SHOWN_WITHIN_S, "httponly": True}
    facts |= {"secure": request.is_secure(), "samesite": "Strict", "salt": str(engagement.ref)}
    response = redirect(_page(engagement))
    response.set_signed_cookie(SHOWN_ONCE, request.build_absolute_uri(public), **facts)
    return response
