"""Somebody on a roster: added, looked at, changed, taken off, back again, forgotten."""

from functools import partial
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crew.access import person_in, roster_for, standing_person_in
from crew.actions import add_person, end_person, return_person
from crew.actions.people import change_person, forget_person
from crew.forms.calls import ReasonForm
from crew.forms.people import ForgetForm, PersonForm
from crew.models import Person
from crew.people_page import page_of_person, today_of
from shows.views.telling import told
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def person_add(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Put somebody on the roster."""
    roster, _may_write = roster_for(request.user, ref)
    form = PersonForm(request.POST or None, instance=Person(roster=roster))
    made: list[Person] = []
    if is_saved(form, lambda: made.append(add_person(actor=actor_of(request), roster=roster, **form.values()))):
        messages.success(request, _("%(name)s is on the roster.") % {"name": made[0].name})
        return redirect("crew:person", ref, made[0].ref)
    return render(request, "crew/person_form.html", {"form": form, "roster": roster, "person": None})


@require_safe
def person_detail(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """What is on file about somebody, and their calls."""
    roster, _may_write = roster_for(request.user, ref)
    person, now = person_in(roster, person_ref), timezone.now()
    context = {"roster": roster, "person": person, "on_file": page_of_person(person, today_of(roster, now), now)}
    return render(request, "crew/person_detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def person_edit(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Change what is recorded of somebody."""
    roster, _may_write = roster_for(request.user, ref)
    person = standing_person_in(roster, person_ref)
    name, form = person.name, PersonForm(request.POST or None, instance=person)
    change = partial(change_person, actor=actor_of(request), person=person)
    if is_saved(form, lambda: change(seen=form.seen, values=form.values())):
        messages.success(request, _("%(name)s was changed.") % {"name": person.name})
        return redirect("crew:person", ref, person_ref)
    return render(request, "crew/person_form.html", {"form": form, "roster": roster, "person": person, "name": name})


@require_http_methods(["GET", "HEAD", "POST"])
def person_end(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Take somebody off the roster, with a reason; the history and old sheets keep the name."""
    roster, _may_write = roster_for(request.user, ref)
    person = person_in(roster, person_ref)
    form = ReasonForm(request.POST or None)
    end = partial(end_person, actor=actor_of(request), person=person, at=timezone.now())
    if is_saved(form, lambda: end(reason=form.cleaned_data["reason"])):
        messages.success(request, _("%(name)s is off the roster.") % {"name": person.name})
        return redirect("crew:roster", ref=ref)
    return render(request, "crew/person_end.html", {"form": form, "roster": roster, "person": person})


@require_POST
def person_return(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Whoever left the roster is on it again."""
    roster, _may_write = roster_for(request.user, ref)
    person = person_in(roster, person_ref)
    with told(request, _("%(name)s is on the roster again.") % {"name": person.name}):
        return_person(actor=actor_of(request), person=person)
    return redirect("crew:person", ref, person_ref)


@require_http_methods(["GET", "HEAD", "POST"])
def person_forget(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """Empty the ways to reach somebody, for good; the name stays where it is needed."""
    roster, _may_write = roster_for(request.user, ref)
    person = person_in(roster, person_ref)
    form = ForgetForm(request.POST or None, row=person)
    forget = partial(forget_person, actor=actor_of(request), person=person, at=timezone.now())
    if is_saved(form, lambda: forget(seen=form.seen, reason=form.cleaned_data["reason"])):
        messages.success(request, _("%(name)s is forgotten: no contact is kept.") % {"name": person.name})
        return redirect("crew:person", ref, person_ref)
    return render(request, "crew/person_forget.html", {"form": form, "roster": roster, "person": person})
