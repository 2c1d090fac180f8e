"""Areas of a set-up that lights have to reach: listed, added, changed, ended."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import area_in, house_for, house_to_write, setup_in
from venue.actions import add_area, change, end_area
from venue.forms.areas import AreaForm
from venue.forms.base import EndForm
from venue.models import Area, House, Setup
from venue.views.saving import actor_of, is_saved
from venue.wording_corners import corners_words


@require_safe
def area_list(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """The areas of one set-up, with their corners in words."""
    house, may_write = house_for(request.user, slug)
    setup = setup_in(house, ref)
    system: Any = house.unit_system
    rows = [{"area": each, "corners": corners_words(each.corners, system)} for each in setup.areas.standing()]
    context = {"house": house, "setup": setup, "may_write": may_write, "rows": rows}
    return render(request, "venue/area_list.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def area_new(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Add an area to a set-up."""
    house = house_to_write(request.user, slug)
    setup = _setup(house, ref)
    form = AreaForm(request.POST or None, instance=Area(setup=setup))
    if is_saved(form, lambda: add_area(actor=actor_of(request), setup=setup, **form.values())):
        messages.success(request, _("The area was added."))
        return redirect("venue:area_list", slug, setup.ref)
    return render(request, "venue/area_form.html", {"form": form, "house": house, "setup": setup, "area": None})


def _setup(house: House, ref: UUID) -> Setup:
    setup = setup_in(house, ref)
    setup.house = house
    return setup


@require_http_methods(["GET", "HEAD", "POST"])
def area_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change an area."""
    house = house_to_write(request.user, slug)
    area = area_in(house, ref)
    form = AreaForm(request.POST or None, instance=area)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=area, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The area was changed."))
        return redirect("venue:area_list", slug, area.setup.ref)
    return render(request, "venue/area_form.html", {"form": form, "house": house, "setup": area.setup, "area": area})


@require_http_methods(["GET", "HEAD", "POST"])
def area_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Nobody asks any more whether lights reach an area."""
    house = house_to_write(request.user, slug)
    area = area_in(house, ref)
    form = EndForm(request.POST or None, row=area)

    def act() -> None:
        area.version = form.seen
        end_area(actor=actor_of(request), area=area, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The area has ended. Its history is kept."))
        return redirect("venue:area_list", slug, area.setup.ref)
    return render(request, "venue/area_end.html", {"form": form, "house": house, "setup": area.setup, "area": area})
