"""Filters of the house: listed, added, changed, ended."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import color_filter_in, house_for, house_to_write
from venue.actions import add_filter, change, end_filter
from venue.forms.base import EndForm
from venue.forms.filters import FilterForm
from venue.models import ColorFilter
from venue.views.saving import actor_of, is_saved
from venue.wording_supply import filter_words


@require_safe
def filter_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's filters with what each lets through."""
    house, may_write = house_for(request.user, slug)
    rows = [{"filter": each, "words": filter_words(each)} for each in house.color_filters.standing()]
    return render(request, "venue/filter_list.html", {"house": house, "may_write": may_write, "rows": rows})


@require_http_methods(["GET", "HEAD", "POST"])
def filter_new(request: HttpRequest, slug: str) -> HttpResponse:
    """Add a filter."""
    house = house_to_write(request.user, slug)
    form = FilterForm(request.POST or None, instance=ColorFilter(house=house))
    if is_saved(form, lambda: add_filter(actor=actor_of(request), house=house, **form.values())):
        messages.success(request, _("The filter was added."))
        return redirect("venue:filter_list", slug)
    return render(request, "venue/filter_form.html", {"form": form, "house": house, "filter": None})


@require_http_methods(["GET", "HEAD", "POST"])
def filter_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Change a filter."""
    house = house_to_write(request.user, slug)
    color = color_filter_in(house, ref)
    form = FilterForm(request.POST or None, instance=color)
    if is_saved(
        form,
        lambda: change(actor=actor_of(request), row=color, house=house, seen=form.seen, values=form.values()),
    ):
        messages.success(request, _("The filter was changed."))
        return redirect("venue:filter_list", slug)
    return render(request, "venue/filter_form.html", {"form": form, "house": house, "filter": color})


@require_http_methods(["GET", "HEAD", "POST"])
def filter_end(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """The house has a filter no more."""
    house = house_to_write(request.user, slug)
    color = color_filter_in(house, ref)
    form = EndForm(request.POST or None, row=color)

    def act() -> None:
        color.version = form.seen
        end_filter(actor=actor_of(request), color=color, at=timezone.now(), reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The filter has ended. Its history is kept."))
        return redirect("venue:filter_list", slug)
    return render(request, "venue/filter_end.html", {"form": form, "house": house, "filter": color})
