"""The house's answer for the tour's head, who has an address and no account: read, answered where asked, confirmed."""

from dataclasses import dataclass
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from shows.access import advanced_behind, point_in
from shows.actions.advance import answer_point, confirm_answer
from shows.advance import advance_of
from shows.errors import AnswerChanged, PointAnswered
from shows.forms.advance import AnswerForm, ConfirmForm
from shows.models import AdvanceItem, Engagement
from shows.models.advance import OwedBy
from shows.views.advance_page import answer_context
from shows.wording.advance import due_words, outside
from venue.core.local_time import house_day
from venue.errors import LinkRefused
from venue.history import Actor
from venue.models import Link
from venue.views.asking import asked_too_often, unlisted
from venue.views.saving import is_saved

SEEN_A_MINUTE = 120
"""From one connection by links that work."""
NAME_KEPT = "told-by"
"""Where the session keeps who answers for the tour."""
READ_AND_SEND = ["GET", "HEAD", "POST"]


@dataclass(frozen=True)
class Door:
    """What the address opened."""

    engagement: Engagement
    link: Link
    secret: str

    def actor(self, name: str) -> Actor:
        """Whoever wrote a name, as the history names them."""
        return Actor.of_link(_("%(name)s, by the advance link") % {"name": name.strip()})


@login_not_required
@require_http_methods(READ_AND_SEND)
def advance_read(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The answer, and its confirmation. Nothing is changed by looking."""
    door = _by_link(request, ref, secret)
    return door if isinstance(door, HttpResponse) else unlisted(_read(request, door))


@login_not_required
@require_http_methods(READ_AND_SEND)
def advance_tell(request: HttpRequest, ref: UUID, secret: str, point_ref: UUID) -> HttpResponse:
    """What the house still wants to know: one point, answered with a name."""
    door = _by_link(request, ref, secret)
    return door if isinstance(door, HttpResponse) else unlisted(_tell(request, door, point_ref))


def _by_link(request: HttpRequest, ref: UUID, secret: str) -> Door | HttpResponse:
    """What the address opens; else the answer that says why not, which never tells whose link it was."""
    now = timezone.now()
    refused = asked_too_often(request, now, "advances", most=SEEN_A_MINUTE)
    if refused is not None:
        return refused
    try:
        engagement, link = advanced_behind(ref, secret, now)
    except LinkRefused:
        often = asked_too_often(request, now, "advances-refused")
        return often or unlisted(render(request, "shows/arrive_refused.html", status=404))
    return Door(engagement, link, secret)


def _read(request: HttpRequest, door: Door) -> HttpResponse:
    now = timezone.now()
    found = advance_of(door.engagement, now)
    form = ConfirmForm(request.POST or None, name=_name_for(request))

    def act() -> None:
        if form.cleaned_data["sha256"] != found.answer.sha256["whole"]:
            raise AnswerChanged
        name, engagement = form.cleaned_data["name"], door.engagement
        facts = {"name": name, "digests": found.answer.sha256, "at": now, "link": door.link}
        confirm_answer(actor=door.actor(name), engagement=engagement, **facts)

    if is_saved(form, act):
        request.session[NAME_KEPT] = form.cleaned_data["name"]
        messages.success(request, _("Confirmed. The house sees your name and the time."))
        return redirect("shows:advance_read", door.link.ref, door.secret)
    return render(request, "shows/advance_answer.html", {**answer_context(found), "door": door, "form": form})


def _tell(request: HttpRequest, door: Door, point_ref: UUID) -> HttpResponse:
    now, house = timezone.now(), door.engagement.house
    point = _asked_of_tour(door.engagement, point_ref)
    if point.done_at is not None and request.method != "POST":
        messages.info(request, str(PointAnswered(point.done_by)))
        return redirect("shows:advance_read", door.link.ref, door.secret)
    form = AnswerForm(request.POST or None, row=point, name=_name_for(request), is_by_link=True)

    def act() -> None:
        by, facts = form.cleaned_data["by"], {"answer": form.cleaned_data["answer"], "at": now, "link": door.link}
        answer_point(actor=door.actor(by), point=point, by=by, seen=form.seen, **facts)

    if is_saved(form, act):
        request.session[NAME_KEPT] = form.cleaned_data["by"]
        messages.success(request, _("Answered. The house sees it with your name and the time."))
        return redirect("shows:advance_read", door.link.ref, door.secret)
    due = due_words(point, house_day(now, house.time_zone, house.day_turns_at))
    context = {"door": door, "engagement": door.engagement, "form": form, "what": outside(point.what), "due": due}
    return render(request, "shows/advance_tell.html", context)


def _asked_of_tour(engagement: Engagement, ref: UUID) -> AdvanceItem:
    """A point that the tour owes. Raises Http404."""
    point = point_in(engagement, ref)
    if point.owed_by != OwedBy.TOUR:
        raise Http404
    return point


def _name_for(request: HttpRequest) -> str:
    """The name that was written last in this browser."""
    return str(request.session.get(NAME_KEPT, ""))
