"""Set-ups of a house, and walking the positions in one."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from venue.access import house_for, house_to_write, own_position_in, require_write, setup_in
from venue.actions import add_setup, change_setup, confirm_walk, turn_row
from venue.book import BookPosition, book_of_positions
from venue.forms.base import VersionedForm
from venue.forms.houses import SetupForm
from venue.forms.walks import WalkForm
from venue.models import House, Position, Setup
from venue.views.houses import shown
from venue.views.saving import actor_of, is_saved
from venue.wording_walks import walk_question


@require_http_methods(["GET", "HEAD", "POST"])
def setup_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a set-up."""
    house = house_to_write(request.user, slug)
    form = SetupForm(request.POST or None, house=house, instance=Setup(house=house), zones=())
    if is_saved(form, lambda: add_setup(actor=actor_of(request), house=house, **form.values())):
        messages.success(request, _("The set-up was added. Say where each position is in it."))
        return redirect("venue:house_detail", slug)
    return render(request, "venue/setup_form.html", {"form": form, "house": house, "setup": None})


@require_http_methods(["GET", "HEAD", "POST"])
def setup_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a set-up and where the positions are in it."""
    house = house_to_write(request.user, slug)
    setup = setup_in(house, ref)
    form = SetupForm(request.POST or None, house=house, instance=setup, zones=_zones(house, setup))
    if is_saved(form, lambda: _change(request, setup, form)):
        messages.success(request, _("The set-up was changed."))
        return redirect("venue:house_detail", slug)
    return render(request, "venue/setup_form.html", {"form": form, "house": house, "setup": setup})


def _change(request: HttpRequest, setup: Setup, form: SetupForm) -> None:
    facts: dict[str, Any] = {"seen": form.seen, "values": form.values(), "zones": form.changed_zones()}
    change_setup(actor=actor_of(request), setup=setup, **facts)


def _zones(house: House, setup: Setup) -> list[tuple[Position, str]]:
    zones = dict(setup.zones.values_list("position", "zone"))
    return [(each, zones.get(each.pk, "")) for each in house.positions.standing().of_house()]


@require_http_methods(["GET", "HEAD", "POST"])
def walk(request: HttpRequest, slug: str, ref: UUID, position_ref: UUID) -> HttpResponse:
    """Ask which label is at the end, and say what the answer means."""
    house, may_write = house_for(request.user, slug)
    if request.method == "POST":
        require_write(may_write)
    setup, entry = _entry(house, ref, position_ref)
    name = getattr(request.user, "name_on_paper", "")
    form = WalkForm(request.POST or None, places=entry.places, initial={"walked_by": name})
    if is_saved(form, lambda: _confirm(request, entry, form)):
        messages.success(request, _("The walk is written down."))
        return redirect("venue:walk", slug, ref, position_ref)
    context = {"house": house, "setup": setup, "form": form, "may_write": may_write, **shown(entry, house.unit_system)}
    return render(request, "venue/walk.html", {**context, "question": walk_question(entry)})


def _entry(house: House, ref: UUID, position_ref: UUID) -> tuple[Setup, BookPosition]:
    setup, position = setup_in(house, ref), own_position_in(house, position_ref)
    return setup, book_of_positions(setup, [position])[0]


def _confirm(request: HttpRequest, entry: BookPosition, form: WalkForm) -> None:
    data = form.cleaned_data
    facts: dict[str, Any] = {"left_end": data["label"], "walked_by": data["walked_by"], "walked_at": timezone.now()}
    confirm_walk(actor=actor_of(request), setup=entry.setup, position=entry.position, **facts)


@require_POST
def row_turn(request: HttpRequest, slug: str, ref: UUID, position_ref: UUID) -> HttpResponse:
    """Turn round the row that a walk found the other way."""
    house = house_to_write(request.user, slug)
    setup, entry = _entry(house, ref, position_ref)
    found = entry.walk
    if found is None:
        return redirect("venue:walk", slug, ref, position_ref)
    form = VersionedForm(request.POST, row=found)
    facts: dict[str, Any] = {"setup": setup, "position": entry.position, "walk": found}
    if is_saved(form, lambda: turn_row(actor=actor_of(request), seen=form.seen, **facts)):
        messages.success(request, _("The row was turned round: it now fits the walk."))
    else:
        messages.error(
            request, " ".join(map(str, form.non_field_errors())) or _("Load the page anew, then send it again.")
        )
    return redirect("venue:walk", slug, ref, position_ref)
