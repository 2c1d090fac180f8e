"""Paperwork: kept as it came, accepted on purpose; then every number is put where it unambiguously belongs."""

import hashlib
from collections.abc import Mapping, Sequence
from datetime import datetime

from django.db import transaction
from django.utils.translation import gettext as _

from shows.actions.binding import rebind
from shows.actions.spots import lock_engagement, put_spots
from shows.core.paperwork import MAX_BYTES
from shows.facts import SpotFacts
from shows.models import Engagement, Media, Paperwork
from venue.actions import change
from venue.errors import AlreadyEnded, Invalid
from venue.history import Actor, record
from venue.storing import store, store_version


@transaction.atomic
def receive_paperwork(
    *, actor: Actor, engagement: Engagement, content: bytes, media: str, at: datetime, file_name: str = ""
) -> Paperwork:
    """Keep what came; nothing else is stored. The same bytes that wait already are not kept twice. Raises Invalid."""
    if not content:
        raise Invalid({"file": [_("The paperwork is empty. Send the list of spots, one a line.")]})
    if len(content) > MAX_BYTES:
        raise Invalid({"file": [_("The paperwork is too large. Send the list of spots only.")]})
    lock_engagement(engagement)
    sha256 = hashlib.sha256(content).hexdigest()
    waiting = engagement.paperwork.filter(sha256=sha256, media=Media(media), accepted_at__isnull=True).first()
    if waiting is not None:
        return waiting
    paperwork = Paperwork(engagement=engagement, content=content, media=media, sha256=sha256)
    paperwork.file_name = file_name[:200]
    paperwork.received_at, paperwork.received_by = at, actor.name
    store(paperwork)
    facts = {"file": str(paperwork), "show": engagement.name}
    record(actor, "paperwork.received", paperwork, house=engagement.house, **facts)
    return paperwork


@transaction.atomic
def accept_paperwork(
    *,
    actor: Actor,
    paperwork: Paperwork,
    spots: Sequence[SpotFacts],
    statement_read: str,
    at: datetime,
    seen: int,
    statement: str = "",
    columns: Mapping[str, str] = {},
    numbers: Mapping[str, str] = {},
) -> None:
    """Make the show's spots those of the paperwork, with its statement, and put each on its place.

    `statement` overrules what was read. What was bound by hand stays bound while its number is there. Raises
    AlreadyEnded if it was accepted before, StaleVersion, AlreadyExists, Invalid; then nothing is stored.
    """
    engagement = paperwork.engagement
    lock_engagement(engagement)
    if paperwork.accepted_at is not None:
        raise AlreadyEnded(paperwork, paperwork.accepted_at)
    _supersede(engagement, at)
    paperwork.columns, paperwork.numbers = dict(columns), dict(numbers)
    paperwork.statement_read, paperwork.statement = statement_read, statement
    paperwork.accepted_at, paperwork.accepted_by = at, actor.name
    fields = ("columns", "numbers", "statement_read", "statement", "accepted_at", "accepted_by")
    store_version(paperwork, fields, seen)
    put_spots(actor=actor, engagement=engagement, spots=spots, at=at)
    _state(actor, engagement, statement or statement_read)
    rebind(actor=actor, engagement=engagement, at=at)
    facts = {"file": str(paperwork), "show": engagement.name}
    record(actor, "paperwork.accepted", paperwork, house=engagement.house, **facts)


@transaction.atomic
def apply_statement(*, actor: Actor, engagement: Engagement, statement: str, at: datetime, seen: int) -> None:
    """Say how the show counts, whatever its paperwork says, and put the numbers anew. Raises StaleVersion, Invalid."""
    lock_engagement(engagement)
    change(actor=actor, row=engagement, house=engagement.house, seen=seen, values={"statement": statement})
    rebind(actor=actor, engagement=engagement, at=at)


def _state(actor: Actor, engagement: Engagement, statement: str) -> None:
    engagement.refresh_from_db(fields=["version", "statement"])
    values = {"statement": statement}
    change(actor=actor, row=engagement, house=engagement.house, seen=engagement.version, values=values)


def _supersede(engagement: Engagement, at: datetime) -> None:
    for before in engagement.paperwork.in_force().without_content():
        before.superseded_at = at
        before.save_version(["superseded_at"])
