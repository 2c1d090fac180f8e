"""People from a file and into one: read, shown, stored once somebody says so; taken along as CSV."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import roster_for
from crew.actions.people_files import load_people
from crew.forms.people_file import PeopleFileForm
from crew.people_out import people_table
from crew.views.answering import csv_response
from venue.out.table import csv_lines
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def people_import(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Read a file of people, show what it would change, store that."""
    roster, _may_write = roster_for(request.user, ref)
    form = PeopleFileForm(request.POST or None, request.FILES or None)

    def act() -> None:
        chosen = form.cleaned_data
        form.judged = load_people(actor=actor_of(request), roster=roster, text=chosen["text"], shown=chosen["shown"])

    if is_saved(form, act) and form.judged is not None:
        told = {"new": len(form.judged.new), "changed": len(form.judged.changes)}
        messages.success(request, _("Stored: %(new)s added, %(changed)s changed.") % told)
        return redirect("crew:roster", ref)
    return render(request, "crew/roster_import.html", {"form": form, "roster": roster})


@require_safe
def people_export(request: HttpRequest, ref: UUID) -> HttpResponseBase:
    """Everybody on the roster as CSV, contacts included."""
    roster, _may_write = roster_for(request.user, ref)
    return csv_response(csv_lines(people_table(roster)), "people")
