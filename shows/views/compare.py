"""Do the numbers run the house's way? The verdict, its proof, and what can be done about it."""

import csv
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from shows.access import engagement_for, engagement_to_write
from shows.actions import apply_reading, apply_statement, choose_way, obey_statement
from shows.forms.paperwork import StatementForm
from shows.models import Way
from shows.standing import Standing, standing_of
from shows.views.compare_page import compare_context
from shows.views.telling import told
from venue.core.csv_text import as_text
from venue.views.saving import actor_of


@require_safe
def compare(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The verdict with the drawing, from the house or from the stage."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    context = compare_context(standing_of(engagement), request.GET.get("view", ""))
    return render(request, "shows/compare.html", {**context, "may_write": may_write})


@require_POST
def way_choose(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Take one of the ways out that are offered now."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    way = request.POST.get("way", "")
    if way not in {out.way for out in standing_of(engagement).comparison.ways_out}:
        messages.error(request, _("This way is not offered any more. Look at the verdict again."))
        return redirect("shows:compare", ref)
    with told(request, _("Chosen: %(way)s. It stands on every sheet from now on.") % {"way": Way(way).label}):
        choose_way(actor=actor_of(request), engagement=engagement, way=way, at=now)
    return redirect("shows:compare", ref)


@require_POST
def statement_apply(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Say how the show counts, in somebody's words."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    form = StatementForm(request.POST)
    if not form.is_valid():
        context = compare_context(standing_of(engagement), "", form)
        return render(request, "shows/compare.html", {**context, "may_write": True})
    statement, seen = form.cleaned_data["statement"], form.cleaned_data["version"]
    with told(request, _("Taken. The numbers were put on their places anew.")):
        apply_statement(actor=actor_of(request), engagement=engagement, statement=statement, at=now, seen=seen)
    return redirect("shows:compare", ref)


@require_POST
def reading_apply(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Take one of the readings that are offered for the meant one."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    form = StatementForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Load the page anew, then tap again. Nothing was changed."))
        return redirect("shows:compare", ref)
    answer = {"reading": request.POST.get("reading", ""), "statement": form.cleaned_data["statement"]}
    with told(request, _("Taken. The numbers were put on their places anew.")):
        seen = form.cleaned_data["version"]
        apply_reading(actor=actor_of(request), engagement=engagement, at=now, seen=seen, **answer)
    return redirect("shows:compare", ref)


@require_POST
def numbers_obey(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Put every number where the show's own rule puts it."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    with told(request, _("Every number is where the tour's own rule puts it.")):
        obey_statement(actor=actor_of(request), engagement=engagement, at=now)
    return redirect("shows:compare", ref)


@require_safe
def renumbered(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The translation table as a file to send the tour. Cells that a spreadsheet would compute come as text."""
    engagement, _may_write = engagement_for(request.user, ref, timezone.now())
    table = _table(standing_of(engagement))
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    response.headers["Content-Disposition"] = 'attachment; filename="renumbered.csv"'
    rows = csv.writer(response)
    rows.writerow([_("show number"), _("becomes")])
    rows.writerows([[as_text(cell) for cell in row] for row in table])
    return response


def _table(standing: Standing) -> list[tuple[str, str]]:
    changes = next((out.changes for out in standing.comparison.ways_out if out.way == "renumber"), None)
    if changes is None:
        raise Http404
    return [(str(number), str(becomes)) for number, becomes in changes]
