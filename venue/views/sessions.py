"""Signing in and out, and what is said to somebody who failed too often."""

from math import ceil
from typing import Any

from axes.models import AccessAttempt
from django.conf import settings
from django.contrib.auth.views import LoginView, LogoutView
from django.db.models import Max
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from venue.forms.sign_in import SignInForm

TOO_MANY_REQUESTS = 429

sign_in = LoginView.as_view(
    template_name="registration/sign_in.html",
    authentication_form=SignInForm,
    redirect_authenticated_user=True,
)
sign_out = LogoutView.as_view()


def locked_out(request: HttpRequest, _refused: HttpResponse, credentials: dict[str, Any]) -> HttpResponse:
    """Answer a sign-in that the lock-out refused, saying when the next one is heard."""
    username = credentials.get("username", "")
    seconds = _seconds_left(username, request.axes_ip_address)  # type: ignore[attr-defined]
    context = {"username": username, "minutes": ceil(seconds / 60), "limit": settings.AXES_FAILURE_LIMIT}
    response = render(request, "registration/locked_out.html", context, status=TOO_MANY_REQUESTS)
    response.headers["Retry-After"] = str(seconds)
    return response


def _seconds_left(username: str, address: str | None) -> int:
    """Whole seconds [s] until the last failure of this name and address no longer counts, at least 1."""
    failures = AccessAttempt.objects.filter(username=username, ip_address=address)
    last = failures.aggregate(last=Max("attempt_time"))["last"] or timezone.now()
    return max(1, ceil((last + settings.AXES_COOLOFF_TIME - timezone.now()).total_seconds()))
