"""The check on arrival: what was found is written down, faults are opened, both sides sign."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.spots import lock_engagement
from shows.models import CheckMark, CheckSignature, Engagement
from shows.models.arrival import CheckItem, CheckResult
from venue.actions import report_fault
from venue.errors import Invalid, WrongHouse
from venue.history import Actor, record
from venue.models import Blockage, Fault, Place, Unit
from venue.models.faults import Limit, Means
from venue.storing import end, store


@dataclass(frozen=True)
class Found:
    """What one look found. `frames_out` are frame numbers in words ("2, 4"), where frames fail."""

    result: str
    note: str = ""
    frames_out: str = ""


@transaction.atomic
def mark_items(
    *,
    actor: Actor,
    engagement: Engagement,
    place: Place,
    unit: Unit | None,
    found: Mapping[str, Found],
    by: str,
    at: datetime,
) -> list[CheckMark]:
    """Write down what somebody found at a place. What fails on a unit opens its fault, unless it is open already.

    Raises Invalid without a name, for a failure without a note, for an item that does not exist.
    """
    lock_engagement(engagement)
    _require_told(found, by)
    made = []
    for item, look in found.items():
        fault = _fault_of(actor, engagement, place, unit, item, look, at) if look.result == CheckResult.FAIL else None
        mark = CheckMark(engagement=engagement, place=place, item=item, result=look.result, note=look.note.strip())
        mark.by, mark.at, mark.fault = by.strip(), at, fault
        made.append(store(mark))
    failed = [mark.item for mark in made if mark.result == CheckResult.FAIL]
    facts = {"show": engagement.name, "place": str(place), "by": by.strip(), "failed": failed}
    record(actor, "check.marked", engagement, house=engagement.house, **facts)
    return made


def _require_told(found: Mapping[str, Found], by: str) -> None:
    problems: dict[str, list[str]] = {}
    if not by.strip():
        problems["by"] = [_("Write your name.")]
    if not found:
        problems["__all__"] = [_("Nothing is marked yet. Mark at least one item.")]
    for item, look in found.items():
        if item not in CheckItem.values or look.result not in CheckResult.values:
            problems[item] = [_("Choose one of the values offered.")]
        elif look.result == CheckResult.FAIL and not look.note.strip():
            problems[f"{item}_note"] = [_("Write what fails.")]
    if problems:
        raise Invalid(problems)


_MEANS: Mapping[str, tuple[str, str]] = {
    CheckItem.STRIKE: (Means.OUT, ""),
    CheckItem.DOUSER: (Means.LIMITED, Limit.BLACKOUT),
    CheckItem.FRAMES: (Means.LIMITED, Limit.FRAMES),
    CheckItem.IRIS: (Means.LIMITED, Limit.OTHER),
    CheckItem.ZOOM: (Means.LIMITED, Limit.OTHER),
    CheckItem.FOCUS: (Means.LIMITED, Limit.OTHER),
    CheckItem.LEVEL: (Means.LIMITED, Limit.OTHER),
    CheckItem.SIGHT: (Means.USABLE, ""),
}
"""What a failure means for the unit; label, headset, coverage and access are the place's, not the unit's."""
UNIT_ITEMS = tuple(_MEANS)


def _fault_of(
    actor: Actor, engagement: Engagement, place: Place, unit: Unit | None, item: str, look: Found, at: datetime
) -> Fault | None:
    """The unit's fault: the one that a failure of this item opened before and nobody closed, else a new one."""
    if unit is None or item not in _MEANS:
        return None
    before = CheckMark.objects.filter(engagement=engagement, place=place, item=item, fault__closed_at__isnull=True)
    standing = before.filter(fault__unit=unit).select_related("fault").last()
    if standing is not None:
        return standing.fault
    return report_fault(actor=actor, unit=unit, at=at, seen_by=actor.name, **failure_facts(item, look))


def failure_facts(item: str, look: Found) -> dict[str, str]:
    """What the unit's fault says where an item of `UNIT_ITEMS` fails."""
    means, limit = _MEANS[item]
    facts = {"means": means, "part": CheckItem(item).value, "limit": look.note.strip()}
    if limit == Limit.FRAMES and not look.frames_out.strip():
        limit = Limit.OTHER
    if limit:
        facts["limit_kind"] = limit
    if limit == Limit.FRAMES:
        facts["frames_out"] = look.frames_out
    return facts


@transaction.atomic
def note_blockage(*, actor: Actor, engagement: Engagement, place: Place, words: str, noted_on: date) -> Blockage:
    """Something of this show is in the way of the place: speakers, banners, a screen. Raises Invalid without words."""
    if not words.strip():
        raise Invalid({"blockage": [_("Write what is in the way.")]})
    blockage = Blockage(position=place.position, place=place, name=words.strip(), only_for=engagement.ref)
    blockage.noted_on = noted_on
    store(blockage)
    facts = {"show": engagement.name, "place": str(place), "words": blockage.name}
    record(actor, "check.blockage", engagement, house=engagement.house, **facts)
    return blockage


@transaction.atomic
def end_show_blockage(*, actor: Actor, engagement: Engagement, blockage: Blockage, at: datetime, reason: str) -> None:
    """It is in the show's way no more, for a reason. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    if blockage.only_for != engagement.ref:
        raise WrongHouse(blockage, engagement)
    end(blockage, at=at, reason=reason)
    facts = {"show": engagement.name, "place": str(blockage.place or blockage.position), "words": blockage.name}
    record(actor, "check.blockage_ended", engagement, house=engagement.house, **facts, reason=reason)


@transaction.atomic
def sign_check(
    *, actor: Actor, engagement: Engagement, side: str, name: str, sha256: str, at: datetime
) -> CheckSignature:
    """Somebody signs for the check as it stands. Raises Invalid without a name."""
    lock_engagement(engagement)
    if not name.strip():
        raise Invalid({"name": [_("Write your name.")]})
    signature = CheckSignature(engagement=engagement, side=side, name=name.strip(), sha256=sha256, at=at)
    store(signature)
    facts = {"show": engagement.name, "side": signature.get_side_display(), "name": signature.name}
    record(actor, "check.signed", engagement, house=engagement.house, **facts)
    return signature
