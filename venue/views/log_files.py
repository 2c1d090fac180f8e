"""Files of log entries: kept, and given back in a way that no browser takes for a page."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import attachment_in, house_for, house_to_write, log_entry_in
from venue.actions import attach
from venue.forms.log import AttachForm
from venue.views.saving import actor_of, is_saved

FILE_POLICY = "default-src 'none'; sandbox; frame-ancestors 'none'"
"""Whatever the bytes are, they run nothing and load nothing."""


@require_http_methods(["GET", "HEAD", "POST"])
def log_attach(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Keep a photo or a page with an entry."""
    house = house_to_write(request.user, slug)
    entry = log_entry_in(house, ref)
    form = AttachForm(request.POST or None, request.FILES or None)

    def act() -> None:
        file = form.cleaned_data["file"]
        attach(actor=actor_of(request), entry=entry, name=file.name, content=file.read(), at=timezone.now())

    if is_saved(form, act):
        messages.success(request, _("The file is kept with the entry."))
        return redirect("venue:log_detail", slug, ref)
    context = {"form": form, "house": house, "unit": entry.unit, "entry": entry}
    return render(request, "venue/log_attach.html", context)


@require_safe
def log_file(request: HttpRequest, slug: str, entry_ref: UUID, ref: UUID) -> HttpResponse:
    """The bytes as they came: a picture to look at, anything else as a file to keep."""
    house, _may_write = house_for(request.user, slug)
    kept = attachment_in(house, entry_ref, ref)
    response = HttpResponse(bytes(kept.content), content_type=kept.content_type)
    response.headers["Content-Disposition"] = content_disposition_header(not kept.is_picture, kept.name) or "attachment"
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["Content-Security-Policy"] = FILE_POLICY
    response.headers["Cache-Control"] = "private, no-cache"
    return response
