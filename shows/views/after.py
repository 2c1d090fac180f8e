"""After the show: hours, strikes and failures of its units, a day at a time, for whoever may change the show."""

from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from shows.access import engagement_to_write, may_sign_for_house
from shows.actions.after import enter_after
from shows.after import Night, UnitDay, night_of, nights_of
from shows.forms.after import AfterForm
from shows.models import Engagement
from shows.wording.after import booked_words, entry_words, last_words, night_words, stored_words
from venue.models import HoursAdded
from venue.views.saving import actor_of, is_saved
from venue.wording_faults import fault_words

UNITS_A_PAGE = 50


@require_http_methods(["GET", "HEAD", "POST"])
def after(request: HttpRequest, ref: UUID) -> HttpResponse:
    """What is booked and what was entered for a day, and the form for the rest."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    nights = nights_of(engagement, now)
    night = night_of(nights, request.POST.get("day") or request.GET.get("day", ""))
    context: dict[str, Any] = {"engagement": engagement, "nights": _links(nights, night)}
    if night is None:
        return render(request, "shows/after.html", context)
    page = Paginator(night.units, UNITS_A_PAGE).get_page(request.GET.get("page"))
    form = AfterForm(request.POST or None, night=night, units=list(page), zone=engagement.house.time_zone)

    def act() -> None:
        actor, facts = actor_of(request), {"told": form.told(), "at": form.at_instant}
        made = enter_after(actor=actor, engagement=engagement, day=night.day, now=now, **facts)  # type: ignore[arg-type]
        messages.success(request, stored_words(made.units, len(made.faults)))

    if is_saved(form, act):
        return redirect(f"{reverse('shows:after', args=[ref])}?{_query(night)}page={page.number}")
    context |= {"night": night, "form": form, "page": page, "query": _query(night)}
    context["rows"] = _rows(form, list(page), engagement, may_strike=may_sign_for_house(request.user, engagement))
    return render(request, "shows/after.html", context)


def _query(night: Night) -> str:
    return f"{urlencode({'day': night.day.isoformat()})}&"


def _links(nights: list[Night], chosen: Night | None) -> list[dict[str, Any]]:
    return [
        {"query": _query(night).rstrip("&"), "words": night_words(night), "is_chosen": night is chosen}
        for night in nights
    ]


def _rows(form: AfterForm, units: list[UnitDay], engagement: Engagement, *, may_strike: bool) -> list[dict[str, Any]]:
    """Each unit with what is written of it and its part of the form, None where it is off the books."""
    parts, zone = {part.row.unit.pk: part for part in form.parts}, engagement.house.time_zone
    return [
        {
            "unit": row.unit,
            "numbers": row.numbers,
            "where": row.where,
            "part": parts.get(row.unit.pk),
            "is_entered": row.is_entered,
            "entries": [_entry(row, entry, engagement, may_strike) for entry in row.entries],
            "booked": booked_words(row),
            "last": last_words(row, zone),
            "faults": [fault_words(fault) for fault in row.faults],
        }
        for row in units
    ]


def _entry(row: UnitDay, entry: Any, engagement: Engagement, may_strike: bool) -> tuple[str, str]:
    """What was entered, and the page that strikes it out where the visitor may."""
    name = "venue:hours_strike" if isinstance(entry, HoursAdded) else "venue:reading_strike"
    to = reverse(name, args=[engagement.house.slug, row.unit.ref, entry.ref]) if may_strike else ""
    return entry_words(entry, engagement.house.time_zone), "" if row.is_over else to
