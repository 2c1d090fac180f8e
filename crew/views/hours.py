"""Hours of a call, and of a roster by the week: as page, CSV and PDF. Never money."""

from datetime import date
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from crew.access import call_for, houses_served, roster_for
from crew.core.hours_report import HoursReport
from crew.forms.hours import WeekForm
from crew.hour_rows import rule_book, usual_week
from crew.hours_page import call_hours as hours_in_words
from crew.hours_page import hours_report, hours_table, weeks_beside
from crew.models import Roster
from crew.sheets.hours import hours_pdf
from crew.sheets.pen import PAPERS
from crew.views.answering import csv_response, pdf_response
from venue.core.local_time import wall_time
from venue.out.table import csv_lines


@require_safe
def call_hours(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Each person's hours on the call, and who has no time out yet."""
    call = call_for(request.user, ref, timezone.now())
    book = rule_book(call.roster)
    context = {
        "call": call,
        "hours": hours_in_words(call, book),
        "rules": book.row_of(call.engagement.house_id),
        "unread": book.unread,
        "may_fill": call.may_fill,  # type: ignore[attr-defined]
    }
    return render(request, "crew/hours_call.html", context)


@require_safe
def roster_hours(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The roster's hours in the week that holds the day of `?week=`, today's without one."""
    roster, _may_write = roster_for(request.user, ref)
    form, report = _asked(request, roster)
    return _page(request, roster, form, report)


@require_safe
def roster_hours_file(request: HttpRequest, ref: UUID) -> HttpResponseBase:
    """The same week as CSV, or on paper by `?form=letter` and `?form=a4`; the page again where the day is wrong."""
    roster, _may_write = roster_for(request.user, ref)
    form, report = _asked(request, roster)
    if form.errors:
        return _page(request, roster, form, report)
    name = f"{slugify(roster.name) or 'roster'}-hours-{report.week:%Y-%m-%d}"
    paper = PAPERS.get(request.GET.get("form", ""))
    if paper is None:
        return csv_response(csv_lines(hours_table(report)), name)
    return pdf_response(hours_pdf(report, paper), name)


def _asked(request: HttpRequest, roster: Roster) -> tuple[WeekForm, HoursReport]:
    """The form and the report of its week; of today's where the form is wrong."""
    now = timezone.now()
    zone = houses_served(roster).order_by("pk").values_list("time_zone", flat=True).first() or "UTC"
    today = wall_time(now, zone).date()
    form = WeekForm({"week": request.GET.get("week") or today.isoformat()})
    day: date = form.cleaned_data["week"] if form.is_valid() else today
    book = rule_book(roster)
    return form, hours_report(roster, usual_week(day, book), book, now=now, zone=zone)


def _page(request: HttpRequest, roster: Roster, form: WeekForm, report: HoursReport) -> HttpResponse:
    before, after = weeks_beside(report.week)
    context = {"roster": roster, "form": form, "report": report, "before": before, "after": after}
    return render(request, "crew/hours_week.html", context)
