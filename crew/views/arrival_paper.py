"""The arrival check on paper, and the page with its link's code for the call-board."""

from datetime import datetime
from urllib.parse import urlsplit
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import Resolver404, resolve, reverse
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from crew.arrival_paper import arrival_paper
from crew.sheets.arrival_check import arrival_check_pdf
from crew.sheets.link_page import LinkPage, link_page_pdf
from crew.sheets.pen import PAPERS, Paper
from crew.views.answering import pdf_response
from crew.wording import arrival_paper as words
from shows.access import engagement_behind, engagement_for, engagement_to_write
from shows.models import Engagement
from venue.core.local_time import wall_time
from venue.errors import LinkRefused
from venue.models import Link


@require_safe
def arrival_check(request: HttpRequest, ref: UUID, paper: str) -> HttpResponse:
    """The check as it stands, signed or not."""
    now, size = timezone.now(), _paper(paper)
    engagement, _may_write = engagement_for(request.user, ref, now)
    content = arrival_check_pdf(arrival_paper(engagement, now), size)
    return pdf_response(content, f"{slugify(engagement.name) or 'show'}-arrival-check")


@require_POST
def arrival_qr(request: HttpRequest, ref: UUID, paper: str) -> HttpResponse:
    """The link's code on paper. Its address is known only to who made it just now, and so is sent along."""
    now, size = timezone.now(), _paper(paper)
    engagement = engagement_to_write(request.user, ref, now)
    found = _link_of(engagement, request.POST.get("address", ""), now)
    if found is None:
        messages.error(request, _("That is not the address of a link that works. Make a new one, then print it."))
        return redirect("shows:arrival", ref)
    link, path = found
    address = request.build_absolute_uri(path)
    return pdf_response(link_page_pdf(_link_page(engagement, link, address), size), f"{slugify(engagement.name)}-link")


def _paper(name: str) -> Paper:
    if name not in PAPERS:
        raise Http404
    return PAPERS[name]


def _link_of(engagement: Engagement, address: str, now: datetime) -> tuple[Link, str] | None:
    """The link to this show's check that the address opens, and its path; None for any other address."""
    try:
        match = resolve(urlsplit(address).path)
        if match.view_name != "shows:arrive":
            return None
        behind, link = engagement_behind(match.kwargs["ref"], match.kwargs["secret"], now)
    except (ValueError, Resolver404, LinkRefused):
        return None
    path = reverse(match.view_name, kwargs=match.kwargs)
    return (link, path) if behind.pk == engagement.pk else None


def _link_page(engagement: Engagement, link: Link, address: str) -> LinkPage:
    until = wall_time(link.expires_at, engagement.house.time_zone)
    return LinkPage(
        title=engagement.name,
        lines=words.link_lines(engagement),
        below=words.link_rules(until, engagement.house.time_zone),
        address=address,
    )
