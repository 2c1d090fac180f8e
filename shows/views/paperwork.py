"""Paperwork in: received, previewed with corrections, accepted; and handed out again as it came."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from shows.access import engagement_for, engagement_to_write, paperwork_in
from shows.actions import accept_paperwork, receive_paperwork
from shows.core.paperwork import PaperworkUnreadable
from shows.forms.paperwork import PaperworkForm
from shows.models import Engagement, Paperwork
from shows.preview import Corrections, Preview, corrections_in, corrections_of, preview_of
from shows.reading import read_for
from shows.tonight import places_tonight, show_instant
from shows.views.preview_page import preview_context
from shows.wording.paperwork import problem_at_line
from venue.errors import DomainError, Invalid
from venue.views.saving import actor_of, is_saved

MENDABLE = {"no-number-column", "duplicate-header"}
"""What a person can put right on the preview by saying which column is meant."""
TYPES = {"csv": "text/csv", "text": "text/plain", "xlsx": "application/octet-stream"}


@require_http_methods(["GET", "HEAD", "POST"])
def paperwork_receive(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Take in a file or pasted lines; what nobody could read is refused at once."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    form = PaperworkForm(request.POST or None, request.FILES or None)
    kept: list[Paperwork] = []

    def act() -> None:
        received = form.received()
        _require_readable(engagement, received["content"])
        kept.append(receive_paperwork(actor=actor_of(request), engagement=engagement, at=now, **received))

    if is_saved(form, act):
        return redirect("shows:paperwork_preview", ref, kept[0].ref)
    return render(request, "shows/paperwork_form.html", {"engagement": engagement, "form": form})


def _require_readable(engagement: Engagement, content: bytes) -> None:
    """Raise Invalid for what no correction of columns could mend."""
    tonight = places_tonight(engagement, show_instant(engagement))
    try:
        read_for(tonight.house, content, {}, {})
    except PaperworkUnreadable as unreadable:
        if any(problem.code not in MENDABLE for problem in unreadable.problems[:1]):
            said = [problem_at_line(problem) for problem in unreadable.problems[:5]]
            raise Invalid({"__all__": said}) from unreadable


@require_safe
def paperwork_preview(request: HttpRequest, ref: UUID, paperwork_ref: UUID) -> HttpResponse:
    """The paperwork as read, with corrections from the address; nothing is stored."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    paperwork = paperwork_in(engagement, paperwork_ref)
    context = _previewed(engagement, paperwork, request.GET.dict())
    return render(request, "shows/paperwork_preview.html", {**context, "may_write": may_write})


def _previewed(engagement: Engagement, paperwork: Paperwork, params: dict[str, str]) -> dict[str, Any]:
    corrections = corrections_in(params) if params or paperwork.accepted_at is None else corrections_of(paperwork)
    tonight = places_tonight(engagement, show_instant(engagement))
    preview = preview_of(paperwork, corrections, tonight)
    return preview_context(engagement, paperwork, preview, corrections, tonight)


@require_POST
def paperwork_accept(request: HttpRequest, ref: UUID, paperwork_ref: UUID) -> HttpResponse:
    """Make the paperwork the show's, as the preview showed it."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    paperwork = paperwork_in(engagement, paperwork_ref)
    params = {name: value for name, value in request.POST.items() if isinstance(value, str)}
    corrections = corrections_in(params)
    preview = preview_of(paperwork, corrections, places_tonight(engagement, show_instant(engagement)))
    try:
        _accept(request, paperwork, preview, corrections)
    except DomainError as refusal:
        messages.error(request, str(refusal))
        context = _previewed(engagement, paperwork, params)
        return render(request, "shows/paperwork_preview.html", {**context, "may_write": True})
    messages.success(request, _("Accepted. Here is what it means in this house."))
    return redirect("shows:compare", ref)


def _accept(request: HttpRequest, paperwork: Paperwork, preview: Preview, corrections: Corrections) -> None:
    if preview.read is None or not preview.taken.facts:
        raise Invalid({"__all__": [_("No line has a show number. Say which column holds them.")]})
    seen = request.POST.get("version", "")
    accept_paperwork(
        actor=actor_of(request),
        paperwork=paperwork,
        spots=preview.taken.facts,
        statement_read=preview.read.statement or "",
        statement=corrections.statement,
        columns=preview.columns,
        numbers=corrections.numbers,
        at=timezone.now(),
        seen=int(seen) if seen.isascii() and seen.isdigit() and len(seen) < 10 else 0,
    )


@require_safe
def paperwork_file(request: HttpRequest, ref: UUID, paperwork_ref: UUID) -> HttpResponse:
    """The bytes as they came, as a file to keep; a browser never opens them in the page's place."""
    engagement, _may_write = engagement_for(request.user, ref, timezone.now())
    paperwork = paperwork_in(engagement, paperwork_ref)
    response = HttpResponse(bytes(paperwork.content), content_type=TYPES[paperwork.media])
    name = paperwork.file_name or f"paperwork.{'txt' if paperwork.media == 'text' else paperwork.media}"
    response.headers["Content-Disposition"] = content_disposition_header(True, name) or "attachment"
    response.headers["X-Content-Type-Options"] = "nosniff"
    return response
