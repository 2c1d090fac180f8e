"""The advance of a show: what is open is noted, changed, answered, opened again; the house's answer is confirmed."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.arrival_links import through_link
from shows.actions.spots import lock_engagement
from shows.advance_notes import noted_points
from shows.core.advance import OpenPoint
from shows.errors import PointAnswered, PointNoted
from shows.models import AdvanceItem, Engagement
from venue.actions import change
from venue.errors import Invalid
from venue.history import Actor, record
from venue.models import Link
from venue.storing import end, store, store_version


@transaction.atomic
def add_point(
    *, actor: Actor, engagement: Engagement, what: str, owed_by: str, due_on: date | None = None
) -> AdvanceItem:
    """Note what is open, by whom and by when. Raises AlreadyEnded, Invalid."""
    lock_engagement(engagement)
    return _add(actor, engagement, what, owed_by, due_on)


@transaction.atomic
def note_point(*, actor: Actor, engagement: Engagement, point: OpenPoint, what: str) -> AdvanceItem:
    """Note what the book finds open, in these words. Raises PointNoted if it is noted already, else as `add_point`."""
    lock_engagement(engagement)
    if noted_points(engagement, engagement.advance_items.standing()).of(point) is not None:
        raise PointNoted
    found = {"about": point.key, "names": point.names}
    return _add(actor, engagement, what, point.owed_by, None, **found)


def _add(
    actor: Actor, engagement: Engagement, what: str, owed_by: str, due_on: date | None, **found: Any
) -> AdvanceItem:
    point = store(AdvanceItem(engagement=engagement, what=what.strip(), owed_by=owed_by, due_on=due_on))
    facts = {"show": engagement.name, "what": point.what, "owed_by": owed_by, **found}
    record(actor, "advance.added", point, house=engagement.house, **facts)
    return point


@transaction.atomic
def change_point(*, actor: Actor, point: AdvanceItem, seen: int, values: Mapping[str, Any]) -> None:
    """Change a point against the version that was shown. Raises AlreadyEnded, StaleVersion, Invalid."""
    lock_engagement(point.engagement)
    change(actor=actor, row=point, house=point.engagement.house, seen=seen, values=values)


def answer_point(
    *, actor: Actor, point: AdvanceItem, answer: str, by: str, at: datetime, seen: int, link: Link | None = None
) -> None:
    """Somebody answers, and the point is done; `link` is what they came by, None for who signed in.

    Raises PointAnswered, Invalid without a name, StaleVersion, LinkRefused, AlreadyEnded.
    """
    engagement = point.engagement
    with through_link(actor=actor, engagement=engagement, link=link, now=at):
        stored = AdvanceItem.objects.get(pk=point.pk)
        if stored.done_at is not None:
            raise PointAnswered(stored.done_by)
        _require_name("by", by)
        point.answer, point.done_by, point.done_at = answer.strip(), by.strip(), at
        store_version(point, ["answer", "done_by", "done_at"], seen)
        facts = {"show": engagement.name, "what": point.what, "answer": point.answer, "by": point.done_by}
        record(actor, "advance.answered", point, house=engagement.house, **facts)


@transaction.atomic
def reopen_point(*, actor: Actor, point: AdvanceItem, seen: int) -> None:
    """The point is open again; its answer stays in sight. Nothing happens to an open one. Raises StaleVersion."""
    engagement = point.engagement
    lock_engagement(engagement)
    if point.done_at is None:
        return
    before, point.done_by, point.done_at = point.done_by, "", None
    store_version(point, ["done_by", "done_at"], seen)
    facts = {"show": engagement.name, "what": point.what, "answer": point.answer, "answered_by": before}
    record(actor, "advance.reopened", point, house=engagement.house, **facts)


@transaction.atomic
def end_point(*, actor: Actor, point: AdvanceItem, at: datetime, reason: str) -> None:
    """The point is no matter any more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    engagement = point.engagement
    lock_engagement(engagement)
    end(point, at=at, reason=reason)
    facts = {"show": engagement.name, "what": point.what, "reason": reason}
    record(actor, "advance.ended", point, house=engagement.house, **facts)


def confirm_answer(
    *, actor: Actor, engagement: Engagement, name: str, digests: Mapping[str, str], at: datetime, link: Link | None
) -> None:
    """Somebody of the tour confirms the answer whose parts have these hashes: a line of history is what is kept.

    Raises Invalid without a name, LinkRefused, AlreadyEnded.
    """
    with through_link(actor=actor, engagement=engagement, link=link, now=at):
        _require_name("name", name)
        facts = {"show": engagement.name, "name": name.strip(), "sha256": dict(digests)}
        record(actor, "advance.confirmed", engagement, house=engagement.house, **facts)


def _require_name(column: str, name: str) -> None:
    if not name.strip():
        raise Invalid({column: [_("Write your name.")]})
