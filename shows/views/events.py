"""What is on when in a show."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from shows.access import engagement_to_write, event_in
from shows.actions import add_show_event, change_show_event, end_show_event
from shows.forms.engagements import ChangeEventForm, EventForm
from venue.forms.base import EndForm
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def event_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Add an event by the house's clocks."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    form = EventForm(request.POST or None, house=engagement.house, initial={"day": engagement.starts_on})
    if is_saved(form, lambda: add_show_event(actor=actor_of(request), engagement=engagement, **form.values())):
        messages.success(request, _("Added."))
        return redirect("shows:engagement_detail", ref)
    return render(request, "shows/event_new.html", {"engagement": engagement, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def event_edit(request: HttpRequest, ref: UUID, event_ref: UUID) -> HttpResponse:
    """Change an event."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    event = event_in(engagement, event_ref)
    form = ChangeEventForm(request.POST or None, row=event)

    def act() -> None:
        change_show_event(actor=actor_of(request), event=event, seen=form.seen, **form.values())

    if is_saved(form, act):
        messages.success(request, _("Stored."))
        return redirect("shows:engagement_detail", ref)
    return render(request, "shows/event_edit.html", {"engagement": engagement, "event": event, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def event_end(request: HttpRequest, ref: UUID, event_ref: UUID) -> HttpResponse:
    """Call an event off."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    event = event_in(engagement, event_ref)
    form = EndForm(request.POST or None, row=event)

    def act() -> None:
        end_show_event(actor=actor_of(request), event=event, at=now, reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("Called off. The record stays."))
        return redirect("shows:engagement_detail", ref)
    return render(request, "shows/event_end.html", {"engagement": engagement, "event": event, "form": form})
