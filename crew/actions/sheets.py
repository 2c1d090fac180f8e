"""Issuing: a deliberate act that makes an immutable copy of what the sheet says."""

from dataclasses import dataclass
from datetime import datetime

from django.db import transaction

from crew.actions.outbox import tell_revision
from crew.barring import barred_now
from crew.errors import ChangedMeanwhile, IssuingStopped, NothingToIssue
from crew.line_errors import CertificationMissing, NotCertified
from crew.models import Call, IssuedSheet
from crew.models.sheets import SheetKind
from crew.sheet_basis import basis_of
from crew.sheet_content import Draft, draft_of, latest_sheet
from shows.models import Engagement
from venue.actions import make_code
from venue.history import Actor, record
from venue.storing import store


@dataclass(frozen=True)
class Issue:
    """The revision in force, and whether it is new: unchanged content is not issued again."""

    sheet: IssuedSheet
    is_new: bool


@transaction.atomic
def issue_call_sheet(*, actor: Actor, call: Call, now: datetime, seen: str | None = None) -> Issue:
    """Issue the call's sheet as it stands, as the next revision, unless the last one says the same.

    `seen` is the SHA-256 of the content that the user was shown. Raises IssuingStopped while the numbering breaks
    the show's own rule, NotCertified where somebody came on a position that they lack a required certification for,
    NothingToIssue, ChangedMeanwhile if the content is another than was shown.
    """
    call = _held(call)
    basis = basis_of(call)  # before the content: what changes between the two makes the basis out of date, not wrong
    draft = draft_of(call)
    _require_issuable(draft)
    if seen is not None and seen != draft.sha256:
        raise ChangedMeanwhile
    latest = latest_sheet(call)
    if latest is not None and latest.sha256 == draft.sha256:
        return Issue(latest, is_new=False)
    _require_certified(call)
    sheet = _issued(call, draft, basis, actor, now, n=latest.n + 1 if latest else 1)
    tell_revision(call, latest, draft.sheet)
    return Issue(sheet, is_new=True)


def _held(call: Call) -> Call:
    """The call as it is now, held with its engagement: whoever changes numbers or places comes before or after."""
    related = ("event", "engagement__house", "engagement__setup")
    Engagement._base_manager.select_for_update().get(pk=call.engagement_id)
    return Call._base_manager.select_for_update(of=("self",)).select_related(*related).get(pk=call.pk)


def _require_issuable(draft: Draft) -> None:
    if draft.sheet.called_off:
        return
    if draft.verdict.kind == "fix":
        raise IssuingStopped(draft.verdict.sentence)
    if not draft.sheet.wanted:
        raise NothingToIssue


def _require_certified(call: Call) -> None:
    """Numbers may have come to another position since their people were put on them, and certifications end."""
    refusals = [] if call.has_ended or call.event.has_ended else list(barred_now(call).values())
    lacking = [refusal for refusal in refusals if isinstance(refusal, CertificationMissing)]
    if lacking:
        raise NotCertified(lacking)


def _issued(call: Call, draft: Draft, basis: str, actor: Actor, now: datetime, *, n: int) -> IssuedSheet:
    house = call.engagement.house
    sheet = IssuedSheet(call=call, kind=SheetKind.CALL_SHEET, n=n, content=draft.content, sha256=draft.sha256)
    sheet.basis, sheet.issued_at, sheet.issued_by = basis, now, actor.name
    sheet.code = make_code(actor=actor, purpose=SheetKind.CALL_SHEET, subject=sheet, house=house)
    store(sheet)
    facts = {"show": call.engagement.name, "event": str(call.event), "n": n}
    record(actor, "sheet.issued", call, house=house, **facts)
    return sheet
