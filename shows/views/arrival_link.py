"""The road crew's link to an arrival check: made, renewed, switched off; its address and code are shown once."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from shows.access import arrival_link_of, engagement_to_write
from shows.actions.arrival_links import end_arrival_link, renew_arrival_link
from shows.forms.arrival import ArrivalLinkForm
from shows.views.arrival_door import Door, signed_in
from shows.views.arrival_page import overview_at
from shows.views.telling import told
from venue.actions import MadeLink
from venue.qr_code import qr_image
from venue.views.saving import actor_of, is_saved
from venue.views.shown_once import ShownOnce


@require_POST
def arrival_link(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Make the link, or a new one in place of the old."""
    now = timezone.now()
    door = signed_in(request, ref, now)
    form = ArrivalLinkForm(request.POST, engagement=door.engagement, now=now)
    made: list[MadeLink] = []

    def act() -> None:
        facts = {"engagement": door.engagement, "now": now, "until": form.cleaned_data["until"]}
        made.append(renew_arrival_link(actor=actor_of(request), **facts))

    if is_saved(form, act):
        messages.success(request, _("The link is made. Copy its address now: it is shown this once."))
        public = reverse("shows:arrive", args=[made[0].link.ref, made[0].secret])
        return shown_once(door).to_page(request, public)
    context = overview_at(door, now, **link_context(request, door, form))
    return render(request, "shows/arrival.html", context)


@require_POST
def arrival_link_off(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Switch the link off."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    with told(request, _("The link is off: its address opens nothing any more.")):
        end_arrival_link(actor=actor_of(request), engagement=engagement, now=now)
    return redirect("shows:arrival", ref)


def link_context(request: HttpRequest, door: Door, form: ArrivalLinkForm | None = None) -> dict[str, Any]:
    """The link that works, the address of one made just now in this browser, and the form; nothing for readers."""
    if not door.may_mark:
        return {}
    now, address = timezone.now(), shown_once(door).address(request)
    return {
        "link": arrival_link_of(door.engagement, now),
        "new_address": address,
        "new_code": qr_image(address) if address else "",
        "form": form or ArrivalLinkForm(engagement=door.engagement, now=now),
    }


def shown_once(door: Door) -> ShownOnce:
    """How a new link's address comes to the overview."""
    return ShownOnce("arrival-link", door.overview, salt=str(door.engagement.ref))
