"""Putting people on a call."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from crew.access import call_to_fill
from crew.actions import fill_call
from crew.sheet_content import state_of
from crew.views.call_pages import call_page, fill_form
from venue.views.saving import actor_of, is_saved


@require_POST
def call_fill(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Store who is on which number; what was typed stays on the page if it is refused."""
    now = timezone.now()
    call = call_to_fill(request.user, ref, now)
    state = state_of(call)
    form = fill_form(request, call, state, is_submitted=True)

    def act() -> None:
        fill_call(
            actor=actor_of(request),
            call=call,
            people=form.people,
            at_spot_talk=form.at_spot_talk,
            hands=form.hands,
            reason=form.cleaned_data.get("reason", ""),
            at=now,
            seen=form.seen,
        )

    if is_saved(form, act):
        messages.success(request, _("Stored. The sheet shows it after the next issue."))
        return redirect("crew:call", ref=call.ref)
    return call_page(request, call, state=state, form=form)
