"""Faults: what stands and what was closed, each reported, corrected and closed."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import fault_in, house_for, house_to_write, own_unit_in
from venue.actions import change_fault, close_fault, report_fault
from venue.forms.faults import CloseFaultForm, FaultEditForm, FaultForm
from venue.models import Fault, House, Unit
from venue.models.faults import FaultQuerySet
from venue.views.asked import query_of, unit_asked
from venue.views.saving import actor_of, is_saved
from venue.wording_faults import fault_words

A_PAGE = 50


@require_safe
def fault_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's faults: those that stand, or those that were closed; of one unit where it is named."""
    house, may_write = house_for(request.user, slug)
    unit, is_closed = unit_asked(request, house), "closed" in request.GET
    page = Paginator(_faults(house, is_closed, unit), A_PAGE).get_page(request.GET.get("page"))
    shown = [{"fault": fault, "words": fault_words(fault)} for fault in page]
    context = {
        "house": house,
        "may_write": may_write,
        "unit": unit,
        "is_closed": is_closed,
        "page": page,
        "faults": shown,
        "query": query_of(request, "unit", "closed"),
    }
    return render(request, "venue/fault_list.html", context)


def _faults(house: House, is_closed: bool, unit: Unit | None) -> FaultQuerySet:
    """Standing ones by how grave they are, what stops a unit first; closed ones the latest first."""
    faults = Fault.objects.filter(unit__house=house).select_related("unit", "closing")
    if unit is not None:
        faults = faults.filter(unit=unit)
    if is_closed:
        return faults.filter(closed_at__isnull=False).order_by("-closed_at", "-pk")
    return faults.standing().filter(unit__ended_at__isnull=True).by_gravity()


@require_http_methods(["GET", "HEAD", "POST"])
def fault_new(request: HttpRequest, slug: str, ref: UUID | None = None) -> HttpResponse:
    """Report a fault of the unit, or of one that is chosen."""
    house = house_to_write(request.user, slug)
    unit = None if ref is None else own_unit_in(house, ref)
    actor, now = actor_of(request), timezone.now()
    form = FaultForm(request.POST or None, house=house, unit=unit, now=now, by=actor.name)

    def act() -> None:
        cleaned = form.cleaned_data
        facts: dict[str, Any] = {**form.facts(), "at": cleaned["at"], "seen_by": cleaned["seen_by"]}
        report_fault(actor=actor, unit=unit or cleaned["unit"], **facts)

    if is_saved(form, act):
        messages.success(request, _("The fault is on file. Every show that uses the unit is told."))
        return redirect("venue:fault_list", slug)
    return render(request, "venue/fault_form.html", {"form": form, "house": house, "unit": unit})


@require_http_methods(["GET", "HEAD", "POST"])
def fault_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Correct what a standing fault says."""
    house = house_to_write(request.user, slug)
    fault = fault_in(house, ref)
    form = FaultEditForm(request.POST or None, fault=fault)
    if is_saved(form, lambda: change_fault(actor=actor_of(request), fault=fault, seen=form.seen, values=form.facts())):
        messages.success(request, _("The fault was corrected."))
        return redirect("venue:fault_list", slug)
    return render(request, "venue/fault_form.html", {"form": form, "house": house, "unit": fault.unit, "fault": fault})


@require_http_methods(["GET", "HEAD", "POST"])
def fault_close(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Close a fault by what was done."""
    house = house_to_write(request.user, slug)
    fault, actor = fault_in(house, ref), actor_of(request)
    form = CloseFaultForm(request.POST or None, fault=fault, now=timezone.now(), by=actor.name)

    def act() -> None:
        facts = {name: form.cleaned_data[name] for name in ("at", "done", "by", "parts")}
        close_fault(actor=actor, fault=fault, seen=form.seen, **facts)

    if is_saved(form, act):
        messages.success(request, _("The fault is closed, and what was done is in the log."))
        return redirect("venue:fault_list", slug)
    context = {"form": form, "house": house, "unit": fault.unit, "fault": fault, "words": fault_words(fault)}
    return render(request, "venue/fault_close.html", context)
