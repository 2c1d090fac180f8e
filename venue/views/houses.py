"""The house on file: everything in it as one set-up has it, and its own facts."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, setup_named
from venue.actions import change
from venue.book import BookPosition, book_of
from venue.forms.houses import HouseForm
from venue.views.saving import actor_of, is_saved
from venue.wording_positions import missing_facts, throw_words, where_words
from venue.wording_walks import contradiction, row_ends


@require_safe
def house_detail(request: HttpRequest, slug: str) -> HttpResponse:
    """The house as one set-up has it, the usual one unless another is asked for."""
    house, may_write = house_for(request.user, slug)
    setup = setup_named(house, request.GET.get("setup", ""))
    entries = [shown(entry, house.unit_system) for entry in book_of(setup, timezone.now())]
    context = {
        "house": house,
        "may_write": may_write,
        "setup": setup,
        "setups": house.setups.all(),
        "entries": entries,
        "not_walked": [each["entry"] for each in entries if not each["entry"].is_walked and each["entry"].places],
        "unit_count": house.units.standing().count(),
    }
    return render(request, "venue/house_detail.html", context)


def shown(entry: BookPosition, system: Any) -> dict[str, Any]:
    """What a page says of one position."""
    first, last = row_ends(entry)
    places = [
        {
            "place": place,
            "placement": placement,
            "where": where_words(place, system),
            "throw": throw_words(place, system),
        }
        for place, placement in entry.stands
    ]
    missing = missing_facts(entry.position, system)
    ends = {"first_end": first, "last_end": last, "contradiction": contradiction(entry)}
    shown_entry = {"entry": entry, "position": entry.position, "places": places, "missing": missing, **ends}
    return {**shown_entry, "item": shown_entry}


@require_http_methods(["GET", "HEAD", "POST"])
def house_edit(request: HttpRequest, slug: str) -> HttpResponse:
    """Change the house's own facts."""
    house = house_to_write(request.user, slug)
    form = HouseForm(request.POST or None, instance=house)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=house, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The house was changed."))
        return redirect("venue:house_detail", slug)
    return render(request, "venue/house_form.html", {"form": form, "house": house})
