"""The maintenance log: entries by time, each with its files; written, corrected, struck out, answered."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from venue.access import house_for, house_to_write, log_entry_in, own_unit_in
from venue.actions import answer_relamp, change_log, strike_log, write_log
from venue.actions.log import is_tied
from venue.forms.log import AttachForm, LogEditForm, LogForm, RelampForm, StrikeForm
from venue.models import Attachment, LogEntry
from venue.models.upkeep import LogKind
from venue.views.asked import query_of, unit_asked
from venue.views.saving import actor_of, is_saved
from venue.wording_care import light_text

A_PAGE = 50


@require_safe
def log_list(request: HttpRequest, slug: str) -> HttpResponse:
    """The house's log, the latest first; of one unit or one kind where it is named. Open relamps stand above."""
    house, may_write = house_for(request.user, slug)
    unit, kind = unit_asked(request, house), request.GET.get("kind", "")
    entries = LogEntry.objects.filter(house=house).select_related("unit")
    if unit is not None:
        entries = entries.filter(unit=unit)
    to_answer = entries.to_answer().order_by("-at", "-pk")[:A_PAGE]
    chosen = entries.filter(kind=kind) if kind in LogKind.values else entries
    page = Paginator(chosen.order_by("-at", "-pk"), A_PAGE).get_page(request.GET.get("page"))
    context = {
        "house": house,
        "may_write": may_write,
        "unit": unit,
        "kind": kind,
        "kinds": LogKind.choices,
        "to_answer": to_answer,
        "page": page,
        "query": query_of(request, "unit", "kind"),
    }
    return render(request, "venue/log_list.html", context)


@require_safe
def log_detail(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """One entry with everything that it says, and its files."""
    house, may_write = house_for(request.user, slug)
    entry = log_entry_in(house, ref)
    context = {
        "house": house,
        "may_write": may_write,
        "entry": entry,
        "unit": entry.unit,
        "light": _light(entry, house.unit_system),
        "files": Attachment.objects.filter(entry=entry).defer("content"),
        "closes": entry.closes.select_related("unit").first(),
        "form": AttachForm(),
    }
    return render(request, "venue/log_detail.html", context)


def _light(entry: LogEntry, system: str) -> dict[str, str]:
    values = {"before": entry.before_lux, "after": entry.after_lux}
    return {name: light_text(lux, system) for name, lux in values.items() if lux is not None}


@require_http_methods(["GET", "HEAD", "POST"])
def log_new(request: HttpRequest, slug: str, ref: UUID | None = None) -> HttpResponse:
    """Write an entry about the unit, or about whatever is chosen."""
    house = house_to_write(request.user, slug)
    unit = None if ref is None else own_unit_in(house, ref)
    actor = actor_of(request)
    form = LogForm(request.POST or None, house=house, unit=unit, now=timezone.now(), by=actor.name)
    written: list[LogEntry] = []

    def act() -> None:
        values: dict[str, Any] = {"unit": unit, **form.values()}
        written.append(write_log(actor=actor, house=house, **values))

    if is_saved(form, act):
        return _after_writing(request, slug, written[0])
    return render(request, "venue/log_form.html", {"form": form, "house": house, "unit": unit})


def _after_writing(request: HttpRequest, slug: str, entry: LogEntry) -> HttpResponse:
    if entry.is_open:
        messages.warning(request, _("The relamp is in the log. It stays open until these questions are answered."))
        return redirect("venue:relamp_answer", slug, entry.ref)
    messages.success(request, _("It is in the log."))
    return redirect("venue:log_detail", slug, entry.ref)


@require_http_methods(["GET", "HEAD", "POST"])
def log_edit(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Correct an entry."""
    house = house_to_write(request.user, slug)
    entry = log_entry_in(house, ref)
    form = LogEditForm(request.POST or None, entry=entry, is_tied=is_tied(entry))
    if is_saved(form, lambda: change_log(actor=actor_of(request), entry=entry, seen=form.seen, values=form.values())):
        messages.success(request, _("The entry was corrected."))
        return redirect("venue:log_detail", slug, ref)
    context = {"form": form, "house": house, "unit": entry.unit, "entry": entry}
    return render(request, "venue/log_form.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def log_strike(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Strike a mistaken entry out."""
    house = house_to_write(request.user, slug)
    entry = log_entry_in(house, ref)
    form = StrikeForm(request.POST or None, row=entry)

    def act() -> None:
        facts = {"at": timezone.now(), "reason": form.cleaned_data["reason"]}
        strike_log(actor=actor_of(request), entry=entry, seen=form.seen, **facts)

    if is_saved(form, act):
        messages.success(request, _("The entry is struck out. It can still be read."))
        return redirect("venue:log_detail", slug, ref)
    return render(request, "venue/log_strike.html", {"form": form, "house": house, "unit": entry.unit, "entry": entry})


@require_http_methods(["GET", "HEAD", "POST"])
def relamp_answer(request: HttpRequest, slug: str, ref: UUID) -> HttpResponse:
    """Answer the questions of a relamp."""
    house = house_to_write(request.user, slug)
    entry = log_entry_in(house, ref)
    form = RelampForm(request.POST or None, entry=entry)

    def act() -> None:
        answer_relamp(actor=actor_of(request), entry=entry, seen=form.seen, answers=form.answers())

    if is_saved(form, act):
        told = _("It stays open: not everything is answered, or the lamp is not aligned.")
        messages.info(request, told if entry.is_open else _("The relamp is closed."))
        return redirect("venue:log_detail", slug, ref)
    context = {"form": form, "house": house, "unit": entry.unit, "entry": entry}
    return render(request, "venue/relamp_answer.html", context)
