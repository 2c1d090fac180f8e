"""The start page: for each role of the user the one question, and below what the user may open."""

from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from crew.access import headed_houses, rosters_for
from crew.landing import cards
from shows.access import engagements_for
from venue.access import houses_for
from venue.models import HouseMembership


@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """Answer each role's question, and list the houses, engagements and rosters of the user with the role."""
    now = timezone.now()
    own = HouseMembership.objects.in_force_for(request.user)
    houses = houses_for(request.user).prefetch_related(Prefetch("memberships", own, to_attr="own_memberships"))
    engagements = engagements_for(request.user, now).filter(ended_at__isnull=True).select_related("house")
    lists = {"houses": houses, "engagements": engagements, "rosters": rosters_for(request.user)}
    context = {**lists, "has_any": any(lists.values()), "cards": cards(request.user, now)}
    return render(request, "crew/home.html", {**context, "may_open": headed_houses(request.user).exists()})
