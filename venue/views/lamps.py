"""Lamps: the list with its kinds and spares, each lamp, what is fitted where, what was decided."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, lamp_in, own_lamp_in, own_unit_in
from venue.actions import add_lamp, decide_past_stop, end_lamp, fit_lamp, take_out
from venue.actions.lamps import fitting_at
from venue.forms.lamps import DecisionForm, LampEndForm, LampForm, RelampForm, TakeOutForm
from venue.lamp_book import lamp_page, shelf_page
from venue.quick_reading import quick_of
from venue.views.saving import actor_of, is_saved


@require_safe
def lamp_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's kinds with their spares, and its lamps."""
    house, may_write = house_for(request.user, slug)
    context = {"house": house, "may_write": may_write, "page": shelf_page(house, request.GET.get("page"))}
    return render(request, "venue/lamp_list.html", context)


@require_safe
def lamp_detail(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """One lamp: its hours, where it was fitted, what was decided about it."""
    house, may_write = house_for(request.user, slug)
    context = {"house": house, "may_write": may_write, "page": lamp_page(lamp_in(house, ref))}
    return render(request, "venue/lamp_detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Put a lamp on the shelf under its serial."""
    house = house_to_write(request.user, slug)
    form = LampForm(request.POST or None, house=house)
    if is_saved(form, lambda: add_lamp(actor=actor_of(request), **form.cleaned_data)):
        messages.success(request, _("The lamp is on the shelf."))
        return redirect("venue:lamp_list", slug)
    return render(request, "venue/lamp_new.html", {"form": form, "house": house})


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Take a lamp from the shelf off the books."""
    house = house_to_write(request.user, slug)
    lamp = own_lamp_in(house, ref)
    form = LampEndForm(request.POST or None)
    if is_saved(form, lambda: end_lamp(actor=actor_of(request), lamp=lamp, at=timezone.now(), **form.cleaned_data)):
        messages.success(request, _("The lamp is off the books. Its history is kept."))
        return redirect("venue:lamp_detail", slug, ref)
    return render(request, "venue/lamp_end.html", {"form": form, "house": house, "lamp": lamp})


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_decide(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Write down a named person's decision to burn a lamp past its stop."""
    house = house_to_write(request.user, slug)
    lamp = own_lamp_in(house, ref)
    form = DecisionForm(request.POST or None)
    if is_saved(
        form,
        lambda: decide_past_stop(actor=actor_of(request), lamp=lamp, at=timezone.now(), **form.cleaned_data),
    ):
        messages.success(request, _("The decision is written down, with the name."))
        return redirect("venue:lamp_detail", slug, ref)
    context = {"form": form, "house": house, "lamp": lamp, "page": lamp_page(lamp)}
    return render(request, "venue/lamp_decide.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def relamp(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a unit's lamp, or fit the first one."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    actor, fitting = actor_of(request), fitting_at(unit, now)
    quick = quick_of(unit, actor.name, now)
    form = RelampForm(request.POST or None, unit=unit, now=now, fitting=fitting, last_h=quick.last_h)

    def act() -> None:
        names = ("lamp", "kind", "serial", "at", "meter_in_h", "meter_out_h", "strikes", "was_reset")
        facts = form.values(*names) | {"confirmed": form.confirmed, "answers": form.answers()}
        facts |= {name: form.cleaned_data.get(name) or "" for name in ("reason", "out_reason", "fate", "by")}
        fit_lamp(actor=actor, unit=unit, **facts)

    if is_saved(form, act):
        messages.success(request, _("The lamp is in the book. Its hours count from here."))
        return redirect("venue:unit_detail", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "fitting": fitting, "quick": quick}
    return render(request, "venue/relamp.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_out(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Take a unit's lamp out; none goes in."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    actor, fitting = actor_of(request), fitting_at(unit, now)
    quick = quick_of(unit, actor.name, now)
    form = TakeOutForm(request.POST or None, unit=unit, now=now, fitting=fitting, last_h=quick.last_h)

    def act() -> None:
        facts = form.values("at", "meter_out_h", "strikes") | {"confirmed": form.confirmed}
        facts |= form.values("out_reason", "fate", "by")
        take_out(actor=actor, unit=unit, **facts)

    if is_saved(form, act):
        messages.success(request, _("The lamp is out. The unit is without one."))
        return redirect("venue:unit_detail", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "fitting": fitting, "quick": quick}
    return render(request, "venue/lamp_out.html", context)
