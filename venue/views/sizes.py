"""The usual sizes of pick-ups, with the house's own diameters."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, pick_up_size_in
from venue.actions import set_size
from venue.core.lengths import written
from venue.forms.sizes import SizeForm
from venue.sizes import default_of, size_rows
from venue.views.saving import actor_of, is_saved
from venue.wording_supply import size_words, too_small_words


@require_safe
def size_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The five sizes: the default of each, and the house's own."""
    house, may_write = house_for(request.user, slug)
    system = house.unit_system
    rows = [
        {"size": each, "words": size_words(each, system), "warning": too_small_words(each.row, system)}  # type: ignore[arg-type]
        for each in size_rows(house)
    ]
    return render(request, "venue/size_list.html", {"house": house, "may_write": may_write, "rows": rows})


@require_http_methods(["GET", "HEAD", "POST"])
def size_edit(request: HttpRequest, slug: str, key: str) -> HttpResponse:
    """Set the house's own diameter of a size, or go back to the default."""
    house = house_to_write(request.user, slug)
    row = pick_up_size_in(house, key)
    row.house = house
    form = SizeForm(request.POST or None, row=row)
    if is_saved(form, lambda: set_size(actor=actor_of(request), row=row, seen=form.seen, diameter=form.typed)):
        _tell(request, too_small_words(row, house.unit_system))  # type: ignore[arg-type]
        return redirect("venue:size_list", slug)
    default = written(default_of(row.size), house.unit_system)  # type: ignore[arg-type]
    return render(request, "venue/size_form.html", {"form": form, "house": house, "size": row, "default": default})


def _tell(request: HttpRequest, warning: str) -> None:
    messages.success(request, _("The size is stored."))
    if warning:
        messages.warning(request, warning)
