"""Choosing the theme."""

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, resolve_url
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from venue.theme import COOKIE, COOKIE_AGE, Theme


@login_not_required
@require_POST
def choose_theme(request: HttpRequest) -> HttpResponse:
    """Keep the theme in a cookie and go back to the page that it was chosen on."""
    chosen = request.POST.get("theme", "")
    if chosen not in Theme.values:
        raise BadRequest(_("There is no such theme."))
    response = redirect(_page_to_return_to(request))
    secure = settings.SESSION_COOKIE_SECURE
    response.set_cookie(COOKIE, chosen, COOKIE_AGE, secure=secure, httponly=True, samesite="Lax")
    return response


def _page_to_return_to(request: HttpRequest) -> str:
    page = request.POST.get("next", "")
    if url_has_allowed_host_and_scheme(page, {request.get_host()}, require_https=request.is_secure()):
        return page
    return resolve_url(settings.LOGIN_REDIRECT_URL)
