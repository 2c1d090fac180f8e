"""Units: the list, and each of them added, changed, ended."""

from uuid import UUID

from django.contrib import messages
from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, own_unit_in
from venue.actions import add_unit, change, end_unit
from venue.forms.base import EndForm
from venue.forms.units import UnitForm
from venue.models import Placement, Unit
from venue.views.saving import actor_of, is_saved


@require_safe
def unit_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's units, each with where it stands now and where it will stand."""
    house, may_write = house_for(request.user, slug)
    now = timezone.now()
    stays = Placement.objects.real().not_over_by(now).select_related("place__position").order_by("starts_at")
    units = house.units.standing().prefetch_related(Prefetch("placements", stays, to_attr="stays"))
    context = {"house": house, "may_write": may_write, "units": units, "now": now}
    return render(request, "venue/unit_list.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def unit_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a unit."""
    house = house_to_write(request.user, slug)
    form = UnitForm(request.POST or None, instance=Unit(house=house))
    if is_saved(form, lambda: add_unit(actor=actor_of(request), house=house, **form.values())):
        messages.success(request, _("The unit was added. Put it on a place where it stands."))
        return redirect("venue:unit_list", slug)
    return render(request, "venue/unit_form.html", {"form": form, "house": house, "unit": None})


@require_http_methods(["GET", "HEAD", "POST"])
def unit_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a unit."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    form = UnitForm(request.POST or None, instance=unit)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=unit, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The unit was changed."))
        return redirect("venue:unit_list", slug)
    return render(request, "venue/unit_form.html", {"form": form, "house": house, "unit": unit})


@require_http_methods(["GET", "HEAD", "POST"])
def unit_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Take a unit off the books."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    form = EndForm(request.POST or None, row=unit)

    def act() -> None:
        unit.version = form.seen
        end_unit(actor=actor_of(request), unit=unit, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The unit is off the books. Its history is kept."))
        return redirect("venue:unit_list", slug)
    return render(request, "venue/unit_end.html", {"form": form, "house": house, "unit": unit})
