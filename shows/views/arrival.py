"""The arrival check: its overview, one place at a time, the signatures. The same pages signed in and by the link."""

from datetime import datetime
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from shows.actions.arrival_visits import add_look, sign_as
from shows.arrival import Arrival, CheckedPlace, arrival_of, check_instant
from shows.errors import CheckChanged
from shows.forms.arrival import LookForm, SignForm
from shows.models import CheckMark
from shows.views.arrival_door import NAME_KEPT, Door, behind, signed_in
from shows.views.arrival_link import link_context, shown_once
from shows.views.arrival_page import overview_at, place_context, sign_context
from shows.wording.arrival import stored
from venue.core.local_time import house_day
from venue.errors import Invalid
from venue.views.saving import is_saved

READ_AND_SEND = ["GET", "HEAD", "POST"]


@require_safe
def arrival(request: HttpRequest, ref: UUID) -> HttpResponse:
    """How far the check is, and the road crew's link."""
    door = signed_in(request, ref, timezone.now())
    response = _overview(request, door, **link_context(request, door))
    return shown_once(door).on_page(response)


@require_http_methods(READ_AND_SEND)
def arrival_place(request: HttpRequest, ref: UUID, place_ref: UUID) -> HttpResponse:
    """One place: what is expected there, and what is found."""
    return _place(request, signed_in(request, ref, timezone.now()), place_ref)


@require_http_methods(READ_AND_SEND)
def arrival_sign(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The check as it stands, signed by both sides."""
    return _sign(request, signed_in(request, ref, timezone.now()))


@login_not_required
@require_safe
def arrive(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The overview for whoever has the address. Nothing is changed by looking."""
    return behind(request, ref, secret, _overview)


@login_not_required
@require_http_methods(READ_AND_SEND)
def arrive_place(request: HttpRequest, ref: UUID, secret: str, place_ref: UUID) -> HttpResponse:
    """One place, for whoever has the address."""
    return behind(request, ref, secret, lambda request, door: _place(request, door, place_ref))


@login_not_required
@require_http_methods(READ_AND_SEND)
def arrive_sign(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The signature of the road crew, for whoever has the address."""
    return behind(request, ref, secret, _sign)


def _overview(request: HttpRequest, door: Door, **more: object) -> HttpResponse:
    return render(request, "shows/arrival.html", overview_at(door, timezone.now(), **more))


def _place(request: HttpRequest, door: Door, place_ref: UUID) -> HttpResponse:
    now = timezone.now()
    found = arrival_of(door.engagement, check_instant(door.engagement, now))
    checked = _checked(found, place_ref)
    form = LookForm(request.POST or None, name=door.name_for(request))
    made: list[CheckMark] = []

    def act() -> None:
        house, by = door.engagement.house, form.cleaned_data["by"]
        made[:] = add_look(
            actor=door.actor(request, by),
            engagement=door.engagement,
            place=checked.place,
            unit=checked.unit,
            found=form.found(checked),
            by=by,
            at=now,
            in_the_way=form.cleaned_data["in_the_way"],
            day=house_day(now, house.time_zone, house.day_turns_at),
            link=door.link,
        )

    if is_saved(form, act):
        request.session[NAME_KEPT] = form.cleaned_data["by"]
        _tell(request, checked, made, form.cleaned_data["in_the_way"])
        return redirect(_onward(door, checked, now))
    return render(request, "shows/arrival_place.html", place_context(door, found, checked, form, now))


def _checked(found: Arrival, place_ref: UUID) -> CheckedPlace:
    """The place in use. Raises Http404."""
    checked = found.at_place(place_ref)
    if checked is None:
        raise Http404
    return checked


def _onward(door: Door, checked: CheckedPlace, now: datetime) -> str:
    """The next place in walking order; the overview where every place was looked at."""
    following = arrival_of(door.engagement, check_instant(door.engagement, now)).next(after=checked.place)
    return door.overview if following is None else door.place(following.place)


def _tell(request: HttpRequest, checked: CheckedPlace, made: list[CheckMark], in_the_way: str) -> None:
    for is_warning, sentence in stored(checked, made, in_the_way):
        (messages.warning if is_warning else messages.success)(request, sentence)


def _sign(request: HttpRequest, door: Door) -> HttpResponse:
    now = timezone.now()
    found = arrival_of(door.engagement, check_instant(door.engagement, now))
    form = SignForm(request.POST or None, sides=door.sides, name=door.name_for(request))

    def act() -> None:
        if not found.is_begun:
            raise Invalid({"__all__": [_("Nothing is marked yet, so there is nothing to sign for.")]})
        if form.cleaned_data["sha256"] != found.sha256:
            raise CheckChanged
        name, side = form.cleaned_data["name"], form.cleaned_data["side"]
        facts = {"side": side, "name": name, "sha256": found.sha256, "at": now, "link": door.link}
        sign_as(actor=door.actor(request, name), engagement=door.engagement, **facts)

    if is_saved(form, act):
        messages.success(request, _("Signed. What is marked from now on stands after this signature."))
        return redirect(door.overview)
    return render(request, "shows/arrival_sign.html", sign_context(door, found, form, now))
