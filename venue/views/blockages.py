"""What is in the way of a position's lights: noted, corrected, cleared away."""

from datetime import date
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from venue.access import blockage_in, house_to_write, own_position_in
from venue.actions import add_blockage, change, end_blockage
from venue.core.local_time import wall_time
from venue.forms.base import EndForm
from venue.forms.blockages import BlockageForm
from venue.models import Blockage, House
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def blockage_new(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Note what is in the way of a position."""
    house = house_to_write(request.user, slug)
    position = own_position_in(house, ref)
    position.house = house
    form = BlockageForm(request.POST or None, instance=Blockage(position=position), today=_today(house))
    if is_saved(form, lambda: add_blockage(actor=actor_of(request), position=position, **form.values())):
        messages.success(request, _("It is noted what is in the way."))
        return redirect("venue:position_detail", slug, ref)
    context = {"form": form, "house": house, "position": position, "blockage": None}
    return render(request, "venue/blockage_form.html", context)


def _today(house: House) -> date:
    return wall_time(timezone.now(), house.time_zone).date()


@require_http_methods(["GET", "HEAD", "POST"])
def blockage_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Correct what is noted as in the way."""
    house = house_to_write(request.user, slug)
    blockage = blockage_in(house, ref)
    form = BlockageForm(request.POST or None, instance=blockage, today=_today(house))
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=blockage, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("It is corrected what is in the way."))
        return redirect("venue:position_detail", slug, blockage.position.ref)
    context = {"form": form, "house": house, "position": blockage.position, "blockage": blockage}
    return render(request, "venue/blockage_form.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def blockage_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Something is in the way no more."""
    house = house_to_write(request.user, slug)
    blockage = blockage_in(house, ref)
    form = EndForm(request.POST or None, row=blockage)

    def act() -> None:
        blockage.version = form.seen
        end_blockage(actor=actor_of(request), blockage=blockage, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("It is in the way no more. That it was stays in the history."))
        return redirect("venue:position_detail", slug, blockage.position.ref)
    context = {"form": form, "house": house, "position": blockage.position, "blockage": blockage}
    return render(request, "venue/blockage_end.html", context)
