"""Where units are: sent away, brought back, and where each was on any date."""

from datetime import date, datetime, timedelta
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, own_unit_in, unit_in
from venue.actions import bring_back, send_away
from venue.core.local_time import house_day
from venue.forms.moves import AwayForm, BackForm, DayForm
from venue.models import House
from venue.models.units import Elsewhere
from venue.stays import house_day_span, stays_of, units_known_on, whereabouts
from venue.views.saving import actor_of, is_saved
from venue.wording_moves import shown_stays, whereabouts_lines

UNITS_A_PAGE = 100
STAYS_A_PAGE = 200
LAST_DAY = date(9998, 12, 31)
FIRST_DAY = date(1900, 1, 1)


@require_http_methods(["GET", "HEAD", "POST"])
def unit_away(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Send a unit to the shop, to the store, or lend it out."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    stays = stays_of(unit, now)
    form = AwayForm(request.POST or None, house=house, unit=unit, stays=stays, now=now)

    def act() -> None:
        facts = {name: form.cleaned_data[name] for name in ("words", "at", "until", "back_to", "seen")}
        send_away(actor=actor_of(request), unit=unit, to=Elsewhere(form.cleaned_data["to"]), **facts)

    if is_saved(form, act):
        messages.success(request, _("Written down: where %(tag)s goes.") % {"tag": unit.tag})
        return redirect("venue:unit_stays", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "stays": shown_stays(stays, now, house.time_zone)}
    return render(request, "venue/unit_away.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def unit_back(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Bring a unit back to its place, or to another."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    stays = stays_of(unit, now)
    form = BackForm(request.POST or None, house=house, unit=unit, stays=stays, now=now)

    def act() -> None:
        facts = {name: form.cleaned_data[name] for name in ("to", "at", "seen")}
        bring_back(actor=actor_of(request), unit=unit, **facts)

    if is_saved(form, act):
        messages.success(request, _("Written down: where %(tag)s stands.") % {"tag": unit.tag})
        return redirect("venue:unit_stays", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "stays": shown_stays(stays, now, house.time_zone)}
    return render(request, "venue/unit_back.html", context)


@require_safe
def unit_stays(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Where one unit is, will be and was."""
    house, may_write = house_for(request.user, slug)
    unit, now = unit_in(house, ref), timezone.now()
    may_write = may_write and not unit.has_ended
    stays = shown_stays(stays_of(unit, now, STAYS_A_PAGE), now, house.time_zone)
    context = {"house": house, "unit": unit, "stays": stays, "may_write": may_write}
    return render(request, "venue/unit_stays.html", context)


@require_safe
def where(request: HttpRequest, slug: str) -> HttpResponse:
    """Where every unit was on one day, as the house counts days; today unless another is asked for."""
    house, _may_write = house_for(request.user, slug)
    now = timezone.now()
    form = DayForm(request.GET if "on" in request.GET else {"on": _today(house, now)})
    day = min(max(form.cleaned_data["on"], FIRST_DAY), LAST_DAY) if form.is_valid() else _today(house, now)
    start, end = house_day_span(house, day)
    page = Paginator(units_known_on(house, start), UNITS_A_PAGE).get_page(request.GET.get("page"))
    lines = [whereabouts_lines(each, start, end, house.time_zone) for each in whereabouts(page, start, end)]
    days = {"day": day, "day_before": day - timedelta(days=1), "day_after": day + timedelta(days=1), "start": start}
    return render(request, "venue/where.html", {"house": house, "form": form, "page": page, "lines": lines, **days})


def _today(house: House, now: datetime) -> date:
    return house_day(now, house.time_zone, house.day_turns_at)
