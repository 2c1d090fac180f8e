"""Readings from a file: read, its problems shown by line, loaded all or none."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods

from venue.access import house_to_write
from venue.actions import load_readings
from venue.forms.readings_file import ReadingsFileForm
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def readings_upload(request: HttpRequest, slug: str) -> HttpResponse:
    """Load a file of readings."""
    house = house_to_write(request.user, slug)
    form = ReadingsFileForm(request.POST or None, request.FILES or None)

    def act() -> None:
        facts = {"text": form.cleaned_data["text"], "confirmed": form.confirmed}
        judged = load_readings(actor=actor_of(request), house=house, now=timezone.now(), **facts)
        form.judged = judged

    if is_saved(form, act) and form.judged is not None:
        count = len(form.judged.readings)
        words = ngettext("%(count)s reading is in the book.", "%(count)s readings are in the book.", count)
        messages.success(request, words % {"count": count})
        return redirect("venue:unit_list", slug)
    return render(request, "venue/readings_upload.html", {"form": form, "house": house})
