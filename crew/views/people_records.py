"""What somebody is certified for, and days on which somebody does not work."""

from functools import partial
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from crew.access import certification_in, days_off_in, houses_served, roster_for, standing_person_in
from crew.actions.certifying import (
    add_certification,
    add_days_off,
    change_certification,
    end_certification,
    end_days_off,
)
from crew.forms.people import CertificationForm, DaysOffForm, LastDayForm
from crew.people_page import calls_on
from crew.wording.people import called_sentence, certification_name, days_off_words
from venue.forms.base import EndForm
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def certification_new(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Somebody holds a certification."""
    roster, _may_write = roster_for(request.user, ref)
    person = standing_person_in(roster, person_ref)
    form = CertificationForm(request.POST or None, roster=roster, houses=list(houses_served(roster)))
    add = partial(add_certification, actor=actor_of(request), person=person)
    if is_saved(form, lambda: add(**form.cleaned_data)):
        messages.success(request, _("The certification is on file."))
        return redirect("crew:person", ref, person_ref)
    return render(request, "crew/person_certification.html", {"form": form, "roster": roster, "person": person})


@require_http_methods(["GET", "HEAD", "POST"])
def certification_edit(request: HttpRequest, ref: UUID, person_ref: UUID, row_ref: UUID) -> HttpResponse:
    """Another last day of a certification."""
    roster, _may_write = roster_for(request.user, ref)
    person = standing_person_in(roster, person_ref)
    row = certification_in(person, row_ref)
    form = LastDayForm(request.POST or None, row=row, initial={"expires_on": row.expires_on})
    change = partial(change_certification, actor=actor_of(request), certification=row)
    if is_saved(form, lambda: change(seen=form.seen, expires_on=form.cleaned_data["expires_on"])):
        messages.success(request, _("The last day is stored."))
        return redirect("crew:person", ref, person_ref)
    context = {"form": form, "roster": roster, "person": person, "name": certification_name(row), "row": row}
    return render(request, "crew/person_certification.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def certification_end(request: HttpRequest, ref: UUID, person_ref: UUID, row_ref: UUID) -> HttpResponse:
    """Somebody holds a certification no more."""
    roster, _may_write = roster_for(request.user, ref)
    person = standing_person_in(roster, person_ref)
    row = certification_in(person, row_ref)
    form = EndForm(request.POST or None, row=row)

    def act() -> None:
        row.version = form.seen
        reason = form.cleaned_data["reason"]
        end_certification(actor=actor_of(request), certification=row, at=timezone.now(), reason=reason)

    if is_saved(form, act):
        messages.success(request, _("The certification has ended. Its history is kept."))
        return redirect("crew:person", ref, person_ref)
    context = {"form": form, "roster": roster, "person": person, "name": certification_name(row)}
    return render(request, "crew/person_row_end.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def days_off_new(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Somebody does not work on some days."""
    roster, _may_write = roster_for(request.user, ref)
    person = standing_person_in(roster, person_ref)
    form = DaysOffForm(request.POST or None)
    add = partial(add_days_off, actor=actor_of(request), person=person)
    if is_saved(form, lambda: add(**form.cleaned_data)):
        messages.success(request, _("The days off are on file."))
        calls = calls_on(person, form.cleaned_data["first_day"], form.cleaned_data["last_day"])
        if calls:
            messages.warning(request, called_sentence(person.name, calls))
        return redirect("crew:person", ref, person_ref)
    return render(request, "crew/person_days_off.html", {"form": form, "roster": roster, "person": person})


@require_http_methods(["GET", "HEAD", "POST"])
def days_off_end(request: HttpRequest, ref: UUID, person_ref: UUID, row_ref: UUID) -> HttpResponse:
    """Somebody works on these days after all."""
    roster, _may_write = roster_for(request.user, ref)
    person = standing_person_in(roster, person_ref)
    row = days_off_in(person, row_ref)
    form = EndForm(request.POST or None, row=row)

    def act() -> None:
        row.version = form.seen
        end_days_off(actor=actor_of(request), days_off=row, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("These days off were taken back."))
        return redirect("crew:person", ref, person_ref)
    context = {"form": form, "roster": roster, "person": person, "name": days_off_words(row), "is_off": True}
    return render(request, "crew/person_row_end.html", context)
