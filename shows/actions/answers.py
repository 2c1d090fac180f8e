"""Answering the question that the paperwork leaves open."""

from datetime import datetime

from django.db import transaction
from django.db.models import F

from shows.actions.paperwork import apply_statement
from shows.models import Engagement
from venue.history import Actor


@transaction.atomic
def apply_reading(
    *, actor: Actor, engagement: Engagement, reading: str, statement: str, at: datetime, seen: int
) -> None:
    """Take one reading of the paperwork for the meant one, and put the numbers anew.

    `statement` is how the show counts under it. Where a line names a side without saying whose, `reading` (house
    or stage) says it. Raises StaleVersion, Invalid.
    """
    if reading in {"house", "stage"}:
        open_spots = engagement.spots.standing().exclude(side="").filter(whose_left="")
        open_spots.update(whose_left=reading, version=F("version") + 1)
    apply_statement(actor=actor, engagement=engagement, statement=statement, at=at, seen=seen)
