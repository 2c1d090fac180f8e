"""Readings and hours: taken in the booth, added, undone, struck out."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from venue.access import hours_added_to, house_to_write, own_unit_in, reading_of
from venue.actions import add_hours, read_meter, strike_hours, strike_reading, undo_entry
from venue.errors import DomainError
from venue.forms.hours import HoursForm, ReadingForm, StrikeForm, StrikeReadingForm, stepped
from venue.models import HoursAdded, Reading
from venue.models.meters import Cause
from venue.quick_reading import quick_of, since_question
from venue.views.saving import actor_of, is_saved
from venue.wording_hours import hours_words


@require_http_methods(["GET", "HEAD", "POST"])
def reading_take(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Read a meter in three taps: what it likely shows is there already. A tap on a step stores nothing."""
    house = house_to_write(request.user, slug)
    unit, now = own_unit_in(house, ref), timezone.now()
    actor, is_step = actor_of(request), "step" in request.POST
    quick = quick_of(unit, actor.name, now)
    initial = stepped(request.POST) if is_step else {"hours": quick.likely}
    form = ReadingForm(None if is_step else request.POST or None, unit=unit, now=now, initial=initial)

    def act() -> None:
        facts = form.values("hours", "strikes") | {"at": form.at_instant, "confirmed": form.confirmed}
        read_meter(actor=actor, unit=unit, cause=Cause.BOOTH, **facts)

    if is_saved(form, act):
        messages.success(request, _("%(hours)s h is in the book.") % {"hours": hours_words(form.cleaned_data["hours"])})
        return redirect("venue:reading_take", slug, ref)
    question = since_question(quick, form["hours"].value(), now, unit)
    context = {"form": form, "house": house, "unit": unit, "quick": quick, "question": question}
    return render(request, "venue/reading_take.html", context)


@require_POST
def reading_undo(request: HttpRequest, slug: str, ref: UUID, reading_ref: UUID) -> HttpResponse:
    """Take back the reading just made."""
    unit = own_unit_in(house_to_write(request.user, slug), ref)
    _undo(request, reading_of(unit, reading_ref))
    return redirect("venue:reading_take", slug, ref)


@require_POST
def hours_undo(request: HttpRequest, slug: str, ref: UUID, added_ref: UUID) -> HttpResponse:
    """Take back the hours just added."""
    unit = own_unit_in(house_to_write(request.user, slug), ref)
    _undo(request, hours_added_to(unit, added_ref))
    return redirect("venue:unit_detail", slug, ref)


def _undo(request: HttpRequest, entry: Reading | HoursAdded) -> None:
    try:
        undo_entry(actor=actor_of(request), entry=entry, now=timezone.now())
    except DomainError as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("%(hours)s h was taken back.") % {"hours": hours_words(entry.hours)})


@require_http_methods(["GET", "HEAD", "POST"])
def reading_strike(request: HttpRequest, slug: str, ref: UUID, reading_ref: UUID) -> HttpResponse:
    """Strike out a reading, or correct it."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    reading = reading_of(unit, reading_ref)
    form = StrikeReadingForm(request.POST or None, reading=reading, zone=house.time_zone)

    def act() -> None:
        facts = {name: form.cleaned_data[name] for name in ("reason", "instead_h")}
        strike_reading(actor=actor_of(request), reading=reading, at=timezone.now(), **facts)

    if is_saved(form, act):
        messages.success(request, _("The reading is struck out and stays in the book. Everything after it follows."))
        return redirect("venue:unit_detail", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "entry": reading}
    return render(request, "venue/reading_strike.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def hours_add(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Add hours that no meter told."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    form = HoursForm(request.POST or None, unit=unit, now=timezone.now())

    def act() -> None:
        facts = form.values("hours", "strikes", "at", "why") | {"confirmed": form.confirmed}
        add_hours(actor=actor_of(request), unit=unit, **facts)

    if is_saved(form, act):
        messages.success(request, _("%(hours)s h is added.") % {"hours": hours_words(form.cleaned_data["hours"])})
        return redirect("venue:unit_detail", slug, ref)
    return render(request, "venue/hours_add.html", {"form": form, "house": house, "unit": unit})


@require_http_methods(["GET", "HEAD", "POST"])
def hours_strike(request: HttpRequest, slug: str, ref: UUID, added_ref: UUID) -> HttpResponse:
    """Strike out hours that were added."""
    house = house_to_write(request.user, slug)
    unit = own_unit_in(house, ref)
    added = hours_added_to(unit, added_ref)
    form = StrikeForm(request.POST or None)

    def act() -> None:
        reason = form.cleaned_data["reason"]
        strike_hours(actor=actor_of(request), added=added, at=timezone.now(), reason=reason)

    if is_saved(form, act):
        messages.success(request, _("The hours are struck out and stay in the book. Everything after them follows."))
        return redirect("venue:unit_detail", slug, ref)
    context = {"form": form, "house": house, "unit": unit, "entry": added}
    return render(request, "venue/reading_strike.html", context)
