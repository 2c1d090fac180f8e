"""The start page: what this user may open."""

from django.db.models import Prefetch
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from crew.access import rosters_for
from shows.access import engagements_for
from venue.access import houses_for
from venue.models import HouseMembership


def home(request: HttpRequest) -> HttpResponse:
    """List the houses, engagements and rosters of the user, each with the role."""
    own = HouseMembership.objects.in_force_for(request.user)
    houses = houses_for(request.user).prefetch_related(Prefetch("memberships", own, to_attr="own_memberships"))
    engagements = engagements_for(request.user, timezone.now()).filter(ended_at__isnull=True)
    lists = {"houses": houses, "engagements": engagements.select_related("house"), "rosters": rosters_for(request.user)}
    return render(request, "crew/home.html", {**lists, "has_any": any(lists.values())})
