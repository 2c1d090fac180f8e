"""What an address asks for behind its question mark."""

from urllib.parse import urlencode
from uuid import UUID

from django.http import Http404, HttpRequest

from venue.access import unit_in
from venue.models import House, Unit


def unit_asked(request: HttpRequest, house: House) -> Unit | None:
    """The unit named by `unit`; None where none is. Raises Http404."""
    ref = request.GET.get("unit", "")
    if not ref:
        return None
    try:
        return unit_in(house, UUID(ref))
    except ValueError as error:
        raise Http404 from error


def query_of(request: HttpRequest, *names: str) -> str:
    """These of the address's values, to go before another one: "unit=…&"."""
    kept = {name: request.GET[name] for name in names if name in request.GET}
    return f"{urlencode(kept)}&" if kept else ""
