"""The people on a roster."""

from functools import partial
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from crew.access import houses_served, person_in, roster_for
from crew.actions import add_person, end_person
from crew.forms.calls import ReasonForm
from crew.forms.rosters import PersonForm
from crew.models import Roster
from venue.views.saving import actor_of, is_saved


@require_safe
def roster_detail(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Who is on the roster, and a field to add somebody."""
    roster, _may_write = roster_for(request.user, ref)
    return _page(request, roster, PersonForm())


def _page(request: HttpRequest, roster: Roster, form: PersonForm) -> HttpResponse:
    context = {
        "roster": roster,
        "houses": houses_served(roster),
        "persons": roster.persons.standing(),
        "form": form,
    }
    return render(request, "crew/roster_detail.html", context)


@require_POST
def person_add(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Put somebody on the roster."""
    roster, _may_write = roster_for(request.user, ref)
    form = PersonForm(request.POST)
    if is_saved(form, lambda: add_person(actor=actor_of(request), roster=roster, name=form.cleaned_data["name"])):
        messages.success(request, _("%(name)s is on the roster.") % form.cleaned_data)
        return redirect("crew:roster", ref=ref)
    return _page(request, roster, form)


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
