"""What was noted as in the way of one show, taken back with a reason. By both ways in."""

from datetime import datetime
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from shows.access import own_blockage_in
from shows.actions.arrival_visits import clear_blockage
from shows.arrival import arrival_of, check_instant
from shows.forms.arrival import ClearForm
from shows.views.arrival_door import NAME_KEPT, Door, behind, signed_in
from venue.models import Blockage
from venue.views.saving import is_saved

READ_AND_SEND = ["GET", "HEAD", "POST"]


@require_http_methods(READ_AND_SEND)
def arrival_blockage_end(request: HttpRequest, ref: UUID, blockage_ref: UUID) -> HttpResponse:
    """It is in the way no more."""
    return _end(request, signed_in(request, ref, timezone.now(), to_write=True), blockage_ref)


@login_not_required
@require_http_methods(READ_AND_SEND)
def arrive_blockage_end(request: HttpRequest, ref: UUID, secret: str, blockage_ref: UUID) -> HttpResponse:
    """The same, for whoever has the address."""
    return behind(request, ref, secret, lambda request, door: _end(request, door, blockage_ref))


def _end(request: HttpRequest, door: Door, blockage_ref: UUID) -> HttpResponse:
    now = timezone.now()
    blockage = own_blockage_in(door.engagement, blockage_ref)
    was_ended = blockage.has_ended
    form = ClearForm(request.POST or None, name=door.name_if_asked(request))

    def act() -> None:
        clear_blockage(
            actor=door.actor(request, form.cleaned_data.get("by", "")),
            engagement=door.engagement,
            blockage=blockage,
            reason=form.cleaned_data["reason"],
            at=now,
            link=door.link,
        )

    if is_saved(form, act):
        if door.link is not None:
            request.session[NAME_KEPT] = form.cleaned_data["by"]
        messages.success(request, _("Taken back: “%(words)s”. That it was noted stays.") % {"words": blockage.name})
        return redirect(_back(door, blockage, now))
    context = {"door": door, "engagement": door.engagement, "blockage": blockage, "was_ended": was_ended, "form": form}
    return render(request, "shows/arrival_blockage_end.html", context)


def _back(door: Door, blockage: Blockage, now: datetime) -> str:
    """The place that it stood in the way of, where it is in use; else the overview."""
    found = arrival_of(door.engagement, check_instant(door.engagement, now))
    checked = None if blockage.place is None else found.at_place(blockage.place.ref)
    return door.overview if checked is None else door.place(checked.place)
