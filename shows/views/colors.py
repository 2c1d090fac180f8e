"""The colors of a show: what its frames name, who explains it, and explaining it."""

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from shows.access import color_in, engagement_for, engagement_to_write
from shows.actions import add_color, change_color, end_color
from shows.asks import ColorBook, ColorUse, color_book, uses_of
from shows.forms.colors import ColorForm
from shows.models import Engagement, ShowColor
from shows.wording.asks import color_words, used_words
from venue.core.labels import plain_text
from venue.core.names import name_key
from venue.forms.base import EndForm
from venue.views.saving import actor_of, is_saved

LONGEST_CODE = 40


@require_safe
def color_list(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The show's colors, and the codes in its frames that it does not explain."""
    engagement, may_write = engagement_for(request.user, ref, timezone.now())
    context = {"engagement": engagement, "may_write": may_write and not engagement.has_ended}
    return render(request, "shows/color_list.html", {**context, **_colors(engagement)})


def _colors(engagement: Engagement) -> dict[str, Any]:
    """Rows of the page: the show's own, those that the house explains, those that nobody does. Three queries."""
    book, uses = color_book(engagement), uses_of(engagement.spots.standing().order_by("sort_key", "pk"))
    open_uses = [use for use in uses if use.key not in book.show]
    return {
        "own": [_own_row(color, book, uses) for color in book.show.values()],
        "of_house": [_code_row(use, book) for use in open_uses if use.key in book.house],
        "unexplained": [_code_row(use, book) for use in open_uses if use.key not in book.house],
    }


def _own_row(color: ShowColor, book: ColorBook, uses: Iterable[ColorUse]) -> dict[str, Any]:
    numbers = next((use.numbers for use in uses if use.key == color.code_key), ())
    in_house = book.house.get(color.code_key)
    return {
        "color": color,
        "words": color_words(color),
        "used": used_words(numbers),
        "house": color_words(in_house) if in_house else "",
    }


def _code_row(use: ColorUse, book: ColorBook) -> dict[str, Any]:
    return {
        "code": use.code,
        "words": color_words(book.of(use.code)),
        "used": used_words(use.numbers),
        "is_too_long": len(use.code) > LONGEST_CODE,
    }


@require_http_methods(["GET", "HEAD", "POST"])
def color_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Explain a code; a link may bring the code along."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    code = plain_text(request.GET.get("code", "")[:400])[:LONGEST_CODE]
    form = ColorForm(request.POST or None, instance=ShowColor(engagement=engagement, code=code))
    if is_saved(form, lambda: add_color(actor=actor_of(request), engagement=engagement, **form.values())):
        messages.success(request, _("%(code)s is explained.") % {"code": form.cleaned_data["code"]})
        return redirect("shows:color_list", ref)
    in_house = engagement.house.color_filters.standing().filter(code_key=name_key(code)).first()
    context = {"engagement": engagement, "form": form, "color": None}
    return render(request, "shows/color_form.html", {**context, "of_house": color_words(in_house) if in_house else ""})


@require_http_methods(["GET", "HEAD", "POST"])
def color_edit(request: HttpRequest, ref: UUID, color_ref: UUID) -> HttpResponse:
    """Change a color."""
    engagement = engagement_to_write(request.user, ref, timezone.now())
    color = color_in(engagement, color_ref)
    form = ColorForm(request.POST or None, instance=color)
    if is_saved(form, lambda: change_color(actor=actor_of(request), color=color, seen=form.seen, values=form.values())):
        messages.success(request, _("The color was changed."))
        return redirect("shows:color_list", ref)
    return render(request, "shows/color_form.html", {"engagement": engagement, "form": form, "color": color})


@require_http_methods(["GET", "HEAD", "POST"])
def color_end(request: HttpRequest, ref: UUID, color_ref: UUID) -> HttpResponse:
    """The show explains a code no more."""
    now = timezone.now()
    engagement = engagement_to_write(request.user, ref, now)
    color = color_in(engagement, color_ref)
    form = EndForm(request.POST or None, row=color)

    def act() -> None:
        color.version = form.seen
        end_color(actor=actor_of(request), color=color, at=now, reason=form.cleaned_data["reason"])

    if is_saved(form, act):
        messages.success(request, _("The color is off the list. Frames that name it keep its code."))
        return redirect("shows:color_list", ref)
    return render(request, "shows/color_end.html", {"engagement": engagement, "form": form, "color": color})
