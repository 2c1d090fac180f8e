"""The pages of calls: the list, making one, changing it, calling it off."""

from datetime import datetime, timedelta
from functools import partial
from uuid import UUID

from django.contrib import messages
from django.db.models import Exists, OuterRef, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import (
    call_for,
    calls_for,
    event_to_call,
    events_to_call,
    rosters_to_call,
    sheets_for,
    templates_for,
)
from crew.actions import call_off, change_call, make_call
from crew.board import board_of
from crew.forms.calls import ChangedCallForm, NewCallForm, ReasonForm
from crew.models import Call, IssuedSheet
from crew.offers import calls_asking
from crew.views.call_pages import call_page
from crew.wording.board import shown_call
from shows.models import ShowEvent
from venue.views.saving import actor_of, is_saved

DAYS_AHEAD = 14
HOURS_KEPT = 12
"""How long after its start an event is still listed."""


@require_safe
def call_list(request: HttpRequest) -> HttpResponse:
    """The calls of the next days, the events that have none yet, and the sheets of those who see only these."""
    now = timezone.now()
    since, until = now - timedelta(hours=HOURS_KEPT), now + timedelta(days=DAYS_AHEAD)
    calls = calls_for(request.user).filter(event__starts_at__gte=since, event__starts_at__lt=until)
    context = {
        "calls": [shown_call(found) for found in board_of(calls.order_by("call_at", "pk"))],
        "events": _events_without_call(request, since, until),
        "sheets": _latest_sheets(request, now, since),
        "days": DAYS_AHEAD,
        "asking": calls_asking(calls),
    }
    response = render(request, "crew/call_list.html", context)
    response.headers["Cache-Control"] = "private, no-store"  # dispatch reads numbers of people there
    return response


def _events_without_call(request: HttpRequest, since: datetime, until: datetime) -> QuerySet[ShowEvent]:
    called = Call.objects.standing().filter(event=OuterRef("pk"))
    events = events_to_call(request.user).filter(starts_at__gte=since, starts_at__lt=until)
    return events.exclude(Exists(called)).order_by("starts_at", "pk")


def _latest_sheets(request: HttpRequest, now: datetime, since: datetime) -> QuerySet[IssuedSheet]:
    """The latest sheet of each call that the user does not run."""
    newer = IssuedSheet.objects.filter(call=OuterRef("call"), n__gt=OuterRef("n"))
    sheets = sheets_for(request.user, now).exclude(call__in=calls_for(request.user).values("pk"))
    latest = sheets.exclude(Exists(newer)).filter(call__event__starts_at__gte=since)
    return latest.select_related("call__event", "call__engagement__house").order_by("call__call_at", "pk")


@require_http_methods(["GET", "HEAD", "POST"])
def call_new(request: HttpRequest, event_ref: UUID) -> HttpResponse:
    """Make the call for an event."""
    event = event_to_call(request.user, event_ref, timezone.now())
    rosters = rosters_to_call(request.user, event.engagement.house)
    templates = list(templates_for(event, rosters))
    template = next((each for each in templates if str(each.ref) == request.GET.get("template")), None)
    form = NewCallForm(request.POST or None, event=event, rosters=rosters, template=template)
    made: list[Call] = []

    def act() -> None:
        chosen = {name: form.cleaned_data[name] for name in ("roster", "at_spot_talk")}
        made.append(make_call(actor=actor_of(request), event=event, facts=form.facts, wanted=form.wanted, **chosen))

    if is_saved(form, act):
        messages.success(request, _("The call is made. Put people on it."))
        return redirect("crew:call", ref=made[0].ref)
    context = {"form": form, "event": event, "has_roster": rosters.exists()}
    return render(request, "crew/call_form.html", {**context, "templates": templates, "template": template})


@require_safe
def call_detail(request: HttpRequest, ref: UUID) -> HttpResponse:
    """One call: who is on it, what stops issuing, what changed since the last sheet."""
    return call_page(request, call_for(request.user, ref, timezone.now()))


@require_http_methods(["GET", "HEAD", "POST"])
def call_edit(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Change times, places and notes; who can't come at the new times is named, and taken off if that is said."""
    now = timezone.now()
    call = call_for(request.user, ref, now)
    form = ChangedCallForm(request.POST or None, call=call, may_fill=call.may_fill)  # type: ignore[attr-defined]
    gone: list[str] = []

    def act() -> None:
        change = partial(change_call, actor=actor_of(request), call=call, seen=form.seen)
        gone.extend(change(facts=form.facts, release_at=now if form.takes_off else None))

    if is_saved(form, act):
        messages.success(request, _("The call is changed."))
        if gone:
            messages.warning(request, _("Taken off, to fill again: %(names)s.") % {"names": ", ".join(gone)})
        return redirect("crew:call", ref=call.ref)
    return render(request, "crew/call_form.html", {"form": form, "event": call.event, "call": call})


@require_http_methods(["GET", "HEAD", "POST"])
def call_end(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Call it off, with a reason."""
    now = timezone.now()
    call = call_for(request.user, ref, now)
    form = ReasonForm(request.POST or None)
    end = partial(call_off, actor=actor_of(request), call=call, at=now)
    if is_saved(form, lambda: end(reason=form.cleaned_data["reason"])):
        messages.success(request, _("The call is off. Issue its sheet once more, so that everybody learns of it."))
        return redirect("crew:call", ref=call.ref)
    return render(request, "crew/call_end.html", {"form": form, "call": call})
