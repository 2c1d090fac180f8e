"""The address of a link that was made just now: shown on one page, once, in the browser that made it.

A signed cookie takes it there; nothing on the server keeps it, and no cache keeps the page.
"""

from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect

WITHIN_S = 120


@dataclass(frozen=True)
class ShownOnce:
    """`name` is the cookie's, `page` the path that shows the address, `salt` ties it to what the link is about."""

    name: str
    page: str
    salt: str

    def address(self, request: HttpRequest) -> str:
        """The address of a link made just now in this browser; else empty."""
        return request.get_signed_cookie(self.name, default="", salt=self.salt, max_age=WITHIN_S) or ""

    def to_page(self, request: HttpRequest, public: str) -> HttpResponse:
        """The way to the page, with the new link's path."""
        response = redirect(self.page)
        facts: dict[str, Any] = {"path": self.page, "max_age": WITHIN_S, "httponly": True, "samesite": "Strict"}
        address = request.build_absolute_uri(public)
        response.set_signed_cookie(self.name, address, salt=self.salt, secure=request.is_secure(), **facts)
        return response

    def on_page(self, response: HttpResponse) -> HttpResponse:
        """The page that showed it: no cache keeps it, and the cookie is gone."""
        response.headers["Cache-Control"] = "private, no-store"
        response.delete_cookie(self.name, path=self.page)
        return response
