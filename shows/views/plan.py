"""The house drawn to scale with the show's numbers on it."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from shows.access import engagement_for
from shows.plans import view_in
from shows.show_drawings import show_drawings
from shows.wording.plan_words import light_sentence


@require_safe
def plan(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Plan and section with both numbers, seen from the house or from the stage."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    view = view_in(request.GET.get("view", ""))
    drawn = show_drawings(engagement, view)
    context = {
        "engagement": engagement,
        "may_write": may_write,
        "view": view,
        "drawn": drawn,
        "rows": [light_sentence(number, place.label, place.position.name) for number, place in drawn.rows],
    }
    return render(request, "shows/plan.html", context)
