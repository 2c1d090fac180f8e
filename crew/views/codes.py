"""What anybody may ask with the code of a printed sheet."""

from datetime import datetime
from ipaddress import ip_address, ip_network

from axes.helpers import get_client_ip_address
from django.contrib.auth.decorators import login_not_required
from django.core.cache import cache
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from crew.labels import address_behind, is_label
from crew.sheet_standing import standing_of
from crew.wording.standing import standing_sentence, standing_word
from venue.access import printed_code
from venue.actions.labels import LabelPurpose
from venue.models import PrintedCode

ASKED_A_MINUTE = 30
TOO_MANY_REQUESTS = 429


@login_not_required
@require_safe
def code(request: HttpRequest, text: str) -> HttpResponse:
    """Whether the sheet with the code is current, changed since or replaced; nothing else, to nobody in particular.

    The code of a label leads whoever has signed in, and belongs to its house, to the unit.
    """
    now = timezone.now()
    if _asked_too_often(request, now):
        response = render(request, "crew/code_too_often.html", status=TOO_MANY_REQUESTS)
        response.headers["Retry-After"] = str(60 - now.second)
        return _unlisted(response)
    found = printed_code(text)
    if is_label(found):
        return _unlisted(_of_label(request, found, now))
    standing = standing_of(found)
    if standing is None:
        raise Http404
    context = {"state": standing.state, "word": standing_word(standing), "sentence": standing_sentence(standing)}
    return _unlisted(render(request, "crew/code.html", context))


def _of_label(request: HttpRequest, found: PrintedCode, now: datetime) -> HttpResponse:
    if request.user.is_authenticated:
        return redirect(address_behind(found, request.user, now))
    return render(request, "crew/code_label.html", {"is_unit": found.purpose == LabelPurpose.UNIT})


def _asked_too_often(request: HttpRequest, now: datetime) -> bool:
    """Counted by address and minute, so that nobody finds a sheet by trying."""
    key = f"codes:{_neighborhood(request)}:{now:%Y%m%d%H%M}"
    cache.add(key, 0, timeout=120)
    return int(cache.incr(key)) > ASKED_A_MINUTE


def _neighborhood(request: HttpRequest) -> str:
    """The address, of IPv6 the network that one customer has to itself."""
    address = get_client_ip_address(request)
    if not address or ip_address(address).version == 4:
        return address or "nowhere"
    return str(ip_network(f"{address}/64", strict=False))


def _unlisted(response: HttpResponse) -> HttpResponse:
    response.headers["X-Robots-Tag"] = "noindex, nofollow"
    response.headers["Referrer-Policy"] = "no-referrer"
    response.headers["Cache-Control"] = "no-store"
    return response
