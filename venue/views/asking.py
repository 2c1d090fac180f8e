"""Pages for people who have no account: counted, so that nobody finds anything by trying, and kept out of lists."""

from datetime import datetime
from ipaddress import ip_address, ip_network

from axes.helpers import get_client_ip_address
from django.core.cache import cache
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

ASKED_A_MINUTE = 30
TOO_MANY_REQUESTS = 429


def asked_too_often(request: HttpRequest, now: datetime, what: str, most: int = ASKED_A_MINUTE) -> HttpResponse | None:
    """The answer to who asked for this kind of thing more than `most` times; counted by address and minute."""
    key = f"{what}:{_neighborhood(request)}:{now:%Y%m%d%H%M}"
    cache.add(key, 0, timeout=120)
    if int(cache.incr(key)) <= most:
        return None
    response = render(request, "crew/code_too_often.html", status=TOO_MANY_REQUESTS)
    response.headers["Retry-After"] = str(60 - now.second)
    return unlisted(response)


def _neighborhood(request: HttpRequest) -> str:
    """The address, of IPv6 the network that one customer has to itself."""
    address = get_client_ip_address(request)
    if not address or ip_address(address).version == 4:
        return address or "nowhere"
    return str(ip_network(f"{address}/64", strict=False))


def unlisted(response: HttpResponse) -> HttpResponse:
    """The answer with what keeps it out of search engines, other sites' logs and caches."""
    response.headers["X-Robots-Tag"] = "noindex, nofollow"
    response.headers["Referrer-Policy"] = "same-origin"  # none would have forms of this site refused
    response.headers["Cache-Control"] = "no-store"
    return response
