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

SHOWN_ONCE = "arrival-link"
"""The cookie that takes a new link's address to the page that shows it; nothing on the server keeps it."""
SHOWN_WITHIN_S = 120


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
        return _shown_once(request, door, made[0])
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
    now, salt = timezone.now(), str(door.engagement.ref)
    address = request.get_signed_cookie(SHOWN_ONCE, default="", salt=salt, max_age=SHOWN_WITHIN_S)
    return {
        "link": arrival_link_of(door.engagement, now),
        "new_address": address or "",
        "new_code": qr_image(address) if address else "",
        "form": form or ArrivalLinkForm(engagement=door.engagement, now=now),
    }


def with_no_secret_kept(response: HttpResponse, page: str) -> HttpResponse:
    """The page, which no cache keeps, and without the cookie that it was shown from."""
    response.headers["Cache-Control"] = "private, no-store"
    response.delete_cookie(SHOWN_ONCE, path=page)
    return response


def _shown_once(request: HttpRequest, door: Door, made: MadeLink) -> HttpResponse:
    public = reverse("shows:arrive", args=[made.link.ref, made.secret])
    facts: dict[str, Any] = {"path": door.overview, "max_age": SHOWN_WITHIN_S, "httponly": True}
    facts |= {"secure": request.is_secure(), "samesite": "Strict", "salt": str(door.engagement.ref)}
    response = redirect(door.overview)
    response.set_signed_cookie(SHOWN_ONCE, request.build_absolute_uri(public), **facts)
    return response
