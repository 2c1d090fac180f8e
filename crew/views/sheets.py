"""Issuing a call's sheet, and the sheets that were issued: on the phone and as PDF."""

from uuid import UUID
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from crew.access import call_for, call_to_fill, may_fill, sheet_for
from crew.actions import issue_call_sheet
from crew.core.call_sheet import read_sheet
from crew.moments import moment
from crew.printing import contacts_of, draft_pdf, issued_pdf
from crew.sheet_content import draft_of
from crew.sheet_standing import standing_of_sheet
from crew.sheets.pen import PAPERS, Paper
from crew.views.answering import pdf_response
from crew.wording import sheet as words
from crew.wording.standing import standing_sentence
from venue.errors import DomainError
from venue.views.saving import actor_of


@require_POST
def sheet_issue(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Issue the sheet as it stands."""
    now = timezone.now()
    call = call_for(request.user, ref, now)
    seen = request.POST.get("seen") or None
    try:
        issue = issue_call_sheet(actor=actor_of(request), call=call, now=now, seen=seen)
    except DomainError as refusal:
        messages.error(request, str(refusal))
        return redirect("crew:call", ref=ref)
    if issue.is_new:
        messages.success(request, _("Revision %(n)s is issued.") % {"n": issue.sheet.n})
    else:
        messages.info(request, _("Nothing has changed: revision %(n)s stays in force.") % {"n": issue.sheet.n})
    return redirect("crew:sheet", ref=ref, n=issue.sheet.n)


@require_safe
def sheet_detail(request: HttpRequest, ref: UUID, n: int) -> HttpResponse:
    """An issued sheet as a page for the phone, with whether it is still the one to go by."""
    issued = sheet_for(request.user, ref, n, timezone.now())
    sheet, standing = read_sheet(issued.content), standing_of_sheet(issued)
    context = {
        "issued": issued,
        "before": issued.n - 1,
        "issued_at": moment(issued.issued_at.astimezone(ZoneInfo(sheet.zone))),
        "code": words.code_in_groups(issued.code.code),
        "sheet": sheet,
        "day": words.day(sheet.starts),
        "times": words.times(sheet),
        "clocks": words.clocks(sheet),
        "landmarks": words.landmarks(sheet),
        "notice_heading": words.notice_heading(sheet.notice_kind),
        "called_off": words.called_off(sheet),
        "weather": words.weather(sheet),
        "late_tell": words.late_tell(sheet.late_tell),
        "may_fill": may_fill(request.user, issued.call),
        "filled": words.filled(sheet),
        "lights": words.shown_lights(sheet),
        "without_number": words.without_number(sheet),
        "caution": words.caution(),
        "standing": standing,
        "standing_sentence": standing_sentence(standing),
    }
    return render(request, "crew/sheet_detail.html", context)


@require_safe
def sheet_pdf(request: HttpRequest, ref: UUID, n: int, paper: str) -> HttpResponse:
    """The issued sheet on paper; for dispatch that asks for it with the ways to reach everybody on the call."""
    now = timezone.now()
    issued = sheet_for(request.user, ref, n, now)
    is_asked = request.GET.get("contacts") == "yes"
    contacts = contacts_of(call_to_fill(request.user, ref, now)) if is_asked else []
    site = request.build_absolute_uri("/")
    content = issued_pdf(issued, paper=_paper(paper), now=now, site=site, contacts=contacts)
    return pdf_response(content, f"{slugify(issued.call.engagement.name) or 'call-sheet'}-{n}")


@require_safe
def draft_sheet_pdf(request: HttpRequest, ref: UUID, paper: str) -> HttpResponse:
    """What would be issued now, marked as a draft."""
    now = timezone.now()
    call = call_for(request.user, ref, now)
    content = draft_pdf(draft_of(call), paper=_paper(paper), now=now)
    return pdf_response(content, f"{slugify(call.engagement.name) or 'call-sheet'}-draft")


def _paper(name: str) -> Paper:
    if name not in PAPERS:
        raise Http404
    return PAPERS[name]
