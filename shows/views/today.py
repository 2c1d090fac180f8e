"""The first page of a house's head: what stands against the lights today."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from shows.today import today_of
from shows.wording.today import answer, changes, sections, step
from venue.access import house_for


@require_safe
def today(request: HttpRequest, slug: str) -> HttpResponse:
    """Can the lights be used today, what stops them, what is due, what changed?"""
    house, may_write = house_for(request.user, slug)
    now = timezone.now()
    found = today_of(house, now)
    parts = sections(found, house, now)
    context = {
        "house": house,
        "day": found.house.day,
        "answer": answer(parts),
        "sections": parts,
        "changed": changes(found, house),
        "step": step(parts, house, may_write),
    }
    return render(request, "shows/today.html", context)
