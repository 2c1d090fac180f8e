"""A number put on another place during the arrival check: what it changes is shown first. By both ways in."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from shows.actions.renumbering import move_number
from shows.arrival import check_instant
from shows.forms.renumbering import MoveForm, PutForm
from shows.renumbering import Renumbering, Standing, moved, standing_of
from shows.views.arrival_door import NAME_KEPT, Door, behind, signed_in
from shows.wording import renumbering as words
from venue.views.saving import is_saved

READ_AND_SEND = ["GET", "HEAD", "POST"]


@require_http_methods(READ_AND_SEND)
def arrival_numbers(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Put a number on another place, or swap two."""
    return _numbers(request, signed_in(request, ref, timezone.now(), to_write=True))


@login_not_required
@require_http_methods(READ_AND_SEND)
def arrive_numbers(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The same, for whoever has the address."""
    return behind(request, ref, secret, _numbers)


def _numbers(request: HttpRequest, door: Door) -> HttpResponse:
    """Which number and where: by the query. What it changes: shown. Sent with what was seen: done."""
    now = timezone.now()
    standing = standing_of(door.engagement, check_instant(door.engagement, now))
    which = _which(request, standing)
    change = moved(standing, which.light, which.where, now) if which.is_bound and which.is_valid() else None
    form = PutForm(request.POST if change and request.method == "POST" else None, name=door.name_if_asked(request))

    def act() -> None:
        name = form.cleaned_data.get("by", "")
        move_number(
            actor=door.actor(request, name),
            engagement=door.engagement,
            light=which.cleaned_data["number"],
            place=which.where.ref,
            seen=form.cleaned_data["seen"],
            at=now,
            link=door.link,
        )

    if change and is_saved(form, act):
        if door.link is not None:
            request.session[NAME_KEPT] = form.cleaned_data["by"]
        messages.success(request, _("Stored. %(what)s.") % {"what": capfirst(words.done(change))})
        return redirect(door.overview)
    return render(request, "shows/arrival_numbers.html", _context(door, standing, which, change, form))


def _which(request: HttpRequest, standing: Standing) -> MoveForm:
    """Bound once a number is named; a place alone, as a place's own page has it, is only offered first."""
    if request.method == "POST":
        return MoveForm(request.POST, standing=standing)
    if "number" in request.GET:
        return MoveForm(request.GET, standing=standing)
    return MoveForm(standing=standing, initial={"place": request.GET.get("place", "")})


def _context(
    door: Door, standing: Standing, which: MoveForm, change: Renumbering | None, form: PutForm
) -> dict[str, Any]:
    context = {"door": door, "engagement": door.engagement, "which": which, "change": change, "form": form}
    if change is None:
        return context
    return {
        **context,
        "title": capfirst(words.title(change)),
        "moves": words.moves(change),
        "ready_now": words.ready(change.fit_now),
        "ready_then": words.ready(change.fit_then),
        "comes": words.findings(change.comes, door.engagement),
        "goes": words.findings(change.goes, door.engagement),
        "always": list(words.stays_and_goes()),
    }
