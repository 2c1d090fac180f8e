"""Which places are in use tonight, what the show brings, and which number stands where."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from shows.access import engagement_for, engagement_to_write, place_for, position_for
from shows.actions import assign_spots, bring_place, bring_row, set_place_use
from shows.conditions import sentences_at
from shows.forms.places import AssignForm, PlaceUseForm, TourRowForm
from shows.models import Engagement
from shows.place_uses import positions_with_uses
from shows.tonight import compared, numbers_of, places_tonight, show_instant
from shows.views.telling import told
from venue.core.labels import label_key
from venue.forms.places import next_place, place_form
from venue.models import Place
from venue.views.saving import actor_of, is_saved


@require_safe
def place_list(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Every place of the house and of the show, in use or not."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    at = show_instant(engagement)
    context = {"engagement": engagement, "may_write": may_write, "at": at}
    return render(request, "shows/place_list.html", {**context, "positions": positions_with_uses(engagement, at)})


@require_POST
def place_use(request: HttpRequest, ref: UUID, place_ref: UUID) -> HttpResponse:
    """One tap: the place is in use tonight, or it is not."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    place = place_for(engagement, place_ref)
    form = PlaceUseForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Load the page anew, then tap again. Nothing was changed."))
        return redirect("shows:place_list", ref)
    in_use, seen = form.cleaned_data["in_use"], form.cleaned_data["version"]
    done = _("%(place)s is in use.") if in_use else _("%(place)s is not in use.")
    with told(request, done % {"place": place}):
        set_place_use(actor=actor_of(request), engagement=engagement, place=place, in_use=in_use, at=now, seen=seen)
    return redirect("shows:place_list", ref)


@require_http_methods(["GET", "HEAD", "POST"])
def row_bring(request: HttpRequest, ref: UUID) -> HttpResponse:
    """A position that the show brings: tour truss, tower, floor stands."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    form = TourRowForm(request.POST or None)

    def act() -> None:
        facts = {name: form.cleaned_data[name] for name in ("name", "zone", "kind", "labels")}
        bring_row(actor=actor_of(request), engagement=engagement, at=now, **facts)

    if is_saved(form, act):
        messages.success(request, _("Added for this show only. Its places are in use."))
        return redirect("shows:place_list", ref)
    return render(request, "shows/row_bring.html", {"engagement": engagement, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def place_bring(request: HttpRequest, ref: UUID, position_ref: UUID) -> HttpResponse:
    """A single place that the show brings into a position: a floor stand beside the booth's own."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    position = position_for(engagement, position_ref)
    form = place_form(request.POST or None, next_place(position, engagement.ref), engagement.setup)

    def act() -> None:
        bring_place(actor=actor_of(request), engagement=engagement, position=position, at=now, **form.values())

    if is_saved(form, act):
        messages.success(request, _("The place was added for this show only. It is in use."))
        return redirect("shows:place_list", ref)
    return render(request, "shows/place_bring.html", {"engagement": engagement, "position": position, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def assign(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Put numbers on places by hand."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    assignment = _assignment(engagement)
    form = AssignForm(request.POST or None, **assignment)

    def act() -> None:
        changed, seen = form.changed(), form.seen()
        if changed:
            assign_spots(actor=actor_of(request), engagement=engagement, places=changed, seen=seen, at=now)

    if is_saved(form, act):
        messages.success(request, _("Stored. What was put by hand stays when new paperwork comes."))
        return redirect("shows:compare", ref)
    context = {"engagement": engagement, "form": form}
    sentences = sentences_at(assignment["places"], show_instant(engagement))
    return render(request, "shows/assign.html", {**context, "unit_sentences": sentences})


def _assignment(engagement: Engagement) -> dict[str, Any]:
    """Where each of the show's numbers stands now, and the places in use."""
    tonight, numbers = places_tonight(engagement, show_instant(engagement)), numbers_of(engagement)
    shown: dict[str, list[Place]] = {}
    for pair in compared(engagement, tonight, numbers).pairs:
        shown.setdefault(label_key(pair.number), []).append(tonight.places[pair.slot])
    return {"shown": {spot: shown.get(spot.number_key, []) for spot in numbers.spots}, "places": tonight.places}
