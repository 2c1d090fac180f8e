"""Places: added, changed, ended, and the units that stand there."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from venue.access import house_to_write, own_place_in, own_position_in, placement_in, setup_named
from venue.actions import add_place, change, end_place, end_placement, move_unit, place_unit
from venue.forms.base import EndForm
from venue.forms.places import PlaceForm, next_place, place_form
from venue.forms.units import LeaveForm, MoveForm, StandForm
from venue.models import Place
from venue.views.saving import actor_of, is_saved
from venue.wording_moves import where_words


def _place_form(request: HttpRequest, place: Place) -> PlaceForm:
    return place_form(request.POST or None, place, setup_named(place.position.house, ""))


@require_http_methods(["GET", "HEAD", "POST"])
def place_new(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Add a place to a position."""
    house = house_to_write(request.user, slug)
    position = own_position_in(house, ref)
    position.house = house
    form = _place_form(request, next_place(position))
    if is_saved(form, lambda: add_place(actor=actor_of(request), position=position, **form.values())):
        messages.success(request, _("The place was added."))
        return redirect("venue:position_detail", slug, ref)
    context = {"form": form, "house": house, "position": position, "place": None}
    return render(request, "venue/place_form.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def place_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a place."""
    house = house_to_write(request.user, slug)
    place = own_place_in(house, ref)
    form = _place_form(request, place)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=place, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The place was changed."))
        return redirect("venue:position_detail", slug, place.position.ref)
    context = {"form": form, "house": house, "position": place.position, "place": place}
    return render(request, "venue/place_form.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def place_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """End a place."""
    house = house_to_write(request.user, slug)
    place = own_place_in(house, ref)
    form = EndForm(request.POST or None, row=place)

    def act() -> None:
        place.version = form.seen
        facts = {"at": timezone.now(), "reason": form.cleaned_data["reason"]}
        end_place(actor=actor_of(request), place=place, **facts)

    if is_saved(form, act):
        messages.success(request, _("The place has ended. Its history is kept."))
        return redirect("venue:position_detail", slug, place.position.ref)
    return render(request, "venue/place_end.html", {"form": form, "house": house, "place": place})


@require_http_methods(["GET", "HEAD", "POST"])
def place_stand(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Put a unit on a place, from now or from a time ahead."""
    house = house_to_write(request.user, slug)
    place = own_place_in(house, ref)
    form = StandForm(request.POST or None, house=house, now=timezone.now())

    def act() -> None:
        times = {name: form.cleaned_data[name] for name in ("starts_at", "ends_at")}
        place_unit(actor=actor_of(request), unit=form.cleaned_data["unit"], place=place, **times)

    if is_saved(form, act):
        messages.success(request, _("The unit is put on the place."))
        return redirect("venue:position_detail", slug, place.position.ref)
    context = {"form": form, "house": house, "place": place}
    return render(request, "venue/place_stand.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def placement_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Take a unit away from its place."""
    house = house_to_write(request.user, slug)
    placement = placement_in(house, ref)
    form = LeaveForm(request.POST or None, house=house, row=placement, now=timezone.now())

    def act() -> None:
        placement.version = form.seen
        end_placement(actor=actor_of(request), placement=placement, at=form.cleaned_data["at"])

    if is_saved(form, act):
        messages.success(request, _("The unit leaves the place."))
        return redirect("venue:unit_list", slug)
    context = {"form": form, "house": house, "placement": placement, "where": where_words(placement)}
    return render(request, "venue/placement_end.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def placement_move(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Move a unit to another place."""
    house = house_to_write(request.user, slug)
    placement = placement_in(house, ref)
    form = MoveForm(request.POST or None, house=house, row=placement, now=timezone.now())

    def act() -> None:
        placement.version = form.seen
        facts = {name: form.cleaned_data[name] for name in ("to", "at")}
        move_unit(actor=actor_of(request), unit=placement.unit, shown=placement, **facts)

    if is_saved(form, act):
        messages.success(request, _("The unit moves."))
        return redirect("venue:unit_list", slug)
    context = {"form": form, "house": house, "placement": placement, "where": where_words(placement)}
    return render(request, "venue/placement_move.html", context)
