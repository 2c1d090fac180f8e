"""Revisions of a call's sheet: who confirmed the latest, what differs between two."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from crew.access import call_for, call_to_fill, line_in, sheet_for
from crew.actions import confirm_line
from crew.confirmations import confirmed_on, lines_by_key
from crew.core.call_sheet import changes, read_sheet
from crew.core.confirming import touched
from crew.sheet_content import latest_sheet
from crew.wording.changes import change_sentence
from crew.wording.revisions import compared_lines, confirmed_sentence, key_words, shown_confirmations
from venue.errors import DomainError
from venue.views.saving import actor_of


@require_safe
def confirmations(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Who has confirmed the latest revision, and who has not."""
    call = call_for(request.user, ref, timezone.now())
    latest = latest_sheet(call)
    context = {"call": call, "latest": latest, "may_fill": call.may_fill and not call.has_ended}  # type: ignore[attr-defined]
    if latest is not None:
        held = confirmed_on(call, latest)
        shown = shown_confirmations(read_sheet(latest.content), held)
        lines = {key: iter(each) for key, each in lines_by_key(call).items()}  # to each of one name the own line
        rows = [{"shown": each, "line": next(lines.get(each.key, iter(())), None)} for each in shown]
        context |= {"answer": confirmed_sentence(latest.n, shown), "rows": rows}
    return render(request, "crew/confirmations.html", context)


@require_POST
def line_confirm(request: HttpRequest, ref: UUID, line_ref: UUID, n: int) -> HttpResponse:
    """One tap: the person on the line has seen revision n and agrees."""
    now = timezone.now()
    call = call_to_fill(request.user, ref, now)
    line, sheet = line_in(call, line_ref), sheet_for(request.user, ref, n, now)
    name = line.person.name if line.person else ""
    said = str(line) if line.number_key else name
    try:
        confirm_line(actor=actor_of(request), line=line, sheet=sheet, by=name, at=now)
    except DomainError as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("%(line)s is confirmed for revision %(n)s.") % {"line": said, "n": n})
    return redirect("crew:confirmations", ref)


@require_safe
def sheet_against(request: HttpRequest, ref: UUID, n: int, m: int) -> HttpResponse:
    """Two revisions side by side: what differs, for whom."""
    now = timezone.now()
    old, new = sorted((sheet_for(request.user, ref, each, now) for each in (n, m)), key=lambda sheet: sheet.n)
    before, after = read_sheet(old.content), read_sheet(new.content)
    context = {
        "old": old,
        "new": new,
        "sheet": after,
        "sentences": [change_sentence(change) for change in changes(before, after)],
        "touched": [key_words(after, key) for key in touched(before, after)],
        "rows": compared_lines(before, after),
    }
    return render(request, "crew/sheet_against.html", context)
