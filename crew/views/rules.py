"""A roster's rules for hours: its own and those of each house that it serves."""

from functools import partial
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import hour_rules_in, houses_served, roster_for
from crew.actions.rules import change_rules, end_rules, follow_rules, make_rules
from crew.forms.calls import ReasonForm
from crew.forms.rules import FromForm, RulesForm, StartForm
from crew.models import HourRules, Roster
from crew.moments import day_words
from crew.rule_book import rule_book
from crew.rules_page import rules_of_houses
from crew.wording.rules import correcting_words, ending_words
from venue.models import House
from venue.views.saving import actor_of, is_saved

ALL = "all"
"""Stands for all houses in the address, where else a house's short name does."""


@require_safe
def rules(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Which rules hold where, and from when on."""
    roster, _may_write = roster_for(request.user, ref)
    book, houses = rule_book(roster), list(houses_served(roster).order_by("name", "pk"))
    shown = rules_of_houses(houses, book, timezone.now())
    return render(request, "crew/rules.html", {"roster": roster, "shown": shown, "unread": book.unread})


@require_http_methods(["GET", "HEAD", "POST"])
def rules_start(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Begin a rule set, of the house of `?house=` or of all, from a preset or from nothing."""
    roster, _may_write = roster_for(request.user, ref)
    house = _house(roster, request.GET.get("house", ""))
    form = StartForm(request.POST or None)
    made: list[HourRules] = []

    def act() -> None:
        made.append(make_rules(actor=actor_of(request), roster=roster, house=house, **form.facts))

    if is_saved(form, act):
        messages.success(request, _("The rules are begun. Check every number."))
        return redirect("crew:rules_edit", ref=ref, rules_ref=made[0].ref)
    return render(request, "crew/rules_start.html", {"roster": roster, "in_house": house, "form": form})


def _house(roster: Roster, slug: str) -> House | None:
    if slug in {"", ALL}:
        return None
    if "\0" in slug:
        raise Http404
    return get_object_or_404(houses_served(roster), slug=slug)


@require_http_methods(["GET", "HEAD", "POST"])
def rules_edit(request: HttpRequest, ref: UUID, rules_ref: UUID) -> HttpResponse:
    """Correct a set, every number of it; what stays empty does not apply."""
    row = _row(request, ref, rules_ref)
    form = RulesForm(request.POST or None, row=row)

    def act() -> None:
        facts: dict[str, Any] = {"name": form.cleaned_data["name"], "rules": form.rules, "seen": form.seen}
        change_rules(actor=actor_of(request), row=row, **facts)

    if is_saved(form, act):
        messages.success(request, _("The rules are stored. All days that they hold for are counted by them."))
        return redirect("crew:rules", ref=ref)
    told = correcting_words(row, rule_book(row.roster).row_after(row))
    return render(request, "crew/rules_form.html", {"roster": row.roster, "row": row, "form": form, "told": told})


@require_http_methods(["GET", "HEAD", "POST"])
def rules_follow(request: HttpRequest, ref: UUID, rules_ref: UUID) -> HttpResponse:
    """New numbers from a day on: a set of its own that copies this one, to be corrected."""
    row = _row(request, ref, rules_ref)
    form = FromForm(request.POST or None)
    made: list[HourRules] = []

    def act() -> None:
        made.append(follow_rules(actor=actor_of(request), row=row, first_day=form.cleaned_data["first_day"]))

    if is_saved(form, act):
        told = {"day": day_words(made[0].first_day)}
        messages.success(request, _("A copy holds from %(day)s on. Write the new numbers into it.") % told)
        return redirect("crew:rules_edit", ref=ref, rules_ref=made[0].ref)
    return render(request, "crew/rules_follow.html", {"roster": row.roster, "row": row, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def rules_end(request: HttpRequest, ref: UUID, rules_ref: UUID) -> HttpResponse:
    """The rule set holds no more, with a reason."""
    row = _row(request, ref, rules_ref)
    form = ReasonForm(request.POST or None)
    end = partial(end_rules, actor=actor_of(request), row=row, at=timezone.now())
    if is_saved(form, lambda: end(reason=form.cleaned_data["reason"])):
        messages.success(request, _("These rules hold no more."))
        return redirect("crew:rules", ref=ref)
    book = rule_book(row.roster)
    told = ending_words(row, book.row_before(row), book.row_after(row))
    return render(request, "crew/rules_end.html", {"roster": row.roster, "row": row, "form": form, "told": told})


def _row(request: HttpRequest, ref: UUID, rules_ref: UUID) -> HourRules:
    roster, _may_write = roster_for(request.user, ref)
    return hour_rules_in(roster, rules_ref)
