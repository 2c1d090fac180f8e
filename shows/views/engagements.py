"""A house's shows, and each show's first page."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from shows.access import engagement_for, engagement_to_write
from shows.actions import change_engagement, end_engagement, make_engagement
from shows.forms.engagements import EngagementForm, NewEngagementForm
from shows.standing import standing_of
from shows.wording.landing import landing
from venue.access import house_for, house_to_write
from venue.forms.base import EndForm
from venue.views.saving import actor_of, is_saved


@require_safe
def engagement_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The shows of a house, those to come and those that are over."""
    house, may_write = house_for(request.user, slug)
    shows = house.engagements.standing().order_by("-starts_on", "name")
    return render(request, "shows/engagement_list.html", {"house": house, "may_write": may_write, "shows": shows})


@require_http_methods(["GET", "HEAD", "POST"])
def engagement_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Book a show into the house."""
    house = house_to_write(request.user, slug)
    form = NewEngagementForm(request.POST or None, house=house)
    made = []
    if is_saved(form, lambda: made.append(make_engagement(actor=actor_of(request), house=house, **form.values()))):
        messages.success(request, _("%(name)s is on file. Bring in its paperwork next.") % {"name": made[0].name})
        return redirect("shows:engagement_detail", made[0].ref)
    return render(request, "shows/engagement_new.html", {"house": house, "form": form})


@require_safe
def engagement_detail(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Do the numbers run the house's way? One sentence, one button, and what is on file."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    standing = standing_of(engagement)
    context = {
        "engagement": engagement,
        "may_write": may_write,
        "standing": standing,
        "landing": landing(standing, may_write),
        "events": engagement.events.standing(),
        "paperwork": engagement.paperwork.without_content()[:10],
    }
    return render(request, "shows/engagement_detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def engagement_edit(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Change a show's name, days or set-up."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    form = EngagementForm(request.POST or None, row=engagement)

    def act() -> None:
        change_engagement(actor=actor_of(request), engagement=engagement, seen=form.seen, values=form.values())

    if is_saved(form, act):
        messages.success(request, _("Stored."))
        return redirect("shows:engagement_detail", ref)
    return render(request, "shows/engagement_edit.html", {"engagement": engagement, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def engagement_end(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The show is off, or over."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    form = EndForm(request.POST or None, row=engagement)

    def act() -> None:
        reason = form.cleaned_data["reason"]
        end_engagement(actor=actor_of(request), engagement=engagement, at=now, reason=reason)

    if is_saved(form, act):
        messages.success(request, _("The show has ended. Its record stays."))
        return redirect("shows:engagement_detail", ref)
    return render(request, "shows/engagement_end.html", {"engagement": engagement, "form": form})
