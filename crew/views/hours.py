"""Hours of a call, of a person, of a show and of a roster by the week: as page, CSV and PDF. Never money."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any
from urllib.parse import urlencode
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from crew.access import call_for, called_show_in, houses_served, person_in, roster_for
from crew.core.hours_report import HoursReport
from crew.forms.hours import DaysForm, WeekForm
from crew.hour_reports import call_report, hours_table, person_report, show_report, week_report
from crew.hour_rows import usual_week
from crew.hours_page import call_hours as hours_in_words
from crew.models import Person, Roster
from crew.rule_book import RuleBook, rule_book
from crew.sheets.hours import hours_pdf
from crew.sheets.pen import PAPERS
from crew.views.answering import csv_response, pdf_response
from venue.core.local_time import wall_time
from venue.forms.base import RefusedForm
from venue.out.table import csv_lines

FOUR_WEEKS, WEEK, DAY = timedelta(days=28), timedelta(days=7), timedelta(days=1)


# -- a call -------------------------------------------------------------------------------------------------


@require_safe
def call_hours(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Each person's hours on the call, and who has no time out yet."""
    call = call_for(request.user, ref, timezone.now())
    book = rule_book(call.roster)
    context = {
        "call": call,
        "hours": hours_in_words(call, book),
        "days": (call.call_date + DAY - FOUR_WEEKS, call.call_date + DAY),
        "unread": book.unread,
        "may_fill": call.may_fill,  # type: ignore[attr-defined]
    }
    return render(request, "crew/hours_call.html", context)


@require_safe
def call_hours_file(request: HttpRequest, ref: UUID) -> HttpResponseBase:
    """The same as CSV, or on paper by `?form=letter` and `?form=a4`."""
    now = timezone.now()
    call = call_for(request.user, ref, now)
    report = call_report(call, rule_book(call.roster), wall_time(now, call.zone))
    return _file(request, report, f"{slugify(call.engagement.name) or 'call'}-hours-{call.call_date}")


# -- a show -------------------------------------------------------------------------------------------------


@require_safe
def show_hours(request: HttpRequest, ref: UUID, show_ref: UUID) -> HttpResponse:
    """Everybody's hours on the roster's calls for a show."""
    roster, _may_write = roster_for(request.user, ref)
    show = called_show_in(roster, show_ref)
    book = rule_book(roster)
    report = show_report(roster, show, book, _wall_now(roster))
    context = {"roster": roster, "show": show, "report": report, "days": _days_of(report), "unread": book.unread}
    return render(request, "crew/hours_show.html", context)


@require_safe
def show_hours_file(request: HttpRequest, ref: UUID, show_ref: UUID) -> HttpResponseBase:
    """The same as a file."""
    roster, _may_write = roster_for(request.user, ref)
    show = called_show_in(roster, show_ref)
    report = show_report(roster, show, rule_book(roster), _wall_now(roster))
    return _file(request, report, f"{slugify(show.name) or 'show'}-hours")


# -- from one day to another --------------------------------------------------------------------------------


@dataclass(frozen=True)
class Asked:
    """The form, the days of it, or the usual ones where it is wrong, the rules, and what the hours are by them."""

    form: RefusedForm
    days: tuple[date, date]
    book: RuleBook
    report: HoursReport

    @property
    def context(self) -> dict[str, Any]:
        """What a page shows of it; `query` asks for the same days again."""
        query = urlencode({name: self.form.data.get(name, "") for name in self.form.fields})
        shown = {"form": self.form, "days": self.days, "report": self.report, "unread": self.book.unread}
        return {**shown, "query": f"{query}&" if self.form.is_valid() else ""}


@require_safe
def person_hours(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponse:
    """One person's hours from `?first=` to `?last=`, without them in the last four weeks."""
    roster, _may_write = roster_for(request.user, ref)
    person = person_in(roster, person_ref)
    return _person_page(request, person, _person_asked(request, person))


@require_safe
def person_hours_file(request: HttpRequest, ref: UUID, person_ref: UUID) -> HttpResponseBase:
    """The same as a file; the page again where the days are wrong."""
    roster, _may_write = roster_for(request.user, ref)
    person = person_in(roster, person_ref)
    asked = _person_asked(request, person)
    if asked.form.errors:
        return _person_page(request, person, asked)
    first, last = asked.days
    return _file(request, asked.report, f"{slugify(person.name) or 'person'}-hours-{first}-{last}")


def _person_asked(request: HttpRequest, person: Person) -> Asked:
    now, book = _wall_now(person.roster), rule_book(person.roster)
    usual = {"first": now.date() - FOUR_WEEKS + DAY, "last": now.date()}
    form = DaysForm({name: request.GET.get(name) or day.isoformat() for name, day in usual.items()})
    days = form.cleaned_data if form.is_valid() else usual
    first, last = days["first"], days["last"]
    return Asked(form, (first, last), book, person_report(person, first, last, book, now))


def _person_page(request: HttpRequest, person: Person, asked: Asked) -> HttpResponse:
    context = {"roster": person.roster, "person": person, **asked.context}
    return render(request, "crew/hours_person.html", context)


@require_safe
def roster_hours(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The roster's hours in the week that holds the day of `?week=`, today's without one."""
    roster, _may_write = roster_for(request.user, ref)
    return _week_page(request, roster, _week_asked(request, roster))


@require_safe
def roster_hours_file(request: HttpRequest, ref: UUID) -> HttpResponseBase:
    """The same as a file; the page again where the day is wrong."""
    roster, _may_write = roster_for(request.user, ref)
    asked = _week_asked(request, roster)
    if asked.form.errors:
        return _week_page(request, roster, asked)
    return _file(request, asked.report, f"{slugify(roster.name) or 'roster'}-hours-{asked.days[0]}")


def _week_asked(request: HttpRequest, roster: Roster) -> Asked:
    now, book = _wall_now(roster), rule_book(roster)
    form = WeekForm({"week": request.GET.get("week") or now.date().isoformat()})
    week = usual_week(form.cleaned_data["week"] if form.is_valid() else now.date(), book)
    last = week + WEEK - DAY
    return Asked(form, (week, last), book, week_report(roster, week, last, book, now))


def _week_page(request: HttpRequest, roster: Roster, asked: Asked) -> HttpResponse:
    week, last = asked.days
    context = {"roster": roster, "week": week, "before": week - DAY, "after": last + DAY, **asked.context}
    return render(request, "crew/hours_week.html", context)


# -- what they have in common -------------------------------------------------------------------------------


def _file(request: HttpRequest, report: HoursReport, name: str) -> HttpResponseBase:
    """The report as CSV, or on paper by `?form=letter` and `?form=a4`."""
    paper = PAPERS.get(request.GET.get("form", ""))
    if paper is None:
        return csv_response(csv_lines(hours_table(report)), name)
    return pdf_response(hours_pdf(report, paper), name)


def _days_of(report: HoursReport) -> tuple[date, date] | None:
    """From the first day of the report's hours to the last; None without any."""
    came = [day.date() for line in report.lines for day in (line.came, line.left)]
    return (min(came), max(came)) if came else None


def _wall_now(roster: Roster) -> datetime:
    """What the clocks show in the first house that the roster serves."""
    zone = houses_served(roster).order_by("pk").values_list("time_zone", flat=True).first() or "UTC"
    return wall_time(timezone.now(), zone)
