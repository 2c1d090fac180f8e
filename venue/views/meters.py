"""Meters: put on a unit, replaced or reset."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from venue.access import house_to_write, own_unit_in
from venue.actions import put_meter, replace_meter
from venue.forms.hours import MeterForm, ReplaceForm
from venue.quick_reading import quick_of
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def meter_put(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Put a meter on file."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    form = MeterForm(request.POST or None, unit=unit, now=timezone.now())
    if is_saved(
        form,
        lambda: put_meter(actor=actor_of(request), unit=unit, **form.values("counts", "starts_h", "at", "note")),
    ):
        messages.success(request, _("The meter is on file. From now on read it here."))
        return redirect("venue:unit_detail", slug, ref)
    return render(request, "venue/meter_put.html", {"form": form, "house": house, "unit": unit})


@require_http_methods(["GET", "HEAD", "POST"])
def meter_replace(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Replace a meter, or say that it was reset."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    actor = actor_of(request)
    form = ReplaceForm(request.POST or None, unit=unit, now=now)

    def act() -> None:
        facts = form.values("closing_h", "gap_h", "starts_h", "at", "note") | {"confirmed": form.confirmed}
        replace_meter(actor=actor, unit=unit, **facts)

    if is_saved(form, act):
        messages.success(request, _("The meter is replaced. Lamp hours go on where they were."))
        return redirect("venue:unit_detail", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "quick": quick_of(unit, actor.name, now)}
    return render(request, "venue/meter_replace.html", context)
