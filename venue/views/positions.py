"""Positions: seen, added one by one or as a whole row, changed, ended."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.db.models import QuerySet, prefetch_related_objects
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, own_position_in, position_in, setup_named
from venue.actions import add_position, add_row, change, end_position
from venue.book import BookPosition, book_of_positions
from venue.forms.base import EndForm
from venue.forms.positions import PositionForm, RowForm
from venue.models import Blockage, House, Position
from venue.views.houses import shown
from venue.views.saving import actor_of, is_saved
from venue.wording_corners import corners_words, pans_words
from venue.wording_positions import checked_words, fact_groups
from venue.wording_supply import circuits_of


@require_safe
def position_detail(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """A position with its places and all that is recorded of it."""
    house, may_write = house_for(request.user, slug)
    position = position_in(house, ref)
    setup = setup_named(house, request.GET.get("setup", ""))
    entry = book_of_positions(setup, [position], timezone.now())[0]
    context = {
        "house": house,
        "setup": setup,
        "may_write": may_write and not position.has_ended and position.only_for is None,
        "facts": fact_groups(position, house.unit_system),  # type: ignore[arg-type]
        "checked": checked_words(position),
        "circuits": _circuits(entry),
        "blockages": [_blockage(each, house) for each in _in_the_way(position)],
        **shown(entry, house.unit_system),
    }
    return render(request, "venue/position_detail.html", context)


def _circuits(entry: BookPosition) -> str:
    places = [place for place, _stay in entry.stands]
    prefetch_related_objects(places, "circuit")
    return circuits_of(places)


def _in_the_way(position: Position) -> QuerySet[Blockage]:
    """What the house noted and is still there; what a tour brings is its own affair."""
    return position.blockages.standing().of_house().select_related("place")


def _blockage(row: Blockage, house: House) -> dict[str, Any]:
    """What is in the way, with what it hides in words."""
    system: Any = house.unit_system
    return {
        "row": row,
        "hides": corners_words(row.corners, system),
        "pans": pans_words(row.pan_from_deg, row.pan_to_deg),
    }


@require_http_methods(["GET", "HEAD", "POST"])
def position_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a position without places."""
    house = house_to_write(request.user, slug)
    form = PositionForm(request.POST or None, house=house, instance=Position(house=house))
    made: list[Position] = []
    if is_saved(form, lambda: made.append(add_position(actor=actor_of(request), house=house, **form.values()))):
        messages.success(request, _("The position was added. Now add its places."))
        return redirect("venue:position_detail", slug, made[0].ref)
    return render(request, "venue/position_form.html", {"form": form, "house": house, "position": None})


@require_http_methods(["GET", "HEAD", "POST"])
def row_new(request: HttpRequest, slug: str) -> HttpResponse:
    """The quick way: a position with its places, known by their order."""
    house = house_to_write(request.user, slug)
    form = RowForm(request.POST or None)
    made: list[Position] = []

    def act() -> None:
        data = form.cleaned_data
        facts = {"name": data["name"], "zone": data["zone"], "labels_from_house_left": data["labels"]}
        made.append(add_row(actor=actor_of(request), house=house, **facts))

    if is_saved(form, act):
        messages.success(request, _("The position and its places were added. Walk it, so that the order is sure."))
        return redirect("venue:position_detail", slug, made[0].ref)
    return render(request, "venue/row_form.html", {"form": form, "house": house})


@require_http_methods(["GET", "HEAD", "POST"])
def position_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change what is recorded of a position."""
    house = house_to_write(request.user, slug)
    position = own_position_in(house, ref)
    form = PositionForm(request.POST or None, house=house, instance=position)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=position, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The position was changed."))
        return redirect("venue:position_detail", slug, ref)
    return render(request, "venue/position_form.html", {"form": form, "house": house, "position": position})


@require_http_methods(["GET", "HEAD", "POST"])
def position_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """End a position with its places."""
    house = house_to_write(request.user, slug)
    position = own_position_in(house, ref)
    form = EndForm(request.POST or None, row=position)

    def act() -> None:
        position.version = form.seen
        facts = {"at": timezone.now(), "reason": form.cleaned_data["reason"]}
        end_position(actor=actor_of(request), position=position, **facts)

    if is_saved(form, act):
        messages.success(request, _("The position has ended. Its history is kept."))
        return redirect("venue:house_detail", slug)
    return render(request, "venue/position_end.html", {"form": form, "house": house, "position": position})
