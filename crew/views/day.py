"""The day of a call: the steward's page on a phone, one person's times, extra hands, the sheet to sign on paper."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from crew.access import attended_line_in, attended_lines, call_for, call_to_fill, persons_to_call
from crew.actions.day import Marked, add_extra_hand
from crew.actions.day_corrections import correct_day
from crew.day_page import address_for_another, day_history, meals_due, shown_rows, to_fill
from crew.day_rows import day_rows
from crew.forms.day import DayForm, ExtraHandForm
from crew.forms.day_corrections import DayLineForm
from crew.models import Call
from crew.rule_book import rule_book
from crew.sheets.pen import PAPERS
from crew.sheets.sign_in import sign_in_pdf
from crew.sign_in_paper import sign_in_paper
from crew.views.answering import pdf_response
from crew.wording.day import DO_WORDS, here_sentence, marked_sentence, missing_sentence
from crew.wording.left import left_sentence
from venue.views.saving import actor_of, is_saved


@require_http_methods(["GET", "HEAD", "POST"])
def call_day(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Who is here, who is missing, who is late; a tap signs in and out, one by one or those who are ticked."""
    now = timezone.now()
    if request.method == "POST":
        return _mark(request, call_to_fill(request.user, ref, now))
    call = call_for(request.user, ref, now)
    rows = day_rows(call, now)
    context = {
        "call": call,
        "may_fill": call.may_fill,  # type: ignore[attr-defined]
        "rows": shown_rows(call, rows, meals=meals_due(call, rows, rule_book(call.roster), now)),
        "here": here_sentence(rows),
        "missing": missing_sentence(rows),
        "to_fill": to_fill(call),
        "at": now,
    }
    return render(request, "crew/day.html", context)


def _mark(request: HttpRequest, call: Call) -> HttpResponse:
    """Do what was tapped; where it is refused or asked about, the same on a page of its own."""
    form = DayForm(request.POST, call=call, lines=attended_lines(call), now=timezone.now())
    marked: list[Marked] = []
    if not is_saved(form, lambda: marked.append(form.mark(actor_of(request)))):
        context = {"form": form, "call": call, "what": DO_WORDS.get(form.does, ""), "lines": form.chosen}
        return render(request, "crew/day_ask.html", context)
    messages.success(request, marked_sentence(form.does, marked[0]))
    for name, why in marked[0].left:
        messages.warning(request, left_sentence(name, why))
    where = f"#p-{form.chosen[0].ref}" if len(form.chosen) == 1 else ""
    return redirect(reverse("crew:call_day", args=[call.ref]) + where)


@require_http_methods(["GET", "HEAD", "POST"])
def day_line(request: HttpRequest, ref: UUID, line_ref: UUID) -> HttpResponse:
    """Correct what is written of one person's day; the history keeps the values before."""
    now = timezone.now()
    call = call_to_fill(request.user, ref, now)
    line = attended_line_in(call, line_ref)
    row = next((row for row in day_rows(call, now) if row.line.person_id == line.person_id), None)
    if row is None:
        raise Http404
    form = DayLineForm(request.POST or None, row=row, zone=call.zone)

    def act() -> None:
        facts = {"facts": form.facts, "seen": form.seen, "now": now}
        correct_day(actor=actor_of(request), call=call, line=row.line, **facts)  # type: ignore[arg-type]

    if is_saved(form, act):
        messages.success(request, _("The day of %(name)s is stored.") % {"name": row.name})
        return redirect(reverse("crew:call_day", args=[call.ref]) + f"#p-{row.line.ref}")
    shown = shown_rows(call, [row])[0]
    context = {"call": call, "row": row, "shown": shown, "form": form, "history": day_history(row, call.zone)}
    return render(request, "crew/day_line.html", {**context, "another": address_for_another(call, row)})


@require_http_methods(["GET", "HEAD", "POST"])
def day_extra(request: HttpRequest, ref: UUID) -> HttpResponse:
    """Somebody more came: put on the call without a number, and signed in."""
    now = timezone.now()
    call = call_to_fill(request.user, ref, now)
    persons = persons_to_call(call).exclude(pk__in=call.lines.standing().filter(person__isnull=False).values("person"))
    form = ExtraHandForm(request.POST or None, call=call, persons=persons, now=now)

    def act() -> None:
        chosen = {"person": form.cleaned_data["person"], "reason": form.cleaned_data["passing"]}
        add_extra_hand(actor=actor_of(request), call=call, at=form.in_at, now=form.now, **chosen)

    if is_saved(form, act):
        messages.success(request, _("%(name)s is on the call.") % {"name": form.cleaned_data["person"].name})
        return redirect("crew:call_day", ref=call.ref)
    return render(request, "crew/day_extra.html", {"call": call, "form": form})


@require_safe
def sign_in_sheet(request: HttpRequest, ref: UUID, paper: str) -> HttpResponse:
    """The sheet on which everybody signs in and out by hand."""
    now = timezone.now()
    call = call_for(request.user, ref, now)
    if paper not in PAPERS:
        raise Http404
    sheet = sign_in_paper(call, now=now, site=request.build_absolute_uri("/"))
    return pdf_response(sign_in_pdf(sheet, PAPERS[paper]), f"{slugify(call.engagement.name) or 'call'}-sign-in")
