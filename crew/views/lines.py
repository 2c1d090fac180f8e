"""One line of a call: one more, somebody else, the number told at the spot talk, a time of its own, off it."""

from collections.abc import Iterator
from functools import partial
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import call_for, call_to_fill, line_in, persons_to_call
from crew.actions import add_line, give_number, replace_person, set_own_time, take_off
from crew.forms.calls import ReasonForm
from crew.forms.lines import NewLineForm, NumberForm, OwnTimeForm, ReplaceForm
from crew.models import Call, CallLine
from crew.sheet_content import draft_of
from crew.wording.lines import light_words, line_sentence, own_words, replaced_sentences
from venue.views.saving import actor_of, is_saved

FORM = ["GET", "HEAD", "POST"]


@require_safe
def call_lines(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Everybody on the call, line by line, and who was replaced."""
    call = call_for(request.user, ref, timezone.now())
    context = {
        "call": call,
        "rows": [{"line": line, "own": own_words(line)} for line in _standing(call)],
        "replaced": replaced_sentences(call),
        "may_fill": call.may_fill and not call.has_ended,  # type: ignore[attr-defined]
    }
    return render(request, "crew/call_lines.html", context)


def _standing(call: Call) -> Iterator[CallLine]:
    """The lines as they stand, those without a number last."""
    lines = list(call.lines.standing().select_related("person", "call").order_by("sort_key", "seat", "pk"))
    yield from (line for line in lines if line.number_key)
    yield from (line for line in lines if not line.number_key)


@require_http_methods(FORM)
def line_new(request: HttpRequest, ref: UUID) -> HttpResponse:
    """One more on the call, without a number."""
    now = timezone.now()
    call = call_to_fill(request.user, ref, now)
    form = NewLineForm(request.POST or None, call=call, persons=persons_to_call(call))
    if is_saved(form, lambda: add_line(actor=actor_of(request), call=call, at=now, **form.cleaned_data)):
        messages.success(request, _("One more is on the call. The sheet shows it after the next issue."))
        return redirect("crew:call_lines", ref)
    return render(request, "crew/line_new.html", {"form": form, "call": call})


@require_http_methods(FORM)
def line_replace(request: HttpRequest, ref: UUID, line_ref: UUID) -> HttpResponse:
    """Somebody else on the line, with a reason; number, own time and role stay."""
    now = timezone.now()
    call, line = _call_and_line(request, ref, line_ref)
    on_numbers = call.lines.standing().exclude(number_key="").exclude(person=None).values_list("person", flat=True)
    persons = persons_to_call(call).exclude(pk__in=[*on_numbers, line.person_id])
    form = ReplaceForm(request.POST or None, line=line, persons=persons)
    act = partial(replace_person, actor=actor_of(request), line=line, at=now)
    if is_saved(form, lambda: act(seen=form.seen, **_of(form, "person", "reason", "passing"))):
        messages.success(request, _("Replaced. The sheet shows it after the next issue."))
        return redirect("crew:call_lines", ref)
    return _page(request, "crew/line_replace.html", line, form)


@require_http_methods(FORM)
def line_time(request: HttpRequest, ref: UUID, line_ref: UUID) -> HttpResponse:
    """A call time of the line alone."""
    _call, line = _call_and_line(request, ref, line_ref)
    form = OwnTimeForm(request.POST or None, line=line)
    act = partial(set_own_time, actor=actor_of(request), line=line)
    if is_saved(form, lambda: act(own=form.own, fold=form.cleaned_data["fold"], seen=form.seen)):
        messages.success(request, _("The own call time is stored. The sheet shows it after the next issue."))
        return redirect("crew:call_lines", ref)
    return _page(request, "crew/line_time.html", line, form)


@require_http_methods(FORM)
def line_off(request: HttpRequest, ref: UUID, line_ref: UUID) -> HttpResponse:
    """The line ends, with a reason."""
    now = timezone.now()
    _call, line = _call_and_line(request, ref, line_ref)
    form = ReasonForm(request.POST or None)
    if is_saved(form, lambda: take_off(actor=actor_of(request), line=line, at=now, **form.cleaned_data)):
        messages.success(request, _("Taken off. The sheet shows it after the next issue."))
        return redirect("crew:call_lines", ref)
    return _page(request, "crew/line_off.html", line, form)


@require_safe
def spot_talk(request: HttpRequest, ref: UUID) -> HttpResponse:
    """The first of two taps at the spot talk: who gets a number."""
    call = call_to_fill(request.user, ref, timezone.now())
    lines = [line for line in _standing(call) if line.person and not line.number_key]
    return render(request, "crew/spot_talk.html", {"call": call, "lines": lines})


@require_http_methods(FORM)
def line_number(request: HttpRequest, ref: UUID, line_ref: UUID) -> HttpResponse:
    """The second tap: which number."""
    now = timezone.now()
    call, line = _call_and_line(request, ref, line_ref)
    form = NumberForm(request.POST or None, line=line, lights=_open_lights(call))

    def act() -> None:
        number, seat = form.chosen
        give_number(actor=actor_of(request), line=line, number=number, seat=seat, at=now, seen=form.seen)

    if is_saved(form, act):
        messages.success(request, line_sentence(line))
        return redirect("crew:spot_talk", ref)
    return _page(request, "crew/line_number.html", line, form)


def _open_lights(call: Call) -> list[tuple[str, int, str]]:
    """Number, seat and words of each light that nobody is on."""
    lights = draft_of(call).sheet.lines
    return [(light.number, light.seat, light_words(light)) for light in lights if not light.operator]


def _call_and_line(request: HttpRequest, ref: UUID, line_ref: UUID) -> tuple[Call, CallLine]:
    call = call_to_fill(request.user, ref, timezone.now())
    line = line_in(call, line_ref)
    line.call = call
    return call, line


def _of(form: ReplaceForm, *names: str) -> dict[str, Any]:
    return {name: form.cleaned_data[name] for name in names}


def _page(request: HttpRequest, template: str, line: CallLine, form: object) -> HttpResponse:
    told = {"form": form, "line": line, "call": line.call, "sentence": line_sentence(line)}
    return render(request, template, told)
