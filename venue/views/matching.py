"""Two lights or more on one pick-up: chosen, and brought together."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from venue.access import house_for, setup_named
from venue.forms.matching import MatchForm
from venue.matching_page import matched
from venue.matching_rows import light_row
from venue.models import House
from venue.throw_book import lights_of
from venue.wording_matching import finding_rows, verdict_words, who_sets

ASKED = ("place", "size", "least", "tolerance")


@require_safe
def matching(request: HttpRequest, slug: str) -> HttpResponse:
    """How the lights of two to six places come together on a size."""
    house, may_write = house_for(request.user, slug)
    setup = setup_named(house, request.GET.get("setup", ""))
    setup.house = house
    lights = lights_of(setup, timezone.now())
    data = request.GET if any(name in request.GET for name in ASKED) else None
    form = MatchForm(data, lights=lights, system=house.unit_system)
    context = {
        "house": house,
        "may_write": may_write,
        "setup": setup,
        "setups": house.setups.all(),
        "form": form,
        "can_match": len(lights) > 1,
        **(_shown(house, form) if form.is_valid() else {}),
    }
    return render(request, "venue/matching.html", context)


def _shown(house: House, form: MatchForm) -> dict[str, Any]:
    asked = form.cleaned_data
    found = matched(house, asked["place"], asked["size"], least_lux=asked["least"], tolerance_mired=asked["tolerance"])
    rows = [light_row(each, found) for each in found.lights]
    return {
        "matched": found,
        "verdict": verdict_words(found, is_complete=not any(row.gaps for row in rows)),
        "who_sets": list(who_sets(found)),
        "findings": finding_rows(found),
        "rows": rows,
    }
