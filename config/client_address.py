"""The address that a request came from, for the sign-in lock-out."""

from ipaddress import ip_address

from django.conf import settings
from django.http import HttpRequest


def client_address(request: HttpRequest) -> str | None:
    """The client's address as text, None where there is none (a Unix socket without a proxy header).

    Every proxy appends the address it was called from to X-Forwarded-For, so with PROXY_COUNT proxies of
    our own in front the PROXY_COUNT-th entry from the right is the last one that a stranger can't forge.
    """
    forwarded = request.META.get("HTTP_X_FORWARDED_FOR", "").split(",")
    trusted = settings.PROXY_COUNT
    if trusted and len(forwarded) >= trusted and (address := _valid(forwarded[-trusted])):
        return address
    return _valid(request.META.get("REMOTE_ADDR", ""))


def _valid(text: str) -> str | None:
    try:
        return str(ip_address(text.strip()))
    except ValueError:
        return None
