"""One page with every part that pages are put together from, in the theme that is chosen."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from crew.looks import looks as parts


@require_safe
def looks(request: HttpRequest) -> HttpResponse:
    """Show the parts; the footer changes the theme."""
    return render(request, "crew/looks.html", parts(request.GET.get("view", "")))
