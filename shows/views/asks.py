"""What a show asks: of each of its numbers, and of all of them."""

from collections.abc import Iterable, Mapping
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from shows.access import engagement_for, engagement_to_write, spot_in
from shows.actions import change_show_asks, change_spot_asks
from shows.forms.asks import ShowAsksForm, SpotAsksForm
from shows.models import ShowSpot
from shows.tonight import show_instant
from shows.views.ask_page import ask_context, frames_there
from shows.wording.asks import overwritten_words
from venue.views.saving import actor_of, is_saved


@require_safe
def ask_list(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Every number with what the show asks of it."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    may_write = may_write and not engagement.has_ended
    return render(request, "shows/ask_list.html", {**ask_context(engagement), "may_write": may_write})


@require_http_methods(["GET", "HEAD", "POST"])
def spot_asks(request: HttpRequest, ref: UUID, spot_ref: UUID) -> HttpResponse:
    """Say by hand what one number asks."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    spot = spot_in(engagement, spot_ref)
    others, frames = engagement.spots.standing(), frames_there(spot, show_instant(engagement))
    form = SpotAsksForm(request.POST or None, row=spot, others=others, unit_frames=frames)
    number, before = spot.number, {field.name: getattr(spot, field.name) for field in spot._meta.concrete_fields}

    def act() -> None:
        change_spot_asks(actor=actor_of(request), spot=spot, seen=form.seen, values=form.values())

    if is_saved(form, act):
        _tell_stored(request, spot, before)
        return redirect("shows:ask_list", ref)
    context = {"engagement": engagement, "spot": spot, "number": number, "form": form}
    return render(request, "shows/spot_asks.html", context)


def _tell_stored(request: HttpRequest, spot: ShowSpot, before: Mapping[str, Any]) -> None:
    """Stored; and what of it does not outlast newer paperwork."""
    messages.success(request, _("Stored for show %(number)s.") % {"number": spot.number})
    overwritten = overwritten_words(_differing(spot, before))
    if overwritten:
        told = _("Newer paperwork overwrites this: %(what)s. Have the tour correct its paperwork too.")
        messages.warning(request, told % {"what": overwritten})


def _differing(spot: ShowSpot, before: Mapping[str, Any]) -> Iterable[str]:
    return [name for name, value in before.items() if getattr(spot, name) != value]


@require_http_methods(["GET", "HEAD", "POST"])
def show_asks(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Say what holds for all numbers of the show."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    form = ShowAsksForm(request.POST or None, row=engagement)

    def act() -> None:
        change_show_asks(actor=actor_of(request), engagement=engagement, seen=form.seen, values=form.values())

    if is_saved(form, act):
        messages.success(request, _("Stored."))
        return redirect("shows:ask_list", ref)
    return render(request, "shows/show_asks.html", {"engagement": engagement, "form": form})
