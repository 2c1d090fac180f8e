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
from venue.views.shown_once import ShownOnce


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
        public = reverse("shows:advance_read", args=[made[0].link.ref, made[0].secret])
        return shown_once(engagement).to_page(request, public)
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
    return {
        "link": advance_link_of(engagement, now),
        "new_address": shown_once(engagement).address(request),
        "form": form or AdvanceLinkForm(engagement=engagement, now=now),
    }


def shown_once(engagement: Engagement) -> ShownOnce:
    """How a new link's address comes to the list."""
    return ShownOnce("advance-link", reverse("shows:advance", args=[engagement.ref]), salt=str(engagement.ref))
