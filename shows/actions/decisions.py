"""Deciding what the fit found, and taking a decision back."""

from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.spots import lock_engagement
from shows.core.fit.judging import fingerprint
from shows.core.fit.records import Finding
from shows.models import Decision, Engagement, ShowSpot
from venue.errors import Invalid
from venue.history import Actor, record
from venue.storing import end, store


@transaction.atomic
def decide(
    *,
    actor: Actor,
    engagement: Engagement,
    spot: ShowSpot | None,
    finding: Finding,
    way: str,
    reason: str,
    by: str,
    at: datetime,
) -> Decision:
    """A named person decides what is done about a finding; a decision before it on the same ends.

    Raises Invalid for what may not be decided, for a way that the finding does not have, without a name or a reason.
    """
    lock_engagement(engagement)
    _require_decidable(finding, way, reason, by)
    facts = {"engagement": engagement, "spot": spot, "code": finding.code, "about": finding.about}
    before = Decision.objects.standing().filter(**facts).first()
    if before is not None:
        end(before, at=at, reason=_("decided anew"))
    made = Decision(**facts, facts=fingerprint(finding), way=way, reason=reason.strip(), decided_by=by.strip())
    made.decided_at = at
    store(made)
    said = {"show": engagement.name, "number": finding.number, "code": finding.code, "way": way, "by": made.decided_by}
    record(actor, "fit.decided", engagement, house=engagement.house, **said)
    return made


def _require_decidable(finding: Finding, way: str, reason: str, by: str) -> None:
    problems: dict[str, list[str]] = {}
    if not finding.may_be_decided:
        problems["way"] = [_("Nobody may decide this away: it has to be put right first.")]
    elif way not in finding.ways:
        problems["way"] = [_("Choose one of the ways offered.")]
    if not reason.strip():
        problems["reason"] = [_("Write why.")]
    if not by.strip():
        problems["decided_by"] = [_("Write who decides.")]
    if problems:
        raise Invalid(problems)


@transaction.atomic
def take_back(*, actor: Actor, decision: Decision, reason: str, at: datetime) -> None:
    """The decision does not hold any more. Raises AlreadyEnded, Invalid without a reason."""
    lock_engagement(decision.engagement)
    end(decision, at=at, reason=reason)
    said = {"show": decision.engagement.name, "code": decision.code, "reason": reason}
    record(actor, "fit.decision_ended", decision.engagement, house=decision.engagement.house, **said)
