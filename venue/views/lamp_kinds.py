"""Kinds of lamps: added, changed, ended, their spares counted."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from venue.access import house_to_write, lamp_kind_in
from venue.actions import add_lamp_kind, change_lamp_kind, count_spares, end_lamp_kind
from venue.forms.base import EndForm
from venue.forms.lamps import LampKindForm, SparesForm
from venue.lamp_book import reorder_of
from venue.models import LampKind
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_kind_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a kind of lamp."""
    house = house_to_write(request.user, slug)
    form = LampKindForm(request.POST or None, instance=LampKind(house=house))
    if is_saved(form, lambda: add_lamp_kind(actor=actor_of(request), house=house, **form.values())):
        messages.success(request, _("The kind was added."))
        return redirect("venue:lamp_list", slug)
    return render(request, "venue/lamp_kind_form.html", {"form": form, "house": house, "kind": None})


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_kind_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a kind of lamp."""
    house = house_to_write(request.user, slug)
    kind = lamp_kind_in(house, ref)
    form = LampKindForm(request.POST or None, instance=kind)
    if is_saved(
        form,
        lambda: change_lamp_kind(actor=actor_of(request), kind=kind, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The kind was changed. The hours left of its lamps follow."))
        return redirect("venue:lamp_list", slug)
    return render(request, "venue/lamp_kind_form.html", {"form": form, "house": house, "kind": kind})


@require_http_methods(["GET", "HEAD", "POST"])
def lamp_kind_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """The house uses a kind no more."""
    house = house_to_write(request.user, slug)
    kind = lamp_kind_in(house, ref)
    form = EndForm(request.POST or None, row=kind)

    def act() -> None:
        kind.version = form.seen
        end_lamp_kind(actor=actor_of(request), kind=kind, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The kind has ended. Its history is kept."))
        return redirect("venue:lamp_list", slug)
    return render(request, "venue/lamp_kind_end.html", {"form": form, "house": house, "kind": kind})


@require_http_methods(["GET", "HEAD", "POST"])
def spares_count(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Count what lies on the shelf."""
    house = house_to_write(request.user, slug)
    kind = lamp_kind_in(house, ref)
    form = SparesForm(request.POST or None, row=kind)

    def act() -> None:
        counts = {name: form.cleaned_data[name] for name in ("spares", "on_order")}
        count_spares(actor=actor_of(request), kind=kind, seen=form.seen, **counts)

    if is_saved(form, act):
        messages.success(request, _("The count is in the book."))
        return redirect("venue:lamp_list", slug)
    context = {"form": form, "house": house, "kind": kind, "reorder": reorder_of(kind, timezone.now())}
    return render(request, "venue/spares_count.html", context)
