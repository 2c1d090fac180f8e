"""The fastest door: a verdict from "how many?" and "how do they count?", with nothing stored."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from shows.actions import keep_show
from shows.forms.quick import KeepForm, QuickForm
from shows.plans import shown_plan, view_in
from shows.quick import quick_comparison
from shows.wording import choices, verdict
from venue.access import house_for, house_to_write, houses_for
from venue.models import House, Setup
from venue.views.saving import actor_of, is_saved


@require_safe
def quick(request: HttpRequest) -> HttpResponse:
    """In no house on file: a row or a bowl, as somebody counts it."""
    form = QuickForm(request.GET or None)
    context = {"form": form, "houses": houses_for(request.user), "house": None, "query": request.GET.urlencode()}
    return render(request, "shows/quick.html", {**context, **_answered(request, form, None)})


@require_safe
def quick_in_house(request: HttpRequest, slug: str) -> HttpResponse:
    """In a house on file: its positions, or a row that is not on file yet."""
    house, may_write = house_for(request.user, slug)
    setup = house.setups.get(is_default=True)
    form = QuickForm(request.GET or None, positions=list(_positions(house)))
    context = {"form": form, "house": house, "may_write": may_write, "query": request.GET.urlencode()}
    return render(request, "shows/quick.html", {**context, **_answered(request, form, setup)})


def _positions(house: House) -> Any:
    return house.positions.standing().of_house()


def _answered(request: HttpRequest, form: QuickForm, setup: Setup | None) -> dict[str, Any]:
    if not form.is_bound or not form.is_valid():
        return {}
    comparison = quick_comparison(form, setup)
    return {
        "sentence": verdict.sentence(comparison),
        "kind": verdict.kind(comparison),
        "plan": shown_plan(comparison, setup, view_in(request.GET.get("view", ""))),
        "ways": [(choices.NAMES[way.way], choices.price(way)) for way in comparison.ways_out],
        "flags": [verdict.flag_sentence(flag, comparison) for flag in comparison.flags if flag.flag == "short"],
    }


@require_http_methods(["GET", "HEAD", "POST"])
def quick_keep(request: HttpRequest, slug: str) -> HttpResponse:
    """Keep it: the row, where it is new, and the show with its numbers."""
    house = house_to_write(request.user, slug)
    positions = list(_positions(house))
    asked = {**request.GET.dict(), "positions": request.GET.getlist("positions")}
    form = KeepForm(request.POST or None, positions=positions, initial=asked)
    made = []

    def act() -> None:
        own = form.cleaned_data
        facts = {"name": own["show"], "starts_on": own["starts_on"], "ends_on": own["ends_on"]}
        facts |= {"numbers": form.numbers, "statement": form.statement, "row": form.row(), "positions": form.chosen()}
        made.append(keep_show(actor=actor_of(request), house=house, at=timezone.now(), **facts))

    if is_saved(form, act):
        messages.success(request, _("Kept. Paperwork may come later; it is held against this."))
        return redirect("shows:compare", made[0].ref)
    return render(request, "shows/quick_keep.html", {"house": house, "form": form})
