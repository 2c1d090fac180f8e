"""A roster: the list of its people, its settings, the kinds of certification that it keeps."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import certification_kind_in, houses_served, houses_to_serve, roster_for
from crew.actions import serve_house
from crew.actions.certifying import add_certification_kind, change_certification_kind, end_certification_kind
from crew.forms.rosters import KindForm, RosterForm, ServeForm
from crew.models import CertificationKind
from crew.people_page import Who, page_of_people, today_of
from venue.actions import change
from venue.forms.base import EndForm
from venue.views.saving import actor_of, is_saved


@require_safe
def roster_detail(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Who is on the roster, a page at a time, searched by name."""
    roster, _may_write = roster_for(request.user, ref)
    query, asked = request.GET.get("q", "")[:200], request.GET.get("who", "")
    who: Who = "due" if asked == "due" else "left" if asked == "left" else ""
    found = page_of_people(roster, who, query, request.GET.get("page"), today_of(roster, timezone.now()))
    kept = {name: value for name, value in (("who", who), ("q", query)) if value}
    context = {
        "roster": roster,
        "houses": houses_served(roster),
        "people": found,
        "page": found.page,
        "who": who,
        "q": query,
        "query": f"{urlencode(kept)}&" if kept else "",
    }
    return render(request, "crew/roster_detail.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def roster_settings(request: HttpRequest, ref: UUID) -> HttpResponse:
    """In which order people are asked, what rest is due, who is late; the houses served and the certifications."""
    roster, _may_write = roster_for(request.user, ref)
    form = RosterForm(request.POST or None, instance=roster)
    if is_saved(
        form, lambda: change(actor=actor_of(request), row=roster, house=None, seen=form.seen, values=form.values())
    ):
        messages.success(request, _("The settings are stored."))
        return redirect("crew:roster_settings", ref)
    kinds = roster.certification_kinds.standing()
    context = {"form": form, "roster": roster, "houses": houses_served(roster), "kinds": kinds}
    return render(request, "crew/roster_settings.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def roster_serve(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Let the roster serve another house, for who heads that house too."""
    roster, _may_write = roster_for(request.user, ref)
    houses = houses_to_serve(request.user, roster)
    form = ServeForm(request.POST or None, houses=houses)

    def act() -> None:
        serve_house(actor=actor_of(request), roster=roster, house=form.cleaned_data["house"])

    if is_saved(form, act):
        messages.success(request, _("The roster serves %(house)s.") % {"house": form.cleaned_data["house"].name})
        return redirect("crew:roster_settings", ref)
    context = {"form": form, "roster": roster, "has_houses": houses.exists()}
    return render(request, "crew/roster_serve.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def kind_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Add a kind of certification."""
    roster, _may_write = roster_for(request.user, ref)
    form = KindForm(request.POST or None, instance=CertificationKind(roster=roster))
    if is_saved(form, lambda: add_certification_kind(actor=actor_of(request), roster=roster, **form.values())):
        messages.success(request, _("The certification was added. Now say who holds it."))
        return redirect("crew:roster_settings", ref)
    return render(request, "crew/roster_kind_form.html", {"form": form, "roster": roster, "kind": None})


@require_http_methods(["GET", "HEAD", "POST"])
def kind_edit(request: HttpRequest, ref: UUID, kind_ref: UUID) -> HttpResponse:
    """Change a kind of certification."""
    roster, _may_write = roster_for(request.user, ref)
    kind = certification_kind_in(roster, kind_ref)
    form = KindForm(request.POST or None, instance=kind)

    def act() -> None:
        change_certification_kind(actor=actor_of(request), kind=kind, seen=form.seen, values=form.values())

    if is_saved(form, act):
        messages.success(request, _("The certification was changed."))
        return redirect("crew:roster_settings", ref)
    return render(request, "crew/roster_kind_form.html", {"form": form, "roster": roster, "kind": kind})


@require_http_methods(["GET", "HEAD", "POST"])
def kind_end(request: HttpRequest, ref: UUID, kind_ref: UUID) -> HttpResponse:
    """The roster keeps a kind of certification no more."""
    roster, _may_write = roster_for(request.user, ref)
    kind = certification_kind_in(roster, kind_ref)
    form = EndForm(request.POST or None, row=kind)

    def act() -> None:
        kind.version = form.seen
        reason = form.cleaned_data["reason"]
        end_certification_kind(actor=actor_of(request), kind=kind, at=timezone.now(), reason=reason)

    if is_saved(form, act):
        messages.success(request, _("Nothing asks for this certification any more. The history is kept."))
        return redirect("crew:roster_settings", ref)
    return render(request, "crew/roster_kind_end.html", {"form": form, "roster": roster, "kind": kind})
