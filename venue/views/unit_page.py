"""The page of one unit."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from venue.access import house_for, unit_in
from venue.condition import care_of
from venue.stays import stays_of
from venue.unit_ledger import instant_in
from venue.unit_page import unit_page
from venue.views.saving import actor_of
from venue.wording_moves import shown_stays
from venue.wording_supply import sheet_facts


@require_safe
def unit_detail(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Everything about one unit, and what to do next."""
    house, may_write = house_for(request.user, slug)
    unit, now = unit_in(house, ref), timezone.now()
    unit.house = house
    before = instant_in(request.GET.get("before"))
    context = {
        "house": house,
        "unit": unit,
        "may_write": may_write and not unit.has_ended,
        "page": unit_page(unit, actor_of(request).name, before, now),
        "is_paged": before is not None,
        "care": care_of(unit, now),
        "sheet": sheet_facts(unit, house.unit_system),  # type: ignore[arg-type]
        "stays": shown_stays(stays_of(unit, now), now, house.time_zone),
    }
    return render(request, "venue/unit_detail.html", context)
