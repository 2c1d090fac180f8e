"""Units: the list, and each of them added, changed, ended."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, own_unit_in
from venue.actions import add_unit, change, end_unit
from venue.core.local_time import wall_time
from venue.forms.moves import UnitEndForm
from venue.forms.units import UnitForm
from venue.models import House, Placement, Unit
from venue.stays import last_stays, stays_of
from venue.views.saving import actor_of, is_saved
from venue.wording_moves import hire_sentence, nowhere_sentence, stay_sentence
from venue.wording_supply import unusual_words

UNITS_A_PAGE = 100


@require_safe
def unit_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's units, each with where it is now and where it will be."""
    house, may_write = house_for(request.user, slug)
    now = timezone.now()
    stays = Placement.objects.real().not_over_by(now).select_related("place__position").order_by("starts_at")
    units = house.units.standing().prefetch_related(Prefetch("placements", stays, to_attr="stays"))
    page = Paginator(units, UNITS_A_PAGE).get_page(request.GET.get("page"))
    context = {"house": house, "may_write": may_write, "page": page, "rows": _rows(house, list(page), now)}
    return render(request, "venue/unit_list.html", context)


def _rows(house: House, units: Sequence[Any], now: datetime) -> list[dict[str, Any]]:
    """Each unit with its stays, each of them with its sentence and whether it is in force."""
    zone = house.time_zone
    nowhere = [unit.pk for unit in units if not any(stay.starts_at <= now for stay in unit.stays)]
    last, today = last_stays(nowhere, now), wall_time(now, zone)
    return [
        {
            "unit": unit,
            "stays": [(stay, stay_sentence(stay, now, zone), stay.starts_at <= now) for stay in unit.stays],
            "nowhere": nowhere_sentence(last.get(unit.pk), zone) if unit.pk in nowhere else "",
            "hire": hire_sentence(unit, today),
        }
        for unit in units
    ]


@require_http_methods(["GET", "HEAD", "POST"])
def unit_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a unit."""
    house = house_to_write(request.user, slug)
    form = UnitForm(request.POST or None, instance=Unit(house=house))
    if is_saved(form, lambda: add_unit(actor=actor_of(request), house=house, **form.values())):
        messages.success(request, _("The unit was added. Put it on a place where it stands."))
        _ask_about_unusual(request, form.instance)
        return redirect("venue:unit_list", slug)
    return render(request, "venue/unit_form.html", {"form": form, "house": house, "unit": None})


def _ask_about_unusual(request: HttpRequest, unit: Unit) -> None:
    said = unusual_words(unit)
    if said:
        messages.warning(request, said)


@require_http_methods(["GET", "HEAD", "POST"])
def unit_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a unit."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    unit.house = house
    form = UnitForm(request.POST or None, instance=unit)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=unit, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The unit was changed."))
        _ask_about_unusual(request, unit)
        return redirect("venue:unit_list", slug)
    return render(request, "venue/unit_form.html", {"form": form, "house": house, "unit": unit})


@require_http_methods(["GET", "HEAD", "POST"])
def unit_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Take a unit off the books."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    form = UnitEndForm(request.POST or None, row=unit, stays=stays_of(unit, now))

    def act() -> None:
        unit.version = form.seen
        facts = {"reason": form.cleaned_data["reason"], "leaves": form.cleaned_data.get("leaves", False)}
        end_unit(actor=actor_of(request), unit=unit, at=now, **facts)

    if is_saved(form, act):
        messages.success(request, _("The unit is off the books. Its history is kept."))
        return redirect("venue:unit_list", slug)
    return render(request, "venue/unit_end.html", {"form": form, "house": house, "unit": unit})
