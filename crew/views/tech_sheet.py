"""The house's technical sheet: for its members, and by its public link for whoever was given the address."""

from datetime import datetime
from uuid import UUID

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from crew.access import house_behind, tech_link_of
from crew.actions.tech_links import end_tech_link, renew_tech_link
from crew.sheets.pen import PAPERS, Paper
from crew.tech_sheet_faces import page_of, pdf_of
from crew.views.answering import pdf_response
from venue.access import house_for, house_to_write, setup_named
from venue.errors import DomainError, LinkRefused
from venue.models import House, Setup
from venue.views.asking import asked_too_often, unlisted
from venue.views.saving import actor_of
from venue.views.shown_once import ShownOnce


@require_safe
def tech_sheet(request: HttpRequest, slug: str) -> HttpResponse:
    """The sheet as things stand; for the head the public link besides."""
    house, may_write = house_for(request.user, slug)
    setup, now = _setup(request, house), timezone.now()
    context = {**page_of(setup, now), "may_write": may_write, "address": _shown_once(house).address(request)}
    context["link"] = tech_link_of(house, now) if may_write else None
    return _shown_once(house).on_page(render(request, "crew/tech_sheet.html", context))


@require_safe
def tech_sheet_pdf(request: HttpRequest, slug: str) -> HttpResponse:
    """The sheet on paper."""
    house, _may_write = house_for(request.user, slug)
    return _pdf(request, house, timezone.now())


@require_POST
def tech_link(request: HttpRequest, slug: str) -> HttpResponse:
    """Make the public link, or a new one in place of the old; its address is shown this once."""
    house = house_to_write(request.user, slug)
    made = renew_tech_link(actor=actor_of(request), house=house, now=timezone.now())
    messages.success(request, _("The public link is made. Copy its address now: it is shown this once."))
    public = reverse("crew:tech_public", args=[made.link.ref, made.secret])
    return _shown_once(house).to_page(request, public)


@require_POST
def tech_link_off(request: HttpRequest, slug: str) -> HttpResponse:
    """Switch the public link off."""
    house = house_to_write(request.user, slug)
    try:
        end_tech_link(actor=actor_of(request), house=house, now=timezone.now())
    except DomainError as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("The public link is off: its address opens nothing any more."))
    return redirect("crew:tech_sheet", slug)


@login_not_required
@require_safe
def tech_public(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The sheet for whoever has the address. Nothing is changed by looking."""
    now = timezone.now()
    refused, house = _behind(request, ref, secret, now)
    if house is None:
        return refused
    context = {**page_of(_setup(request, house), now), "ref": ref, "secret": secret}
    return unlisted(render(request, "crew/tech_sheet_public.html", context))


@login_not_required
@require_safe
def tech_public_pdf(request: HttpRequest, ref: UUID, secret: str) -> HttpResponse:
    """The sheet on paper, for whoever has the address."""
    now = timezone.now()
    refused, house = _behind(request, ref, secret, now)
    return refused if house is None else unlisted(_pdf(request, house, now))


def _behind(request: HttpRequest, ref: UUID, secret: str, now: datetime) -> tuple[HttpResponse, House | None]:
    """The house that the link opens; else the answer that says why not, which never tells whose link it was."""
    too_often = asked_too_often(request, now, "tech-sheets")
    if too_often is not None:
        return too_often, None
    try:
        return HttpResponse(), house_behind(ref, secret, now)
    except LinkRefused:
        return unlisted(render(request, "crew/tech_link_refused.html", status=404)), None


def _pdf(request: HttpRequest, house: House, now: datetime) -> HttpResponse:
    setup, paper = _setup(request, house), _paper(request)
    return pdf_response(pdf_of(setup, now, paper), f"{house.slug}-technical-sheet")


def _setup(request: HttpRequest, house: House) -> Setup:
    return setup_named(house, request.GET.get("setup", ""))


def _paper(request: HttpRequest) -> Paper:
    """Letter unless another is asked for. Raises Http404 for one that is not known."""
    paper = PAPERS.get(request.GET.get("paper", "letter"))
    if paper is None:
        raise Http404
    return paper


def _shown_once(house: House) -> ShownOnce:
    """How a new link's address comes to the sheet."""
    return ShownOnce("tech-link", reverse("crew:tech_sheet", args=[house.slug]), salt=house.slug)
