"""The advance of a show: what is open with the tour, by whom and by when, and the house's answer."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from shows.access import engagement_for, engagement_to_write, point_in
from shows.actions.advance import add_point, answer_point, change_point, end_point, note_point, reopen_point
from shows.advance import advance_of
from shows.forms.advance import AgainForm, AnswerForm, PointForm
from shows.models import AdvanceItem
from shows.views.advance_link import link_context, shown_once
from shows.views.advance_page import answer_context, list_context
from shows.views.telling import told
from shows.wording.advance import noted_as, system_of
from venue.forms.base import EndForm
from venue.views.saving import actor_of, is_saved

READ_AND_SEND = ["GET", "HEAD", "POST"]


@require_safe
def advance(request: HttpRequest, ref: UUID) -> HttpResponse:
    """What is still open with the tour, and did its head confirm?"""
    now = timezone.now()
    engagement, may_write = engagement_for(request.user, ref, now)
    may_write = may_write and not engagement.has_ended
    context = list_context(advance_of(engagement, now), may_write)
    if may_write:
        context |= link_context(request, engagement, now)
    return shown_once(engagement).on_page(render(request, "shows/advance.html", context))


@require_safe
def advance_answer(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The house's answer as the tour reads it by its link."""
    now = timezone.now()
    engagement, _may_write = engagement_for(request.user, ref, now)
    return render(request, "shows/advance_answer.html", answer_context(advance_of(engagement, now)))


@require_http_methods(READ_AND_SEND)
def advance_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Note something as open."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    form = PointForm(request.POST or None, row=AdvanceItem(engagement=engagement))
    if is_saved(form, lambda: add_point(actor=actor_of(request), engagement=engagement, **form.values())):
        messages.success(request, _("Noted as open."))
        return redirect("shows:advance", ref)
    return render(request, "shows/advance_form.html", {"engagement": engagement, "form": form})


@require_POST
def advance_note(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Note as open what the book finds open."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    found = advance_of(engagement, now)
    point = found.to_note_as(request.POST.get("point", ""))
    if point is None:
        messages.info(request, _("The book does not find this open any more. Nothing was noted."))
        return redirect("shows:advance", ref)
    what = noted_as(point, found.comparison, system_of(engagement))
    with told(request, _("Noted as open. Set its day, or put it in other words, where it is listed.")):
        note_point(actor=actor_of(request), engagement=engagement, point=point, what=what)
    return redirect("shows:advance", ref)


@require_http_methods(READ_AND_SEND)
def advance_edit(request: HttpRequest, ref: UUID, point_ref: UUID) -> HttpResponse:
    """Change a point: its words, who owes it, its day."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    point = point_in(engagement, point_ref)
    form, what = PointForm(request.POST or None, row=point), point.what

    def act() -> None:
        change_point(actor=actor_of(request), point=point, seen=form.seen, values=form.values())

    if is_saved(form, act):
        messages.success(request, _("Stored."))
        return redirect("shows:advance", ref)
    return render(request, "shows/advance_form.html", {"engagement": engagement, "form": form, "what": what})


@require_http_methods(READ_AND_SEND)
def advance_done(request: HttpRequest, ref: UUID, point_ref: UUID) -> HttpResponse:
    """Write down what came of a point, and who says so."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    point = point_in(engagement, point_ref)
    form = AnswerForm(request.POST or None, row=point, name=actor_of(request).name, is_by_link=False)

    def act() -> None:
        answer, by = form.cleaned_data["answer"], form.cleaned_data["by"]
        answer_point(actor=actor_of(request), point=point, answer=answer, by=by, at=now, seen=form.seen)

    if is_saved(form, act):
        messages.success(request, _("Done. It is kept with name and time."))
        return redirect("shows:advance", ref)
    return render(request, "shows/advance_done.html", {"engagement": engagement, "form": form, "point": point})


@require_POST
def advance_again(request: HttpRequest, ref: UUID, point_ref: UUID) -> HttpResponse:
    """Open an answered point again."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    point = point_in(engagement, point_ref)
    form = AgainForm(request.POST, row=point)
    if not form.is_valid():
        messages.error(request, _("Load the page anew, then tap again. Nothing was changed."))
        return redirect("shows:advance", ref)
    with told(request, _("Open again. What was answered stays in sight.")):
        reopen_point(actor=actor_of(request), point=point, seen=form.seen)
    return redirect("shows:advance", ref)


@require_http_methods(READ_AND_SEND)
def advance_end(request: HttpRequest, ref: UUID, point_ref: UUID) -> HttpResponse:
    """Take a point off: it is no matter any more."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    point = point_in(engagement, point_ref)
    form = EndForm(request.POST or None, row=point)

    def act() -> None:
        point.version = form.seen
        end_point(actor=actor_of(request), point=point, at=now, reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("Taken off the list. The record of it stays."))
        return redirect("shows:advance", ref)
    return render(request, "shows/advance_end.html", {"engagement": engagement, "form": form, "point": point})
