"""The show on the house: what does not fit, what is done about it, who decided."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from shows.access import decision_in, engagement_for, engagement_to_write
from shows.actions import decide, take_back
from shows.errors import FindingChanged
from shows.fit import Decided, Fit, fit_of
from shows.forms.fit import DecideForm, TakeBackForm, WhichForm
from shows.models import Engagement
from shows.tonight import show_instant
from shows.wording.fit import DECIDERS, GRAVITY, WAYS, finding_sentence, ready_sentence
from venue.views.saving import actor_of, is_saved


@require_safe
def fit(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Is the show ready, and what keeps it from being so?"""
    now = timezone.now()
    engagement, may_write = engagement_for(request.user, ref, now)
    found = fit_of(engagement, show_instant(engagement), now)
    open_numbers = list(dict.fromkeys(each.finding.number for each in found.open))
    context = {
        "engagement": engagement,
        "may_write": may_write,
        "fit": found,
        "answer": ready_sentence(len(found.asks), open_numbers),
        "rows": [_row(found, ask.number) for ask in found.asks],
        "first_open": next((each for each in found.open if each.finding.may_be_decided), None),
        "climbs": any(each.finding.code in {"needs-certification", "no-rescue-plan"} for each in found.findings),
    }
    return render(request, "shows/fit.html", context)


def _row(found: Fit, number: str) -> dict[str, Any]:
    """One number with its places and everything found of it."""
    findings = [shown(each, found.engagement) for each in found.of(number)]
    notes = [item for item in findings if item["finding"].gravity == "note"]
    return {
        "number": number,
        "places": found.offers.get(number, ()),
        "findings": [item for item in findings if item not in notes],
        "notes": notes,
    }


def shown(each: Decided, engagement: Engagement) -> dict[str, Any]:
    """A finding as a page says it."""
    finding = each.finding
    return {
        "each": each,
        "finding": finding,
        "gravity": GRAVITY[finding.gravity],
        "sentence": finding_sentence(finding, "imperial" if engagement.house.unit_system == "imperial" else "metric"),
        "ways": [WAYS[way] for way in finding.ways],
        "decider": DECIDERS[finding.decider],
        "way": WAYS.get(each.decision.way, each.decision.way) if each.decision else "",
    }


@require_http_methods(["GET", "HEAD", "POST"])
def fit_decide(request: HttpRequest, ref: UUID) -> HttpResponse:
    """A named person decides what is done about one finding."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    found = fit_of(engagement, show_instant(engagement), now)
    each = _asked_for(request, found)
    if each is None:
        messages.info(request, _("There is nothing here to decide any more. This is how the show fits now."))
        return redirect("shows:fit", ref)
    form = DecideForm(request.POST or None, finding=each.finding, name=actor_of(request).name)

    def act() -> None:
        if not form.is_about_what_was_shown:
            raise FindingChanged
        decide(
            actor=actor_of(request),
            engagement=engagement,
            spot=found.spot_of.get(each.finding.number),
            finding=each.finding,
            way=form.cleaned_data["way"],
            reason=form.cleaned_data["reason"],
            by=form.cleaned_data["decided_by"],
            at=now,
        )

    if is_saved(form, act):
        messages.success(request, _("Decided. It is kept with name, time and reason."))
        return redirect("shows:fit", ref)
    context = {"engagement": engagement, "form": form, "item": shown(each, engagement)}
    return render(request, "shows/fit_decide.html", context)


def _asked_for(request: HttpRequest, found: Fit) -> Decided | None:
    """The finding that the address names; None where it is not found any more, or may not be decided."""
    which = WhichForm(request.GET)
    if which.is_valid():
        for each in found.findings:
            if each.finding.key == which.key and each.finding.may_be_decided:
                return each
    return None


@require_http_methods(["GET", "HEAD", "POST"])
def decision_end(request: HttpRequest, ref: UUID, decision_ref: UUID) -> HttpResponse:
    """Take a decision back."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    decision = decision_in(engagement, decision_ref)
    form = TakeBackForm(request.POST or None)

    def act() -> None:
        take_back(actor=actor_of(request), decision=decision, reason=form.cleaned_data["reason"], at=now)

    if is_saved(form, act):
        messages.success(request, _("Taken back. The record of it stays."))
        return redirect("shows:fit", ref)
    context = {
        "engagement": engagement,
        "form": form,
        "decision": decision,
        "way": WAYS.get(decision.way, decision.way),
    }
    return render(request, "shows/decision_end.html", context)
