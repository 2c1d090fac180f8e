"""Pages for what went wrong: each says what happened and what to do."""

from collections.abc import Callable
from http import HTTPStatus

from django.core.exceptions import BadRequest, PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string
from django.utils.translation import gettext

from venue.theme import theme_of


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    """400. Only a BadRequest was written to be read by a person."""
    reason = str(exception) if isinstance(exception, BadRequest) else ""
    return render(request, "errors/400.html", {"reason": reason}, status=HTTPStatus.BAD_REQUEST)


def permission_denied(request: HttpRequest, exception: PermissionDenied) -> HttpResponse:
    """403, with the reason where the view gave one."""
    return render(request, "errors/403.html", {"reason": str(exception)}, status=HTTPStatus.FORBIDDEN)


def page_not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """404, the same for what is not there and for what this user may not know of."""
    return render(request, "errors/404.html", status=HTTPStatus.NOT_FOUND)


def server_error(request: HttpRequest) -> HttpResponse:
    """500. The database or a context processor may be what failed: neither is asked."""
    try:
        page: str = render_to_string("errors/500.html", {"theme": theme_of(request)})
    except Exception:  # whatever broke the first page may break this one too
        page = gettext("Something broke. Nothing was stored. Wait a minute and try again.")
    return HttpResponse(page, status=HTTPStatus.INTERNAL_SERVER_ERROR)


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """403 for a form that was not sent from this site's own page, or after its cookie had gone."""
    return render(request, "errors/csrf.html", status=HTTPStatus.FORBIDDEN)


class MethodNotAllowedMiddleware:
    """Gives the framework's empty 405 answer a page; which methods are allowed stays in its header."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if response.status_code == HTTPStatus.METHOD_NOT_ALLOWED and not response.content:
            page = render(request, "errors/405.html", status=HTTPStatus.METHOD_NOT_ALLOWED)
            page.headers["Allow"] = response.headers.get("Allow", "")
            return page
        return response
