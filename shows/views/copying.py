"""A show's next visit, copied from this one by whoever may change it and heads the house that it comes to."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from shows.access import engagement_to_write, houses_to_book
from shows.actions.copying import Copied, copy_show
from shows.forms.copying import CopyForm
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def copy(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Copy the show; to another house its numbering is compared next."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    form = CopyForm(request.POST or None, engagement=engagement, houses=houses_to_book(request.user))
    made: list[Copied] = []

    def act() -> None:
        made.append(copy_show(actor=actor_of(request), engagement=engagement, **form.cleaned_data))

    if is_saved(form, act):
        _tell(request, made[0])
        is_same = made[0].engagement.house_id == engagement.house_id
        return redirect("shows:engagement_detail" if is_same else "shows:compare", made[0].engagement.ref)
    return render(request, "shows/copy.html", {"engagement": engagement, "form": form})


def _tell(request: HttpRequest, made: Copied) -> None:
    words = _("%(name)s is on file from %(day)s. Decisions, checks and signatures stay with the earlier visit.")
    messages.success(request, words % {"name": made.engagement.name, "day": made.engagement.starts_on})
    if made.left_out:
        words = _("Not taken along, add them by hand: %(events)s. Their times do not go there by whole days.")
        messages.warning(request, words % {"events": "; ".join(map(str, made.left_out))})
    if made.freed:
        text = ngettext(
            "%(count)s number put by hand has no place there any more. Put it on a place again.",
            "%(count)s numbers put by hand have no place there any more. Put them on places again.",
            made.freed,
        )
        messages.warning(request, text % {"count": made.freed})
