"""The page of one call, which several views show."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from crew.access import persons_to_call
from crew.addresses import compare_address, fit_address
from crew.fill_marks import FillMarks
from crew.forms.filling import FillForm
from crew.models import Call
from crew.readiness import open_findings
from crew.sheet_content import SheetState, state_of
from crew.wording import sheet as words
from crew.wording.changes import change_sentence
from crew.wording.lines import replaced_sentences
from crew.wording.readiness import fit_sentence
from shows.access import engagements_for


def fill_form(request: HttpRequest, call: Call, state: SheetState, *, is_submitted: bool = False) -> FillForm:
    """The form that puts people on the call."""
    return FillForm(
        request.POST if is_submitted else None,
        lights=state.draft.sheet.lines,
        standing=call.lines.standing().select_related("person"),
        persons=persons_to_call(call),
        marks=FillMarks(call),
        is_strict=call.roster.is_strict,
        row=call,
    )


def call_page(
    request: HttpRequest,
    call: Call,
    *,
    state: SheetState | None = None,
    form: FillForm | None = None,
) -> HttpResponse:
    """The call with its operators, the state of its sheet, and the form for those who fill it."""
    state = state or state_of(call)
    may_fill = call.may_fill and not call.has_ended  # type: ignore[attr-defined]
    if may_fill and form is None:
        form = fill_form(request, call, state)
    compare, now = _compare(request, call), timezone.now()
    is_over = call.is_over(now)
    context = {
        "call": call,
        "is_over": is_over,
        "state": state,
        "sheet": state.draft.sheet,
        "verdict": state.draft.verdict,
        "compare": compare,
        "not_fit": "" if call.has_ended or is_over else fit_sentence(open_findings(call.event, now)),
        "fit": fit_address(call.engagement) if compare else "",
        "filled": words.filled(state.draft.sheet),
        "without_number": words.without_number(state.draft.sheet),
        "replaced": replaced_sentences(call),
        "changes": [change_sentence(change) for change in state.changes],
        "form": form if may_fill else None,
    }
    return render(request, "crew/call_detail.html", context)


def _compare(request: HttpRequest, call: Call) -> str:
    """Where the numbers are compared; empty for dispatch that may not open the show."""
    is_open = engagements_for(request.user, timezone.now()).filter(pk=call.engagement_id).exists()
    return compare_address(call.engagement) if is_open else ""
