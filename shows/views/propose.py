"""The best places for all numbers of a show at once: seen by whoever sees the show, taken by whoever may change it."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from shows.access import engagement_for
from shows.actions.proposing import take_proposal
from shows.forms.propose import TakeForm
from shows.proposal import proposed_for
from shows.tonight import show_instant
from shows.views.propose_page import proposal_context
from venue.access import require_write
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def propose(request: HttpRequest, ref: UUID) -> HttpResponse:
    """What is best and why, other places for one number, and all of it taken in one tap."""
    now, is_sent = timezone.now(), request.method == "POST"
    engagement, may_write = engagement_for(request.user, ref, now)
    require_write(may_write or not is_sent)
    form = TakeForm(request.POST if is_sent else None)

    def act() -> None:
        take_proposal(actor=actor_of(request), engagement=engagement, seen=form.cleaned_data["seen"], at=now)

    if is_saved(form, act):
        messages.success(request, _("Taken. The numbers stand as proposed; this is how the show fits now."))
        return redirect("shows:fit", ref)
    proposed = proposed_for(engagement, show_instant(engagement), now)
    context = {
        **proposal_context(proposed, other_places_for=request.GET.get("for", "")),
        "may_write": may_write and not engagement.has_ended,
        "form": form,
    }
    return render(request, "shows/propose.html", context)
